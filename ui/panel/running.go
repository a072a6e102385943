package panel

import (
	"errors"
	"strconv"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// runningRows are what the cost of running the lights depends on.
func runningRows(f *form) {
	s := f.on.scheme
	set := func(change func(*doc.Running)) edit.Operation {
		v := s().Running
		change(&v)
		return edit.SetRunning{Running: v}
	}
	f.heading("Running cost")
	maybe(f, "Latitude", "°", doc.ParseLatitude, func() q.Maybe[doc.Degrees] { return s().Running.Latitude },
		func(v q.Maybe[doc.Degrees]) edit.Operation { return set(func(e *doc.Running) { e.Latitude = v }) })
	maybe(f, "Longitude", "°", doc.ParseLongitude, func() q.Maybe[doc.Degrees] { return s().Running.Longitude },
		func(v q.Maybe[doc.Degrees]) edit.Operation { return set(func(e *doc.Running) { e.Longitude = v }) })
	f.field("Price of a kWh", "not known, such as 0.2735", "", func() string {
		if t := s().Running.Tariff; t.Known {
			return t.Value.String()
		}
		return ""
	}, func(text string) error {
		var m q.Maybe[doc.Tariff]
		if text != "" {
			v, err := doc.ParseTariff(text)
			if err != nil {
				return err
			}
			m = q.Some(v)
		}
		return f.on.desk.Commit(set(func(e *doc.Running) { e.Tariff = m }))
	})
	for i := range doc.UsualOff {
		f.field("Off, "+[...]string{"early", "later", "latest"}[i], doc.UsualOff[i].String()+" where empty", "", func() string { return s().Running.Off[i].String() },
			func(text string) error {
				var o doc.Off
				if text != "" {
					var err error
					if o, err = doc.ParseOff(text); err != nil {
						return err
					}
				}
				return f.on.desk.Commit(set(func(e *doc.Running) { e.Off[i] = o }))
			})
	}
	maybe(f, "Clock ahead of UTC", "h", doc.ParseAhead, func() q.Maybe[doc.Hours] { return s().Running.Ahead },
		func(v q.Maybe[doc.Hours]) edit.Operation { return set(func(e *doc.Running) { e.Ahead = v }) })
	f.choice("Summer time", func() []option {
		return []option{{"", "Not said"}, {"none", "None"}, {"european", "March to October"}}
	}, func() string { return s().Running.Summer },
		func(v string) edit.Operation { return set(func(e *doc.Running) { e.Summer = v }) })
	f.hint("For the running cost in the client pack. South and west are negative, or 51.5 N, 1.2 W. What is empty is not taken as zero: the page then says what it lacks.")
	f.figure("Prices listed", func() string { return strconv.Itoa(len(s().List.Items)) + " (Ctrl+Shift+Q)" })
}

// off adds a time at which lights go out; empty is not said. dawn says whether that
// is one.
func (f *form) off(name, hint string, dawn bool, get func() doc.Off, set func(doc.Off) edit.Operation) {
	f.field(name, hint, "", func() string { return get().String() }, func(text string) error {
		var o doc.Off
		if text != "" {
			var err error
			if o, err = doc.ParseOff(text); err != nil {
				return err
			}
			if o.Dawn && !dawn {
				return errors.New("found dawn, expected a time such as 23:00")
			}
		}
		return f.on.desk.Commit(set(o))
	})
}
