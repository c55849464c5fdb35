package reach

import (
	"slices"

	"strapline/calc/length"
)

// Fit is a stock length checked against the board, the supports and the runs.
type Fit struct {
	Length length.Length
	Bite   length.Length // in the support, not counting set: Length less the board, at most the thinnest support
	Bites  bool          // Bite is enough
	Misses bool          // the tip stays clear of every run not behind a plate
}

// OK reports whether the length has both enough bite and enough room.
func (f Fit) OK() bool { return f.Bites && f.Misses }

// Advice is what to do when no length is both safe and strong enough.
type Advice string

const (
	PlateIt  Advice = "plate"   // put a steel plate at each crossing, if there is a plate rule for the run
	KeepLane Advice = "lane"    // put no screws in the strips of the crossings
	MoveIt   Advice = "move"    // the run goes along the support and leaves no place to screw: have its trade move it
	FurOut   Advice = "fur"     // thicker or second straps give the screw room and bite
	Measure  Advice = "measure" // a thickness or depth is assumed: measure first
)

// Fits checks each stock length against the query, whose Screw is not used. need is the
// least bite, not counting set; for a screw into steel the caller adds the thickness of
// the sheet. If no length is OK, the advice says what to do, most important first.
func Fits(q Query, stock []length.Length, need length.Length) ([]Fit, []Advice) {
	q.Screw = 0
	a := Check(q)
	var thinnest, nearest length.Length
	for _, s := range q.Supports {
		if s.Thick > 0 && (thinnest == 0 || s.Thick < thinnest) {
			thinnest = s.Thick
		}
	}
	free := true
	for _, c := range a.Crossings {
		if c.Guard != Plate && (free || c.Depth < nearest) {
			free, nearest = false, c.Depth
		}
	}
	var fits []Fit
	for _, l := range stock {
		f := Fit{Length: l, Bite: max(l-q.Board, 0)}
		if thinnest > 0 {
			f.Bite = min(f.Bite, thinnest)
		}
		f.Bites = f.Bite >= need
		f.Misses = free || q.Allow.stateOf(Tip(l, q.Board, q.Allow.Set), nearest) == Clear
		fits = append(fits, f)
	}
	if slices.ContainsFunc(fits, Fit.OK) {
		return fits, nil
	}
	bites := slices.ContainsFunc(fits, func(f Fit) bool { return f.Bites })
	return fits, advise(q, a, bites)
}

func advise(q Query, a Answer, bites bool) []Advice {
	var measure, plate, along, across bool
	for _, n := range a.Notes {
		measure = measure || n.Kind == DepthUnknown || n.Kind == AssumedThick
	}
	for _, c := range a.Crossings {
		if c.Guard == Plate {
			continue
		}
		_, ruled := RuleFor(q.Runs[c.Run].Kind, q.Code)
		plate = plate || ruled
		along = along || c.Along
		across = across || !c.Along
	}
	var what []Advice
	for _, o := range []struct {
		when bool
		what Advice
	}{{measure, Measure}, {plate, PlateIt}, {across, KeepLane}, {along, MoveIt}, {along || across || !bites, FurOut}} {
		if o.when {
			what = append(what, o.what)
		}
	}
	return what
}
