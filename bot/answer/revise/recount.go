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

// arrives matches that boards came beside those that were told: "ok just got 26 12s".
var arrives = regexp.MustCompile(`(?i)\b(?:got|get|have|just)\b`)

// Recounted returns the boards that a text puts in place of those noted last: "sorry, 25 12 footers", "they were 10
// footers". ok is false if it names none.
func Recounted(c answer.Ctx, b event.Stock, text string) (next boards.StockSet, ok bool) {
	rest, n := relate.Opened(text), 0
	if were := theyWere.FindString(rest); were != "" && len(b.Items) == 1 {
		rest, n = rest[len(were):], b.Items[0].N
	}
	if rest == text || arrives.MatchString(text[:len(text)-len(rest)]) {
		return next, false
	}
	verb, _, _ := strings.Cut(Boards(b).String(), " ")
	for _, line := range []string{verb + " " + rest, fmt.Sprintf("%s %d %s", verb, n, rest)} {
		got, err := c.Parse(line, false)
		next, ok = got.Entry.(boards.StockSet)
		if ok && err == nil && len(next.Items) > 0 && (n == 0 || len(next.Items) == 1) && !slices.ContainsFunc(next.Items, func(i boards.Boards) bool { return i.N == 0 }) {
			return beside(b, next), true
		}
	}
	return next, false
}

// beside puts boards in place of those of their length among those noted, and leaves the others: of "21 12s and 6 8s",
// "sorry, 26 12s" changes the 12s. Without any of these lengths it is in place of them all.
func beside(b event.Stock, next boards.StockSet) boards.StockSet {
	was := Boards(b)
	var all []boards.Boards
	for _, item := range was.Items {
		i := slices.IndexFunc(next.Items, func(n boards.Boards) bool { return n.L.L == item.L.L })
		if i < 0 {
			all = append(all, item)
			continue
		}
		if item.N = next.Items[i].N; next.Items[i].Thick.L != 0 || next.Items[i].Type != "" {
			item.Thick, item.Type = next.Items[i].Thick, next.Items[i].Type
		}
		all = append(all, item)
	}
	missing := func(n boards.Boards) bool {
		return !slices.ContainsFunc(was.Items, func(i boards.Boards) bool { return i.L.L == n.L.L })
	}
	if slices.ContainsFunc(next.Items, missing) || len(all) == 0 {
		return next
	}
	next.Items = all
	return next
}
