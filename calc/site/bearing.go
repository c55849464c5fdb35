package site

import (
	"cmp"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Plane is one surface of one room, the unit of planning, hanging and counting.
type Plane struct {
	Room    *Room
	Surface place.Surface
}

// Openings returns the rough openings in the framing of surface s, to the framing.
func (r *Room) Openings(s place.Surface) []place.Rect {
	var out []place.Rect
	for _, t := range r.Framed {
		if v, e := t.Now(); e != nil && v.Framed && v.Surface == s {
			out = append(out, v.Size.At(t.At()))
		}
	}
	return out
}

// Bearing returns the supports of surface s as they carry boards, see [shell.Room.Bearing].
func (r *Room) Bearing(s place.Surface) []place.Support {
	return r.Shell().Bearing(s, r.Supports(s), r.Openings(s), r.largeHoles(s))
}

// large is the size from which a hole takes screws away: the spacing of a ceiling's screws.
const large = length.Foot

// largeHoles returns the holes on surface s that take screws away, such as a hatch.
func (r *Room) largeHoles(s place.Surface) (out []place.Rect) {
	for _, t := range r.Things {
		if v, e := t.Now(); e != nil && !v.Framed && v.Surface == s && min(v.Size.Half(place.X), v.Size.Half(place.Y)) >= large/2 {
			out = append(out, v.Size.At(t.At()))
		}
	}
	return out
}

// Planned returns the surfaces whose layouts were taken, in the order in which they first were.
func (s *State) Planned() (out []Plane) {
	for _, r := range s.Standing() {
		for _, on := range r.Built() {
			if r.Planned(on) > 0 {
				out = append(out, Plane{r, on})
			}
		}
	}
	slices.SortFunc(out, func(a, b Plane) int { return cmp.Compare(a.Room.Planned(a.Surface), b.Room.Planned(b.Surface)) })
	return out
}
