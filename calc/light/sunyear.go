package light

// SunYear is the sun of every day of a year at one place, and of the first day
// of the next.
type SunYear struct {
	first Date
	days  []SunDay
}

// SunYearOf returns the sun of a year, see SunOn.
func SunYearOf(year int, latitude, longitude float64) SunYear {
	y := SunYear{first: Date{year, 1, 1}}
	n := int(julian(Date{year + 1, 1, 1})-julian(y.first)) + 1
	y.days = make([]SunDay, n)
	for i := range y.days {
		y.days[i] = SunOn(Date{year, 1, 1 + i}, latitude, longitude)
	}
	return y
}

// Clock is how the clock of a house goes.
type Clock struct {
	Ahead float64 // hours ahead of universal time in winter
	// Summer says that it is an hour further ahead from 1 h universal time on the
	// last Sunday of March to that of the last Sunday of October: the rule of the
	// European Union (Directive 2000/84/EC) and of Great Britain (the Summer Time
	// Order 2002); from memory.
	Summer bool
}

// Off is when lights go out: at sunrise, or at a time of the clock in hours
// after midnight.
type Off struct {
	Dawn bool
	Hour float64
}

// Nights is how long it is dark over a year, in hours.
type Nights struct {
	SunDown float64 // from sunset to sunrise
	Dark    float64 // from the end of civil twilight to its beginning
}

// Nights returns how long the sun is down over the year, and how long it is dark.
func (y SunYear) Nights() (n Nights) {
	for i := range len(y.days) - 1 {
		from, to := y.night(i, func(s *SunDay) Crossing { return s.Day })
		n.SunDown += to - from
		from, to = y.night(i, func(s *SunDay) Crossing { return s.Dusk })
		n.Dark += to - from
	}
	return n
}

// Burning returns how many hours of the year lights burn that come on at sunset
// and go out at a time, at the latest at sunrise. Where the time has passed
// before the sun sets they do not burn that evening.
func (y SunYear) Burning(c Clock, off Off) (hours float64) {
	for i := range len(y.days) - 1 {
		from, to := y.night(i, func(s *SunDay) Crossing { return s.Day })
		if !off.Dawn {
			to = min(to, y.clock(i, c, off.Hour))
		}
		hours += max(to-from, 0)
	}
	return hours
}

// night returns when the night after day i begins and ends, in hours of
// universal time from 0 h of that day. A sun that stays down makes a night from
// noon to noon; one that stays up makes none, and beside such a day a night ends
// or begins halfway to the next noon.
func (y SunYear) night(i int, of func(*SunDay) Crossing) (from, to float64) {
	today, next := &y.days[i], &y.days[i+1]
	evening, morning := of(today), of(next)
	if evening.Always && morning.Always {
		return 0, 0
	}
	from, to = evening.Down, morning.Up+24
	middle := (today.Noon + next.Noon + 24) / 2
	switch {
	case evening.Never:
		from = today.Noon
	case evening.Always:
		from = middle
	}
	switch {
	case morning.Never:
		to = next.Noon + 24
	case morning.Always:
		to = middle
	}
	return from, max(from, to)
}

// clock returns when the clock first shows an hour after noon of day i, in hours
// of universal time from 0 h of that day.
func (y SunYear) clock(i int, c Clock, hour float64) float64 {
	noon := y.days[i].Noon
	at := hour - c.Ahead
	for at < noon {
		at += 24
	}
	for at >= noon+24 {
		at -= 24
	}
	if c.Summer && summerTime(y.first.Year, float64(i)*24+at-1) {
		if at--; at < noon {
			at += 24
		}
	}
	return at
}

// summerTime reports whether clocks are an hour ahead so many hours after the
// begin of a year.
func summerTime(year int, hours float64) bool {
	begin := julian(Date{year, 1, 1})
	change := func(month int) float64 { // 1 h on the last Sunday of a month of 31 days
		last := julian(Date{year, month, 31})
		sunday := last - float64(int(last+1.5)%7)
		return (sunday-begin)*24 + 1
	}
	return hours >= change(3) && hours < change(10)
}

// Shows returns what the clock shows so many hours of universal time after 0 h of
// a day, in hours; it may lie below 0 or above 24.
func (c Clock) Shows(d Date, ut float64) float64 {
	since := (julian(d)-julian(Date{d.Year, 1, 1}))*24 + ut
	if c.Summer && summerTime(d.Year, since) {
		ut++
	}
	return ut + c.Ahead
}
