// Package place is the one vocabulary of where things are: walls, surfaces,
// coordinates, the distances that pin them, and what board is fixed to.
//
// Lengths are exact (calc/length). On the ceiling X runs east from the west wall
// and Y south from the north wall; on a wall X runs along it from its west (or
// north) end and Y up from the floor. Wall names are plan directions: a ceiling
// seen from below is mirrored, wall names are not.
package place

import "strapline/calc/length"

// Wall is one of the four walls, by its direction on the floor plan.
type Wall string

const (
	North Wall = "north"
	East  Wall = "east"
	South Wall = "south"
	West  Wall = "west"
)

// Walls lists the four walls clockwise.
var Walls = [4]Wall{North, East, South, West}

// Opposite is the wall across the room.
func (w Wall) Opposite() Wall {
	switch w {
	case North:
		return South
	case South:
		return North
	case East:
		return West
	case West:
		return East
	}
	return ""
}

// Along is the ceiling's coordinate that runs along the wall.
func (w Wall) Along() Axis {
	if w == North || w == South {
		return X
	}
	return Y
}

// Deep is how far the wall across from w is, in a room of ew by ns.
func (w Wall) Deep(ew, ns length.Length) length.Length {
	if w.Along() == X {
		return ns
	}
	return ew
}

// Surface is the ceiling, or a wall by its name. What it is like, whoever asks
// has from its methods: [Surface.Upright], [Surface.Axis], [Surface.Lie].
type Surface string

const Ceiling Surface = "ceiling"

// IsWall reports whether s is one of the four walls.
func (s Surface) IsWall() bool {
	switch Wall(s) {
	case North, East, South, West:
		return true
	}
	return false
}

// Upright reports whether s stands, and y runs up on it: from the floor on a wall;
// else it is overhead.
func (s Surface) Upright() bool {
	_, stands := s.base()
	return stands || s.IsWall()
}

// Run is the plan direction of a line or a board; Up is that of a stud.
type Run string

const (
	EW Run = "ew"
	NS Run = "ns"
	Up Run = "up"
)

// Axis is a coordinate of a surface.
type Axis int

const (
	X Axis = iota
	Y
)

// Other is the other coordinate.
func (a Axis) Other() Axis { return 1 - a }

// Point is a place on a surface, to the framing.
type Point struct {
	X, Y length.Length
}

// On is the coordinate of p along a.
func (p Point) On(a Axis) length.Length {
	if a == X {
		return p.X
	}
	return p.Y
}

// With is p with its coordinate along a set to v.
func (p Point) With(a Axis, v length.Length) Point {
	if a == X {
		p.X = v
	} else {
		p.Y = v
	}
	return p
}

// Rect is a rectangle on a surface, edges included.
type Rect struct {
	X0, Y0, X1, Y1 length.Length
}

// Has reports whether p lies in r or on its edge.
func (r Rect) Has(p Point) bool {
	return r.X0 <= p.X && p.X <= r.X1 && r.Y0 <= p.Y && p.Y <= r.Y1
}

// Span is r's extent along a.
func (r Rect) Span(a Axis) (from, to length.Length) {
	if a == X {
		return r.X0, r.X1
	}
	return r.Y0, r.Y1
}

// Meets reports whether r and q have more than an edge in common.
func (r Rect) Meets(q Rect) bool { return r.X0 < q.X1 && q.X0 < r.X1 && r.Y0 < q.Y1 && q.Y0 < r.Y1 }

// With is r with its extent along a set.
func (r Rect) With(a Axis, from, to length.Length) Rect {
	if a == X {
		r.X0, r.X1 = from, to
	} else {
		r.Y0, r.Y1 = from, to
	}
	return r
}

// Axis is the coordinate that a distance off wall w pins on surface s, and
// whether it grows away from w. ok is false where w does not bound s.
func (s Surface) Axis(w Wall) (a Axis, grows, ok bool) {
	if base, stands := s.base(); base != "" {
		return along(base, stands, w)
	}
	switch {
	case s == Ceiling && (w == West || w == East):
		return X, w == West, true
	case s == Ceiling && (w == North || w == South):
		return Y, w == North, true
	case (s == Surface(North) || s == Surface(South)) && (w == West || w == East):
		return X, w == West, true
	case (s == Surface(East) || s == Surface(West)) && (w == North || w == South):
		return X, w == North, true
	}
	return 0, false, false
}

// Start is the wall that distances along a grow from: west or north. "" is the
// floor, for y on a surface that stands.
func (s Surface) Start(a Axis) Wall {
	for _, w := range Walls {
		if on, grows, ok := s.Axis(w); ok && on == a && grows {
			return w
		}
	}
	return ""
}

// RunOf is the plan direction of a line along a.
func (s Surface) RunOf(a Axis) Run {
	switch {
	case a == Y && s.Upright():
		return Up
	case (a == X) == (s.Start(X) == North):
		return NS
	}
	return EW
}

// Lie is the axis of s along which a line of plan direction r lies.
func (s Surface) Lie(r Run) Axis {
	if r == s.RunOf(X) || s.Upright() && r != Up {
		return X
	}
	return Y
}

// How a Fix pins a coordinate.
type How string

const (
	OffWall How = "off"   // L off Wall
	DirOf   How = "dir"   // L Dir of a support or a point
	UpFrom  How = "up"    // L up from the floor
	DownTo  How = "down"  // L down from the ceiling
	OnLine  How = "on"    // on a support's centre line
	Along   How = "along" // L along a support from Wall
	Mid     How = "mid"   // halfway across the room, the way that Dir lies
	Between How = "betw"  // halfway between supports N and M
)

// Of is what a distance is measured from other than a wall: a support (Sup and
// N), or a mark or thing by its Name.
type Of struct {
	Sup  SupportKind `json:"k,omitempty"`
	N    int         `json:"n,omitempty"` // from 1
	Edge bool        `json:"e,omitempty"` // the support's near edge, not its centre line
	Name string      `json:"o,omitempty"`
}

// Fix is one distance, or one line, as it was said: it pins a coordinate.
type Fix struct {
	How         How  `json:"h"`
	length.Said      // not for OnLine
	Wall        Wall `json:"w,omitempty"` // OffWall: off which; Along: from which; "": not said
	Dir         Wall `json:"d,omitempty"` // DirOf: which way from Of
	Of
	M      int  `json:"m,omitempty"`  // Between: the other support
	ToEdge bool `json:"te,omitempty"` // L runs to the thing's nearest edge, not its centre
	Face   Face `json:"f,omitempty"`
	Notch  bool `json:"no,omitempty"` // OffWall: from the notch's own wall
	Level  bool `json:"lv,omitempty"` // OffWall, on a slope: on plan, not up along it
	// What was said and is settled before the fix is kept in a log.
	Side string `json:"side,omitempty"` // OffWall with no Wall: "left" or "right", which is asked about
	Main bool   `json:"main,omitempty"` // OffWall: from the room's own wall, not the notch's
	// ToCentre: L was said to run to the centre. Else that of a rough opening runs to its near edge.
	ToCentre bool `json:"tc,omitempty"`
}

// Face says which face of a wall, or which floor, a distance was held to; "" lets
// the time decide.
type Face string

const (
	Framing       Face = "framing"
	BoardFace     Face = "board"
	Subfloor      Face = "subfloor"
	FinishedFloor Face = "finished floor"
)
