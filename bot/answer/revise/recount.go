package revise

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/event"
	"strapline/grammar/boards"
	"strapline/grammar/relate"
)

// theyWere matches what says of boards noted last which they are.
var theyWere = regexp.MustCompile(`(?i)^(?:they|those|these|it|em) ?(?:'re|were|are|was) (?:all )?`)

// Recounted returns the boards that a text puts in place of those noted last: "sorry, 25 12 footers", "they were 10
// footers". ok is false if it names none.
func Recounted(c answer.Ctx, b event.Stock, text string) (next boards.StockSet, ok bool) {
	rest, n := relate.Opened(text), 0
	if were := theyWere.FindString(rest); were != "" && len(b.Items) == 1 {
		rest, n = rest[len(were):], b.Items[0].N
	}
	if rest == text {
		return next, false
	}
	verb, _, _ := strings.Cut(Boards(b).String(), " ")
	for _, line := range []string{verb + " " + rest, fmt.Sprintf("%s %d %s", verb, n, rest)} {
		got, err := c.Parse(line, false)
		next, ok = got.Entry.(boards.StockSet)
		if ok && err == nil && len(next.Items) > 0 && (n == 0 || len(next.Items) == 1) && !slices.ContainsFunc(next.Items, func(i boards.Boards) bool { return i.N == 0 }) {
			return next, true
		}
	}
	return next, false
}
