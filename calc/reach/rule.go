package reach

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Rule is a plate rule for a kind of run.
type Rule struct {
	Setback length.Length // from a support's face and edges; closer runs need a steel plate
	Thick   length.Length // of the plate, at least; 0 if the source gives none
	Past    length.Length // how far the plate extends past the run or the support; 0 if the source gives none
	Source  string
}

const (
	inch      = length.Inch
	sixteenth = length.Sixteenth
	mil       = length.Inch / 1000
)

// rules by kind and code. The thresholds differ by code and by trade. Where a code's own
// value was not found, the source says which one is used instead. CE Code's 32 mm and NEC's
// 1-1/4 in (31.75 mm) are the same nominal value, so until a code is chosen the inch value
// applies.
var rules = map[Kind]map[place.Code]Rule{
	Wire: {
		place.Strictest: {5 * inch / 4, sixteenth, 0, "NEC 300.4(A) and (D), CE Code 12-516"},
		place.US:        {5 * inch / 4, sixteenth, 0, "NEC 300.4(A) and (D); 300.6 in the 2026 edition"},
		place.Canada:    {32 * length.Millimetre, 0, 0, "CE Code 12-516"},
	},
	Pipe: {
		place.Strictest: {3 * inch / 2, 62 * mil, 2 * inch, "IRC M1308.2 (2006)"},
		place.US:        {5 * inch / 4, 575 * mil / 10, 2 * inch, "IRC P2603.2.1 (2015 on); plate as IPC 305"},
		place.Canada:    {3 * inch / 2, 62 * mil, 2 * inch, "IRC M1308.2 (2006); no Canadian value at hand"},
	},
	Gas: {
		place.Strictest: {3 * inch / 2, 575 * mil / 10, 4 * inch, "IFGC 404.7 (from memory)"},
		place.US:        {3 * inch / 2, 575 * mil / 10, 4 * inch, "IFGC 404.7 (from memory)"},
		place.Canada:    {3 * inch / 2, 575 * mil / 10, 4 * inch, "IFGC 404.7 (from memory); no Canadian value at hand"},
	},
}

// RuleFor returns the plate rule for a kind of run. ok is false for a duct, for which none
// was found, and for a heating tube, whose output a plate would block.
func RuleFor(k Kind, c place.Code) (r Rule, ok bool) {
	r, ok = rules[k][c]
	return r, ok
}

// PlateDue is a missing plate: a run crosses a support, or goes along it, closer than its
// rule allows.
type PlateDue struct {
	Run, Support int
	At           place.Point
	From, To     length.Length // of the run's own width, in coordinates along the support
	Depth        length.Length // behind the support's face
	Gap          length.Length // sideways from its edge; 0 if the run passes behind the face
	Along        bool
	Rule         Rule
}

// platesAt lists the plates due at a support for a run that is closer to its face than the
// rule allows. A run that crosses must pass behind the face. For one along the support the
// sideways distance to its edge counts too (NEC 300.4(D) names furring strips): it needs no
// plate if it is far enough in either direction.
func (run Run) platesAt(r, s int, sup place.Support, depth length.Length, rule Rule) []PlateDue {
	stretches := run.over(sup, rule.Setback-length.Nanometre)
	beside := len(stretches)
	for _, st := range run.over(sup, 0) {
		covered := false
		for _, b := range stretches[:beside] {
			covered = covered || b.lo <= st.lo && st.hi <= b.hi
		}
		if !covered {
			stretches = append(stretches, st)
		}
	}
	var due []PlateDue
	for _, st := range stretches {
		due = append(due, PlateDue{
			Run: r, Support: s, At: pointOn(sup, st.mid), From: st.lo, To: st.hi,
			Depth: depth, Gap: st.gap, Along: st.along, Rule: rule,
		})
	}
	return due
}
