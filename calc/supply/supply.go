// Package supply says what to bring: boards, screws, tape, compound, corner bead and
// nail plates. It also gives the weight of boards and the stack that a floor carries.
//
// What can be counted is counted: boards and joints from the layout, screws from the
// supports. Rules of thumb differ by a factor of two and more, so the answer gives the
// spread. The lead's own number overrides all rules.
//
// Areas are square feet and volumes US gallons, as in the published rules.
package supply

import (
	"cmp"
	"math"
	"slices"

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
	Waste    *float64 // percent of boards on top of the layout
	Compound *float64 // US gallons per 1000 sq ft
	PerBox   int      // screws in a box; default 1000 (common practice, no source)
	PerRoll  int      // ft of tape on a roll; default 500 (common practice, no source)
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

// By is what the number of a line is based on.
type By string

const (
	Layout  By = "layout"  // the boards that it takes
	Counted By = "counted" // on the layout
	Lead    By = "lead"    // the lead's own number
	Rule    By = "rule"    // the published rule that gives the most, since another trip costs more than a box
)

// Line is one line of an order.
type Line struct {
	What   What
	Size   Board   // of boards: their size, and the count in the layout
	Unit   string  // "board", "box", "roll", "gal", "stick", "plate"
	Count  int     // to bring, in whole units
	By     By      // what Count is based on
	Amount float64 // what By gives, before rounding up: screws, ft of tape, gallons, or pieces
	// The amounts by the published rules, and their range in whole units; 0 if there are none.
	Rules     []float64
	Low, High int
}

// The published rules of thumb, per 1000 sq ft, and percentages of waste. The first of each is that of
// Estimating in Building Construction, chapter 16.
var (
	screwRules    = []float64{1000, 1000}           // 32 per 4x8 sheet: a board maker's specification sheet
	tapeRules     = []float64{380, 370, 750}        // ft; makers (from memory); 24 ft per 4x8 sheet, a trade rule of thumb
	compoundRules = []float64{5, 9.4, 10, 11, 13.5} // gal; makers (from memory); 1 per 100 sq ft, a trade rule of thumb; home repair guides
	wasteRules    = []float64{5, 10, 12, 20}        // %; contractors' habit; waste measured on sites; trade magazine
)

// stick is the length of a corner bead (common practice, no source).
const stick = 8 * length.Foot

// Order lists what to bring for the job, leaving out what cannot be told.
func Order(j Job) []Line {
	var out []Line
	for _, b := range j.Boards {
		l := Line{What: Boards, Size: b, Unit: "board", Count: b.Count, By: Layout, Amount: float64(b.Count)}
		for _, waste := range wasteRules {
			l.Rules = append(l.Rules, float64(b.Count)*(100+waste)/100)
		}
		l.span(1)
		if w := j.Own.Waste; w != nil {
			l.count(Lead, float64(b.Count)*(100+*w)/100, 1)
		}
		out = append(out, l)
	}
	k := j.Area / 1000
	add := func(l Line, rules []float64, own *float64, counted, per float64) {
		for _, r := range rules {
			if k > 0 {
				l.Rules = append(l.Rules, r*k)
			}
		}
		l.span(per)
		switch {
		case own != nil && k > 0:
			l.count(Lead, *own*k, per)
		case counted > 0:
			l.count(Counted, counted, per)
		case len(l.Rules) > 0:
			l.count(Rule, slices.Max(l.Rules), per)
		default:
			return
		}
		out = append(out, l)
	}
	add(Line{What: Screws, Unit: "box"}, screwRules, nil, float64(j.Screws), float64(cmp.Or(j.Own.PerBox, 1000)))
	// 10 % more tape than joint, the allowance in the estimating text.
	add(Line{What: Tape, Unit: "roll"}, tapeRules, nil, feet(j.Joints)*1.1, float64(cmp.Or(j.Own.PerRoll, 500)))
	add(Line{What: Compound, Unit: "gal"}, compoundRules, j.Own.Compound, 0, 1)
	sticks := length.Length(0)
	for _, c := range j.Corners {
		sticks += (max(c, 0) + stick - 1) / stick
	}
	add(Line{What: Bead, Unit: "stick"}, nil, nil, float64(sticks), 1)
	add(Line{What: Plates, Unit: "plate"}, nil, nil, float64(j.Plates), 1)
	return out
}

// In converts the line to another unit, per of which make one of the old.
func (l Line) In(unit string, per float64) Line {
	l.Unit, l.Rules = unit, slices.Clone(l.Rules)
	for i := range l.Rules {
		l.Rules[i] *= per
	}
	l.count(l.By, l.Amount*per, 1)
	l.span(1)
	return l
}

// count bases the line on an amount, per of which make a unit.
func (l *Line) count(by By, amount, per float64) {
	l.By, l.Amount, l.Count = by, amount, up(amount/per)
}

// span sets the range of the rules, per of whose amounts make a unit.
func (l *Line) span(per float64) {
	if len(l.Rules) > 0 {
		l.Low, l.High = up(slices.Min(l.Rules)/per), up(slices.Max(l.Rules)/per)
	}
}

// up rounds up to whole units, except for an excess below 1e-6, which is a rounding error.
func up(x float64) int {
	if !(x > 0) {
		return 0
	}
	return int(min(math.Ceil(x-1e-6), 1e9))
}

func feet(l length.Length) float64 { return float64(l) / float64(length.Foot) }
