package fasten_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
)

// strap is n eighths thick, measured.
func strap(n length.Length) place.Support {
	return place.Support{Wide: in * 5 / 2, Thick: n * in / 8, Measured: true}
}

func TestScrewLength(t *testing.T) {
	joist := place.Support{Wide: in * 3 / 2, Thick: in * 15 / 2, Measured: true}
	channel := place.Support{Wide: in * 5 / 4, Thick: in * 7 / 8, Kind: place.Channels}
	for _, tt := range []struct {
		name        string
		w           fasten.Where
		s           place.Support
		screw, bite length.Length
		notes       []fasten.NoteKind
	}{
		// Common practice, no source (also engineerfix.com).
		{"1/2 on strap", fasten.Where{Board: in / 2}, strap(6), in * 5 / 4, in * 3 / 4, nil},
		{"5/8 on strap", fasten.Where{Board: in * 5 / 8}, strap(6), in * 13 / 8, in * 3 / 4, nil},
		{"5/8 on joist", fasten.Where{Board: in * 5 / 8}, joist, in * 13 / 8, in, nil},
		{"3/8 on joist", fasten.Where{Board: in * 3 / 8}, joist, in * 5 / 4, in * 7 / 8, nil},
		// Thicker than the usual boards: the shortest stock length that bites 5/8 (IRC R702.3.5.1).
		{"two layers of 1/2", fasten.Where{Board: in}, joist, in * 13 / 8, in * 5 / 8, nil},
		{"two layers of 5/8", fasten.Where{Board: in * 5 / 4}, joist, 2 * in, in * 3 / 4, nil},
		{"no such screw", fasten.Where{Board: 3 * in}, joist, 3 * in, 0,
			[]fasten.NoteKind{fasten.ShortBite, fasten.NoStockLength}},
		// At least 3/8 past the steel (IRC R702.3.5.1): 1 - 1/2 - 1/32 = 15/32; 1-1/8 - 5/8 - 1/32 = 15/32.
		{"1/2 on channel", fasten.Where{Board: in / 2}, channel, in, in * 15 / 32, nil},
		{"5/8 on channel", fasten.Where{Board: in * 5 / 8}, channel, in * 9 / 8, in * 15 / 32, nil},
		{"not measured", fasten.Where{Board: in / 2}, place.Support{Thick: in * 3 / 4}, in * 5 / 4, in * 3 / 4, nil},
		{"not measured, deep", fasten.Where{Board: in / 2}, place.Support{Thick: in * 15 / 2}, in * 5 / 4, in * 3 / 4, nil},
		// A strap measured at 5/8 just gives the bite; at 1/2 the screw must reach the joist.
		{"5/8 strap", fasten.Where{Board: in / 2}, strap(5), in * 5 / 4, in * 5 / 8, nil},
		{"1/2 strap", fasten.Where{Board: in / 2}, strap(4), in * 5 / 4, in / 2,
			[]fasten.NoteKind{fasten.ThinSupport, fasten.ShortBite}},
		// NBC Table 9.29.5.5: a 1 h ceiling needs 45 mm, more than 3/4 in strapping gives:
		// 15.875 + 45 = 60.9, so 2-1/2 in (63.5).
		{"1 h ceiling, canada", fasten.Where{Code: place.Canada, Board: in * 5 / 8, Rated: 60}, strap(6), in * 5 / 2, in * 3 / 4,
			[]fasten.NoteKind{fasten.ListingRules, fasten.ThinSupport, fasten.ShortBite}},
		{"1 h wall, canada", fasten.Where{Code: place.Canada, Wall: true, Board: in * 5 / 8, Rated: 60}, joist, in * 13 / 8, in,
			[]fasten.NoteKind{fasten.ListingRules}},
	} {
		got := fasten.ScrewLength(tt.w, tt.s)
		if got.Length != tt.screw || got.Bite != tt.bite {
			t.Errorf("%s: got %+v", tt.name, got)
		}
		if d := cmp.Diff(tt.notes, kinds(got.Notes)); d != "" {
			t.Errorf("%s: notes (-want +got)\n%s", tt.name, d)
		}
	}
}

// NBC Table 9.29.5.5, screws: least penetration in mm by rating.
func TestBiteCanada(t *testing.T) {
	for _, tt := range []struct {
		minutes       int
		wall, ceiling length.Length
	}{{0, 15, 15}, {45, 20, 30}, {60, 20, 45}, {90, 20, 60}, {30, 20, 30}, {120, 20, 60}} {
		for wall, want := range map[bool]length.Length{true: tt.wall, false: tt.ceiling} {
			got := fasten.Check(2*in, fasten.Where{Code: place.Canada, Wall: wall, Board: in / 2, Rated: tt.minutes}, strap(60))
			if got.Need != want*mm {
				t.Errorf("%d min, wall %v: need %d, want %d mm", tt.minutes, wall, got.Need, want)
			}
		}
	}
}

// Computed from the same table: 1-1/4 in through 12.7 mm bites 19.05 mm, enough without a
// rating but short of the 20 for a 45 min wall; 1-5/8 in through 5/8 in bites 25.4, enough
// for rated walls but short of the 30 for a 45 min ceiling.
func TestUsualScrewsAgainstRatings(t *testing.T) {
	for _, tt := range []struct {
		screw, board length.Length
		wall         bool
		rated        int
		bite         length.Length
		holds        bool
	}{
		{in * 5 / 4, in / 2, true, 0, 1905 * mm / 100, true},
		{in * 5 / 4, in / 2, true, 45, 1905 * mm / 100, false},
		{in * 13 / 8, in * 5 / 8, true, 45, 254 * mm / 10, true},
		{in * 13 / 8, in * 5 / 8, true, 90, 254 * mm / 10, true},
		{in * 13 / 8, in * 5 / 8, false, 45, 254 * mm / 10, false},
	} {
		got := fasten.Check(tt.screw, fasten.Where{Code: place.Canada, Wall: tt.wall, Board: tt.board, Rated: tt.rated}, strap(60))
		if got.Bite != tt.bite || got.Holds() != tt.holds {
			t.Errorf("%+v: got %+v", tt, got)
		}
	}
}

// Without a code the deeper bite counts: 5/8 in (15.875 mm) is more than NBC's 15, but less
// than NBC's rated ones.
func TestStrictestBite(t *testing.T) {
	for rated, want := range map[int]length.Length{0: in * 5 / 8, 45: 30 * mm, 60: 45 * mm} {
		if got := fasten.Check(2*in, fasten.Where{Board: in / 2, Rated: rated}, strap(60)).Need; got != want {
			t.Errorf("%d min: need %d", rated, got)
		}
	}
}

// A 1 in screw through 1/2 in board bites 1/2 in, too little for wood (trade handbooks and
// IRC R702.3.5.1 agree on 5/8).
func TestShortScrewIsSaid(t *testing.T) {
	got := fasten.Check(in, fasten.Where{Board: in / 2}, strap(6))
	if got.Holds() || !cmp.Equal(kinds(got.Notes), []fasten.NoteKind{fasten.ShortBite}) {
		t.Errorf("got %+v", got)
	}
}
