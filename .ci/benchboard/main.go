// Command benchboard measures how the window feels: it opens the real window
// under Xvfb with OpenGL in software on a garden of 1,000 lamps, 5,000 vertices
// of runs, labels and a photo, pans, zooms and drags, and prints the times of
// the frames beside those of a bare window. It needs cgo and the tags of the
// desktop program.
//
//	make bench-board
//
// Every size and kind of window is a process of its own, so that memory and
// idle time are those of one window. A frame is counted from the moment before
// the input is handed to the board until the picture was given to the display,
// so it holds the edit, the calculation, the panels, the raster and OpenGL.
// The gestures are handed to the board as the driver hands them, one step a
// frame: the way of a pointer event through X is not in it.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// patience is how long one window may take.
const patience = 10 * time.Minute

func main() {
	kind := flag.String("window", "", "for the command itself: bare or board")
	w := flag.Int("width", 1280, "")
	h := flag.Int("height", 800, "")
	dir := flag.String("dir", "", "")
	only := flag.String("only", "", "measure only rows whose name has one of these in it, with commas between them; hold for all single acts")
	profile := flag.String("profile", "", "write a CPU profile of the gestures of the board to this file")
	flag.Parse()
	var err error
	if *kind != "" {
		err = inside(*kind, *w, *h, *dir, *only, *profile)
	} else {
		err = outside(*only, *profile)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "benchboard:", err)
		os.Exit(1)
	}
}

// outside runs one process for every window and prints one table.
func outside(only, profile string) error {
	dir, err := os.MkdirTemp("", "duskwire-board-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	display, stop, err := screen(2560, 1440)
	if err != nil {
		return err
	}
	defer stop()
	fmt.Printf("load of the machine before: %s\n", load())
	for _, size := range [][2]int{{1280, 800}, {2560, 1440}} {
		head(size)
		for _, kind := range []string{"bare", "board"} {
			file := ""
			if profile != "" && kind == "board" {
				file = fmt.Sprintf("%s.%d", profile, size[0])
			}
			if err := window(display, dir, kind, size, only, file); err != nil {
				return fmt.Errorf("%s window of %dx%d: %w", kind, size[0], size[1], err)
			}
		}
	}
	fmt.Printf("\nload of the machine after: %s\n", load())
	fmt.Println("frame: from the input to the picture on the display; cpu: of all threads, OpenGL in software included.")
	fmt.Println("hold: longest time in which the window did not look at pointer and keys; work of the thread: what the window's thread worked in the")
	fmt.Println("1.2 s from the act on, all its frames together, which other programs hardly change. Of three tries the middle one.")
	return nil
}

// window measures one window in a process of its own and prints its rows as
// they come.
func window(display, dir, kind string, size [2]int, only, profile string) error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	home := filepath.Join(dir, fmt.Sprint(kind, size[0]))
	if err := os.MkdirAll(filepath.Join(home, ".cache"), 0o700); err != nil {
		return err
	}
	cmd := exec.Command(self, "-window", kind, "-width", fmt.Sprint(size[0]), "-height", fmt.Sprint(size[1]),
		"-dir", home, "-only", only, "-profile", profile)
	cmd.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+home, "XDG_CONFIG_HOME="+filepath.Join(home, ".config"),
		"FYNE_SCALE=1", "FYNE_THEME=light", "LANG=C.UTF-8", "LIBGL_ALWAYS_SOFTWARE=1", "DBUS_SESSION_BUS_ADDRESS=unix:path=/nonexistent")
	var said strings.Builder
	cmd.Stderr = &said
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	kill := time.AfterFunc(patience, func() { _ = cmd.Process.Kill() })
	defer kill.Stop()
	done := false
	for in := bufio.NewScanner(pipe); in.Scan(); {
		var r row
		if json.Unmarshal(in.Bytes(), &r) != nil {
			continue
		}
		if r.Name == lastRow {
			done = true // the driver was seen to hang at the end
			_ = cmd.Process.Kill()
			break
		}
		r.print()
	}
	err = cmd.Wait()
	if done {
		return nil
	}
	return fmt.Errorf("%v: %s", err, said.String())
}

// screen starts Xvfb on a free display.
func screen(w, h int) (display string, stop func(), err error) {
	read, write, err := os.Pipe()
	if err != nil {
		return "", nil, err
	}
	defer read.Close()
	cmd := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", w, h), "-noreset", "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{write}
	err = cmd.Start()
	write.Close()
	if err != nil {
		return "", nil, err
	}
	stop = func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}
	line, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		stop()
		return "", nil, fmt.Errorf("Xvfb did not start: %w", err)
	}
	return ":" + strings.TrimSpace(line), stop, nil
}

// load is how many programs wanted a processor in the last minute.
func load() string {
	data, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return "not known"
	}
	return strings.Fields(string(data))[0]
}
