//go:build !linux

package ui

// behind does nothing: elsewhere than on Linux the priority of a single thread is
// another matter, and was not tried.
func behind() {}
