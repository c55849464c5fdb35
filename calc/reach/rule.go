package reach

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Rule is a plate rule for a kind of run.
type Rule struct {
	Setback length.Length // from a support's face and edges; closer runs need a steel plate
	Source  string
}

const inch = length.Inch

// rules by kind and code. The thresholds differ by code and by trade. Where a code's own
// value was not found, the source says which one is used instead. CE Code's 32 mm and NEC's
// 1-1/4 in (31.75 mm) are the same nominal value, so until a code is chosen the inch value
// applies.
var rules = map[Kind]map[place.Code]Rule{
	Wire: {
		place.Strictest: {5 * inch / 4, "NEC 300.4(A) and (D), CE Code 12-516"},
		place.US:        {5 * inch / 4, "NEC 300.4(A) and (D); 300.6 in the 2026 edition"},
		place.Canada:    {32 * length.Millimetre, "CE Code 12-516"},
	},
	Pipe: {
		place.Strictest: {3 * inch / 2, "IRC M1308.2 (2006)"},
		place.US:        {5 * inch / 4, "IRC P2603.2.1 (2015 on); plate as IPC 305"},
		place.Canada:    {3 * inch / 2, "IRC M1308.2 (2006); no Canadian value at hand"},
	},
	Gas: {
		place.Strictest: {3 * inch / 2, "IFGC 404.7 (from memory)"},
		place.US:        {3 * inch / 2, "IFGC 404.7 (from memory)"},
		place.Canada:    {3 * inch / 2, "IFGC 404.7 (from memory); no Canadian value at hand"},
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
	Rule         Rule
}

// platesAt returns how many plates are due at a support for a run that is closer to its face
// than the rule allows. A run that crosses must pass behind the face. For one along the
// support the sideways distance to its edge counts too (NEC 300.4(D) names furring strips):
// it needs no plate if it is far enough in either direction.
func (run Run) platesAt(sup place.Support, rule Rule) int {
	beside := run.over(sup, rule.Setback-length.Nanometre)
	due := len(beside)
	for _, st := range run.over(sup, 0) {
		if !slices.ContainsFunc(beside, func(b stretch) bool { return b.lo <= st.lo && st.hi <= b.hi }) {
			due++
		}
	}
	return due
}
