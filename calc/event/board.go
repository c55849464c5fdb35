package event

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Board sets the board in use, of the job, or of a part of it. Zero fields stay as they were.
type Board struct {
	Room string `json:"room,omitempty"`
	// On is a surface, or "walls" for all walls. No On means all of the room, or of the job without a Room.
	On      place.Surface   `json:"on,omitempty"`
	Thick   length.Length   `json:"thick,omitempty"`
	Wide    length.Length   `json:"wide,omitempty"`
	Lengths []length.Length `json:"lengths,omitempty"`
	Type    string          `json:"type,omitempty"` // green, x, as the crew calls it
}

func (Board) Kind() string { return "board" }
func (b Board) In() string { return b.Room }

// Screw sets the length of the lead's screw.
type Screw struct {
	L length.Length `json:"l"`
}

func (Screw) Kind() string { return "screw" }
func (Screw) In() string   { return "" }

// Clearance sets how much narrower in all a cut is than its gap.
type Clearance struct {
	L length.Length `json:"l"`
}

func (Clearance) Kind() string { return "clearance" }
func (Clearance) In() string   { return "" }

// Gap is a gap measured for a board. Cut is the size that was answered.
type Gap struct {
	Room string        `json:"room,omitempty"`
	A    length.Length `json:"a"`
	B    length.Length `json:"b,omitempty"`
	CutA length.Length `json:"cuta"`
	CutB length.Length `json:"cutb,omitempty"`
	// Long is the gap's other side, and the cut for it; zero if not measured.
	Long    length.Length `json:"long,omitempty"`
	CutLong length.Length `json:"cutlong,omitempty"`
}

func (Gap) Kind() string { return "cut" }
func (b Gap) In() string { return b.Room }

// Hung says that pieces are up. All without Pieces means the whole surface.
type Hung struct {
	Room    string          `json:"room"`
	Surface place.Surface   `json:"s"`
	Row     int             `json:"row,omitempty"`
	Run     place.Direction `json:"run,omitempty"` // the boards' direction
	All     bool            `json:"all,omitempty"`
	Pieces  []place.Rect    `json:"pieces,omitempty"`
	// Sizes are the pieces as said, empty if none were. The last one of a row may be short of its wall by
	// the clearance.
	Sizes []length.Length `json:"sizes,omitempty"`
	// N are the planned pieces' positions in their row, from 1. Empty means in the order given.
	N   []int    `json:"n,omitempty"`
	Cut []string `json:"cut,omitempty"` // things opened while it was hung
	// Used are the boards and offcuts that planned pieces were cut from, Left the offcuts that remain.
	Used []Boards `json:"used,omitempty"`
	Left []Boards `json:"left,omitempty"`
}

func (Hung) Kind() string { return "hung" }
func (b Hung) In() string { return b.Room }

// BoardsRun sets how boards run. Dir is "along", "across", "ew" or "ns", on a wall "standing" or "level".
// No Surface means the ceiling, or all walls for the last two.
type BoardsRun struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Dir     string        `json:"dir"`
}

func (BoardsRun) Kind() string { return "boards" }
func (b BoardsRun) In() string { return b.Room }

// RowsFrom sets where rows are counted from. No Surface means the ceiling.
type RowsFrom struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Wall    place.Wall    `json:"wall"`
}

func (RowsFrom) Kind() string { return "rows" }
func (b RowsFrom) In() string { return b.Room }

// PlanPick selects one of the layouts offered, from 1. No Surface means the ceiling.
type PlanPick struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Pick    int           `json:"pick"`
	Said    bool          `json:"said,omitempty"` // the crew took it; otherwise it was only shown
}

func (PlanPick) Kind() string { return "plan" }
func (b PlanPick) In() string { return b.Room }

// UndoSkips reports whether undo leaves the entry alone and takes back the one before.
func (b PlanPick) UndoSkips() bool { return !b.Said }

// Texture says whether a water-based texture goes on the ceiling.
type Texture struct {
	Room string `json:"room"`
	On   bool   `json:"on"`
}

func (Texture) Kind() string { return "texture" }
func (b Texture) In() string { return b.Room }

// First says whether the walls of the room are boarded before its ceiling.
type First struct {
	Room  string `json:"room"`
	Walls bool   `json:"walls,omitempty"`
}

func (First) Kind() string { return "first" }
func (b First) In() string { return b.Room }

// Stock counts boards by length. How is "is", "delivered", "ordered", "used", or "left" for what is left of one length.
// "up" is how many more are on a surface when nobody told their rows, below 0 if it was too many. ("hung" is not logged but
// comes from a Hung entry.)
type Stock struct {
	How   string   `json:"how"`
	Items []Boards `json:"items"`
	// Room and On are where boards are up.
	Room string        `json:"room,omitempty"`
	On   place.Surface `json:"on,omitempty"`
}

func (Stock) Kind() string { return "stock" }
func (b Stock) In() string { return b.Room }

// Longest sets the longest board that gets in.
type Longest struct {
	L length.Length `json:"l"`
}

func (Longest) Kind() string { return "longest" }
func (Longest) In() string   { return "" }

// Boards is a number of boards of one length, or of offcuts if it has a width. L is 0 if the length was not told.
type Boards struct {
	N int           `json:"n"`
	L length.Length `json:"l"`
	W length.Length `json:"w,omitempty"`
	// Thick and Type are of boards that were said to be of a kind.
	Thick length.Length `json:"thick,omitempty"`
	Type  string        `json:"type,omitempty"`
}

// Offcut reports whether these are offcuts, not whole boards.
func (b Boards) Offcut() bool { return b.W > 0 }

// Alike reports whether boards are of one size and kind.
func (b Boards) Alike(o Boards) bool { b.N, o.N = 0, 0; return b == o }

// Count returns how many of the boards are of a kind, as far as that was said. any is false if there are none.
func Count(all []Boards, kind Boards) (n int, any bool) {
	for _, b := range all {
		if (kind.L == 0 || b.L == kind.L) && (kind.Thick == 0 || b.Thick == kind.Thick) && (kind.Type == "" || b.Type == kind.Type) {
			n, any = n+b.N, true
		}
	}
	return n, any
}

// AddBoards adds boards to those of their size and kind.
func AddBoards(to []Boards, b Boards) []Boards {
	for i := range to {
		if to[i].Alike(b) {
			to[i].N += b.N
			return to
		}
	}
	return append(to, b)
}
