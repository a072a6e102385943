package picture

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"
)

// Endings are those of the files that Read understands, lower case. What a
// file is gets decided by its content, never by its ending.
var Endings = []string{".png", ".jpg", ".jpeg", ".pdf"}

// Looks reports whether a path ends like a picture.
func Looks(path string) bool {
	end := strings.ToLower(filepath.Ext(path))
	for _, e := range Endings {
		if end == e {
			return true
		}
	}
	return false
}

// Read reads and decodes the picture at the path: a PNG, a JPEG, or the first
// page of a PDF where poppler is installed. A link is followed. The error says
// in one line what was found and what was expected; a missing file is
// fs.ErrNotExist.
func Read(ctx context.Context, path string) (*Picture, error) {
	data, err := load(path)
	if err != nil {
		return nil, named(path, err)
	}
	p, err := decode(ctx, data)
	if err != nil {
		return nil, named(path, err)
	}
	return p, nil
}

// named puts the file before what is wrong with it, in one line.
func named(path string, err error) error {
	name := strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, filepath.Base(path))
	return fmt.Errorf("picture %s: %w", name, err)
}

// missing is a file that is not there.
type missing struct{}

func (missing) Error() string { return "there is no such file" }
func (missing) Unwrap() error { return fs.ErrNotExist }

// load reads a file up to the limit. It looks before it opens, because to open
// a pipe is to wait for somebody who writes into it.
func load(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, missing{}
	case err != nil:
		return nil, plain(err)
	case info.IsDir():
		return nil, errors.New("found a folder, expected a picture file")
	case !info.Mode().IsRegular():
		return nil, errors.New("found something that is no file, expected a picture file")
	case info.Size() > MostBytes:
		return nil, tooMany(info.Size())
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MostBytes+1))
	if err != nil {
		return nil, plain(err)
	}
	if len(data) > MostBytes { // it grew
		return nil, tooMany(int64(len(data)))
	}
	return data, nil
}

func tooMany(n int64) error {
	return fmt.Errorf("found %d MB, expected at most %d MB", (n+1<<20-1)>>20, MostBytes>>20)
}

// plain drops the path that the system puts into its errors.
func plain(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// sumOf returns the checksum as it stands in the scheme file.
func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// decode decodes the bytes of a file by what they are.
func decode(ctx context.Context, data []byte) (*Picture, error) {
	sum := sumOf(data)
	switch {
	case len(data) == 0:
		return nil, errors.New("found an empty file, expected PNG, JPEG or PDF")
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return pixels(ctx, sum, data, "PNG", 1, png.DecodeConfig, png.Decode)
	case bytes.HasPrefix(data, []byte("\xFF\xD8\xFF")):
		return pixels(ctx, sum, data, "JPEG", factsOf(data).turn, jpeg.DecodeConfig, jpeg.Decode)
	case bytes.Contains(data[:min(len(data), 1024)], []byte("%PDF-")):
		page, err := firstPage(ctx, data)
		if err != nil {
			return nil, err
		}
		return pixels(ctx, sum, page, "PDF page", 1, png.DecodeConfig, png.Decode)
	}
	return nil, errors.New("found neither PNG nor JPEG nor PDF by its content, expected one of them")
}

// pixels looks at the header first and refuses what is too large; then it
// decodes.
func pixels(ctx context.Context, sum string, data []byte, kind string, turn int,
	header func(io.Reader) (image.Config, error), body func(io.Reader) (image.Image, error)) (*Picture, error) {
	c, err := header(bytes.NewReader(data))
	if err != nil {
		return nil, broken(kind, err)
	}
	if err := fits(c, kind == "JPEG" && factsOf(data).progressive); err != nil {
		return nil, err
	}
	if err := fewPasses(kind, data); err != nil {
		return nil, err
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	m, err := body(bytes.NewReader(data))
	if err != nil {
		return nil, broken(kind, err)
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	ww, wh := workingSize(w, h)
	top := upright(shrink(m, ww, wh), turn)
	if turn >= 5 {
		w, h = h, w
	}
	return made(sum, w, h, top), nil
}

func broken(kind string, err error) error {
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		return fmt.Errorf("found a %s that is cut off, expected a whole one", kind)
	}
	return fmt.Errorf("found a broken %s (%v), expected a whole one", kind, err)
}

// fits refuses sizes beyond the limits; it looks at the header only.
func fits(c image.Config, progressive bool) error {
	size := fmt.Sprintf("found %d × %d pixels", c.Width, c.Height)
	n := int64(c.Width) * int64(c.Height)
	switch {
	case c.Width < 2 || c.Height < 2:
		return fmt.Errorf("%s, expected at least 2 × 2", size)
	case max(c.Width, c.Height) > MostSide:
		return fmt.Errorf("%s, expected at most %d a side", size, MostSide)
	case n > MostPixels:
		return fmt.Errorf("%s (%d million), expected at most %d million", size, (n+999999)/1000000, MostPixels/1000000)
	}
	each := int64(4)
	switch {
	case progressive:
		each = 15 // three components as 32 bit coefficients, and the pixels
	case c.ColorModel == color.NRGBA64Model || c.ColorModel == color.RGBA64Model:
		each = 8
	}
	if n*each > mostMemory {
		kind := "16 bit"
		if progressive {
			kind = "progressive"
		}
		return fmt.Errorf("%s of a %s picture (%d million), expected at most %d million", size, kind, (n+999999)/1000000, mostMemory/each/1000000)
	}
	return nil
}
