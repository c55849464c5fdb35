package fasten

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// The sources named in rules and notes.
const (
	srcIRC     = "IRC Table R702.3.5 (rows from memory)"
	srcBiteIRC = "IRC R702.3.5.1"
	srcSpanNBC = "NBC Table 9.29.5.3"
	srcBiteNBC = "NBC Table 9.29.5.5"
	srcListing = "Gypsum Association, Using Gypsum Board, section III note 1"
)

// The two nominal support spacings. Canadian text says 400 and 600 mm, US text 16
// and 24 in (406.4 and 609.6 mm). Both mean the same framing, so the limit is the
// larger of each pair; otherwise 16 in framing would fail "400".
const (
	at16 = 16 * length.Inch
	at24 = 24 * length.Inch
)

// Where is where a board is fastened, as far as it matters to the codes.
type Where struct {
	Code    place.Code
	Wall    bool          // else a ceiling
	Board   length.Length // thickness
	Across  bool          // the long edges cross the supports
	Bay     length.Length // widest distance between neighbouring centre lines
	Texture bool          // the ceiling gets a water-based texture
	Rated   int           // fire rating in minutes, 0 for none
}

// Rule is the screw spacing for a piece.
type Rule struct {
	Spacing length.Length // at most
	Edge    length.Length // least distance from an edge
}

// The edge distances: 3/8 in (IRC R702.3.6, National Gypsum Construction
// Guide 12th ed. p.103), 10 mm (NBC 9.29.5.9).
const (
	edgeUS     = 6 * length.Sixteenth
	edgeCanada = 10 * length.Millimetre
)

// RuleFor returns the widest spacing that the code allows. If the framing is too wide
// for the board, or the board may not be used that way, it returns the rule of the
// closest row, with a note.
func RuleFor(w Where) (Rule, []Note) {
	var notes []Note
	if w.Rated > 0 {
		notes = append(notes, Note{Kind: ListingRules, Source: srcListing})
	}
	us, n := usRule(w)
	if w.Code == place.US {
		return us, append(notes, n...)
	}
	ca, m := canadaRule(w)
	if w.Code == place.Canada {
		return ca, append(notes, m...)
	}
	strict := us
	if ca.Spacing < us.Spacing {
		strict = ca
	}
	strict.Edge = max(us.Edge, ca.Edge)
	notes = append(notes, n...)
	for _, note := range m {
		if note.Kind != Unlisted || len(n) == 0 {
			notes = append(notes, note)
		}
	}
	return strict, notes
}

// usRow is a row of IRC 2018/2021 Table R702.3.5: single layer on wood, screws without
// adhesive. The rows are from memory, with medium confidence; 1/2 in under texture only to
// 16 in is confirmed in quotes.
type usRow struct {
	board   length.Length
	wall    bool
	along   bool // also with the long edges along the framing
	bay     length.Length
	spacing length.Length
	texture bool // also under a water-based texture (footnote d), but then only across
}

const (
	threeEighths = 6 * length.Sixteenth
	half         = 8 * length.Sixteenth
	fiveEighths  = 10 * length.Sixteenth
	sixteen      = 16 * length.Inch
	twelve       = 12 * length.Inch
)

// Rows of the same board and surface are in order of the bay.
var usRows = []usRow{
	{threeEighths, false, false, at16, twelve, false},
	{threeEighths, true, true, at16, sixteen, true},
	{half, false, true, at16, twelve, true},
	{half, false, false, at24, twelve, false},
	{half, true, true, at16, sixteen, true},
	{half, true, true, at24, twelve, true},
	{fiveEighths, false, true, at16, twelve, true},
	{fiveEighths, false, false, at24, twelve, true},
	{fiveEighths, true, true, at16, sixteen, true},
	{fiveEighths, true, true, at24, twelve, true},
}

