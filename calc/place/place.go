// Package place is the vocabulary for where things are: walls, surfaces,
// coordinates, the distances that fix them, and the supports that board is fixed to.
//
// Lengths are exact (calc/length). On the ceiling X runs east from the west wall
// and Y south from the north wall; on a wall X runs along it from its west (or
// north) end and Y up from the floor. Wall names are directions on the plan: a
// ceiling seen from below is mirrored, wall names are not.
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

// EastWest reports whether w is the east or the west wall.
func (w Wall) EastWest() bool { return w == East || w == West }

// Ends are the walls at the ends of w, and of what runs beside it, the start first.
func (w Wall) Ends() (from, to Wall) {
	if w.EastWest() {
		return North, South
	}
	return West, East
}

// Along is the axis of the ceiling that runs along the wall.
func (w Wall) Along() Axis {
	if w == North || w == South {
		return X
	}
	return Y
}

// Deep is the distance from w to the opposite wall, in a room of ew by ns.
func (w Wall) Deep(ew, ns length.Length) length.Length {
	if w.Along() == X {
		return ns
	}
	return ew
}

// Surface is a surface of a room by its name: "ceiling", a wall, a slope such as
// "north slope", or a part of a bulkhead such as "north bulkhead face".
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

// Upright reports whether s is vertical, so that y runs up. Other surfaces are overhead.
func (s Surface) Upright() bool {
	_, upright := s.base()
	return upright || s.IsWall()
}

// Direction is that of a line or a board on the plan, or Up for a stud.
type Direction string

const (
	EW Direction = "ew"
	NS Direction = "ns"
	Up Direction = "up"
)

// Axis is a coordinate axis of a surface.
type Axis int

const (
	X Axis = iota
	Y
)

// Other is the other axis.
func (a Axis) Other() Axis { return 1 - a }

// Point is a place on a surface, measured to the framing.
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

// With returns p with its coordinate along a set to v.
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

// Has reports whether p is in r or on its edge.
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

// Meets reports whether r and q overlap; sharing an edge is not enough.
func (r Rect) Meets(q Rect) bool { return r.X0 < q.X1 && q.X0 < r.X1 && r.Y0 < q.Y1 && q.Y0 < r.Y1 }

// With returns r with its extent along a set.
func (r Rect) With(a Axis, from, to length.Length) Rect {
	if a == X {
		r.X0, r.X1 = from, to
	} else {
		r.Y0, r.Y1 = from, to
	}
	return r
}

// Axis is the axis of surface s on which a distance off wall w is measured, and whether
// the coordinate grows away from w. ok is false if w does not bound s.
func (s Surface) Axis(w Wall) (a Axis, grows, ok bool) {
	if base, upright := s.base(); base != "" {
		return along(base, upright, w)
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

// Start is the wall from which a grows: usually west or north, and for y on a slope or a
// bulkhead's bottom its own wall. It is "" for y on an upright surface.
func (s Surface) Start(a Axis) Wall {
	for _, w := range Walls {
		if on, grows, ok := s.Axis(w); ok && on == a && grows {
			return w
		}
	}
	return ""
}

// DirectionOf is the direction of a line along a.
func (s Surface) DirectionOf(a Axis) Direction {
	switch {
	case a == Y && s.Upright():
		return Up
	case (a == X) == (s.Start(X) == North):
		return NS
	}
	return EW
}

// Lie is the axis of s along which a line of direction r lies.
func (s Surface) Lie(r Direction) Axis {
	if r == s.DirectionOf(X) || s.Upright() && r != Up {
		return X
	}
	return Y
}

// How says how a [Fix] fixes a coordinate.
type How string

const (
	OffWall How = "off"   // L off Wall
	DirOf   How = "dir"   // L Dir of a support or a point
	UpFrom  How = "up"    // L up from the floor
	DownTo  How = "down"  // L down from the ceiling
	OnLine  How = "on"    // on a support's centre line
	Along   How = "along" // L along a support from Wall
	Mid     How = "mid"   // halfway across the room, in the direction of Dir
	Between How = "betw"  // halfway between supports N and M
)

// Of is a reference other than a wall: a support (Sup and N), or a mark or thing by its
// Name.
type Of struct {
	Sup  SupportKind `json:"k,omitempty"`
	N    int         `json:"n,omitempty"` // from 1
	Edge bool        `json:"e,omitempty"` // from the near edge of the support or the opening, not its centre line
	Name string      `json:"o,omitempty"`
}

// Fix is a distance or a line as it was said, which fixes a coordinate. Its small fields are small and stand
// together, because two fixes of each of 75,000 things are a third of a large job.
type Fix struct {
	How         How  `json:"h"`
	length.Said      // not for OnLine, Mid and Between
	Wall        Wall `json:"w,omitempty"` // OffWall: off which wall; Along: from which; "" if not said
	Dir         Wall `json:"d,omitempty"` // DirOf: direction from Of
	Of
	Face   Face   `json:"f,omitempty"`
	Side   string `json:"side,omitempty"` // OffWall without Wall: "left" or "right", which has to be asked about
	M      int16  `json:"m,omitempty"`    // Between: the other support
	ToEdge bool   `json:"te,omitempty"`   // L is to the thing's nearest edge, not its centre
	Notch  bool   `json:"no,omitempty"`   // OffWall: from the notch's wall
	Level  bool   `json:"lv,omitempty"`   // OffWall on a slope: level, not along the slope
	// These, and Side, are resolved before the fix is saved.
	Main     bool `json:"main,omitempty"` // OffWall: from the room's own wall, not the notch's
	ToCentre bool `json:"tc,omitempty"`   // L is to the centre, as was said; by default it is to a rough opening's near edge
}

// Face is the wall face or floor that a distance was measured from. "" means the face
// that was there at the time.
type Face string

const (
	Framing       Face = "framing"
	BoardFace     Face = "board"
	Subfloor      Face = "subfloor"
	FinishedFloor Face = "finished floor"
)
