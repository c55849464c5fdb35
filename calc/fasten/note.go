package fasten

import "strapline/calc/length"

// NoteKind says what a note is about.
type NoteKind string

const (
	NoHold        NoteKind = "no hold"        // Support carries only Got of the piece: no screw will hold there
	NarrowStrip   NoteKind = "narrow strip"   // a piece Got wide cannot keep the edge distance on both sides
	EdgeInAir     NoteKind = "edge in air"    // no support under Side, which runs along the supports
	BayTooWide    NoteKind = "bay too wide"   // supports are Got apart, the code's limit is Limit
	NotAllowed    NoteKind = "not allowed"    // the code has no such use of this board at any spacing
	Unlisted      NoteKind = "unlisted board" // no row for a board Got thick: the next thinner one was used
	ListingRules  NoteKind = "listing rules"  // fire-rated: the listed design gives length and spacing
	AssumedThick  NoteKind = "assumed thick"  // the support's thickness Got is its name, not measured
	ShortBite     NoteKind = "short bite"     // the screw bites Got, the rule wants Limit
	ThinSupport   NoteKind = "thin support"   // the support (Got) is thinner than the bite the rule wants: the screw must reach what is behind it
	NoStockLength NoteKind = "no stock screw" // no screw we know of gives the bite Limit
)

// Note is a doubt or a warning that stands beside an answer. Fields that do
// not belong to its kind are zero, Support -1.
type Note struct {
	Kind       NoteKind
	Support    int
	Side       Side
	Got, Limit length.Length
	Source     string
}
