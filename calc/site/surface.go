package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Plane is one surface of one room, the unit of planning, hanging and counting.
type Plane struct {
	Room    *Room
	Surface place.Surface
}

// surface holds everything said about one surface of a room.
type surface struct {
	sets      map[place.SupportKind]*supportSet
	hung      []version[event.Hung]
	boardsRun versions[string]
	rowsFrom  versions[place.Wall]
	pick      versions[int]
}

func (r *Room) surface(s place.Surface) *surface {
	sf := r.surfaces[s]
	if sf == nil {
		sf = &surface{sets: map[place.SupportKind]*supportSet{}}
		r.surfaces[s] = sf
	}
	return sf
}

// on returns what was said about surface s, empty if nothing.
func (r *Room) on(s place.Surface) *surface {
	if sf := r.surfaces[s]; sf != nil {
		return sf
	}
	return &surface{}
}

// CeilingFace returns the thickness of the board on the ceiling at time t, 0 if none hung.
func (r *Room) CeilingFace(t int64) length.Length {
	var first *Entry
	for _, h := range r.on(place.Ceiling).hung {
		if h.e.Sent <= t && !h.e.Struck() && (first == nil || h.e.before(first)) {
			first = h.e
		}
	}
	if first == nil {
		return 0
	}
	b, _ := r.job.boardAt(r, place.Ceiling, first.Sent)
	return b.Thick
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
