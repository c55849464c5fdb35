// Package site is the state of one job: a pure fold of its events.
//
// Lengths are exact (calc/length). On the ceiling X runs from the west wall and
// Y from the north wall; on a wall X runs along it from its west (or north) end
// and Y up from the floor. X and Y are always to the framing: a wall that has
// been boarded stands in front of it by its board's thickness, and which face a
// distance was held to follows from when it was sent.
//
// Events are folded in the order of arrival. The time an event was sent only
// decides what was hung or boarded at that moment and which of two notes of one
// thing is the newer. Nothing is overwritten: a struck entry is passed over by
// whoever reads, so striking and undoing cost nothing and forget nothing.
package site

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

// Surface is the ceiling, or a wall by its name.
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

// Run is the plan direction of a line or a board; Up is that of a stud.
type Run string

const (
	EW Run = "ew"
	NS Run = "ns"
	Up Run = "up"
)

// Across is the plan direction at right angles to r.
func (r Run) Across() Run {
	if r == EW {
		return NS
	}
	return EW
}

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

// Axis is the coordinate that a distance off wall w pins on surface s, and
// whether it grows away from w. ok is false where w does not bound s.
func (s Surface) Axis(w Wall) (a Axis, grows, ok bool) {
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

// How a Fix pins a coordinate.
type How string

const (
	OffWall How = "off"   // L off Wall
	DirOf   How = "dir"   // L Dir of a support or a point
	UpFrom  How = "up"    // L up from the floor
	DownTo  How = "down"  // L down from the ceiling
	OnLine  How = "on"    // on a support's centre line
	Along   How = "along" // L along a support from Wall
)

// Fix is one distance as it was said, resolved to what it is measured from.
type Fix struct {
	How    How           `json:"h"`
	L      length.Length `json:"l,omitempty"`
	Tag    length.Tag    `json:"t,omitempty"`
	Wall   Wall          `json:"w,omitempty"`
	Dir    Wall          `json:"d,omitempty"`
	Sup    SupportKind   `json:"k,omitempty"` // measured from a support: its kind ...
	N      int           `json:"n,omitempty"` // ... and number, from 1
	Edge   bool          `json:"e,omitempty"` // the support's near edge
	Of     string        `json:"o,omitempty"` // or from a mark or thing of this room
	ToEdge bool          `json:"te,omitempty"`
	Face   Face          `json:"f,omitempty"`
	Notch  bool          `json:"no,omitempty"` // OffWall: from the notch's own wall
}

// Face says which face of a wall a distance was held to; "" lets the time decide.
type Face string

const (
	Framing   Face = "framing"
	BoardFace Face = "board"
)

// SupportKind is what board is fixed to.
type SupportKind string

const (
	Straps   SupportKind = "straps"
	Joists   SupportKind = "joists"
	Studs    SupportKind = "studs"
	Channels SupportKind = "channels"
)

// supportKinds lists them with the layer the board touches first.
var supportKinds = [4]SupportKind{Straps, Channels, Joists, Studs}

// Size of a thing: A alone is a diameter; A x B is along X and Y.
type Size struct {
	A length.Length `json:"a,omitempty"`
	B length.Length `json:"b,omitempty"`
}

// Half is half the size along a; zero when no size was said.
func (s Size) Half(a Axis) length.Length {
	if a == Y && s.B != 0 {
		return s.B / 2
	}
	return s.A / 2
}
