package reach

import (
	"slices"

	"strapline/calc/length"
)

// Fit is one stock length held against the board, the supports and the runs.
// Bite is what holds in the support, counted without set: length - board, and
// no more than the thinnest support is thick. Room is what is left from the
// tip to the nearest run that is not behind a plate; it means nothing when
// Free, where nothing is noted to reach.
type Fit struct {
	Length, Bite, Room length.Length
	Free               bool
	Bites              bool // Bite is enough
	Misses             bool // Room is more than the margin, or Free
}

// OK: the length gives both bite and margin.
func (f Fit) OK() bool { return f.Bites && f.Misses }

// Advice is what to do when no length is both safe and strong enough.
type Advice string

const (
	PlateIt  Advice = "plate"   // a steel plate at each crossing: the run's kind is plated
	KeepLane Advice = "lane"    // no screws in the strips the crossings name
	MoveIt   Advice = "move"    // the run lies along the support: no screw lane is left, have its trade move it
	FurOut   Advice = "fur"     // thicker or second straps give the screw room and bite
	Measure  Advice = "measure" // a thickness or depth is assumed: measure before anything else
)

// Fits holds each stock length against the query (whose Screw is not used).
// need is the least bite the crew's rule wants, the set not counted; for a
// screw into steel the caller adds the sheet's thickness to it. When no length
// is OK it says what to do instead, the first thing first.
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
		f := Fit{Length: l, Bite: max(l-q.Board, 0), Free: free}
		if thinnest > 0 {
			f.Bite = min(f.Bite, thinnest)
		}
		f.Bites, f.Misses = f.Bite >= need, free
		if !free {
			tip := Tip(l, q.Board, q.Allow.Set)
			f.Room = nearest - tip
			f.Misses = q.Allow.stateOf(tip, nearest) == Clear
		}
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