// us returns the rows of a board that is used that way.
func us(w Where) []usRow {
	class, _ := classOf(w.Board)
	texture := w.Texture && !w.Wall
	return slices.DeleteFunc(slices.Clone(usRows), func(row usRow) bool {
		return row.board != class || row.wall != w.Wall || !w.Across && (!row.along || texture) || texture && !row.texture
	})
}

// Limit is the widest bay that a published table allows under a board, 0 if it may not be used that way.
type Limit struct {
	Bay   length.Length
	Table string
}

// Limits returns the limit of each table in force.
func Limits(w Where) (all []Limit) {
	if w.Code != place.Canada {
		irc := Limit{Table: "IRC R702.3.5"}
		for _, row := range us(w) {
			irc.Bay = max(irc.Bay, row.bay)
		}
		all = append(all, irc)
	}
	if w.Code != place.US {
		all = append(all, Limit{canadaBay(w), "NBC 9.29.5.3"})
	}
	return all
}

func usRule(w Where) (Rule, []Note) {
	_, notes := classOf(w.Board)
	r := Rule{Spacing: twelve, Edge: edgeUS}
	var widest length.Length
	for _, row := range us(w) {
		r.Spacing, widest = row.spacing, row.bay
		if w.Bay <= row.bay {
			break
		}
	}
	notes = append(notes, spanNotes(widest, w.Bay, srcIRC)...)
	return r, notes
}

// spanNotes compares the bay with the widest that the code allows, 0 if it allows none.
func spanNotes(widest, bay length.Length, source string) []Note {
	switch {
	case widest == 0:
		return []Note{{Kind: NotAllowed, Source: source}}
	case bay > widest:
		return []Note{{Kind: BayTooWide, Got: bay, Limit: widest, Source: source}}
	}
	return nil
}

// caRow is a row of NBC Table 9.29.5.3, read in the Alberta 2023 and Ontario 2024 texts: the
// widest bays, 0 where the table has a dash.
type caRow struct {
	board                  length.Length
	across                 bool
	wall, ceiling, sprayed length.Length // sprayed: under water-based texture
}

var caRows = []caRow{
	{threeEighths, false, 0, 0, 0},
	{threeEighths, true, at16, at16, 0},
	{half, false, at24, at16, 0},
	{half, true, at24, at24, at16},
	{fiveEighths, false, at24, at16, 0},
	{fiveEighths, true, at24, at24, at24},
}

// canadaBay returns the widest bay by that table.
func canadaBay(w Where) length.Length {
	class, _ := classOf(w.Board)
	row := caRows[slices.IndexFunc(caRows, func(row caRow) bool { return row.board == class && row.across == w.Across })]
	switch {
	case w.Wall:
		return row.wall
	case w.Texture:
		return row.sprayed
	}
	return row.ceiling
}

func canadaRule(w Where) (Rule, []Note) {
	_, notes := classOf(w.Board)
	// NBC 9.29.5.9: 300 mm on ceilings; on walls 400, but 300 if the supports are over
	// 400 apart or the wall is rated.
	r := Rule{Spacing: 300 * length.Millimetre, Edge: edgeCanada}
	if w.Wall && w.Bay <= at16 && w.Rated == 0 {
		r.Spacing = 400 * length.Millimetre
	}
	return r, append(notes, spanNotes(canadaBay(w), w.Bay, srcSpanNBC)...)
}

// classOf is the listed thickness to use for a board: the thickest that is no thicker
// than the board, within a manufacturing tolerance of 0.5 mm (EN 520; ASTM C1396 has
// 1/64 in, from memory).
func classOf(board length.Length) (length.Length, []Note) {
	const tolerance = length.Millimetre / 2
	class := threeEighths
	for _, c := range []length.Length{half, fiveEighths} {
		if board >= c-tolerance {
			class = c
		}
	}
	if board < class-tolerance || board > class+tolerance {
		return class, []Note{{Kind: Unlisted, Got: board}}
	}
	return class, nil
}
