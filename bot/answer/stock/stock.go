// Package stock answers what boards there are: counted, delivered, used, left.
package stock

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, counts)
	answer.OnNote(k, recount)
	answer.OnQuestion(k, boardsLeft)
}

func counts(c answer.Ctx, e boards.StockSet) answer.Reply {
	b := event.Stock{How: e.How, Items: answer.Logged(e.Items)}
	if ask := howLong(c, e); ask != nil {
		return *ask
	}
	was, _ := Text(c)
	before, counted := c.State.Stock()
	if b.How == "left" && !counted { // the first count
		b.How = "is"
	}
	for _, i := range b.Items {
		if i.N < 0 || i.N > 10_000 || i.L != 0 && (i.L < 2*length.Foot || i.L > answer.LongestBoard) {
			return answer.Ask(fmt.Sprintf("%d boards of %s? send it again, e.g. `stock 9 x 12' 4 x 8'`", i.N, c.Len(i.L)), "")
		}
		of := event.Boards{L: i.L} // which of that length they were is worked out later
		if i.L == 0 {
			of.Thick, of.Type = i.Thick, i.Type
		}
		if have, _ := event.Count(before, of); b.How == "used" && counted && i.N > have && !c.Line.Sure {
			return answer.Reply{Kind: "ask", Ask: &answer.Question{Why: fmt.Sprintf("%s used, and %d on hand: how many are left? Count them, e.g. %s", c.BoardsText(i), max(have, 0), countAgain(c, b.Items, before)), Base: "down to"}}
		}
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		text, facts := Text(c)
		if dropped := slices.ContainsFunc(before, func(o event.Boards) bool {
			return o.N > 0 && !slices.ContainsFunc(b.Items, func(i event.Boards) bool { return i.L == o.L })
		}); b.How == "is" && dropped {
			text += " (was: " + was + ")"
		}
		if b.How == "ordered" {
			text = "ordered " + strings.Join(say.Each(b.Items, func(i event.Boards) string { return c.BoardsText(i) + ordered(c, i) }), ", ")
		}
		return c.Noted(en, "stock", facts, text)
	})
}

// due returns the boards of a kind that were ordered and did not come, and how many were ordered of each. What came before
// is of an order only if that is told behind it: "we ordered 40", not in our own words.
func due(c answer.Ctx, kind event.Boards) (open, ordered []event.Boards) {
	var came []event.Boards
	take := func(from []event.Boards, b event.Boards) int {
		at := slices.IndexFunc(from, func(o event.Boards) bool {
			return o.N > 0 && (o.L == b.L || o.L == 0 || b.L == 0) && (o.Thick == b.Thick || o.Thick == 0 || b.Thick == 0) && (o.Type == b.Type || o.Type == "" || b.Type == "")
		})
		if at < 0 {
			return 0
		}
		n := min(from[at].N, b.N)
		from[at].N -= n
		return n
	}
	for _, v := range c.State.Boards() {
		for _, b := range v.V.Items {
			if _, of := event.Count([]event.Boards{b}, kind); v.E.Struck() || !of {
				continue
			}
			switch v.V.How {
			case "ordered":
				open, ordered = append(open, b), append(ordered, b)
				if low := lex.Lower(v.E.Text); strings.Contains(low, "ordered") && !strings.Contains(low, "more") && !strings.Contains(low, " x ") {
					open[len(open)-1].N -= take(came, b)
				}
			case "delivered", "is": // a count stands for what came
				b.N -= take(open, b)
				came = append(came, b)
			}
		}
	}
	for i := len(open) - 1; i >= 0; i-- {
		if open[i].N == 0 {
			open, ordered = slices.Delete(open, i, i+1), slices.Delete(ordered, i, i+1)
		}
	}
	return open, ordered
}

// ordered says how many boards of a kind came of those that were ordered, "" if all did or none was.
func ordered(c answer.Ctx, kind event.Boards) string {
	open, all := due(c, kind)
	if len(open) != 1 || kind.Alike(event.Boards{}) || open[0].N == all[0].N {
		return ""
	}
	return fmt.Sprintf("; %d came of %d ordered: %d short", all[0].N-open[0].N, all[0].N, open[0].N)
}

