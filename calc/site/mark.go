package site

import (
	"strapline/calc/event"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.MarkSet) { addTo(r.marks, b.Name, e, b) })

// Mark returns the mark of that name and where it is. ok is false if none stands.
func (r *Room) Mark(name string) (b event.MarkSet, at place.Point, ok bool) {
	m, e := r.marks[name].now()
	if e == nil {
		return event.MarkSet{}, place.Point{}, false
	}
	return m, r.spotAt(spot{mark: true, name: name}), true
}

// MarkedBy returns who made the mark of that name.
func (r *Room) MarkedBy(name string) string {
	if _, e := r.marks[name].now(); e != nil {
		return e.Who
	}
	return ""
}

// Marks returns the names of the standing marks on surface s.
func (r *Room) Marks(s place.Surface) []string {
	var out []string
	for name, vs := range r.marks {
		if m, e := vs.now(); e != nil && m.Surface == s {
			out = append(out, name)
		}
	}
	return out
}
