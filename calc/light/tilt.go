package light

import (
	"fmt"
	"strings"
)

// tiltNotRead is the guess about a file that TILT= names.
const tiltNotRead = "TILT=%s is a file of its own and was not read: the output is taken to be the same at any tilt"

// TiltNamed returns the name of the file that the line TILT= of an LM-63 file names,
// "" for none.
func TiltNamed(file []byte) string {
	if len(file) > maxBytes || likeEULUMDAT(file) == headNumbers {
		return ""
	}
	m := lm63Tilt.FindSubmatch(unix(file[:min(len(file), 1<<20)]))
	if m == nil {
		return ""
	}
	text, err := decoded(m[1])
	if err != nil {
		return ""
	}
	if text = strings.TrimSpace(text); strings.EqualFold(text, "NONE") || strings.EqualFold(text, "INCLUDE") {
		return ""
	}
	return text
}

// tiltTable reads what stands after TILT=INCLUDE, or in a file of its own:
// geometry of the lamp, number of angles, the angles, as many factors.
func (t *tokens) tiltTable() (*TiltTable, error) {
	geometry, err := t.whole("lamp geometry of TILT", 1, 3)
	if err != nil {
		return nil, err
	}
	n, err := t.whole("number of angles of TILT", 1, maxAngles)
	if err != nil {
		return nil, err
	}
	out := &TiltTable{Geometry: geometry}
	if out.Angles, err = t.list("angles of TILT", n); err != nil {
		return nil, err
	}
	if out.Factors, err = t.list("factors of TILT", n); err != nil {
		return nil, err
	}
	if err := rising("angles of TILT", out.Angles, 0, 180); err != nil {
		return nil, err
	}
	for _, v := range out.Factors {
		if v < 0 {
			return nil, fmt.Errorf("factors of TILT: found %g, expected 0 or more", v)
		}
	}
	return out, nil
}

// WithTilt returns what the file says with the table of the file that its TILT=
// names, which holds the numbers that TILT=INCLUDE would have. It panics when the
// file names none.
func (p *Photometry) WithTilt(file []byte) (*Photometry, error) {
	if p.TiltFile == "" {
		panic("light: WithTilt without TILT=<file>")
	}
	text, err := decoded(file)
	if err != nil {
		return nil, err
	}
	in := &tokens{text: text, of: "the TILT file"}
	t, err := in.tiltTable()
	if err != nil {
		return nil, err
	}
	if extra := in.count(); extra > 0 {
		return nil, fmt.Errorf("TILT file: found %d numbers after the last factor, expected none", extra)
	}
	n := *p
	n.Tilt = t
	n.Guesses = nil
	for _, g := range p.Guesses {
		if g != fmt.Sprintf(tiltNotRead, p.TiltFile) {
			n.Guesses = append(n.Guesses, g)
		}
	}
	return &n, nil
}
