package site

import (
	"strapline/calc/place"
	"strapline/calc/shell"
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

// noted returns the standing note of k. ok is false if there is none.
func (r *Room) noted(k spot) (n noted, ok bool) {
	if k.mark {
		m, e := r.marks[k.name].now()
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

// again resolves a note as the job stands, so what is measured off a strap or a wall moves when that is
// corrected. If a support is gone from the log, the noted point is used.
func (r *Room) again(n noted) place.Point {
	p, err := r.Place(n.surface, n.fixes, n.size, n.sent)
	if err != nil || !p.Whole() {
		return n.point
	}
	return p.Point
}

// places holds the spots, the supports and the shape of a room, each worked out at most once between two
// events.
type places struct {
	at       map[spot]place.Point
	n        int // how often a spot was worked out; tests check that it is once each
	supports map[*supportSet][]place.Support
	shell    *shell.Room // nil until needed
}

func (r *Room) workedOut() *places {
	if r.places == nil {
		r.places = &places{at: map[spot]place.Point{}, supports: map[*supportSet][]place.Support{}}
	}
	return r.places
}

// spotAt returns the place of the centre of k, which must be noted.
func (r *Room) spotAt(k spot) place.Point {
	if at, ok := r.workedOut().at[k]; ok {
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
