// Package supply says what to bring: boards, screws, tape, compound, corner
// bead and nail plates, what the boards weigh, and what a stack of them does to a floor.
//
// What can be counted is counted (boards and joints from the layout, screws from the supports). Where there are only
// rules of thumb they differ by a factor of two and more, so every rule is given with its
// source and the spread is part of the answer. A number of the crew's lead comes before any rule.
//
// Areas are square feet and volumes US gallons, as in the published rules.
package supply

import (
	"math"

	"strapline/calc/length"
)

// Board is a number of boards of one size.
type Board struct {
	Width, Length length.Length
	Count         int
}

// Job is what is to be covered and what is known of it. Zero means not known.
type Job struct {
	Area    float64 // of all surfaces, square feet
	Boards  []Board // as the layouts take them
	Screws  int     // as counted on the layouts
	Joints  length.Length
	Corners []length.Length // outside corners, each to be beaded in one
	Plates  int             // crossings that need one
	Own     Numbers
}

// Numbers are the lead's own; nil means none was given.
type Numbers struct {
	Waste    *float64 // percent more boards than the layout takes
	Screws   *float64 // per 1000 sq ft
	Tape     *float64 // ft per 1000 sq ft
	Compound *float64 // US gallons per 1000 sq ft
	PerBox   int      // screws in a box, 0 = 1000 (common practice, no source)
	PerRoll  int      // ft of tape on a roll, 0 = 500 (common practice, no source)
	Stick    length.Length
}

// What is a thing to bring.
type What string

const (
	Boards   What = "boards"
	Screws   What = "screws"
	Tape     What = "tape"
	Compound What = "compound"
	Bead     What = "bead"
	Plates   What = "plates"
)

// Line is one line of an order.
type Line struct {
	What  What
	Size  Board  // of boards: the size, its Count as in the layout
	Unit  string // "board", "box", "roll", "gal", "stick", "plate"
	Count int    // to bring, whole units
	Basis Basis  // what Count rests on
	// What the published rules would bring, in the same unit; both 0 when there are none.
	Low, High int
	Rules     []Basis
}

// Basis is a rule and what comes of it, before rounding up.
type Basis struct {
	Rule   string
	Source string
	Amount float64
}

// rule is a rule of thumb per 1000 square feet, or a percentage of waste.
type rule struct {
	per    float64
	text   string
	source string
}

const estimating = "Estimating in Building Construction, chapter 16"

var (
	screwRules = []rule{
		{1000, "1000 screws per 1000 sq ft", estimating},
		{1000, "32 screws per 4x8 sheet", "board maker's specification sheet"},
	}
	tapeRules = []rule{
		{380, "380 ft of tape per 1000 sq ft", estimating},
		{370, "370 ft of tape per 1000 sq ft", "makers, from memory"},
		{750, "24 ft of tape per 4x8 sheet", "trade rule of thumb"},
	}
	compoundRules = []rule{
		{5, "5 gal per 1000 sq ft", estimating},
		{9.4, "9.4 gal per 1000 sq ft", "makers, from memory"},
		{10, "1 gal per 100 sq ft", "trade rule of thumb"},
		{11, "11 gal per 1000 sq ft", "home repair guide"},
		{13.5, "13.5 gal per 1000 sq ft", "home repair guide"},
	}
	wasteRules = []rule{
		{5, "5 % waste", estimating},
		{10, "10 % waste", "contractors' habit"},
		{12, "12 % waste", "waste measured on sites"},
		{20, "20 % waste", "trade magazine"},
	}
)

// Order lists what to bring for the job, only what is known or asked for.
func Order(j Job) []Line {
	var out []Line
	for _, b := range j.Boards {
		l := Line{What: Boards, Size: b, Unit: "board", Count: b.Count,
			Basis: Basis{Rule: "layout", Source: "layout", Amount: float64(b.Count)}}
		for _, r := range wasteRules {
			l.rule(r, float64(b.Count)*(100+r.per)/100, 1)
		}
		if w := j.Own.Waste; w != nil {
			l.own("waste", float64(b.Count)*(100+*w)/100, 1)
		}
		out = append(out, l)
	}
	k := j.Area / 1000
	add := func(l Line, rules []rule, own *float64, per float64) {
		for _, r := range rules {
			if k > 0 {
				l.rule(r, r.per*k, per)
			}
		}
		switch {
		case own != nil && k > 0:
			l.own("per 1000 sq ft", *own*k, per)
		case l.Basis.Amount > 0: // counted
			l.Count = up(l.Basis.Amount / per)
		case len(l.Rules) > 0: // the dearest rule: a trip costs more than a box
			l.Count = l.High
			for _, r := range l.Rules {
				if r.Amount > l.Basis.Amount {
					l.Basis = r
				}
			}
		default:
			return
		}
		out = append(out, l)
	}
	count := func(n float64) Basis { return Basis{Rule: "counted", Source: "layout", Amount: n} }
	add(Line{What: Screws, Unit: "box", Basis: count(float64(j.Screws))}, screwRules, j.Own.Screws, float64(or(j.Own.PerBox, 1000)))
	// A tenth more tape than joint: the text's own allowance.
	add(Line{What: Tape, Unit: "roll", Basis: count(feet(j.Joints) * 1.1)}, tapeRules, j.Own.Tape, float64(or(j.Own.PerRoll, 500)))
	add(Line{What: Compound, Unit: "gal"}, compoundRules, j.Own.Compound, 1)
	stick := j.Own.Stick
	if stick <= 0 {
		stick = 8 * length.Foot // common practice, no source
	}
	sticks := 0
	for _, c := range j.Corners {
		sticks += int((max(c, 0) + stick - 1) / stick)
	}
	if sticks > 0 {
		out = append(out, Line{What: Bead, Unit: "stick", Count: sticks, Basis: count(float64(sticks))})
	}
	if j.Plates > 0 {
		out = append(out, Line{What: Plates, Unit: "plate", Count: j.Plates, Basis: count(float64(j.Plates))})
	}
	return out
}

// In is the line in another unit, of which there are per in the old one.
func (l Line) In(unit string, per float64) Line {
	rules := l.Rules
	l.Unit, l.Basis.Amount, l.Rules, l.Low, l.High = unit, l.Basis.Amount*per, nil, 0, 0
	l.Count = up(l.Basis.Amount)
	for _, r := range rules {
		l.rule(rule{text: r.Rule, source: r.Source}, r.Amount*per, 1)
	}
	return l
}

func (l *Line) rule(r rule, amount, per float64) {
	n := up(amount / per)
	if len(l.Rules) == 0 || n < l.Low {
		l.Low = n
	}
	l.High = max(l.High, n)
	l.Rules = append(l.Rules, Basis{r.text, r.source, amount})
}

func (l *Line) own(rule string, amount, per float64) {
	l.Count = up(amount / per)
	l.Basis = Basis{rule, "lead", amount}
}

// up rounds up to whole units; what is over by less than a millionth is arithmetic, not need.
func up(x float64) int {
	if !(x > 0) {
		return 0
	}
	return int(min(math.Ceil(x-1e-6), 1e9))
}

func feet(l length.Length) float64 { return float64(l) / float64(length.Foot) }

func or(n, d int) int {
	if n > 0 {
		return n
	}
	return d
}