// onOrder says which boards were ordered and did not come yet, with the crew's words, which tell what else was.
func onOrder(c answer.Ctx, of event.Boards) answer.Reply {
	open, _ := due(c, of)
	text := "nothing on order by the notes"
	if len(open) > 0 {
		text = "on order " + strings.Join(say.Each(open, c.BoardsText), ", ")
	}
	var quoted []*site.Entry
	for _, v := range slices.Backward(c.State.Boards()) {
		if v.V.How == "ordered" && !v.E.Struck() && len(quoted) < 3 && len(open) > 0 {
			quoted, text = append(quoted, v.E), text+"\n"+told.Quote(c, v.E)
		}
	}
	return answer.Tell("notes", told.Facts(c, quoted), text)
}

// countAgain returns a count of the boards used, as an example to type, with the other boards on hand: a
// count stands for all there are.
func countAgain(c answer.Ctx, items, before []event.Boards) string {
	parts := say.Each(items, func(i event.Boards) string {
		i.N = 9
		return strings.Replace(c.BoardsText(i), "9 boards", "boards 9", 1)
	})
	for _, b := range before {
		if b.N > 0 && b.L > 0 && !slices.ContainsFunc(items, func(i event.Boards) bool { return i.L == b.L }) {
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

// Text says what boards there are.
func Text(c answer.Ctx) (string, stockFacts) {
	left, _ := c.State.Stock()
	facts := stockFacts{Boards: []boardCount{}}
	for _, b := range left {
		facts.Boards = append(facts.Boards, boardCount{c.Fact(b.L), max(b.N, 0)})
	}
	return stockSaid(c, left), facts
}

// stockSaid says what boards there are.
func stockSaid(c answer.Ctx, all []event.Boards) string {
	var parts, gone []string
	_, counted := c.State.Stock()
	for _, b := range all {
		over := max(-b.N, 0)
		if b.N += over; over > 0 && (b.L == 0 || !counted) {
			b.N = over
			gone = append(gone, c.BoardsText(b))
			continue
		}
		s := c.BoardsText(b)
		if over > 0 {
			s += fmt.Sprintf(" (count again: %d more used than there were)", over)
		}
		parts = append(parts, s)
	}
	text := "no boards on hand"
	if !counted {
		text = "nobody counted what came"
	} else if len(parts) > 0 {
		text = "on hand " + strings.Join(parts, ", ")
	}
	if gone != nil {
		text += "; " + strings.Join(gone, ", ") + " used or up"
	}
	return text
}

func boardsLeft(c answer.Ctx, e boards.BoardsLeft) answer.Reply {
	all, counted := c.State.Stock()
	text, facts := Text(c)
	of := answer.Logged([]boards.Boards{e.Boards})[0]
	if e.Due {
		return onOrder(c, of)
	}
	every := of.Alike(event.Boards{})
	left, known := event.Count(all, of)
	short := ordered(c, of)
	switch on := text; {
	case len(all) == 0 && short == "":
		return answer.Nothing("no boards counted yet", "stock 9 x 12' 4 x 8'")
	case every && e.N == 0 || !counted && known:
	case !known:
		text = "nobody counted any of those; " + text
	case every && len(all) > 1:
		text = fmt.Sprintf("%d needed, but which? %s", e.N, on)
	default:
		of.N = max(left, 0)
		if text = c.BoardsText(of) + " left"; left < 0 {
			text += fmt.Sprintf(" (count again: %d more used than there were)", -left)
		}
		if e.N > 0 && left >= e.N {
			text = fmt.Sprintf("yes: %s, %d more than %d", text, left-e.N, e.N)
		} else if e.N > 0 {
			text = fmt.Sprintf("no: %s, %d short of %d", text, e.N-of.N, e.N)
		}
		if _, owed, some := strings.Cut(on, "; "); some {
			text += "; " + owed + ", nobody told which"
		}
	}
	r := answer.Tell("stock", facts, text+short)
	used := c.Units.Pick("used 2 x 8'", "used 2 x 2.4m")
	r.Note("check", "counted and delivered, less planned pieces hung; boards spoiled or taken count when you say `"+used+"`")
	return r
}

// OnHand returns how many boards of a length are among those on hand.
func OnHand(left []event.Boards, l length.Length) int {
	n, _ := event.Count(left, event.Boards{L: l})
	return n
}
