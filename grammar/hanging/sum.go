package hanging

import (
	"strings"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/numbers"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
)

// Sum: `sum 167-5/8" take 48" into 3`: tape lengths worked out from left to right. Without steps it is the
// length in the other units.
type Sum struct {
	From  length.Said
	Steps []SumStep
}

// SumStep is one step of a sum: a length added or taken off, or a number of times or of equal parts.
type SumStep struct {
	Op string // "add", "take", "x", "into"
	By length.Said
	N  int
}

func (e Sum) String() string {
	s := canon.Say("sum", e.From.String())
	for _, step := range e.Steps {
		if step.N > 0 {
			s = canon.Say(s, step.Op, step.N)
		} else {
			s = canon.Say(s, step.Op, step.By.String())
		}
	}
	return s
}
func (Sum) Kind() grammar.Kind { return "sum" }

func (s *sumSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Sum{From: numbers.Said(l, &s.From.Number, numbers.AnyLength)}
	for _, step := range s.Steps {
		switch {
		case step.By != nil:
			e.Steps = append(e.Steps, SumStep{Op: step.Op, By: numbers.Said(l, &step.By.Number, numbers.AnyLength)})
		default:
			e.Steps = append(e.Steps, SumStep{Op: step.Count, N: numbers.Counted(l, step.N)})
		}
	}
	return e, nil
}

type sumSyntax struct {
	From  numbers.NeedLength `parser:"'sum' @@"`
	Steps []*sumStep         `parser:"@@*"`
}

type sumStep struct {
	Op    string              `parser:"  @('add' | 'take')"`
	By    *numbers.NeedLength `parser:"  @@"`
	Count string              `parser:"| @('x' | 'into')"`
	N     *numbers.Count      `parser:"  @@"`
}

// sumLead begins a line that asks for a sum, sumIn ends one that asks for other units.
var (
	sumLead = pattern.Compile(`^(?:(?:so|ok|hey|and|quick math|math|,) *)*(?:what(?:'?s| is| does)?|how (?:much|long)(?:'?s| is)?|convert|calc(?:ulate)?|work out) `)
	sumIn   = pattern.Compile(`,? (?:(?:in|to|into|as) (?:mm|millimet(?:er|re)s|cm|metric|inch(?:es)?|imperial|feet(?: and inches)?|ft)|come(?:s)? to|equals?|make)$`)
	sumEnd  = pattern.Compile(`[ ,.!=?]+$`)
)

// sumWords are the ways to say a step, each with what the rule reads.
var sumWords = []struct {
	said  *pattern.Pattern
	means string
}{
	{pattern.Compile(`^(?:take|subtract) (.+?) (?:off|from|out of|away from)(?: of)? (.+)$`), `$2 take $1`},
	{pattern.Compile(`^add (.+?) (?:and|to|plus) (.+)$`), `$1 add $2`},
	{pattern.Compile(`^(?:split|divide|cut) (.+?) (?:by|in|into) (\w+)(?: (?:equal )?(?:parts|pieces|spaces|bays))?$`), `$1 into $2`},
	{pattern.Compile(`^(?:a |one )?half (?:of )?(?:a )?(.+)$`), `$1 into 2`},
	{pattern.Compile(`^(?:a |one )?third of (.+)$`), `$1 into 3`},
	{pattern.Compile(`^(?:a |one )?quarter of (.+)$`), `$1 into 4`},
	{pattern.Compile(`^(?:twice|double|two times) (.+)$`), `$1 x 2`},
	{pattern.Compile(`^(\d+|three|four|five|six|seven|eight|nine|ten|twelve) (?:times|lots of) (.+)$`), `$2 x $1`},
	{pattern.Compile(` (?:-|–|−|minus|less|take away|take off|subtract) `), ` take `},
	{pattern.Compile(` (?:plus|\+) `), ` add `},
	{pattern.Compile(` (?:times|×|\*) `), ` x `},
	{pattern.Compile(` (?:divided by|split (?:by|into|in)|÷|/) (\w+)(?: (?:equal )?(?:parts|pieces|spaces|bays))?`), ` into $1`},
}

// AsSum returns the sum that a line in lower case asks for, "" if it is none: `167 5/8 minus 48`, `what's
// half of 13' 4`, `whats 1200 mm in inches`.
func AsSum(said string) string {
	said = sumEnd.ReplaceAllString(said, "")
	rest := sumLead.ReplaceAllString(said, "")
	bare := sumIn.ReplaceAllString(rest, "")
	sum := bare
	for _, w := range sumWords {
		sum = w.said.ReplaceAllString(sum, w.means)
	}
	if sum == bare && bare == rest && !strings.HasPrefix(said, "convert ") {
		return ""
	}
	return "sum " + sum
}

var SumKinds = []read.Row{
	{Command: read.Command{Kind: "sum", Words: []string{"sum"}, About: "lengths added, taken off, times a number or into equal parts; both units",
		Example: "sum 167 5/8 take 48", Metric: "sum 4258 take 1220", Fits: `a length, then "add" or "take" and a length, "x" or "into" and a number`},
		Rule: read.Rule[sumSyntax](), Makes: []grammar.Entry{Sum{}}, Asks: true, Chat: read.Always},
}
