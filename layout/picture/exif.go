package picture

import (
	"encoding/binary"
	"image"
)

// jpegFacts are what the segments ahead of the pixels say.
type jpegFacts struct {
	turn        int  // Orientation of Exif, 1 to 8; 1 upright
	progressive bool // decoded as a whole in coefficients, which takes more memory
}

// factsOf walks the segments of a JPEG (ITU-T T.81 annex B) up to the first
// frame header. What is cut off or odd ends the walk; the decoder complains
// about it later.
func factsOf(data []byte) jpegFacts {
	f := jpegFacts{turn: 1}
	for i := 2; i+4 <= len(data) && data[i] == 0xFF; {
		marker, size := data[i+1], int(binary.BigEndian.Uint16(data[i+2:]))
		if marker == 0xFF { // fill byte
			i++
			continue
		}
		end := i + 2 + size
		if size < 2 || end > len(data) {
			return f
		}
		switch {
		case marker == 0xE1:
			if turn := orientation(data[i+4 : end]); turn != 0 {
				f.turn = turn
			}
		case marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC:
			f.progressive = marker == 0xC2
			return f
		case marker == 0xDA:
			return f
		}
		i = end
	}
	return f
}

// orientation reads tag 0x0112 of the first directory of an Exif segment
// (Exif 2.3, 4.6.4: Orientation, one SHORT); 0 when there is none.
func orientation(seg []byte) int {
	const head = "Exif\x00\x00"
	if len(seg) < len(head)+8 || string(seg[:len(head)]) != head {
		return 0
	}
	t := seg[len(head):]
	var order binary.ByteOrder
	switch string(t[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 0
	}
	at := int64(order.Uint32(t[4:]))
	if at+2 > int64(len(t)) {
		return 0
	}
	n := int64(order.Uint16(t[at:]))
	for k := range n {
		e := at + 2 + 12*k
		if e+12 > int64(len(t)) {
			return 0
		}
		if order.Uint16(t[e:]) == 0x0112 && order.Uint16(t[e+2:]) == 3 {
			if v := int(order.Uint16(t[e+8:])); v >= 1 && v <= 8 {
				return v
			}
			return 0
		}
	}
	return 0
}

// upright returns the picture as the orientation says that it stands.
func upright(m *image.RGBA, turn int) *image.RGBA {
	if turn < 2 || turn > 8 {
		return m
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	ow, oh := w, h
	if turn >= 5 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range h {
		for x := range w {
			ox, oy := x, y
			switch turn {
			case 2: // mirrored
				ox = w - 1 - x
			case 3: // upside down
				ox, oy = w-1-x, h-1-y
			case 4:
				oy = h - 1 - y
			case 5:
				ox, oy = y, x
			case 6: // turn a quarter clockwise to stand upright
				ox, oy = h-1-y, x
			case 7:
				ox, oy = h-1-y, w-1-x
			case 8: // a quarter anticlockwise
				ox, oy = y, w-1-x
			}
			copy(out.Pix[oy*out.Stride+4*ox:][:4], m.Pix[y*m.Stride+4*x:][:4])
		}
	}
	return out
}
