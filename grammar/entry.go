package grammar

import "strapline/calc/length"

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

// Wall is one of the four walls, by its plan direction.
type Wall string

const (
	North Wall = "north"
	East  Wall = "east"
	South Wall = "south"
	West  Wall = "west"
)

// Surface is what a thing is on: Ceiling, or a wall by its name. The zero
// value means it was not said.
type Surface string

const Ceiling Surface = "ceiling"

// Run is the plan direction of a line or a board.
type Run string

const (
	EW Run = "ew"
	NS Run = "ns"
)

// Len is a length as said: its exact value and the bit over or under.
type Len struct {
	L   length.Length
	Tag length.Tag
}

// Fix is one distance (or one line) that pins a coordinate.
type Fix struct {
	How   How
	L     Len    // not for OnLine
	Wall  Wall   // OffWall: off which; Along: from which; "" = not said, ask
	Side  string // OffWall with Wall "": what was said instead: "left", "right" or ""
	Dir   Wall   // DirOf: which way from Of
	Of    Of     // DirOf, OnLine, Along
	Edge  bool   // said "to edge": L runs to the thing's nearest edge, not its centre
	Face  Face   // OffWall, Along: measured to which face, when said
	Notch string // OffWall: "notch" = from the notch's wall, "main" = from the room's own wall, "" = not said
}

// How a Fix pins.
type How string

const (
	OffWall How = "off"   // 26 off west
	DirOf   How = "dir"   // 7 south of strap 3, 18-1/2 south of mark a
	Up      How = "up"    // 16 up (off floor)
	Down    How = "down"  // 8 down (off ceiling)
	OnLine  How = "on"    // on strap 4
	Along   How = "along" // 44-3/8 along strap 3 from east
)

// Face says which face of a wall a distance was held to.
type Face string

const (
	AnyFace   Face = ""
	Framing   Face = "framing" // "studs", "bare"
	BoardFace Face = "board"
)

// Of is what a distance is measured from other than a wall: a support
// (Support and N) or a named mark or thing (Name).
type Of struct {
	Support SupportKind // "" when Name is set
	N       int         // counts from 1
	Edge    bool        // the support's near edge, not its centre line
	Name    string      // a mark's or a thing's name, as declared
}

// SupportKind is what the board is fixed to.
type SupportKind string

const (
	Straps   SupportKind = "straps"
	Joists   SupportKind = "joists"
	Studs    SupportKind = "studs"
	Channels SupportKind = "channels"
)

// Size of a thing: A alone is round (a diameter), A and B a rectangle.
// On the ceiling A runs east-west and B north-south; on a wall A is along, B up.
type Size struct{ A, B length.Length }

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
		EW, NS Len
		High   Len // zero when not said
		Less   []Notch
	}
	// Notch is a rectangle missing from a room: in a corner ("ne"), or at a wall,
	// Off its far corner wall. EW and NS are its extents in plan.
	Notch struct {
		EW, NS  Len
		Corner  string // "ne" "nw" "se" "sw", or ""
		Wall    Wall   // with Corner "": the wall it stands at
		Off     Len    // with Corner "": the distance from OffWall to its near edge
		OffWall Wall
	}
	// InRoom: `in kitchen`, `kitchen`: the sender is there now.
	InRoom struct{ Name string }
	// Alias: `north is window wall`, `kitchen is cook room`.
	Alias struct {
		Wall Wall // "" when Room is named
		Room string
		Name string
	}

	// SupportSet: `straps ew 16 oc first 14-3/8 off north`,
	// `straps ns at 9-1/2, 25-1/4 off west`, `straps 5/8 thick`, `studs ... on north wall`.
	SupportSet struct {
		What        SupportKind
		Surface     Surface
		Run         Run // "" when only Thick or Wide is said, and on walls ("studs" stand)
		Spacing     Len
		First       Len
		At          []Len
		From        Wall // the wall First and At run from; "" = north or west by Run
		Thick, Wide Len  // zero when not said
	}
	// SupportFix: `strap 4 at 57-1/4`, `strap 4 from 20 to 96 off west`,
	// `strap 4 stops 38 off east`.
	SupportFix struct {
		What       SupportKind
		N          int
		Surface    Surface
		At         Len  // zero when not said
		From       Wall // of At, when said again
		Start, End Len  // extents along the support, from Wall; Start zero with "stops"
		Wall       Wall // the wall Start/End are measured from; for "stops": the wall it stops short of
		Stops      bool
	}

	// Board: `board 1/2 x 48 lengths 8 10 12`; zero fields were not said.
	Board struct {
		Thick, Wide Len
		Lengths     []Len
	}
	// Clearance: `clearance 1/4`: how much a cut is under its opening, in all.
	Clearance struct{ L Len }
	// Screw: `screw 1-5/8`: the length used on this job.
	Screw struct{ L Len }
	// BoardsRun: `boards along`, `boards across`, `boards ew`, `boards ns`.
	BoardsRun struct{ Dir string }
	// RowsFrom: `rows from south`.
	RowsFrom struct{ Wall Wall }

	// Thing: `light 6" over sink 26 off west 41 off north`.
	Thing struct {
		What    string // canonical kind: light, duct, box, vent, fan, ...
		Size    Size   // zero when not said
		Name    string // d1
		Label   string // "over sink"
		Surface Surface
		Fixes   []Fix
		// AfterPaint: "after paint": its hole is cut after the painter, not as it is hung.
		AfterPaint bool
	}
	// Even: `lights 3 x 2 even`: A columns east-west, B rows north-south.
	Even struct {
		What string
		Size Size
		A, B int
	}
	// Mark: `mark a on strap 4, 22 off east`.
	Mark struct {
		Name    string
		Surface Surface
		Fixes   []Fix
	}

	// Gap: `gap 118-3/8 118-5/8`; B zero when one reading was given.
	Gap struct {
		A, B Len
	}
	// Hung: `hung 144 + 16-3/4 row 2 cut d1 d2`, `hung row 2`.
	Hung struct {
		Pieces  []Len
		Row     int
		Surface Surface // "" means the ceiling
		Run     Run     // which way the boards run, when said
		Cut     []string
	}
	// UpAll: `ceiling up`, `north wall up`.
	UpAll struct{ Surface Surface }
	// Boarded: `north wall boarded 1/2`, `west wall finished` (Thick zero, never moves).
	Boarded struct {
		Wall     Wall
		Thick    Len
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
		Surface Surface
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
		Size  Size
		Fixes []Fix
	}
	// Swap: `84 not 48`, `not 48, 84`: in the sender's own last entry.
	// `*84` has Old zero.
	Swap struct{ New, Old Len }

	// Help: `help`, `help light`.
	Help struct{ Topic string }
	// Pick: a bare `1`, `2`, `3` that answers a question.
	Pick struct{ N int }
	// Bare is a length alone: it fills the hole an open question left.
	Bare struct{ L Len }
)
