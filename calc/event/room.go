package event

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Floor says that a finished floor of that thickness is, or will be, on the subfloor. Heights are measured
// from it from then on.
type Floor struct {
	Room  string        `json:"room"`
	Thick length.Length `json:"thick"`
}

func (Floor) Kind() string { return "floor" }
func (b Floor) In() string { return b.Room }

// Notch is a rectangle missing from the room, in plan.
type Notch struct {
	EW     length.Length `json:"ew"`
	NS     length.Length `json:"ns"`
	Corner string        `json:"corner,omitempty"` // "ne" "nw" "se" "sw"
	Wall   place.Wall    `json:"wall,omitempty"`   // at the middle of this wall,
	Off    length.Length `json:"off,omitempty"`    // this far
	From   place.Wall    `json:"from,omitempty"`   // off this wall
}

// RoomSize sets the room's extents, to the faces that are there when sent.
type RoomSize struct {
	Room   string        `json:"room"`
	EW     length.Length `json:"ew"`
	NS     length.Length `json:"ns"`
	High   length.Length `json:"high,omitempty"`
	Less   []Notch       `json:"less,omitempty"`
	Slopes []Slope       `json:"slopes,omitempty"`
}

func (RoomSize) Kind() string { return "room" }
func (b RoomSize) In() string { return b.Room }

// Here says that the sender is in Room from now on.
type Here struct {
	Room string `json:"room"`
}

func (Here) Kind() string { return "in" }
func (b Here) In() string { return b.Room }

// Named gives a room, or a wall of a room, another name.
type Named struct {
	Room  string     `json:"room"`
	Wall  place.Wall `json:"wall,omitempty"`
	Alias string     `json:"alias"`
}

func (Named) Kind() string { return "alias" }
func (b Named) In() string { return b.Room }

// Square is a set of tape readings of a room's walls and diagonals, to the faces that are there when sent.
type Square struct {
	Room     string    `json:"room"`
	Readings []Reading `json:"readings"`
}

func (Square) Kind() string { return "square" }
func (b Square) In() string { return b.Room }

// Reading is one reading of a wall by its name, or of a diagonal, "nw-se" or "ne-sw".
type Reading struct {
	Line string        `json:"line"`
	L    length.Length `json:"l"`
}

// Slope says that the ceiling comes down to Wall, from High to Low above the floor, over a distance Over
// in plan. Over 0 means from wall to wall.
type Slope struct {
	Room string        `json:"room"`
	Wall place.Wall    `json:"wall"`
	High length.Length `json:"high"`
	Low  length.Length `json:"low"`
	Over length.Length `json:"over,omitempty"`
}

func (Slope) Kind() string { return "slope" }
func (b Slope) In() string { return b.Room }

// Bulkhead is a boxed part under the ceiling along Wall, Wide across and Drop deep, with its near side Off
// the wall's framing. N tells those along one wall apart, as an index of [place.Ordinals].
type Bulkhead struct {
	Room string        `json:"room"`
	Wall place.Wall    `json:"wall"`
	Wide length.Length `json:"wide"`
	Drop length.Length `json:"drop"`
	Off  length.Length `json:"off,omitempty"`
	N    int           `json:"n,omitempty"`
}

func (Bulkhead) Kind() string { return "bulkhead" }
func (b Bulkhead) In() string { return b.Room }

// Boarded says that board of that thickness now stands on a wall or on a notch's face, or that it is
// Finished and so never gets any.
type Boarded struct {
	Room     string        `json:"room"`
	Wall     place.Wall    `json:"wall"` // or a notch's face, by its surface
	Thick    length.Length `json:"thick,omitempty"`
	Finished bool          `json:"finished,omitempty"`
}

func (Boarded) Kind() string { return "boarded" }
func (b Boarded) In() string { return b.Room }
