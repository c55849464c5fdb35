package fasten

import "strapline/calc/length"

// NoteKind says what a note is about.
type NoteKind string

const (
	BayTooWide    NoteKind = "bay too wide"   // supports are Got apart, the code's limit is Limit
	NotAllowed    NoteKind = "not allowed"    // the code allows no such use of this board at any spacing
	Unlisted      NoteKind = "unlisted board" // no row for a board Got thick: the next thinner one was used
	ListingRules  NoteKind = "listing rules"  // fire-rated: the listed design governs length and spacing
	ShortBite     NoteKind = "short bite"     // the screw bites Got, the rule requires Limit
	ThinSupport   NoteKind = "thin support"   // the support (Got) is thinner than the required bite: the screw must reach what is behind it
	NoStockLength NoteKind = "no stock screw" // no stock length bites Limit
)

// Note is a doubt or a warning that goes with an answer. Fields that do not apply to
// its kind are zero.
type Note struct {
	Kind       NoteKind
	Got, Limit length.Length
	Source     string
}
