package fasten_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
)

func kinds(notes []fasten.Note) []fasten.NoteKind {
	var k []fasten.NoteKind
	for _, n := range notes {
		k = append(k, n.Kind)
	}
	return k
}

// IRC Table R702.3.5 (2018/2021), single layer, no adhesive. Every row is from memory
// (not found as text), with medium confidence. 12 in on ceilings and 16 in on walls are
// also in USG FAQ 1595 (usg.com).
func TestSpacingUS(t *testing.T) {
	for _, tt := range []struct {
		board        length.Length
		wall, across bool
		bay, spacing length.Length
		texture      bool
		want         []fasten.NoteKind
	}{
		{board: in * 3 / 8, across: true, bay: 16 * in, spacing: 12 * in},
		{board: in * 3 / 8, bay: 16 * in, spacing: 12 * in, want: []fasten.NoteKind{fasten.NotAllowed}},
		{board: in * 3 / 8, wall: true, bay: 16 * in, spacing: 16 * in},
		{board: in / 2, bay: 16 * in, spacing: 12 * in},
		{board: in / 2, bay: 24 * in, spacing: 12 * in, want: []fasten.NoteKind{fasten.BayTooWide}},
		{board: in / 2, across: true, bay: 24 * in, spacing: 12 * in},
		{board: in / 2, wall: true, across: true, bay: 24 * in, spacing: 12 * in},
		{board: in / 2, wall: true, bay: 16 * in, spacing: 16 * in},
		{board: in / 2, wall: true, bay: 16*in + length.Sixteenth, spacing: 12 * in},
		{board: in * 5 / 8, bay: 16 * in, spacing: 12 * in},
		{board: in * 5 / 8, across: true, bay: 24 * in, spacing: 12 * in},
		{board: in * 5 / 8, wall: true, bay: 24 * in, spacing: 12 * in},
		{board: in * 5 / 8, wall: true, bay: 16 * in, spacing: 16 * in},
		// Footnote d (thebuildingcodeforum.com thread 6081): regular 1/2 in under texture only up to 16 in.
		{board: in / 2, across: true, bay: 24 * in, texture: true, spacing: 12 * in, want: []fasten.NoteKind{fasten.BayTooWide}},
		{board: in / 2, across: true, bay: 16 * in, texture: true, spacing: 12 * in},
		{board: in * 5 / 8, across: true, bay: 24 * in, texture: true, spacing: 12 * in},
		// The rest of footnote d, from memory: no 3/8 in under texture, and boards only across.
		{board: in * 3 / 8, across: true, bay: 16 * in, texture: true, spacing: 12 * in, want: []fasten.NoteKind{fasten.NotAllowed}},
		{board: in / 2, bay: 16 * in, texture: true, spacing: 12 * in, want: []fasten.NoteKind{fasten.NotAllowed}},
		{board: in / 2, across: true, bay: 32 * in, spacing: 12 * in, want: []fasten.NoteKind{fasten.BayTooWide}},
		{board: in / 4, wall: true, bay: 16 * in, spacing: 16 * in, want: []fasten.NoteKind{fasten.Unlisted}},
		// 12.5 mm (EN 520, tolerance 0.5 mm) counts as 12.7.
		{board: 125 * mm / 10, across: true, bay: 24 * in, spacing: 12 * in},
	} {
		r, notes := fasten.RuleFor(fasten.Where{Code: place.US, Wall: tt.wall, Board: tt.board, Across: tt.across, Bay: tt.bay, Texture: tt.texture})
		if r.Spacing != tt.spacing || r.Edge != in*3/8 {
			t.Errorf("%+v: got %+v", tt, r)
		}
		if d := cmp.Diff(tt.want, kinds(notes)); d != "" {
			t.Errorf("%+v: notes (-want +got)\n%s", tt, d)
		}
	}
}

// NBC Table 9.29.5.3 (as in the Alberta 2023 and Ontario 2024 texts), with 16 and 24 in
// framing for 400 and 600 mm. 0 is a dash.
func TestSupportSpacingCanada(t *testing.T) {
	for _, tt := range []struct {
		board                  length.Length
		across                 bool
		wall, painted, sprayed length.Length
	}{
		{95 * mm / 10, false, 0, 0, 0},
		{95 * mm / 10, true, 400, 400, 0},
		{127 * mm / 10, false, 600, 400, 0},
		{127 * mm / 10, true, 600, 600, 400},
		{159 * mm / 10, false, 600, 400, 0},
		{159 * mm / 10, true, 600, 600, 600},
	} {
		for _, use := range []struct {
			wall, texture bool
			most          length.Length
		}{{true, false, tt.wall}, {false, false, tt.painted}, {false, true, tt.sprayed}} {
			for bay, nominal := range map[length.Length]length.Length{
				400 * mm: 400, 16 * in: 400, 407 * mm: 600, 600 * mm: 600, 24 * in: 600, 610 * mm: 900,
			} {
				_, notes := fasten.RuleFor(fasten.Where{Code: place.Canada, Wall: use.wall, Board: tt.board, Across: tt.across, Bay: bay, Texture: use.texture})
				var want []fasten.NoteKind
				if use.most == 0 {
					want = []fasten.NoteKind{fasten.NotAllowed}
				} else if nominal > use.most {
					want = []fasten.NoteKind{fasten.BayTooWide}
				}
				if d := cmp.Diff(want, kinds(notes)); d != "" {
					t.Errorf("%+v %+v bay %d (-want +got)\n%s", tt, use, bay, d)
				}
			}
		}
	}
}

