// Package reach says where not to screw and not to cut: how far a screw's tip
// comes past the board, which runs it reaches, which plates are due, which
// screw would do, and which openings pass a run.
//
// Everything is measured from the plane in which the back of the board lies,
// which is the face of the supports. Coordinates are those of the surface and
// are taken to be those of a building: within a kilometre. What was not noted
// cannot be found here: an empty answer means "no note of a run", never "no
// run". The numbers are for planning; the local code and the licensed trade
// have the last word.
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

// How says how a run's depth is known.
type How int

const (
	NotSaid How = iota // taken as lying on the board's back, with a note
	Behind             // Depth behind the board's back
	OnTop              // on the back of the supports: as deep as each is thick
)

// Run is a wire, pipe or duct through its points, in a straight line from
// each to the next. Depth is to the face that is nearest to the board, Half
// half the width it takes up (0: not known, it is then taken as a line).
type Run struct {
	Name    string
	Kind    Kind
	Path    []place.Point
	How     How
	Depth   length.Length
	Half    length.Length
	Notched []Notch
	Guards  []Guard
}

// Notch is where a run lies in a notch of a support, at a depth of its own.
type Notch struct {
	Support int // index into the supports
	Depth   length.Length
}

// Protection is what guards a run.
type Protection int

const (
	Unguarded Protection = iota
	Plate                // a steel plate: no plate is due, and no screw gets through
	Conduit              // metal or rigid plastic conduit: no plate is due (NEC 300.4 exceptions), but a screw is still a hit
)

// Guard is the protection of a run at one support.
type Guard struct {
	Support int
	By      Protection
}

// Allow is what is allowed for. Set is how far the head is driven below the
// face, Margin how near a tip may come before it is called close, Beside how
// much wider than the run itself the strip to keep clear is, on each side.
type Allow struct{ Set, Margin, Beside length.Length }

// Usual allows 1/32 in of set (from memory), a margin of 1/4 in and an inch
// beside the run for tape and aim (both are our own, no source). All three
// are the lead's to change.
func Usual() Allow {
	return Allow{Set: 2 * length.SixtyFourth, Margin: 4 * length.Sixteenth, Beside: length.Inch}
}

// Tip is how far a screw's tip stands past the back of the board:
// length - board + set. Less the thickness of a support it is what stands
// past that; below zero the tip is still inside.
func Tip(screw, board, set length.Length) length.Length { return screw - board + set }

// State is what a tip or a cutter does to a run.
type State int

const (
	Clear State = iota
	Close       // nearer than the margin, not touching
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
	Run, Support int           // indexes into the query
	At           place.Point   // where their centre lines meet, or the middle of the stretch
	From, To     length.Length // the strip to keep clear, coordinates along the support
	Depth        length.Length // of the run's near face here
	Past         length.Length // of the tip beyond that face; below zero it stops short
	State        State
	Along        bool       // the run goes along the support rather than across
	Guard        Protection // a plate or conduit at this support
	Assumed      bool       // Depth comes of a thickness that nobody measured
}

// NoteKind says what a note is about.
type NoteKind string

const (
	DepthUnknown NoteKind = "depth unknown" // nobody said how deep the run lies: taken as touching the board
	SizeUnknown  NoteKind = "size unknown"  // nobody said how wide it is: taken as a line
	AssumedThick NoteKind = "assumed thick" // Support's thickness is its name, not measured
	NoPlateHeat  NoteKind = "no plate heat" // plates kill the output of a heating tube: mark its lines and screw between
	NoPlateRule  NoteKind = "no plate rule" // no plate rule is known for this kind of run
)

// Note is a doubt that stands beside the answer; Run or Support is -1 where
// it does not belong.
type Note struct {
	Kind         NoteKind
	Run, Support int
}

// Answer is every crossing, whatever its state, every plate due, and doubts.
type Answer struct {
	Tip       length.Length
	Crossings []Crossing
	Plates    []PlateDue
	Notes     []Note
}

// Hits are the crossings that the tip reaches with no plate in its way.
func (a Answer) Hits() []Crossing { return a.of(Hit) }

// Close are those that it comes within the margin of.
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

// stateOf says what something that comes to tip does to a run at depth.
func (a Allow) stateOf(tip, depth length.Length) State {
	switch {
	case tip >= depth:
		return Hit
	case depth-tip <= a.Margin:
		return Close
	}
	return Clear
}

// Check lays every run against every support. Crossings come by run, then
// support, then along it.
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
				if c.Assumed && !slices.Contains(a.Notes, Note{AssumedThick, -1, s}) {
					a.Notes = append(a.Notes, Note{AssumedThick, -1, s})
				}
			}
			if ruled && guard == Unguarded && depth < rule.Setback {
				a.Plates = append(a.Plates, run.platesAt(r, s, sup, depth, rule)...)
			}
		}
		a.Notes = append(a.Notes, run.notes(r, ruled, crosses)...)
	}
	return a
}

func (run Run) notes(r int, ruled, crosses bool) []Note {
	var n []Note
	if run.How == NotSaid {
		n = append(n, Note{DepthUnknown, r, -1})
	}
	if run.Half <= 0 {
		n = append(n, Note{SizeUnknown, r, -1})
	}
	if !ruled && crosses {
		kind := NoPlateRule
		if run.Kind == HeatTube {
			kind = NoPlateHeat
		}
		n = append(n, Note{kind, r, -1})
	}
	return n
}

// notchAt is the depth of the run's notch in a support, if it has one there.
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

// guardAt is the best protection at a support: a plate before conduit.
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

// stretch is a part of a support that a run passes.
type stretch struct {
	lo, hi, mid length.Length // mid: where the centre lines meet, else the middle
	gap         length.Length // least distance sideways from the face's edge to the run
	along       bool
}

// over finds the stretches of a support's face, widened by beside on both
// edges, that the run passes; those that touch are one. With a width beside
// the face only legs that go along the support count.
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
		j.hi, j.gap, j.along = max(j.hi, st.hi), min(j.gap, st.gap), j.along || st.along
	}
	return joined
}
