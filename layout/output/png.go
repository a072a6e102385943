package output

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"

	"duskwire/layout/scene"
)

// defaultResolution of a PNG in pixels per millimetre.
const defaultResolution = 8

// writePNG draws the page and tells its resolution in a pHYs chunk, so that
// it prints to scale.
func writePNG(w io.Writer, l *scene.List, s Sheet) error {
	k := s.PixelsPerMM
	if k <= 0 {
		k = defaultResolution
	}
	img := image.NewRGBA(image.Rect(0, 0, int(math.Round(l.Width*k)), int(math.Round(l.Height*k))))
	scene.NewRasteriser().Draw(img, l, k)
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		return err
	}
	// Eight bytes of signature, then the header chunk: length, name, 13 bytes, check sum.
	const header = 8 + 4 + 4 + 13 + 4
	if _, err := w.Write(buf.Bytes()[:header]); err != nil {
		return err
	}
	if _, err := w.Write(resolutionChunk(k)); err != nil {
		return err
	}
	_, err := w.Write(buf.Bytes()[header:])
	return err
}

// resolutionChunk returns a pHYs chunk (PNG specification, third edition,
// 11.3.4.3): pixels per metre across and down, and the unit.
func resolutionChunk(perMM float64) []byte {
	n := uint32(math.Round(perMM * 1000))
	b := binary.BigEndian.AppendUint32(nil, 9)
	b = append(b, "pHYs"...)
	b = binary.BigEndian.AppendUint32(b, n)
	b = binary.BigEndian.AppendUint32(b, n)
	b = append(b, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}
