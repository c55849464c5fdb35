package site

import (
	"encoding/json"
	"errors"
	"fmt"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Event is one entry of the log: who said what when, and what it means.
type Event struct {
	Seq  uint64
	Who  string
	Sent int64 // unix milliseconds; what decides between two notes of one thing
	Got  int64
	ID   string // the door's message id
	Text string // as typed
	Body Body
}

// Body is what an event means. Bodies are stored as JSON and are versioned by
// Version; a field is only ever added.
type Body interface{ Kind() string }

// Version of the bodies below. A log with a newer one is refused.
const Version = 1

type (
	JobTitle struct {
		Title string `json:"title"`
	}
	UnitsSet struct {
		Units length.Units `json:"units"`
	}
	Built struct {
		Year int `json:"year"`
	}
	// RoomSize: the room's extents to the faces that were there when sent.
	RoomSize struct {
		Room string        `json:"room"`
		EW   length.Length `json:"ew"`
		NS   length.Length `json:"ns"`
		High length.Length `json:"high,omitempty"`
		Less []Notch       `json:"less,omitempty"`
	}
	// Here: the sender is in Room from now on.
	Here struct {
		Room string `json:"room"`
	}
	// Named gives a room, or a wall of a room, one more name.
	Named struct {
		Room  string     `json:"room"`
		Wall  place.Wall `json:"wall,omitempty"`
		Alias string     `json:"alias"`
	}
	// Supports: a whole set measured off From, in the order given; or, with no
	// At, only a thickness or width for the set that is there.
	Supports struct {
		Room    string            `json:"room"`
		Surface place.Surface     `json:"s"`
		What    place.SupportKind `json:"what"`
		Run     place.Run         `json:"run,omitempty"`
		From    place.Wall        `json:"from,omitempty"`
		At      []length.Length   `json:"at,omitempty"`
		Spacing length.Length     `json:"oc,omitempty"`
		Thick   length.Length     `json:"thick,omitempty"`
		Wide    length.Length     `json:"wide,omitempty"`
	}
	// SupportFix corrects one support: where it is, or where it stops.
	SupportFix struct {
		Room    string            `json:"room"`
		Surface place.Surface     `json:"s"`
		What    place.SupportKind `json:"what"`
		N       int               `json:"n"`
		Moved   bool              `json:"moved,omitempty"` // At is set
		At      length.Length     `json:"at,omitempty"`
		From    place.Wall        `json:"from,omitempty"` // of At
		Start   length.Length     `json:"start,omitempty"`
		End     length.Length     `json:"end,omitempty"`
		Wall    place.Wall        `json:"wall,omitempty"`  // Start, End run off it
		Stops   bool              `json:"stops,omitempty"` // stops End short of Wall
	}
	// Board: zero fields stay as they were.
	Board struct {
		Thick   length.Length   `json:"thick,omitempty"`
		Wide    length.Length   `json:"wide,omitempty"`
		Lengths []length.Length `json:"lengths,omitempty"`
	}
	Clearance struct {
		L length.Length `json:"l"`
	}
	Screw struct {
		L length.Length `json:"l"`
	}
	// BoardsRun: Dir is "along", "across", "ew" or "ns".
	BoardsRun struct {
		Room string `json:"room"`
		Dir  string `json:"dir"`
	}
	// RowsFrom turns the count of rows round.
	RowsFrom struct {
		Room string     `json:"room"`
		Wall place.Wall `json:"wall"`
	}
	// Thing is an opening or a box that the board will cover. Point is where it
	// was when noted; it stands in for Fixes whose support is gone from the log.
	Thing struct {
		Room    string        `json:"room"`
		Name    string        `json:"n"`
		What    string        `json:"what"`
		Label   string        `json:"label,omitempty"`
		Surface place.Surface `json:"s"`
		Size    place.Size    `json:"size,omitzero"`
		Fixes   []place.Fix   `json:"fix,omitempty"`
		Point   place.Point   `json:"at"`
		Due     string        `json:"due,omitempty"` // "" is hanging
		New     bool          `json:"new,omitempty"` // the first note of this name
	}
	// Things are several noted at once (an even grid).
	Things struct {
		Room string  `json:"room"`
		Each []Thing `json:"each"`
	}
	// MarkSet is a mark on a support or on the framing.
	MarkSet struct {
		Room    string        `json:"room"`
		Name    string        `json:"n"`
		Surface place.Surface `json:"s"`
		Fixes   []place.Fix   `json:"fix"`
		Point   place.Point   `json:"at"`
	}
	// Gap is an opening measured for a board; Cut is what was answered.
	Gap struct {
		Room string        `json:"room,omitempty"`
		A    length.Length `json:"a"`
		B    length.Length `json:"b,omitempty"`
		CutA length.Length `json:"cuta"`
		CutB length.Length `json:"cutb,omitempty"`
	}
	// Hung: these pieces are up. All with no Pieces: the whole surface.
	Hung struct {
		Room    string        `json:"room"`
		Surface place.Surface `json:"s"`
		Row     int           `json:"row,omitempty"`
		Run     place.Run     `json:"run,omitempty"` // the boards' direction
		All     bool          `json:"all,omitempty"`
		Pieces  []place.Rect  `json:"pieces,omitempty"`
		// Sizes are the pieces as they were said; the last of a row may be short
		// of its wall by the clearance. Empty when no sizes were said.
		Sizes []length.Length `json:"sizes,omitempty"`
		// N are the planned pieces' places in their row, from 1. Empty: in the order given.
		N   []int    `json:"n,omitempty"`
		Cut []string `json:"cut,omitempty"` // things opened as it hung
		// Used are the boards and offcuts that planned pieces were cut from, Left the offcuts that were over.
		Used []Boards `json:"used,omitempty"`
		Left []Boards `json:"left,omitempty"`
	}
	// Boarded: Thick of board now stands on the wall; Finished: it never moves.
	Boarded struct {
		Room     string        `json:"room"`
		Wall     place.Wall    `json:"wall"`
		Thick    length.Length `json:"thick,omitempty"`
		Finished bool          `json:"finished,omitempty"`
	}
	// Opened: the holes of these things are cut.
	Opened struct {
		Room  string   `json:"room"`
		Names []string `json:"names"`
	}
	// Told: the sender was given the places of these things.
	Told struct {
		Room  string   `json:"room"`
		Names []string `json:"names"`
	}
	Note struct {
		Room string `json:"room,omitempty"`
		Text string `json:"text"`
	}
	// Snag stays open until a SnagFixed names its seq.
	Snag struct {
		Room string `json:"room,omitempty"`
		Text string `json:"text"`
	}
	SnagFixed struct {
		Seq uint64 `json:"seq"`
	}
	Hit struct {
		Room string `json:"room,omitempty"`
		What string `json:"what"`
	}
	// Route is a pipe, wire or duct that runs behind the board through Points.
	// At is where they were when noted, as Point of a Thing.
	Route struct {
		Room    string        `json:"room"`
		Name    string        `json:"n"`
		What    string        `json:"what"`
		Surface place.Surface `json:"s"`
		Size    length.Length `json:"size,omitempty"`
		Points  [][]place.Fix `json:"fix"`
		At      []place.Point `json:"at"`
		How     string        `json:"how,omitempty"` // "" not said, "depth", "top", "notched"
		Depth   length.Length `json:"depth,omitempty"`
		Conduit bool          `json:"conduit,omitempty"`
		// NotchK and NotchN name the one support it is notched into, Depth deep;
		// N 0: "notched" holds for all.
		NotchK place.SupportKind `json:"notchk,omitempty"`
		NotchN int               `json:"notchn,omitempty"`
	}
	// Plates guard a route where it crosses supports N.
	Plates struct {
		Room string            `json:"room"`
		Run  string            `json:"run"`
		What place.SupportKind `json:"what"`
		N    []int             `json:"n"`
	}
	// Code is the rule book the lead has chosen: "us" or "canada".
	Code struct {
		Code string `json:"code"`
	}
	// Setting is one of the lead's own numbers.
	Setting struct {
		What string        `json:"what"`
		L    length.Length `json:"l,omitempty"`
		N    float64       `json:"n,omitempty"`
		Per  int           `json:"per,omitempty"`
	}
	// Checked changes one check of a room's list. State: "ok", "failed", "waived", "add".
	Checked struct {
		Room   string `json:"room"`
		What   string `json:"what"`
		State  string `json:"state"`
		Reason string `json:"reason,omitempty"`
	}
	// Coat of compound. Temp is in degrees Fahrenheit, RH in percent; nil: not said.
	Coat struct {
		Room string   `json:"room"`
		N    int      `json:"n"`
		Temp *float64 `json:"f,omitempty"`
		RH   *float64 `json:"rh,omitempty"`
		Damp bool     `json:"damp,omitempty"`
	}
	// Painted: what was due after paint is due now.
	Painted struct {
		Room string `json:"room"`
	}
	// Texture: a water-based texture goes on the ceiling, or not.
	Texture struct {
		Room string `json:"room"`
		On   bool   `json:"on"`
	}
	// Stock counts boards by length. How: "is", "delivered", "used" (and, not in the
	// log, "hung": by a Hung entry).
	Stock struct {
		How   string   `json:"how"`
		Items []Boards `json:"items"`
	}
	// Boards is a count of boards of one length, or, with a width, of offcuts.
	Boards struct {
		N int           `json:"n"`
		L length.Length `json:"l"`
		W length.Length `json:"w,omitempty"`
	}
	// Longest board that gets in.
	Longest struct {
		L length.Length `json:"l"`
	}
	// PlanPick takes one of the layouts offered, from 1.
	PlanPick struct {
		Room string `json:"room"`
		Pick int    `json:"pick"`
		Said bool   `json:"said,omitempty"` // the crew took it; else the layout was only shown
	}
	// Photo: pictures that belong to entry Of.
	Photo struct {
		Room  string   `json:"room,omitempty"`
		Of    uint64   `json:"of"`
		Links []string `json:"links"`
	}
	// Strike takes an entry back; striking a strike brings it back.
	Strike struct {
		Seq  uint64 `json:"seq"`
		Undo bool   `json:"undo,omitempty"` // the sender's own last entry, by undo
	}
)

// Notch is a rectangle missing from the room, in plan.
type Notch struct {
	EW     length.Length `json:"ew"`
	NS     length.Length `json:"ns"`
	Corner string        `json:"corner,omitempty"` // "ne" "nw" "se" "sw"
	Wall   place.Wall    `json:"wall,omitempty"`   // mid-wall: at this wall,
	Off    length.Length `json:"off,omitempty"`    // Off from
	From   place.Wall    `json:"from,omitempty"`   // this one
}

func (JobTitle) Kind() string   { return "job" }
func (UnitsSet) Kind() string   { return "units" }
func (Built) Kind() string      { return "built" }
func (RoomSize) Kind() string   { return "room" }
func (Here) Kind() string       { return "in" }
func (Named) Kind() string      { return "alias" }
func (Supports) Kind() string   { return "straps" }
func (SupportFix) Kind() string { return "strap" }
func (Board) Kind() string      { return "board" }
func (Clearance) Kind() string  { return "clearance" }
func (Screw) Kind() string      { return "screw" }
func (BoardsRun) Kind() string  { return "boards" }
func (RowsFrom) Kind() string   { return "rows" }
func (Thing) Kind() string      { return "thing" }
func (Things) Kind() string     { return "things" }
func (MarkSet) Kind() string    { return "mark" }
func (Gap) Kind() string        { return "cut" }
func (Hung) Kind() string       { return "hung" }
func (Boarded) Kind() string    { return "boarded" }
func (Opened) Kind() string     { return "open" }
func (Told) Kind() string       { return "told" }
func (Note) Kind() string       { return "note" }
func (Snag) Kind() string       { return "snag" }
func (SnagFixed) Kind() string  { return "fixed" }
func (Hit) Kind() string        { return "hit" }
func (Route) Kind() string      { return "run" }
func (Plates) Kind() string     { return "plate" }
func (Code) Kind() string       { return "code" }
func (Setting) Kind() string    { return "set" }
func (Checked) Kind() string    { return "check" }
func (Coat) Kind() string       { return "coat" }
func (Painted) Kind() string    { return "painted" }
func (Texture) Kind() string    { return "texture" }
func (Stock) Kind() string      { return "stock" }
func (Longest) Kind() string    { return "longest" }
func (PlanPick) Kind() string   { return "plan" }
func (Photo) Kind() string      { return "photo" }
func (Strike) Kind() string     { return "strike" }

// decoders: one line a kind.
var decoders = map[string]func([]byte) (Body, error){
	"job": into[JobTitle], "units": into[UnitsSet], "built": into[Built], "room": into[RoomSize],
	"in": into[Here], "alias": into[Named], "straps": into[Supports], "strap": into[SupportFix],
	"board": into[Board], "clearance": into[Clearance], "screw": into[Screw], "boards": into[BoardsRun],
	"rows": into[RowsFrom], "thing": into[Thing], "things": into[Things], "mark": into[MarkSet],
	"cut": into[Gap], "hung": into[Hung], "boarded": into[Boarded], "open": into[Opened],
	"told": into[Told], "note": into[Note], "snag": into[Snag], "fixed": into[SnagFixed],
	"hit": into[Hit], "photo": into[Photo], "strike": into[Strike],
	"run": into[Route], "plate": into[Plates], "code": into[Code], "set": into[Setting], "check": into[Checked],
	"coat": into[Coat], "painted": into[Painted], "texture": into[Texture], "stock": into[Stock],
	"longest": into[Longest], "plan": into[PlanPick],
}

func into[T Body](data []byte) (Body, error) {
	var b T
	err := json.Unmarshal(data, &b)
	return b, err
}

// ErrNewer: an entry was written by a program that knows more kinds than this one.
var ErrNewer = errors.New("entry of a newer kind")

// Decode reads a stored body. A kind or version it does not know is [ErrNewer].
func Decode(kind string, version int, data []byte) (Body, error) {
	if version > Version {
		return nil, fmt.Errorf("%w: %q version %d", ErrNewer, kind, version)
	}
	dec, ok := decoders[kind]
	if !ok {
		return nil, fmt.Errorf("%w: %q", ErrNewer, kind)
	}
	b, err := dec(data)
	if err != nil {
		return nil, fmt.Errorf("entry kind %q: %w", kind, err)
	}
	return b, nil
}
