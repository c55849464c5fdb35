package frame

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
)

// surface holds everything said about one surface of a room.
type surface struct {
	sets      map[place.SupportKind]*supportSet
	hung      []history.Version[event.Hung]
	boardsRun history.Versions[string]
	rowsFrom  history.Versions[place.Wall]
	pick      history.Versions[int]
}

func (r *Frame) surface(s place.Surface) *surface {
	sf := r.surfaces[s]
	if sf == nil {
		sf = &surface{sets: map[place.SupportKind]*supportSet{}}
		r.surfaces[s] = sf
	}
	return sf
}

// on returns what was said about surface s, empty if nothing.
func (r *Frame) on(s place.Surface) *surface {
	if sf := r.surfaces[s]; sf != nil {
		return sf
	}
	return &surface{}
}

// CeilingFace returns the thickness of the board on the ceiling at time t, 0 if none hung.
func (r *Frame) CeilingFace(t int64) length.Length {
	var first *history.Entry
	for _, h := range r.on(place.Ceiling).hung {
		if h.E.Sent <= t && !h.E.Struck() && (first == nil || h.E.Before(first)) {
			first = h.E
		}
	}
	if first == nil {
		return 0
	}
	b, _ := r.board.At(r.Name, place.Ceiling, first.Sent)
	return b.Thick
}
