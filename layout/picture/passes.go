package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// mostPasses is how many scans a JPEG may have. A progressive one has about ten
// (common practice, no source). Each is a walk over all pixels, so that a small
// file of many thousands would keep the decoder busy for hours.
const mostPasses = 40

// passes counts the scans of a JPEG up to its end (ITU-T T.81 annex B: a marker
// is FF and a byte that is neither 0, a stuffed FF, nor a restart, D0 to D7).
// What stands behind the end, such as a film, is not looked at.
func passes(data []byte) (n int) {
	for i := 2; i+4 <= len(data); {
		next := bytes.IndexByte(data[i:], 0xFF)
		if i += next; next < 0 || i+4 > len(data) {
			return n
		}
		switch marker := data[i+1]; {
		case marker == 0xFF: // fill byte
			i++
		case marker <= 0x01 || marker >= 0xD0 && marker <= 0xD8:
			i += 2
		case marker == 0xD9:
			return n
		default:
			if marker == 0xDA {
				n++
			}
			i += 2 + max(2, int(binary.BigEndian.Uint16(data[i+2:])))
		}
	}
	return n
}

func fewPasses(kind string, data []byte) error {
	if kind != "JPEG" {
		return nil
	}
	if n := passes(data); n > mostPasses {
		return fmt.Errorf("found a JPEG of %d passes, expected at most %d", n, mostPasses)
	}
	return nil
}
