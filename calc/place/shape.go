package place

import "strings"

// Besides the ceiling and the walls a room may have slopes, named for the wall they come
// down to ("north slope"), bulkheads, named for the wall they run along ("north bulkhead
// bottom", "second north bulkhead bottom"), and the upright faces of notches, named for the
// notch and the way they face ("ne notch south face").
//
// On them X runs as on the wall they are named for; on a face, as on the wall opposite the
// one it faces, from the face's own end. Y runs up a slope from its low edge, away from the
// wall on a bulkhead's bottom, up from the bottom edge on its face and back, and up from the
// floor on a notch's face.

const (
	slope = " slope"
	notch = " notch "
	face  = " face"
)

// The parts of a bulkhead.
const (
	Bottom = "bulkhead bottom" // its underside
	Front  = "bulkhead face"   // the upright side away from its wall
	Back   = "bulkhead back"   // the upright side toward its wall, if it is clear of the wall
)

// Ordinals tell bulkheads along one wall apart, and notches at one wall: the first has none.
var Ordinals = [3]string{"", "second", "third"}

// nth is the ordinal that said begins with, as an index of [Ordinals], and the rest.
func nth(said string) (n int, rest string) {
	for i, word := range Ordinals[1:] {
		if rest, ok := strings.CutPrefix(said, word+" "); ok {
			return i + 1, rest
		}
	}
	return 0, said
}

// Nth puts the ordinal of n, an index of [Ordinals], before a name.
func Nth(n int, name string) string { return strings.TrimSpace(Ordinals[n] + " " + name) }

// Slope is the slope that comes down to wall w.
func Slope(w Wall) Surface { return Surface(string(w) + slope) }

// Part is a part of a bulkhead along wall w, the n-th there, an index of [Ordinals].
func Part(w Wall, n int, part string) Surface { return Surface(Nth(n, string(w)+" "+part)) }

// NotchFace is the face that the notch of that name, such as "ne" or "second north", turns
// to the south, west and so on.
func NotchFace(name string, faces Wall) Surface { return Surface(name + notch + string(faces) + face) }

// SlopeTo is the wall that slope s comes down to, "" if s is not a slope.
func (s Surface) SlopeTo() Wall {
	w, ok := strings.CutSuffix(string(s), slope)
	if !ok {
		return ""
	}
	return Wall(w)
}

// BulkheadOf is the part of a bulkhead that s is, and its wall; both are "" if s is not one.
// n is its [Ordinals] index among those along that wall.
func (s Surface) BulkheadOf() (part string, w Wall, n int) {
	n, rest := nth(string(s))
	wall, part, _ := strings.Cut(rest, " ")
	if part != Bottom && part != Front && part != Back {
		return "", "", 0
	}
	return part, Wall(wall), n
}

// NotchOf is the name of the notch whose face s is, and the way it faces; both are "" if s
// is no such face.
func (s Surface) NotchOf() (name string, faces Wall) { return s.notchSide(face) }

// NotchWall is the name of the notch and the wall of it that s is as the crew said it, "ne
// notch north wall": which of its faces that is, the room has to say. The name may be "".
func (s Surface) NotchWall() (name string, w Wall) { return (" " + s).notchSide(" wall") }

func (s Surface) notchSide(kind string) (name string, w Wall) {
	name, side, ok := strings.Cut(string(s), notch)
	side, is := strings.CutSuffix(side, kind)
	if !ok || !is {
		return "", ""
	}
	return strings.TrimSpace(name), Wall(side)
}

// FromFloor reports whether s stands on the floor: a wall, or a notch's face.
func (s Surface) FromFloor() bool {
	_, faces := s.NotchOf()
	return faces != "" || s.IsWall()
}

// base is the wall that a slope or a part of a bulkhead is named for, or the way a notch's
// face faces, "" for other surfaces, and whether it is upright.
func (s Surface) base() (w Wall, upright bool) {
	if w = s.SlopeTo(); w != "" {
		return w, false
	}
	if _, w = s.NotchOf(); w != "" {
		return w, true
	}
	part, w, _ := s.BulkheadOf()
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

// Corners are the names of corners by their short ones.
var Corners = map[string]string{"ne": "northeast", "nw": "northwest", "se": "southeast", "sw": "southwest"}
