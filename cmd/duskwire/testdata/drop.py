"""Drops files on the window under test, as a file manager does.

    drop.py X Y FILE...

speaks the source's side of XDND, version 5 (the protocol's page:
https://www.freedesktop.org/wiki/Specifications/XDND/), with nothing but libX11:
it owns the selection XdndSelection, sends XdndEnter, XdndPosition and XdndDrop to
the one window that says XdndAware, and hands it the files as text/uri-list when
it asks. It ends with 0 once that window has said XdndFinished. A window manager
has no part in it.
"""
import ctypes as c
import pathlib
import sys
import time

x11 = c.CDLL("libX11.so.6")
Window = Atom = Time = c.c_ulong


class ClientMessage(c.Structure):
    _fields_ = [("type", c.c_int), ("serial", c.c_ulong), ("sent", c.c_int), ("display", c.c_void_p),
                ("window", Window), ("message", Atom), ("format", c.c_int), ("data", c.c_long * 5)]


class SelectionRequest(c.Structure):
    _fields_ = [("type", c.c_int), ("serial", c.c_ulong), ("sent", c.c_int), ("display", c.c_void_p),
                ("owner", Window), ("requestor", Window), ("selection", Atom), ("target", Atom), ("property", Atom), ("time", Time)]


class Selection(c.Structure):
    _fields_ = [("type", c.c_int), ("serial", c.c_ulong), ("sent", c.c_int), ("display", c.c_void_p),
                ("requestor", Window), ("selection", Atom), ("target", Atom), ("property", Atom), ("time", Time)]


class Event(c.Union):
    _fields_ = [("type", c.c_int), ("client", ClientMessage), ("request", SelectionRequest), ("selection", Selection),
                ("room", c.c_long * 24)]


def declare(name, result, *arguments):
    f = getattr(x11, name)
    f.restype, f.argtypes = result, arguments
    return f


display_p = c.c_void_p
open_display = declare("XOpenDisplay", display_p, c.c_char_p)
root_of = declare("XDefaultRootWindow", Window, display_p)
intern = declare("XInternAtom", Atom, display_p, c.c_char_p, c.c_int)
simple_window = declare("XCreateSimpleWindow", Window, display_p, Window, c.c_int, c.c_int, c.c_uint, c.c_uint, c.c_uint, c.c_ulong, c.c_ulong)
own = declare("XSetSelectionOwner", c.c_int, display_p, Atom, Window, Time)
owner_of = declare("XGetSelectionOwner", Window, display_p, Atom)
query_tree = declare("XQueryTree", c.c_int, display_p, Window, c.POINTER(Window), c.POINTER(Window), c.POINTER(c.POINTER(Window)), c.POINTER(c.c_uint))
properties = declare("XListProperties", c.POINTER(Atom), display_p, Window, c.POINTER(c.c_int))
send = declare("XSendEvent", c.c_int, display_p, Window, c.c_int, c.c_long, c.POINTER(Event))
change = declare("XChangeProperty", c.c_int, display_p, Window, Atom, Atom, c.c_int, c.c_int, c.c_char_p, c.c_int)
pending = declare("XPending", c.c_int, display_p)
next_event = declare("XNextEvent", c.c_int, display_p, c.POINTER(Event))
flush = declare("XFlush", c.c_int, display_p)

SELECTION_REQUEST, SELECTION_NOTIFY, CLIENT_MESSAGE = 30, 31, 33  # X.h
PATIENCE = 20  # seconds

display = open_display(None)
if not display:
    sys.exit("no display")
atoms = {n: intern(display, n.encode(), False) for n in (
    "XdndAware", "XdndSelection", "XdndEnter", "XdndPosition", "XdndStatus", "XdndDrop", "XdndFinished",
    "XdndActionCopy", "text/uri-list")}


def children(window):
    root, parent, found, count = Window(), Window(), c.POINTER(Window)(), c.c_uint()
    query_tree(display, window, c.byref(root), c.byref(parent), c.byref(found), c.byref(count))
    return [found[i] for i in range(count.value)]


def aware(window):
    count = c.c_int()
    found = properties(display, window, c.byref(count))
    return atoms["XdndAware"] in [found[i] for i in range(count.value)]


def search(window):
    here = [window] if aware(window) else []
    return here + [w for child in children(window) for w in search(child)]


x, y, uris = int(sys.argv[1]), int(sys.argv[2]), "".join(pathlib.Path(f).as_uri() + "\r\n" for f in sys.argv[3:]).encode()
targets = search(root_of(display))
if len(targets) != 1:
    sys.exit(f"{len(targets)} windows take drops, 1 was expected")
target = targets[0]
source = simple_window(display, root_of(display), 0, 0, 1, 1, 0, 0, 0)
own(display, atoms["XdndSelection"], source, 0)
if owner_of(display, atoms["XdndSelection"]) != source:
    sys.exit("the selection was not to be had")


def say(name, *data):
    e = Event()
    e.client.type, e.client.display, e.client.window, e.client.format = CLIENT_MESSAGE, display, target, 32
    e.client.message = atoms[name]
    for i, v in enumerate((source,) + data):
        e.client.data[i] = v
    send(display, target, False, 0, c.byref(e))
    flush(display)


def serve(request):
    """Hands out the list of files."""
    answer = Event()
    s = answer.selection
    s.type, s.display, s.requestor, s.selection = SELECTION_NOTIFY, display, request.requestor, request.selection
    s.target, s.time, s.property = request.target, request.time, 0
    if request.target == atoms["text/uri-list"]:
        change(display, request.requestor, request.property, request.target, 8, 0, uris, len(uris))
        s.property = request.property
    send(display, request.requestor, False, 0, c.byref(answer))
    flush(display)


def wait(name):
    """Serves the target until it says name; returns what it says."""
    end = time.monotonic() + PATIENCE
    e = Event()
    while time.monotonic() < end:
        if not pending(display):
            time.sleep(0.005)
            continue
        next_event(display, c.byref(e))
        if e.type == SELECTION_REQUEST:
            serve(e.request)
        elif e.type == CLIENT_MESSAGE and e.client.message == atoms[name]:
            return list(e.client.data)
    sys.exit(f"no {name} after {PATIENCE} s")


say("XdndEnter", 5 << 24, atoms["text/uri-list"], 0, 0)
say("XdndPosition", 0, x << 16 | y, 0, atoms["XdndActionCopy"])
if not wait("XdndStatus")[1] & 1:
    sys.exit("the window does not take this drop")
say("XdndDrop", 0, 0)
# The lowest bit should say that the files were taken. The toolkit's window library
# says how many bytes it read instead, so that bit comes and goes: any other than 0.
if not wait("XdndFinished")[1]:
    sys.exit("the window did not take the files")
