//go:build linux && x11

package main

// #cgo LDFLAGS: -lX11
// #include <X11/Xlib.h>
// #include <X11/Xproto.h>
//
// static int (*otherwise)(Display *, XErrorEvent *);
//
// static int forgive(Display *display, XErrorEvent *e) {
//	if (e->error_code == BadWindow && (e->request_code == X_SendEvent || e->request_code == X_ChangeProperty))
//		return 0;
//	return otherwise(display, e);
// }
//
// static void forgiveLostWindows(void) { otherwise = XSetErrorHandler(forgive); }
import "C"

// An answer to a program that has ended meanwhile, such as the one that files were
// dragged from, is an error of the X server, and the library's own handler ends the
// program over it, with all unsaved work. Such an answer is now lost instead; every
// other error ends the program as before.
func init() { C.forgiveLostWindows() }
