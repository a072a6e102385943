package file

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// The factors for age and dirt are kept as written, and refused outside 0.1 to 1.
func TestMaintenanceInFile(t *testing.T) {
	s := doc.New("uk-18")
	s.Survey.Maintenance, s.Survey.MaintenanceGround = q.Some(doc.Ratio(0.85)), q.Some(doc.Ratio(0.6))
	data, err := WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	const want = "survey: {maintenance: 0.85, maintenance_ground: 0.6}"
	if !strings.Contains(string(data), want) {
		t.Errorf("found\n%s\nwant %s", data, want)
	}
	back, err := ReadScheme("a.yaml", data, book())
	if err != nil {
		t.Fatal(err)
	}
	if back.Survey != s.Survey {
		t.Errorf("read back %+v, want %+v", back.Survey, s.Survey)
	}
	for _, bad := range []string{"0", "1.2", "80 %", "nan", "-0.5"} {
		_, err := ReadScheme("a.yaml", []byte(strings.Replace(string(data), "maintenance: 0.85", "maintenance: "+bad, 1)), book())
		if err == nil || !strings.Contains(err.Error(), "survey: maintenance: found") || !strings.Contains(err.Error(), "a number from 0.1 to 1") {
			t.Errorf("%s: %v", bad, err)
		}
	}
}
