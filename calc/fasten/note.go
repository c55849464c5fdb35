package fasten

import "strapline/calc/length"

// NoteKind says what a note is about.
type NoteKind string

const (
	NoHold        NoteKind = "no hold"        // Support overlaps the piece by only Got: no screw will hold there
	NarrowStrip   NoteKind = "narrow strip"   // a piece Got wide cannot keep the edge distance on both sides
	EdgeInAir     NoteKind = "edge in air"    // Side, which runs along the supports, has none under it
	BayTooWide    NoteKind = "bay too wide"   // supports are Got apart, the code's limit is Limit
	NotAllowed    NoteKind = "not allowed"    // the code allows no such use of this board at any spacing
	Unlisted      NoteKind = "unlisted board" // no row for a board Got thick: the next thinner one was used
	ListingRules  NoteKind = "listing rules"  // fire-rated: the listed design governs length and spacing
	AssumedThick  NoteKind = "assumed thick"  // the support's thickness Got is nominal, not measured
	ShortBite     NoteKind = "short bite"     // the screw bites Got, the rule requires Limit
	ThinSupport   NoteKind = "thin support"   // the support (Got) is thinner than the required bite: the screw must reach what is behind it
	NoStockLength NoteKind = "no stock screw" // no stock length bites Limit
)

// Note is a doubt or a warning that goes with an answer. Fields that do not apply to
// its kind are zero; Support is -1.
type Note struct {
	Kind       NoteKind
	Support    int
	Side       Side
	Got, Limit length.Length
	Source     string
}
