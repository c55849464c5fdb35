package place

import (
	"slices"
	"strings"

	"strapline/calc/length"
)

// SupportKind is what board is fixed to.
type SupportKind string

const (
	Straps   SupportKind = "straps"
	Joists   SupportKind = "joists"
	Studs    SupportKind = "studs"
	Channels SupportKind = "channels"
)

// SupportKinds lists them with the layer the board touches first.
var SupportKinds = [4]SupportKind{Straps, Channels, Joists, Studs}

// One is how one support of the kind is called: strap, joist, stud, channel.
func (k SupportKind) One() string { return strings.TrimSuffix(string(k), "s") }

// Usual is the thickness and the face width that are taken until somebody
// measures: common practice, no source.
func (k SupportKind) Usual() (thick, wide length.Length) {
	switch k {
	case Straps:
		return 3 * length.Inch / 4, 5 * length.Inch / 2
	case Channels:
		return 7 * length.Inch / 8, 5 * length.Inch / 4
	case Studs:
		return 7 * length.Inch / 2, 3 * length.Inch / 2
	}
	return 7*length.Inch + length.Inch/4, 3 * length.Inch / 2
}

// Support is one strap, joist, stud or channel: a straight bar on a surface, to
// the framing, and the line of screws that a board gets there.
type Support struct {
	Kind     SupportKind
	N        int           // from 1, in the order given
	Run      Run           // as said: its plan direction, Up for a stud
	Lie      Axis          // the axis of the surface it lies along
	Pos      length.Length // centre line, across it
	From, To length.Length // its ends along Lie, From < To
	Thick    length.Length // from the board's back to whatever it is fixed to; 0: not known
	Wide     length.Length // the face that the board lies on
	Measured bool          // Thick was measured on the job; else it is its name
	Short    bool          // it stops short of a wall
}

// Axis is the coordinate that Pos is on.
func (s Support) Axis() Axis { return s.Lie.Other() }

// Steel reports a light steel channel; else it is wood.
func (s Support) Steel() bool { return s.Kind == Channels }

// Name is how the crew calls it: strap 4.
func (s Support) Name() string { return Of{Sup: s.Kind, N: s.N}.String() }

// Reaches reports whether the support is there at the place along it.
func (s Support) Reaches(along length.Length) bool {
	return along >= s.From && (s.To == 0 || along <= s.To)
}

// WidestBay is the widest distance between neighbouring centre lines.
func WidestBay(set []Support) length.Length {
	at := make([]length.Length, len(set))
	for i, s := range set {
		at[i] = s.Pos
	}
	slices.Sort(at)
	var bay length.Length
	for i := 1; i < len(at); i++ {
		bay = max(bay, at[i]-at[i-1])
	}
	return bay
}

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

// At is the place of something of that size whose centre is at p.
func (s Size) At(p Point) Rect {
	x, y := s.Half(X), s.Half(Y)
	return Rect{X0: p.X - x, Y0: p.Y - y, X1: p.X + x, Y1: p.Y + y}
}

// Code is the rule book that the lead has chosen.
type Code string

const (
	Strictest Code = "" // not chosen: the strictest of those known counts
	US        Code = "us"
	Canada    Code = "canada"
)
