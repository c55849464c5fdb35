package event

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Supports is a whole set of supports, measured off From, in the order given. Without At, it only sets the
// thickness or width of the existing set.
type Supports struct {
	Room    string            `json:"room"`
	Surface place.Surface     `json:"s"`
	What    place.SupportKind `json:"what"`
	Run     place.Direction   `json:"run,omitempty"`
	From    place.Wall        `json:"from,omitempty"`
	At      []length.Length   `json:"at,omitempty"`
	Spacing length.Length     `json:"oc,omitempty"`
	Thick   length.Length     `json:"thick,omitempty"`
	Wide    length.Length     `json:"wide,omitempty"`
}

func (Supports) Kind() string { return "straps" }
func (b Supports) In() string { return b.Room }

// SupportFix corrects one support: where it is, or where it ends.
type SupportFix struct {
	Room    string            `json:"room"`
	Surface place.Surface     `json:"s"`
	What    place.SupportKind `json:"what"`
	N       int               `json:"n"`
	Moved   bool              `json:"moved,omitempty"` // At is set
	At      length.Length     `json:"at,omitempty"`
	From    place.Wall        `json:"from,omitempty"` // of At
	Start   length.Length     `json:"start,omitempty"`
	End     length.Length     `json:"end,omitempty"`
	Wall    place.Wall        `json:"wall,omitempty"`  // wall that Start and End are measured off
	Stops   bool              `json:"stops,omitempty"` // it ends End short of Wall
}

func (SupportFix) Kind() string { return "strap" }
func (b SupportFix) In() string { return b.Room }
