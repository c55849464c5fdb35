package site

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Notch is a rectangle missing from the room, in plan.
type Notch struct {
	EW     length.Length `json:"ew"`
	NS     length.Length `json:"ns"`
	Corner string        `json:"corner,omitempty"` // "ne" "nw" "se" "sw"
	Wall   place.Wall    `json:"wall,omitempty"`   // mid-wall: at this wall,
	Off    length.Length `json:"off,omitempty"`    // Off from
	From   place.Wall    `json:"from,omitempty"`   // this one
}

// NotchRect is where a notch stands, in ceiling coordinates to the framing.
func (r *Room) NotchRect(n Notch) place.Rect {
	ew, ns := r.Framing()
	at := func(corner string) place.Rect {
		q := place.Rect{X0: 0, Y0: 0, X1: n.EW, Y1: n.NS}
		if corner[1] == 'e' {
			q.X0, q.X1 = ew-n.EW, ew
		}
		if corner[0] == 's' {
			q.Y0, q.Y1 = ns-n.NS, ns
		}
		return q
	}
	if n.Corner != "" {
		return at(n.Corner)
	}
	var q place.Rect
	switch n.Wall {
	case place.North, place.West:
		q = at("nw")
	case place.South:
		q = at("sw")
	case place.East:
		q = at("ne")
	}
	if n.Wall == place.North || n.Wall == place.South {
		q.X0 = n.Off
		if n.From == place.East {
			q.X0 = ew - n.Off - n.EW
		}
		q.X1 = q.X0 + n.EW
	} else {
		q.Y0 = n.Off
		if n.From == place.South {
			q.Y0 = ns - n.Off - n.NS
		}
		q.Y1 = q.Y0 + n.NS
	}
	return q
}

// Notches are the room's notches, to the framing.
func (r *Room) Notches() []place.Rect {
	b, _ := r.size.now()
	out := make([]place.Rect, 0, len(b.Less))
	for _, n := range b.Less {
		out = append(out, r.NotchRect(n))
	}
	return out
}

// NotchAt is the notch standing at wall w over the place v on the other axis.
func (r *Room) NotchAt(w place.Wall, v length.Length) (place.Rect, bool) {
	for _, q := range r.Notches() {
		if from, to := q.Span(w.Along()); r.standsAt(q, w) && from < v && v < to {
			return q, true
		}
	}
	return place.Rect{}, false
}

// NotchToward is the notch that stands between a place on surface s and wall w: on a
// wall, in the corner that they make.
func (r *Room) NotchToward(s place.Surface, w place.Wall, at place.Point) (place.Rect, bool) {
	switch {
	case s == place.Ceiling:
		return r.NotchAt(w, at.On(w.Along()))
	case !s.IsWall():
		return place.Rect{}, false
	}
	for _, q := range r.Notches() {
		if r.standsAt(q, place.Wall(s)) && r.standsAt(q, w) {
			from, to := q.Span(place.Wall(s).Along())
			return place.Rect{X0: from, X1: to, Y1: EndOfTime}, true
		}
	}
	return place.Rect{}, false
}

// NotchOn reports whether a notch stands at wall w.
func (r *Room) NotchOn(w place.Wall) bool {
	return slices.ContainsFunc(r.Notches(), func(q place.Rect) bool { return r.standsAt(q, w) })
}

func (r *Room) standsAt(q place.Rect, w place.Wall) bool {
	ew, ns := r.Framing()
	switch w {
	case place.North:
		return q.Y0 <= 0
	case place.South:
		return q.Y1 >= ns
	case place.West:
		return q.X0 <= 0
	}
	return q.X1 >= ew
}
