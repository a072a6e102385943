package picture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// pageSide is the longer side of a rendered page in pixels: the longer side of
// an A3 sheet at 240 dots an inch. It bounds the picture, however large the
// page claims to be.
const pageSide = 4000

// pageTime is how long a page may take.
const pageTime = 30 * time.Second

// renderer is the program of poppler that draws pages; a variable for tests.
var renderer = "pdftoppm"

// firstPage returns the first page of a PDF as PNG. The document goes in
// through the standard input, so that what is drawn is what the checksum is of.
func firstPage(ctx context.Context, data []byte) ([]byte, error) {
	path, err := exec.LookPath(renderer)
	if err != nil {
		return nil, errors.New("found a PDF; drawing its first page takes the program pdftoppm of poppler, which is not installed " +
			"(on Debian or Ubuntu: apt install poppler-utils; or save the page as PNG)")
	}
	ctx, cancel := context.WithTimeout(ctx, pageTime)
	defer cancel()
	out, errs := &limited{most: MostBytes}, &limited{most: 4096, drop: true}
	cmd := exec.CommandContext(ctx, path, "-png", "-f", "1", "-l", "1", "-singlefile", "-scale-to", strconv.Itoa(pageSide), "-")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(data), out, errs
	cmd.WaitDelay = time.Second
	err = cmd.Run()
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return nil, fmt.Errorf("found a PDF whose first page was not drawn within %v, expected a page that is", pageTime)
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil || out.Len() == 0:
		why, _, _ := strings.Cut(strings.TrimSpace(errs.String()), "\n")
		if why == "" {
			why = "no page came out"
		}
		return nil, fmt.Errorf("found a PDF whose first page cannot be drawn (%s), expected one that can", strings.ToValidUTF8(why, "?"))
	}
	return out.Bytes(), nil
}

// limited is a buffer that refuses, or drops, what goes over its limit.
type limited struct {
	bytes.Buffer
	most int
	drop bool
}

// Write implements io.Writer.
func (l *limited) Write(p []byte) (int, error) {
	if room := l.most - l.Len(); len(p) > room {
		if !l.drop {
			return 0, errors.New("too much came out")
		}
		l.Buffer.Write(p[:max(room, 0)])
		return len(p), nil
	}
	return l.Buffer.Write(p)
}
