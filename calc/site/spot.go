package site

import (
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/history"
	"strapline/calc/place"
)

// spot is a mark or a thing of a room, something that others can be measured from.
type spot struct {
	mark bool
	name string
}

// noted is the newest note of where a spot is.
type noted struct {
	surface place.Surface
	fixes   []place.Fix
	size    place.Size
	sent    int64
	point   place.Point // where that was when noted
}

// spotNamed returns the standing mark or thing of that name on surface s.
func (r *Room) spotNamed(s place.Surface, name string) (spot, bool) {
	for _, k := range [2]spot{{true, name}, {false, name}} {
		if n, ok := r.noted(k); ok && n.surface == s {
			return k, true
		}
	}
	return spot{}, false
}

// named returns where the standing mark or thing of that name on surface s is, and its size.
func (r *Room) named(s place.Surface, name string) (at place.Point, size place.Size, ok bool) {
	k, ok := r.spotNamed(s, name)
	if !ok {
		return at, size, false
	}
	n, _ := r.noted(k)
	return r.spotAt(k), n.size, true
}

// noted returns the standing note of k. ok is false if there is none.
func (r *Room) noted(k spot) (n noted, ok bool) {
	if k.mark {
		m, e := r.marks[k.name].Now()
		if e == nil {
			return noted{}, false
		}
		return noted{m.Surface, m.Fixes, place.Size{}, e.Sent, m.Point}, true
	}
	t := r.thing(k.name)
	if t == nil {
		return noted{}, false
	}
	v, e := t.Now()
	if e == nil {
		return noted{}, false
	}
	return noted{v.Surface, v.Fixes, v.Size, e.Sent, v.Point}, true
}

// Place works out where fixes sent at time t put the centre of something of that size, see [frame.Frame.Place].
func (r *Room) Place(s place.Surface, fixes []place.Fix, size place.Size, t int64) (frame.Placed, error) {
	return r.Frame.Place(s, fixes, size, t, r.named)
}

// again resolves a note as the job stands, so what is measured off a strap or a wall moves when that is
// corrected. If a support is gone from the log, the noted point is used.
func (r *Room) again(n noted) place.Point {
	p, err := r.Place(n.surface, n.fixes, n.size, n.sent)
	if err != nil || !p.Whole() {
		return n.point
	}
	return p.Point
}

// places holds the spots of a room, each worked out at most once between two events.
type places struct {
	at map[spot]place.Point
	n  int // how often a spot was worked out; tests check that it is once each
}

// spotAt returns the place of the centre of k, which must be noted.
func (r *Room) spotAt(k spot) place.Point {
	if r.places == nil {
		r.places = &places{at: map[spot]place.Point{}}
	}
	if at, ok := r.places.at[k]; ok {
		return at
	}
	w := walk{room: r, met: map[spot]int{}}
	w.visit(k)
	return r.places.at[k]
}

// walk works out spots starting from the far end of what they are measured from, so that each finds its
// own reference in places. Spots measured from one another in a loop all stay where they were noted,
// whichever of them is asked for first. The loops are the strongly connected components, found by Tarjan's
// algorithm (R. Tarjan, Depth-first search and linear graph algorithms, 1972; from memory).
type walk struct {
	room *Room
	met  map[spot]int // order of first visit, from 1
	open []spot       // visited and not yet worked out
}

// visit works k out, or leaves it open if it is in a loop with a spot visited before. It returns the
// earliest such spot.
func (w *walk) visit(k spot) (first int) {
	from := len(w.open)
	w.open = append(w.open, k)
	me := len(w.met) + 1
	w.met[k], first = me, me
	loop := false
	n, _ := w.room.noted(k)
	for _, f := range n.fixes {
		if f.Name == "" {
			continue
		}
		of, ok := w.room.spotNamed(n.surface, f.Name)
		if _, done := w.room.places.at[of]; !ok || done {
			continue
		}
		low, met := w.met[of]
		if !met {
			low = w.visit(of)
		}
		if low <= me {
			first, loop = min(first, low), true
		}
	}
	if first < me {
		return first
	}
	for _, o := range w.open[from:] {
		n, _ := w.room.noted(o)
		at := n.point
		if !loop {
			at = w.room.again(n)
		}
		w.room.places.at[o] = at
		w.room.places.n++
	}
	w.open = w.open[:from]
	return first
}

var _ = inRoom(func(r *Room, e *Entry, b event.MarkSet) { history.AddTo(r.marks, b.Name, e, b) })

// Mark returns the mark of that name and where it is. ok is false if none stands.
func (r *Room) Mark(name string) (b event.MarkSet, at place.Point, ok bool) {
	m, e := r.marks[name].Now()
	if e == nil {
		return event.MarkSet{}, place.Point{}, false
	}
	return m, r.spotAt(spot{mark: true, name: name}), true
}

// MarkedBy returns who made the mark of that name.
func (r *Room) MarkedBy(name string) string {
	if _, e := r.marks[name].Now(); e != nil {
		return e.Who
	}
	return ""
}

// Marks returns the names of the standing marks on surface s.
func (r *Room) Marks(s place.Surface) []string {
	var out []string
	for name, vs := range r.marks {
		if m, e := vs.Now(); e != nil && m.Surface == s {
			out = append(out, name)
		}
	}
	return out
}
