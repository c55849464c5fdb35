package place

import (
	"slices"
	"strings"

	"strapline/calc/length"
)

// SupportKind is a kind of framing that board is fixed to.
type SupportKind string

const (
	Straps   SupportKind = "straps"
	Joists   SupportKind = "joists"
	Studs    SupportKind = "studs"
	Channels SupportKind = "channels"
)

// SupportKinds lists the kinds in order of the layers, starting at the board.
var SupportKinds = [4]SupportKind{Straps, Channels, Joists, Studs}

// One is the singular: strap, joist, stud, channel.
func (k SupportKind) One() string { return strings.TrimSuffix(string(k), "s") }

// Usual is the thickness and face width assumed until somebody measures: common practice,
// no source.
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

// Support is a strap, joist, stud or channel: a straight member on a surface, into which a
// board gets a line of screws. Places are measured to the framing.
type Support struct {
	Kind     SupportKind
	N        int           // from 1, in the order given
	Run      Direction     // its direction as said; Up for a stud
	Lie      Axis          // the axis of the surface it runs along
	Pos      length.Length // of its centre line, on the other axis
	From, To length.Length // its ends along Lie, From < To; To is 0 if unknown
	Thick    length.Length // from the back of the board to what it is fixed to; 0 if unknown
	Wide     length.Length // of the face that the board is fixed to
	Measured bool          // Thick was measured on the job; else it is nominal
}

// Axis is the axis that Pos is measured on.
func (s Support) Axis() Axis { return s.Lie.Other() }

// Steel reports whether it is light steel, that is a channel; all others are wood.
func (s Support) Steel() bool { return s.Kind == Channels }

// Name is what the crew calls it, such as "strap 4".
func (s Support) Name() string { return Of{Sup: s.Kind, N: s.N}.String() }

// Reaches reports whether the support extends to a coordinate along it.
func (s Support) Reaches(along length.Length) bool {
	return along >= s.From && (s.To == 0 || along <= s.To)
}

// WidestBay is the largest distance between neighbouring centre lines.
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

// Size is the size of a thing: a diameter A, or A along X by B along Y.
type Size struct {
	A length.Length `json:"a,omitempty"`
	B length.Length `json:"b,omitempty"`
}

// Half is half the size along a, 0 if the size is unknown.
func (s Size) Half(a Axis) length.Length {
	if a == Y && s.B != 0 {
		return s.B / 2
	}
	return s.A / 2
}

// At is the bounding rectangle of a thing of that size centred at p.
func (s Size) At(p Point) Rect {
	x, y := s.Half(X), s.Half(Y)
	return Rect{X0: p.X - x, Y0: p.Y - y, X1: p.X + x, Y1: p.Y + y}
}

// Code is the building code that the lead has chosen.
type Code string

const (
	Strictest Code = "" // none chosen yet: the strictest rule of any applies
	US        Code = "us"
	Canada    Code = "canada"
)
