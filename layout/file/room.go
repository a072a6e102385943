package file

// room holds what is needed while one entity is read, to be used again for the
// next: a scheme has tens of thousands of them. A nil room makes everything
// anew.
type room struct {
	objects []*object
	used    int
	list    []node
}

// clear takes everything back; nothing that was handed out may be used again.
func (r *room) clear() {
	r.used, r.list = 0, r.list[:0]
}

// object returns an object without fields.
func (r *room) object() *object {
	if r == nil {
		return &object{}
	}
	if r.used == len(r.objects) {
		r.objects = append(r.objects, &object{})
	}
	o := r.objects[r.used]
	r.used++
	*o = object{fields: o.fields[:0], asked: o.asked[:0]}
	return o
}

// nodes returns a list of n nodes.
func (r *room) nodes(n int) []node {
	if r == nil {
		return make([]node, n)
	}
	if len(r.list)+n > cap(r.list) {
		r.list = make([]node, 0, max(64, 2*n)) // what was handed out stays as it is
	}
	at := len(r.list)
	r.list = r.list[:at+n]
	return r.list[at : at+n : at+n]
}
