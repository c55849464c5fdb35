// Package reach says where not to screw or cut: how far a screw's tip goes past the
// board, which runs it reaches, which plates are due, which screws are safe, and which
// openings are in front of a run.
//
// Depths are measured from the back of the board, which is the face of the supports.
// Coordinates are those of the surface, at most a kilometre. Only noted runs can be
// found: an empty answer means that no run is noted, never that there is none. The
// numbers are for planning; the local code and the licensed trades have the last word.
package reach

import (
	"cmp"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Kind is what a run carries.
type Kind string

const (
	Wire     Kind = "wire"
	Pipe     Kind = "pipe"
	Gas      Kind = "gas"
	Duct     Kind = "duct"
	HeatTube Kind = "heat tube"
)

// How says how a run's depth is given.
type How int

const (
	NotSaid How = iota // unknown: assumed to touch the board, with a note
	Behind             // Depth behind the back of the board
	OnTop              // on the far side of the supports, so as deep as each is thick
)

// Run is a wire, pipe or duct, in straight lines from point to point of Path. Depth is
// to its face nearest the board. Half is half its width, 0 if unknown; then it is taken
// as a line.
type Run struct {
	Kind    Kind
	Path    []place.Point
	How     How
	Depth   length.Length
	Half    length.Length
	Notched []Notch
	Guards  []Guard
}

// Notch is a notch in a support in which a run lies, and its depth there.
type Notch struct {
	Support int // index into the supports
	Depth   length.Length
}

// Protection is what protects a run from screws.
type Protection int

const (
	Unguarded Protection = iota
	Plate                // a steel plate: no further plate is due, and no screw gets through
	Conduit              // metal or rigid plastic conduit: no plate is due (NEC 300.4 exceptions), but a screw is still a hit
)

// Guard is the protection of a run at a support.
type Guard struct {
	Support int
	By      Protection
}

// Allow is the allowances.
type Allow struct {
	Set    length.Length // how far the head is driven below the face
	Margin length.Length // a tip this close to a run is [Close]
	Beside length.Length // strip to keep clear beyond the run's width, on each side
}

// Usual allows 1/32 in of set (from memory), a margin of 1/4 in, and 1 in beside the run
// for errors of tape and aim (both our own, no source).
func Usual() Allow {
	return Allow{Set: 2 * length.SixtyFourth, Margin: 4 * length.Sixteenth, Beside: length.Inch}
}

// Tip is how far a screw's tip is past the back of the board: length - board + set.
// Subtract the thickness of a support to get how far it is past that, negative if inside.
func Tip(screw, board, set length.Length) length.Length { return screw - board + set }

// State is what a tip or a cutter does to a run.
type State int

const (
	Clear State = iota
	Close       // within the margin, but not touching
	Hit         // at the run's near face or past it
)

// Query is a screw, a board and what lies behind it.
type Query struct {
	Screw, Board length.Length
	Allow        Allow
	Code         place.Code
	Supports     []place.Support
	Runs         []Run
}

// Crossing is a stretch of a support behind which a run passes.
type Crossing struct {
	Run, Support int           // indices into the query
	At           place.Point   // where their centre lines meet, else the middle of the stretch
	From, To     length.Length // the strip to keep clear, in coordinates along the support
	Depth        length.Length // of the run's near face here
	Past         length.Length // of the tip beyond that face; negative if it stops short
	State        State
	Along        bool       // the run goes along the support rather than across it
	Guard        Protection // at this support
	Assumed      bool       // Depth is a thickness that was not measured
}

// NoteKind says what a note is about.
type NoteKind string

const (
	DepthUnknown NoteKind = "depth unknown" // the run's depth is unknown: assumed to touch the board
	AssumedThick NoteKind = "assumed thick" // a support's thickness is nominal, not measured
	NoPlateHeat  NoteKind = "no plate heat" // plates block the output of a heating tube: mark its lines and screw between
)

// Note is a doubt that goes with the answer, about a run or, with Run -1, about the supports.
type Note struct {
	Kind NoteKind
	Run  int
}

// Answer is every crossing, whatever its state, every plate due, and the doubts.
type Answer struct {
	Tip       length.Length
	Crossings []Crossing
	Plates    []PlateDue
	Notes     []Note
}

// Hits returns the crossings where the tip hits the run, with no plate in the way.
func (a Answer) Hits() []Crossing { return a.of(Hit) }

// Close returns the crossings where the tip comes within the margin, with no plate in the
// way.
func (a Answer) Close() []Crossing { return a.of(Close) }

func (a Answer) of(s State) []Crossing {
	var c []Crossing
	for _, x := range a.Crossings {
		if x.State == s && x.Guard != Plate {
			c = append(c, x)
		}
	}
	return c
}

// stateOf is the state of a run at depth, for a screw or cutter that reaches to tip.
func (a Allow) stateOf(tip, depth length.Length) State {
	switch {
	case tip >= depth:
		return Hit
	case depth-tip <= a.Margin:
		return Close
	}
	return Clear
}

// Check compares every run with every support. The crossings are in order of the run, then
// the support, then the place along it.
func Check(q Query) Answer {
	a := Answer{Tip: Tip(q.Screw, q.Board, q.Allow.Set)}
	for r, run := range q.Runs {
		rule, ruled := RuleFor(run.Kind, q.Code)
		crosses := false
		for s, sup := range q.Supports {
			depth := run.depthAt(s, sup)
			guard := run.guardAt(s)
			for _, st := range run.over(sup, 0) {
				crosses = true
				c := Crossing{
					Run: r, Support: s, Depth: depth, Past: a.Tip - depth, Along: st.along, Guard: guard,
					At:   pointOn(sup, st.mid),
					From: max(st.lo-q.Allow.Beside, sup.From), To: min(st.hi+q.Allow.Beside, sup.To),
					Assumed: run.onTopAt(s) && !sup.Measured,
				}
				c.State = q.Allow.stateOf(a.Tip, depth)
				a.Crossings = append(a.Crossings, c)
				if c.Assumed && !slices.Contains(a.Notes, Note{AssumedThick, -1}) {
					a.Notes = append(a.Notes, Note{AssumedThick, -1})
				}
			}
			if ruled && guard == Unguarded && depth < rule.Setback {
				for range run.platesAt(sup, rule) {
					a.Plates = append(a.Plates, PlateDue{r, s, rule})
				}
			}
		}
		if run.How == NotSaid {
			a.Notes = append(a.Notes, Note{DepthUnknown, r})
		}
		if run.Kind == HeatTube && crosses {
			a.Notes = append(a.Notes, Note{NoPlateHeat, r})
		}
	}
	return a
}

// notchAt is the depth of the run in a notch of a support, if there is one.
func (run Run) notchAt(support int) (length.Length, bool) {
	for _, n := range slices.Backward(run.Notched) {
		if n.Support == support {
			return n.Depth, true
		}
	}
	return 0, false
}

func (run Run) onTopAt(support int) bool {
	_, notched := run.notchAt(support)
	return !notched && run.How == OnTop
}

func (run Run) depthAt(support int, s place.Support) length.Length {
	if d, ok := run.notchAt(support); ok {
		return d
	}
	switch run.How {
	case OnTop:
		return s.Thick
	case Behind:
		return run.Depth
	}
	return 0
}

// guardAt is the best protection at a support; a plate is better than conduit.
func (run Run) guardAt(support int) Protection {
	by := Unguarded
	for _, g := range run.Guards {
		if g.Support == support && by != Plate {
			by = g.By
		}
	}
	return by
}

// pointOn is the place on the surface at u along the support's centre line.
func pointOn(s place.Support, u length.Length) place.Point {
	if s.Lie == place.Y {
		return place.Point{X: s.Pos, Y: u}
	}
	return place.Point{X: u, Y: s.Pos}
}

// stretch is a part of a support behind or beside which a run passes.
type stretch struct {
	lo, hi, mid length.Length // along the support; mid is where the centre lines meet, else the middle
	along       bool
}

// over finds the stretches of a support's face, widened by beside on both edges, that the
// run passes, and joins those that touch. If beside is positive, only legs along the support
// count.
func (run Run) over(s place.Support, beside length.Length) []stretch {
	var all []stretch
	for _, leg := range run.legs(s.Lie) {
		if beside > 0 && !leg.along() {
			continue
		}
		if st, ok := leg.across(s, run.Half, beside); ok {
			all = append(all, st)
		}
	}
	slices.SortStableFunc(all, func(a, b stretch) int { return cmp.Compare(a.lo, b.lo) })
	var joined []stretch
	for _, st := range all {
		last := len(joined) - 1
		if last < 0 || st.lo > joined[last].hi {
			joined = append(joined, st)
			continue
		}
		j := &joined[last]
		if st.hi > j.hi && st.along && j.along {
			j.mid = j.lo + (st.hi-j.lo)/2
		}
		j.hi, j.along = max(j.hi, st.hi), j.along || st.along
	}
	return joined
}
