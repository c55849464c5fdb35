package grammar

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// The entries about planning the boards and about closing a room.
type (
	// Route: `pipe p1 40 off west from strap 2 to strap 7 depth 3/4`,
	// `wire w1 from 22 off west 30 off north to 22 off west 90 off north on top of the straps`.
	Route struct {
		What    string      // pipe, wire, gas, duct run, heat tube
		Name    string      // p1; "" when not said
		Size    length.Said // diameter, zero when not said
		Surface place.Surface
		Shared  []place.Fix   // said before "from": they hold for every point
		Points  [][]place.Fix // from, ... through ..., to; at least two
		How     string        // "" not said, "depth", "top" (on top of the straps), "notched" (Depth in a notch)
		Depth   length.Said
		Conduit bool
		Notch   place.Of // the one support it is notched into; zero: "notched" holds for all
	}
	// Plate: `plate p1 strap 3`, `plate p1 straps 3 5 7`.
	Plate struct {
		Run  string
		What place.SupportKind
		N    []int
	}
	// Code: `code us`, `code canada`.
	Code struct{ Code string }
	// Set: `set margin 3/8`, `set waste 10`, `set compound 9 per 1000`: the lead's own numbers.
	// What: margin, set (how far a head is driven below the face), stagger, sliver, short, rip (lengths in L);
	// waste (percent), compound (gallons per Per sq ft), box (screws in a box), rated (minutes of fire, 0 for none) (in N).
	Set struct {
		What string
		L    length.Said
		N    float64
		Per  int
	}
	// Reach: `reach`, `reach 1 5/8` (with that screw).
	Reach struct{ Screw length.Said }
	// Screws: `screws`, `how many screws`.
	Screws struct{}
	// Ready: `ready`, `is kitchen ready`, `kitchen good to close?`.
	Ready struct{}
	// Check: `check nails ok`, `check electrical inspection passed`, `check vapour barrier waived heated side is inside`,
	// `check insulation failed`, `check add fire caulk`.
	Check struct {
		What   string // as typed, lower case
		State  string // ok (ok, done, passed, in), failed, waived, add
		Reason string
	}
	// Handoff: `handoff`, `handoff taper`, `handoff electrician`, `handoff painter`.
	Handoff struct{ To string }
	// Coat: `coat 2 60f 70%`, `coat 1 16c damp`.
	Coat struct {
		N    int
		Temp float64
		Unit string  // "f" or "c", "" when no temperature was said
		RH   float64 // percent, -1 when not said
		Damp bool
	}
	// Painted: `painted`, `ceiling painted`.
	Painted struct{}

	// Layout: `layout`, `layout 2` takes the second of those offered.
	Layout struct{ Pick int }
	// Cuts: `cuts`, `cut list`.
	Cuts struct{}
	// Order: `order`, `what do i order`.
	Order struct{}
	// StockSet: `stock 9 x 12' 4 x 8'` is what there is now; `delivered 40 x 12'` adds; `used 2 x 8'` takes away.
	StockSet struct {
		How   string // "is", "delivered", "used"
		Items []Boards
	}
	// Boards is a count of boards of one length.
	Boards struct {
		N int
		L length.Said
	}
	// BoardsLeft: `boards left`, `how many 12s left` (L = 12').
	BoardsLeft struct{ L length.Said }
	// Longest: `longest in 10'`: the longest board that gets in.
	Longest struct{ L length.Said }
	// Bring: `bring tomorrow`, `what do i bring`.
	Bring struct{}
	// HungPlan: `hung r2`, `hung r2.1 r2.3 cut d1`: planned pieces, by their ids.
	HungPlan struct {
		IDs []string
		Cut []string
	}
	// Planned: `whats r2.1`, `row 2?`: what is planned of a piece, or of a row.
	Planned struct{ ID string }
	// Rest: `whats left to hang`.
	Rest struct{}
	// OtherWay: `boards the other way`: the run they do not have now.
	OtherWay struct{}
	// Texture: `texture` (a water-based texture goes on), `no texture`.
	Texture struct{ On bool }
)
