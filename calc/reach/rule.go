package reach

import (
	"strapline/calc/length"
	"strapline/calc/place"
)

// Rule is how far from a support's face and edges a kind of run must lie to
// need no steel plate, and what the plate must be: Thick at least, reaching
// Past the run or the support (0: the source fixes none).
type Rule struct {
	Setback     length.Length
	Thick, Past length.Length
	Source      string
}

const (
	inch      = length.Inch
	sixteenth = length.Sixteenth
	mil       = length.Inch / 1000
)

// rules by kind and code. The thresholds differ by code and by trade, so each
// stands for itself. Where a code's own value was not found the source says
// which one stands in. CE Code's 32 mm and NEC's 1-1/4 in (31.75 mm) are one
// nominal, so until a code is chosen the inch value serves.
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

// RuleFor is the plate rule of a kind of run; false for a duct, which none
// was found for, and a heating tube, whose output a plate kills.
func RuleFor(k Kind, c place.Code) (Rule, bool) {
	r, ok := rules[k][c]
	return r, ok
}

// PlateDue is a plate that is missing: the run crosses the support, or lies
// along it, nearer than its rule allows. From and To are coordinates along
// the support, the run's own width.
type PlateDue struct {
	Run, Support int
	At           place.Point
	From, To     length.Length
	Depth        length.Length // behind the support's face
	Gap          length.Length // sideways from its edge, 0 where the run passes behind the face
	Along        bool
	Rule         Rule
}

// platesAt lists the plates due at one support for a run that is nearer to
// its face than the rule. Crossing, the run must pass behind the face; along
// it, the sideways distance to the support's edge counts too (NEC 300.4(D)
// names furring strips), and only a run that is far enough one way or the other
// is let off.
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
