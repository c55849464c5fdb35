package grammar

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Entry is one thing said. String is its canonical text, which parses back
// to an equal Entry.
type Entry interface {
	Kind() Kind
	String() string
}

// Kind is an entry's name in the log and in the command table: "room", "thing", "hung", ...
type Kind string

// Line is one entry with what stood around it.
type Line struct {
	Room   string // "kitchen: ...", "... in kitchen": the declared name, "" when not said
	At     string // "at 9:58": 24 h "15:04", "" when not said
	Exact  bool   // am was said: At is not twelve hours later
	Before int    // "... before row 2": sent before that row went up, 0 when not said
	After  int    // "... after row 2"
	Entry  Entry
}

type (
	// Job sets the job's title: `job larkspur upper flat`.
	Job struct{ Title string }
	// UnitsSet: `units metric`.
	UnitsSet struct{ Units length.Units }
	// Built: `built 1962`, the year of the house; old ceilings carry cautions.
	Built struct{ Year int }

	// Room: `room kitchen 13' 4-1/2 x 11' 9 high 8' less 4' x 3' ne`.
	Room struct {
		Name   string
		EW, NS length.Said
		High   length.Said // zero when not said
		Less   []Notch
	}
	// Notch is a rectangle missing from a room: in a corner ("ne"), or at a wall,
	// Off its far corner wall. EW and NS are its extents in plan.
	Notch struct {
		EW, NS  length.Said
		Corner  string      // "ne" "nw" "se" "sw", or ""
		Wall    place.Wall  // with Corner "": the wall it stands at
		Off     length.Said // with Corner "": the distance from OffWall to its near edge
		OffWall place.Wall
	}
	// InRoom: `in kitchen`, `kitchen`: the sender is there now.
	InRoom struct{ Name string }
	// Alias: `north is window wall`, `kitchen is cook room`.
	Alias struct {
		Wall place.Wall // "" when Room is named
		Room string
		Name string
	}

	// SupportSet: `straps ew 16 oc first 14-3/8 off north`,
	// `straps ns at 9-1/2, 25-1/4 off west`, `straps 5/8 thick`, `studs ... on north wall`.
	SupportSet struct {
		What        place.SupportKind
		Surface     place.Surface
		Run         place.Run // "" when only Thick or Wide is said, and on walls ("studs" stand)
		Spacing     length.Said
		First       length.Said
		At          []length.Said
		From        place.Wall  // the wall First and At run from; "" = north or west by Run
		Thick, Wide length.Said // zero when not said
	}
	// SupportFix: `strap 4 at 57-1/4`, `strap 4 from 20 to 96 off west`,
	// `strap 4 stops 38 off east`.
	SupportFix struct {
		What       place.SupportKind
		N          int
		Surface    place.Surface
		At         length.Said // zero when not said
		From       place.Wall  // of At, when said again
		Start, End length.Said // extents along the support, from Wall; Start zero with "stops"
		Wall       place.Wall  // the wall Start/End are measured from; for "stops": the wall it stops short of
		Stops      bool
	}

	// Board: `board 1/2 x 48 lengths 8 10 12`; zero fields were not said.
	Board struct {
		Thick, Wide length.Said
		Lengths     []length.Said
	}
	// Clearance: `clearance 1/4`: how much a cut is under its opening, in all.
	Clearance struct{ L length.Said }
	// Screw: `screw 1-5/8`: the length used on this job.
	Screw struct{ L length.Said }
	// BoardsRun: `boards along`, `boards across`, `boards ew`, `boards ns`.
	BoardsRun struct{ Dir string }
	// RowsFrom: `rows from south`.
	RowsFrom struct{ Wall place.Wall }

	// Thing: `light 6" over sink 26 off west 41 off north`.
	Thing struct {
		What    string     // canonical kind: light, duct, box, vent, fan, ...
		Size    place.Size // zero when not said
		Name    string     // d1
		Label   string     // "over sink"
		Surface place.Surface
		Fixes   []place.Fix
		// AfterPaint: "after paint": its hole is cut after the painter, not as it is hung.
		AfterPaint bool
	}
	// Even: `lights 3 x 2 even`: A columns east-west, B rows north-south.
	Even struct {
		What string
		Size place.Size
		A, B int
	}
	// Mark: `mark a on strap 4, 22 off east`.
	Mark struct {
		Name    string
		Surface place.Surface
		Fixes   []place.Fix
	}

	// Gap: `gap 118-3/8 118-5/8`; B zero when one reading was given.
	Gap struct {
		A, B length.Said
	}
	// Hung: `hung 144 + 16-3/4 row 2 cut d1 d2`, `hung row 2`.
	Hung struct {
		Pieces  []length.Said
		Row     int
		Surface place.Surface // "" means the ceiling
		Run     place.Run     // which way the boards run, when said
		Cut     []string
	}
	// UpAll: `ceiling up`, `north wall up`.
	UpAll struct{ Surface place.Surface }
	// Boarded: `north wall boarded 1/2`, `west wall finished` (Thick zero, never moves).
	Boarded struct {
		Wall     place.Wall
		Thick    length.Said
		Finished bool
	}
	// Opened: `open d1 d2`: the holes are cut.
	Opened struct{ Names []string }

	// Find: `find d1`, `where is the sink light`.
	Find struct{ Name string }
	// Covered: `covered`, `what's covered in kitchen`.
	Covered struct{}
	// AnyOver: `any pipe over row 3`, `any lights in row 2`; Row 0: in the whole room.
	AnyOver struct {
		What string
		Row  int
	}
	// Log: `log`, `log kitchen`, `log today`, `log hanger`, `log of d1`.
	Log struct {
		Today bool
		Of    string // a thing, a person; "" = all
		Since int    // `log since 12`
	}
	// Who: `who hung row 2`; Row 0 with Surface: the whole of it.
	Who struct {
		Row     int
		Surface place.Surface
	}
	// Status: `status`.
	Status struct{}

	// Note: `note ...`, kept word for word.
	Note struct{ Text string }
	// Snag: `snag screw missed strap 4 row 2`; Fixed N > 0: `snag 3 fixed`.
	Snag struct {
		Text  string
		Fixed int
	}
	// Snags: `snags`: those that are open.
	Snags struct{}
	// Hit: `hit water`, `hit cable`, `hit gas`, `hit pipe` when nobody said of what.
	Hit struct{ What string }

	// Undo: `undo`, `scratch that`.
	Undo struct{}
	// Strike: `strike 17`.
	Strike struct{ Seq int }
	// Refix: `fix d1 7-1/4 south of strap 3`, `fix d1 6"`: new distances, or a new size.
	Refix struct {
		Name  string
		Size  place.Size
		Fixes []place.Fix
	}
	// Swap: `84 not 48`, `not 48, 84`: in the sender's own last entry.
	// `*84` has Old zero.
	Swap struct{ New, Old length.Said }

	// Help: `help`, `help light`.
	Help struct{ Topic string }
	// Pick: a bare `1`, `2`, `3` that answers a question.
	Pick struct{ N int }
	// Bare is a length alone: it fills the hole an open question left.
	Bare struct{ L length.Said }
)
