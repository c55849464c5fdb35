package sizes

import (
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/grammar/hanging"
)

// longestSum is the most a sum comes to.
const longestSum = 1000 * 1000 * length.Millimetre

var signs = map[string]string{"add": "+", "take": "-", "x": "x", "into": "/"}

type sumFacts struct {
	Sum   say.Len `json:"sum"`
	Exact bool    `json:"exact"` // false if it was taken to the nearest mark of the tape
}

// sum works out lengths from left to right, like a tape held to a tape.
func sum(c answer.Ctx, e hanging.Sum) answer.Reply {
	l, exact := e.From.L, e.From.Tag == length.Exact
	said := []string{c.Said(e.From)}
	for _, s := range e.Steps {
		by := c.Said(s.By)
		switch s.Op {
		case "add":
			l += s.By.L
		case "take":
			l -= s.By.L
		case "x":
			l *= length.Length(s.N)
		case "into":
			exact = exact && l%length.Length(s.N) == 0
			l /= length.Length(s.N)
		}
		if s.N > 0 {
			by = fmt.Sprint(s.N)
		}
		exact = exact && s.By.Tag == length.Exact
		said = append(said, signs[s.Op], by)
		if l > longestSum || l < -longestSum {
			return answer.No("a sum of at most 1,000 m", "sum 167 5/8 take 48")
		}
	}
	mark, other := length.SixtyFourth, length.Metric
	if c.Units == length.Metric {
		mark, other = length.Millimetre, length.Imperial
	}
	exact = exact && l%mark == 0
	about := ""
	if !exact {
		about = "about "
	}
	if l < 0 {
		about = "short by " + about
	}
	text := fmt.Sprintf("%s%s (%s)", about, c.Len(max(l, -l)), length.Format(max(l, -l), other))
	if len(e.Steps) > 0 {
		text += ": " + strings.Join(said, " ")
	}
	return answer.Tell("sum", sumFacts{c.Fact(l), exact}, text)
}
