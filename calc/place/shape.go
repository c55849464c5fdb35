package place

import "strings"

// Besides the ceiling and the walls a room has slopes, each by the wall it comes
// down to ("north slope"), and bulkheads, each by the wall that it runs along and is
// measured off ("north bulkhead bottom").
//
// On them X runs as on the wall they are named after. Y on a slope runs up it from
// its low edge; on a bulkhead's bottom away from the wall; on its face and back up
// from its bottom edge.

const slope = " slope"

// Parts of a bulkhead: its underside; the upright away from its wall; and, where it
// stands clear of the wall, the upright toward it.
const (
	Bottom = "bulkhead bottom"
	Front  = "bulkhead face"
	Back   = "bulkhead back"
)

// Slope is the slope that comes down to wall w.
func Slope(w Wall) Surface { return Surface(string(w) + slope) }

// Part is a part of the bulkhead along wall w.
func Part(w Wall, part string) Surface { return Surface(string(w) + " " + part) }

// SlopeTo is the wall that slope s comes down to, "" when it is none.
func (s Surface) SlopeTo() Wall {
	w, ok := strings.CutSuffix(string(s), slope)
	if !ok {
		return ""
	}
	return Wall(w)
}

// BulkheadOf is which part of a bulkhead s is, and its wall; "" when it is none.
func (s Surface) BulkheadOf() (part string, w Wall) {
	wall, part, _ := strings.Cut(string(s), " ")
	if part != Bottom && part != Front && part != Back {
		return "", ""
	}
	return part, Wall(wall)
}

// base is the wall that x runs along on a slope or a part of a bulkhead, "" on the
// others, and whether the surface stands.
func (s Surface) base() (w Wall, stands bool) {
	if w = s.SlopeTo(); w != "" {
		return w, false
	}
	part, w := s.BulkheadOf()
	return w, part == Front || part == Back
}

// along is the coordinate that a distance off wall w pins on a surface that lies
// along wall base.
func along(base Wall, stands bool, w Wall) (a Axis, grows, ok bool) {
	switch {
	case w.Along() != base.Along(): // a wall round the corner
		return X, w == West || w == North, true
	case w == base && !stands:
		return Y, true, true
	}
	return 0, false, false
}
