package place

import "strings"

// Besides the ceiling and the walls a room may have slopes, named for the wall they come
// down to ("north slope"), and bulkheads, named for the wall they run along ("north
// bulkhead bottom").
//
// On them X runs as on the wall they are named for. Y runs up a slope from its low edge,
// away from the wall on a bulkhead's bottom, and up from the bottom edge on its face and
// back.

const slope = " slope"

// The parts of a bulkhead.
const (
	Bottom = "bulkhead bottom" // its underside
	Front  = "bulkhead face"   // the upright side away from its wall
	Back   = "bulkhead back"   // the upright side toward its wall, if it is clear of the wall
)

// Slope is the slope that comes down to wall w.
func Slope(w Wall) Surface { return Surface(string(w) + slope) }

// Part is a part of the bulkhead along wall w.
func Part(w Wall, part string) Surface { return Surface(string(w) + " " + part) }

// SlopeTo is the wall that slope s comes down to, "" if s is not a slope.
func (s Surface) SlopeTo() Wall {
	w, ok := strings.CutSuffix(string(s), slope)
	if !ok {
		return ""
	}
	return Wall(w)
}

// BulkheadOf is the part of a bulkhead that s is, and its wall; both are "" if s is not one.
func (s Surface) BulkheadOf() (part string, w Wall) {
	wall, part, _ := strings.Cut(string(s), " ")
	if part != Bottom && part != Front && part != Back {
		return "", ""
	}
	return part, Wall(wall)
}

// base is the wall that a slope or a part of a bulkhead is named for, "" for other
// surfaces, and whether it is an upright part.
func (s Surface) base() (w Wall, upright bool) {
	if w = s.SlopeTo(); w != "" {
		return w, false
	}
	part, w := s.BulkheadOf()
	return w, part == Front || part == Back
}

// along is [Surface.Axis] for a surface that runs along wall base.
func along(base Wall, upright bool, w Wall) (a Axis, grows, ok bool) {
	switch {
	case w.Along() != base.Along(): // a wall around the corner
		return X, w == West || w == North, true
	case w == base && !upright:
		return Y, true, true
	}
	return 0, false, false
}