// NBC 9.29.5.9 (300 mm on ceilings seen only in the Ontario 2024 text).
func TestScrewSpacingCanada(t *testing.T) {
	for _, tt := range []struct {
		name string
		w    fasten.Where
		want length.Length
	}{
		{"ceiling", fasten.Where{Bay: 400 * mm}, 300 * mm},
		{"wall on 400", fasten.Where{Wall: true, Bay: 400 * mm}, 400 * mm},
		// 16 in is 406.4 mm, but must not fail "400".
		{"wall on 16 in", fasten.Where{Wall: true, Bay: 16 * in}, 400 * mm},
		{"wall on 600", fasten.Where{Wall: true, Bay: 600 * mm}, 300 * mm},
		{"rated wall", fasten.Where{Wall: true, Bay: 400 * mm, Rated: 45}, 300 * mm},
	} {
		tt.w.Code, tt.w.Board, tt.w.Across = place.Canada, 127*mm/10, true
		r, _ := fasten.RuleFor(tt.w)
		if r.Spacing != tt.want || r.Edge != 10*mm {
			t.Errorf("%s: got %+v", tt.name, r)
		}
	}
}

// With no code chosen each value is the stricter of the two. The codes differ by 4.8 mm
// in the spacing and 0.475 mm at the edge.
func TestStrictestUntilChosen(t *testing.T) {
	for _, w := range []fasten.Where{
		{Board: in / 2, Across: true, Bay: 16 * in},
		{Board: in / 2, Wall: true, Bay: 16 * in},
		{Board: in / 2, Wall: true, Bay: 24 * in},
		{Board: in * 5 / 8, Rated: 60, Across: true, Bay: 16 * in},
		{Board: in / 2, Bay: 24 * in},
		{Board: in / 4, Wall: true, Bay: 16 * in},
	} {
		strict, notes := fasten.RuleFor(w)
		us, ca := w, w
		us.Code, ca.Code = place.US, place.Canada
		u, un := fasten.RuleFor(us)
		c, cn := fasten.RuleFor(ca)
		if strict.Spacing != min(u.Spacing, c.Spacing) || strict.Edge != max(u.Edge, c.Edge) {
			t.Errorf("%+v: got %+v of %+v and %+v", w, strict, u, c)
		}
		for _, k := range append(kinds(un), kinds(cn)...) {
			if !slices.Contains(kinds(notes), k) {
				t.Errorf("%+v: %s lost", w, k)
			}
		}
	}
	// An unlisted board gets one note, not one per code.
	_, notes := fasten.RuleFor(fasten.Where{Board: in / 4, Wall: true, Across: true, Bay: 16 * in})
	if d := cmp.Diff([]fasten.NoteKind{fasten.Unlisted}, kinds(notes)); d != "" {
		t.Errorf("1/4 in board (-want +got)\n%s", d)
	}
	// The 48 in board still takes five: 1199.2 / 300 = 3.997.
	r, _ := fasten.RuleFor(fasten.Where{Board: in / 2, Across: true, Bay: 16 * in})
	if got := fasten.PerCrossing(48*in, r.Edge, r.Spacing); got != 5 {
		t.Errorf("48 in board takes %d", got)
	}
}

// A rated ceiling is fastened according to its listing (Gypsum Association, Using Gypsum
// Board, section III note 1).
func TestListingIsNamed(t *testing.T) {
	for _, tt := range []struct {
		w    fasten.Where
		want []fasten.NoteKind
	}{
		{fasten.Where{Board: in * 5 / 8, Across: true, Bay: 16 * in, Rated: 60}, []fasten.NoteKind{fasten.ListingRules}},
		{fasten.Where{Board: in * 5 / 8, Across: true, Bay: 16 * in}, nil},
	} {
		_, notes := fasten.RuleFor(tt.w)
		if d := cmp.Diff(tt.want, kinds(notes)); d != "" {
			t.Errorf("%+v (-want +got)\n%s", tt.w, d)
		}
	}
}
