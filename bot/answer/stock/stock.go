// Package stock answers what boards there are: counted, delivered, used, left.
package stock

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar/boards"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, stock)
	answer.OnNote(k, recount)
	answer.OnQuestion(k, boardsLeft)
}

func stock(c answer.Ctx, e boards.StockSet) answer.Reply {
	b := event.Stock{How: e.How}
	if ask := howLong(c, e); ask != nil {
		return *ask
	}
	for _, i := range e.Items {
		if i.N < 0 || i.N > 10_000 || i.L.L < 2*length.Foot || i.L.L > answer.LongestBoard {
			return answer.Ask(fmt.Sprintf("%d boards of %s? send it again, e.g. `stock 9 x 12' 4 x 8'`", i.N, c.Len(i.L.L)), "")
		}
		b.Items = append(b.Items, event.Boards{N: i.N, L: i.L.L, Thick: i.Thick.L, Type: i.Type})
	}
	was, _ := stockText(c)
	before, counted := c.State.Stock()
	if b.How == "left" && !counted { // the first count
		b.How = "is"
	}
	for _, i := range b.Items {
		have, why := OnHand(before, i.L), ""
		switch {
		case b.How != "used" && b.How != "left" || c.Line.Sure:
		case !counted:
			why = "nobody counted the boards yet: how many are left?"
		case b.How == "used" && i.N > have:
			why = fmt.Sprintf("%d x %s used, and %d on hand: how many are left?", i.N, c.Board(i.L), max(have, 0))
		}
		if why != "" {
			return answer.Reply{Kind: "ask", Ask: &answer.Question{Why: why + " Count them, e.g. " + countAgain(c, b.Items, before), Base: "stock"}}
		}
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		text, facts := stockText(c)
		if dropped := slices.ContainsFunc(before, func(o event.Boards) bool {
			return o.N != 0 && !slices.ContainsFunc(b.Items, func(i event.Boards) bool { return i.L == o.L })
		}); b.How == "is" && dropped {
			text += " (was: " + was + ")"
		}
		return c.Noted(en, "stock", facts, text)
	})
}

// countAgain returns a count of the boards used, as an example to type, with the other boards on hand: a
// count stands for all there are.
func countAgain(c answer.Ctx, items, before []event.Boards) string {
	parts := say.Each(items, func(i event.Boards) string { return fmt.Sprintf("9 x %s", c.Board(i.L)) })
	for _, b := range before {
		if b.N > 0 && !slices.ContainsFunc(items, func(i event.Boards) bool { return i.L == b.L }) {
			parts = append(parts, fmt.Sprintf("%d x %s", b.N, c.Board(b.L)))
		}
	}
	return "`stock " + strings.Join(parts, " ") + "`"
}

type (
	boardCount struct {
		Length say.Len `json:"length"`
		Count  int     `json:"count"`
	}
	stockFacts struct {
		Boards []boardCount `json:"boards"`
	}
)

func stockText(c answer.Ctx) (string, stockFacts) {
	left, _ := c.State.Stock()
	facts := stockFacts{Boards: []boardCount{}}
	for _, b := range left {
		facts.Boards = append(facts.Boards, boardCount{c.Fact(b.L), max(b.N, 0)})
	}
	return stockSaid(c, left), facts
}

// stockSaid says what boards there are.
func stockSaid(c answer.Ctx, all []event.Boards) string {
	var parts []string
	for _, b := range all {
		s := fmt.Sprintf("%d x %s", max(b.N, 0), c.Board(b.L))
		if b.Thick != 0 || b.Type != "" {
			s += " of " + c.BoardKind(b.Thick, b.Type)
		}
		if b.N < 0 {
			s += fmt.Sprintf(" (count again: %d more used than there were)", -b.N)
		}
		parts = append(parts, s)
	}
	if len(parts) == 0 {
		return "no boards on hand"
	}
	return "on hand " + strings.Join(parts, ", ")
}

func boardsLeft(c answer.Ctx, e boards.BoardsLeft) answer.Reply {
	left, counted := c.State.Stock()
	if !counted {
		return answer.Nothing("nobody counted the boards yet", "stock 9 x 12' 4 x 8'")
	}
	text, facts := stockText(c)
	if e.L.L != 0 {
		n := 0
		for _, b := range left {
			if b.L == e.L.L {
				n = b.N
			}
		}
		text = fmt.Sprintf("%d x %s left", n, c.Board(e.L.L))
	}
	r := answer.Tell("stock", facts, text)
	used := c.Units.Pick("used 2 x 8'", "used 2 x 2.4m")
	r.Note("check", "counted and delivered, less planned pieces hung; boards spoiled or taken count when you say `"+used+"`")
	return r
}

// OnHand returns how many boards of a length are among those on hand.
func OnHand(left []event.Boards, l length.Length) (n int) {
	for _, b := range left {
		if b.L == l {
			n += b.N
		}
	}
	return n
}
