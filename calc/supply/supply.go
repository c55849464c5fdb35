// Package supply says what to bring: boards, screws, tape, compound, corner bead and
// nail plates. It also gives the weight of boards and the stack that a floor carries.
//
// What can be counted is counted: boards and joints from the layout, screws from the
// supports. Rules of thumb differ by a factor of two and more, so the answer gives every
// rule with its source and the spread. The lead's own number overrides all rules.
//
// Areas are square feet and volumes US gallons, as in the published rules.
package supply

import (
	"math"

	"strapline/calc/length"
)

// Board is a number of boards of one size and kind.
type Board struct {
	Width, Length length.Length
	Kind          string // as it is ordered; "" if all are the same
	Count         int
}

// Job is what is to be covered and what is known about it. Zero means unknown.
type Job struct {
	Area    float64 // of all surfaces, square feet
	Boards  []Board // that the layouts take
	Screws  int     // as counted on the layouts
	Joints  length.Length
	Corners []length.Length // outside corners; each gets its own sticks of bead
	Plates  int             // crossings that need a nail plate
	Own     Numbers
}

// Numbers are the lead's own numbers; nil means none was given.
type Numbers struct {
	Waste    *float64      // percent of boards on top of the layout
	Screws   *float64      // per 1000 sq ft
	Tape     *float64      // ft per 1000 sq ft
	Compound *float64      // US gallons per 1000 sq ft
	PerBox   int           // screws in a box; default 1000 (common practice, no source)
	PerRoll  int           // ft of tape on a roll; default 500 (common practice, no source)
	Stick    length.Length // of corner bead; default 8 ft (common practice, no source)
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
	Size  Board  // of boards: their size, and the count in the layout
	Unit  string // "board", "box", "roll", "gal", "stick", "plate"
	Count int    // to bring, in whole units
	Basis Basis  // what Count is based on
	// The range of the published rules, in whole units; both 0 if there are none.
	Low, High int
	Rules     []Basis
}

// Basis is a rule and the amount it gives, before rounding up.
type Basis struct {
	Rule   string
	Source string
	Amount float64 // screws, ft of tape, gallons, or pieces
}

// rule is a rule of thumb: an amount per 1000 square feet, or a percentage of waste.
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

// Order lists what to bring for the job, leaving out what cannot be told.
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
		case len(l.Rules) > 0: // take the largest, since another trip costs more than a box
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
	// 10 % more tape than joint, the allowance in the estimating text.
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

// In converts the line to another unit, per of which make one of the old.
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

// up rounds up to whole units, except for an excess below 1e-6, which is a rounding error.
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
