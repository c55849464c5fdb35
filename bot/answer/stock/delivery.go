package stock

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/record"
)

// howLong asks for the length of boards that were only counted, nil if each has one or may do without: their kind was
// said, or those that are gone can be of one length only.
func howLong(c answer.Ctx, e boards.StockSet) *answer.Reply {
	at := slices.IndexFunc(e.Items, func(b boards.Boards) bool { return b.L.L == 0 })
	on, _ := c.State.Stock()
	if at < 0 || e.How == "ordered" || e.How == "used" && len(on) < 2 || e.Items[at].OfKind() != "" || c.Line.Sure {
		return nil
	}
	board, _ := c.State.BoardNow()
	lengths := board.Lengths
	for _, b := range on {
		if !slices.Contains(lengths, b.L) && b.N > 0 && b.L > 0 {
			lengths = append(slices.Clone(lengths), b.L)
		}
	}
	var choices []grammar.Choice
	for _, l := range lengths[:min(len(lengths), 7)] {
		next := e
		next.Items = slices.Clone(e.Items)
		next.Items[at].L = length.Said{L: l, Tag: length.Exact}
		choices = append(choices, c.As(fmt.Sprintf("%d x %s", e.Items[at].N, c.Board(l)), next))
	}
	choices = append(choices, c.Sure("only count them", e), c.As("keep it as a note", record.Note{Text: c.Words}))
	base := e // a length that is typed goes to its end
	base.Items = append(slices.Delete(slices.Clone(e.Items), at, at+1), e.Items[at])
	why, open := "how long are they?", base.Items[len(base.Items)-1]
	if open.N == 1 {
		why = "how long is it?"
	}
	if open.Thick.L != 0 || open.Type != "" {
		return answer.Stop(answer.Ask(why, "", choices...))
	}
	text := strings.TrimSuffix(c.LineOf(base).String(), open.String())
	example := 12 * length.Foot
	if c.Units == length.Metric {
		example = 3000 * length.Millimetre
	}
	return answer.Stop(answer.Ask(why+" e.g. `"+c.Board(example)+"`", fmt.Sprintf("%s%d x", text, open.N), choices...))
}

// recount corrects the last delivery, or the last count: its count, or how many of it came broken.
func recount(c answer.Ctx, e boards.Recount) answer.Reply {
	var last *site.Entry
	var b event.Stock
	fewer := e.How == "was" && e.Not == 0
	for _, en := range slices.Backward(c.State.Entries) {
		s, ok := en.Body.(event.Stock)
		if fewer && !slices.ContainsFunc(s.Items, func(i event.Boards) bool { return i.N > e.N && (e.L.L == 0 || i.L == e.L.L) }) { // of more than that
			continue
		}
		if ok && (s.How == "delivered" || s.How == "is") && !en.Struck() && (e.L.L == 0 || slices.ContainsFunc(s.Items, func(i event.Boards) bool { return i.L == e.L.L })) {
			last, b = en, s
			break
		}
	}
	if last == nil && e.How == "was" && e.L.L != 0 {
		return c.Answer(boards.StockSet{How: "delivered", Items: []boards.Boards{{N: e.N, L: e.L}}}) // nobody said another count
	}
	if last == nil { // what it is about was never noted
		return c.Answer(record.Note{Text: c.Words, Kept: true})
	}
	var fits []int
	for i, it := range b.Items {
		if (e.L.L == 0 || it.L == e.L.L) && (e.Not == 0 || it.N == e.Not) && (e.How == "was" || it.N >= e.N) {
			fits = append(fits, i)
		}
	}
	switch {
	case len(fits) == 0 && e.Not > 0:
		next := e
		next.Not = 0
		return answer.Ask(fmt.Sprintf("entry %d says %s: change it?", last.Seq, strings.TrimPrefix(stockSaid(c, b.Items), "on hand ")), "",
			c.As("yes", next), grammar.Choice{Label: "no: leave it"})
	case len(fits) == 0:
		return answer.No(fmt.Sprintf("entry %d says: %s", last.Seq, revise.Boards(b)), revise.Boards(b).String())
	case len(fits) > 1:
		var choices []grammar.Choice
		for _, i := range fits[:min(len(fits), 9)] {
			next := e
			next.L = length.Said{L: b.Items[i].L, Tag: length.Exact}
			choices = append(choices, c.As(fmt.Sprintf("of %d x %s", b.Items[i].N, c.Board(b.Items[i].L)), next))
		}
		return answer.Ask("which of them?", "", choices...)
	}
	next, it := revise.Boards(b), b.Items[fits[0]]
	switch e.How {
	case "lost":
		gone := revise.Boards(event.Stock{Items: []event.Boards{it}})
		gone.How, gone.Items[0].N = "used", e.N
		return c.Answer(gone)
	case "short":
		next.Items[fits[0]].N = it.N - e.N
	default:
		next.Items[fits[0]].N = e.N
	}
	return revise.Correct(c, last, next)
}
