package event

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// MarkSet is a mark on a support or on the framing.
type MarkSet struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	Surface place.Surface `json:"s"`
	Fixes   []place.Fix   `json:"fix"`
	Point   place.Point   `json:"at"`
}

func (MarkSet) Kind() string { return "mark" }
func (b MarkSet) In() string { return b.Room }

// Missed says that a hole made at At to find a covered thing found nothing.
type Missed struct {
	Room  string      `json:"room"`
	Name  string      `json:"n"`
	At    place.Point `json:"at"`
	Fixes []place.Fix `json:"fix,omitempty"` // where it was said to be; none means at the noted place
}

func (Missed) Kind() string { return "missed" }
func (b Missed) In() string { return b.Room }

// Route is a pipe, wire or duct that runs behind the board through Points. At is where these were when
// noted, like Point of a Thing.
type Route struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	What    string        `json:"what"`
	Surface place.Surface `json:"s"`
	Size    length.Length `json:"size,omitempty"`
	Points  [][]place.Fix `json:"fix"`
	At      []place.Point `json:"at"`
	How     string        `json:"how,omitempty"` // "" (not said), "depth", "top" or "notched"
	Depth   length.Length `json:"depth,omitempty"`
	Conduit bool          `json:"conduit,omitempty"`
	// NotchK and NotchN name the one support it is notched into, to Depth. With N 0, "notched" holds for
	// all.
	NotchK place.SupportKind `json:"notchk,omitempty"`
	NotchN int               `json:"notchn,omitempty"`
}

func (Route) Kind() string { return "run" }
func (b Route) In() string { return b.Room }

// Plates protect a route where it crosses supports N.
type Plates struct {
	Room string            `json:"room"`
	Run  string            `json:"run"`
	What place.SupportKind `json:"what"`
	N    []int             `json:"n"`
}

func (Plates) Kind() string { return "plate" }
func (b Plates) In() string { return b.Room }

// Thing is an opening or a box that the board will cover. Point is where it was when noted, and is used
// instead of Fixes whose support is gone from the log.
type Thing struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	What    string        `json:"what"`
	Label   string        `json:"label,omitempty"`
	Surface place.Surface `json:"s"`
	Size    place.Size    `json:"size,omitzero"`
	Fixes   []place.Fix   `json:"fix,omitempty"`
	Point   place.Point   `json:"at"`
	Due     string        `json:"due,omitempty"` // "" means while hanging
	New     bool          `json:"new,omitempty"` // the first note of this name
	// Framed: a door or a window, that is, an opening in the framing itself.
	Framed bool `json:"framed,omitempty"`
}

func (Thing) Kind() string { return "thing" }
func (b Thing) In() string { return b.Room }

// share shares the storage of strings that many things have in common, which makes a job of 100,000
// entries a tenth smaller.
func (b *Thing) share() {
	b.Room, b.What, b.Surface = shared(b.Room), shared(b.What), shared(b.Surface)
	for i := range b.Fixes {
		f := &b.Fixes[i]
		f.How, f.Wall, f.Dir, f.Sup, f.Face = shared(f.How), shared(f.Wall), shared(f.Dir), shared(f.Sup), shared(f.Face)
	}
}

// Things are several things noted at once, such as an even grid.
type Things struct {
	Room string  `json:"room"`
	Each []Thing `json:"each"`
}

func (Things) Kind() string { return "things" }
func (b Things) In() string { return b.Room }

// Measured is a colleague's measurement of a thing noted already. It is kept beside the note, which stands
// until somebody decides otherwise.
type Measured struct {
	Room  string      `json:"room"`
	Name  string      `json:"n"`
	Fixes []place.Fix `json:"fix,omitempty"`
	Point place.Point `json:"at"` // used instead of Fixes whose support is gone from the log
}

func (Measured) Kind() string { return "measured" }
func (b Measured) In() string { return b.Room }

// Opened says that the holes of these things are cut, or that board is over them and they are not.
type Opened struct {
	Room  string   `json:"room"`
	Names []string `json:"names"`
	Not   bool     `json:"not,omitempty"`
}

func (Opened) Kind() string { return "open" }
func (b Opened) In() string { return b.Room }

// Told says that the sender was given the places of these things.
type Told struct {
	Room  string   `json:"room"`
	Names []string `json:"names"`
}

func (Told) Kind() string { return "told" }
func (b Told) In() string { return b.Room }

// UndoSkips is as for PlanPick.
func (Told) UndoSkips() bool { return true }
