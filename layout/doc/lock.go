package doc

// Locked reports whether the entity stays as it is drawn: moving, bending,
// rejoining, splitting and deleting it are refused; of a zone, that lamps join
// or leave it. What it is, its stock item or depth say, may still be changed,
// and the joined end of a locked run follows the thing it is on.
func Locked(e Entity) bool {
	switch e := e.(type) {
	case *Supply:
		return e.Lock
	case *Box:
		return e.Lock
	case *Lamp:
		return e.Lock
	case *Gear:
		return e.Lock
	case *Source:
		return e.Lock
	case *Run:
		return e.Lock
	case *Zone:
		return e.Lock
	case *Area:
		return e.Lock
	case *Line:
		return e.Lock
	case *Mark:
		return e.Lock
	case *Dimension:
		return e.Lock
	}
	return false
}

// WithLock returns a copy of the entity with its lock set or taken off, the
// entity itself when it is so already.
func WithLock(e Entity, on bool) Entity {
	if Locked(e) == on {
		return e
	}
	switch e := e.(type) {
	case *Supply:
		return locked(*e, func(c *Supply) { c.Lock = on })
	case *Box:
		return locked(*e, func(c *Box) { c.Lock = on })
	case *Lamp:
		return locked(*e, func(c *Lamp) { c.Lock = on })
	case *Gear:
		return locked(*e, func(c *Gear) { c.Lock = on })
	case *Source:
		return locked(*e, func(c *Source) { c.Lock = on })
	case *Run:
		return locked(*e, func(c *Run) { c.Lock = on })
	case *Zone:
		return locked(*e, func(c *Zone) { c.Lock = on })
	case *Area:
		return locked(*e, func(c *Area) { c.Lock = on })
	case *Line:
		return locked(*e, func(c *Line) { c.Lock = on })
	case *Mark:
		return locked(*e, func(c *Mark) { c.Lock = on })
	case *Dimension:
		return locked(*e, func(c *Dimension) { c.Lock = on })
	}
	return e
}

// locked returns a changed copy.
func locked[T any](c T, change func(*T)) *T {
	change(&c)
	return &c
}
