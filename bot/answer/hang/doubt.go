package hang

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/hanging"
)

// tooLong asks about pieces longer than any board of the job, as a row noted as one piece can be.
func tooLong(c answer.Ctx, e hanging.Hung, b event.Hung) *answer.Reply {
	board, _ := c.State.BoardNow()
	stock, _ := c.State.Stock()
	have := append(say.Each(stock, func(s event.Boards) length.Length { return s.L }), board.Lengths...)
	if len(have) == 0 || c.Line.Sure {
		return nil
	}
	most := slices.Max(have)
	for i, q := range b.Pieces {
		a, z := q.Span(b.Surface.Lie(b.Run))
		cut := z - a
		if i < len(b.Sizes) {
			cut = b.Sizes[i]
		}
		if cut <= most+length.Inch/2 { // boards run a little over their nominal length
			continue
		}
		var pieces []string
		for left := cut; left > 0; left -= most {
			pieces = append(pieces, length.Canon(min(left, most)))
		}
		yes := "one piece all the same"
		if len(e.Pieces) == 0 {
			yes = "the row is up, never mind the pieces"
		}
		return answer.Stop(answer.Ask(fmt.Sprintf("%s in one piece? the longest board here is %s", c.Len(cut), c.Board(most)), "",
			c.Sure(yes, e), grammar.Choice{Label: fmt.Sprintf("no: send the pieces, e.g. `hung %s row %d`", strings.Join(pieces, " + "), e.Row)}))
	}
	return nil
}

// wideOrLong asks about a single size that is about the width of a row, and not all of its length.
func wideOrLong(c answer.Ctx, e hanging.Hung, r rows.Row) *answer.Reply {
	board, _ := c.State.BoardNow()
	lo, hi := r.Rect.Span(r.Axis.Other())
	from, to := r.Rect.Span(r.Axis)
	if len(e.Pieces) != 1 || c.Line.Sure || hi-lo >= board.Wide {
		return nil
	}
	size := e.Pieces[0].L
	if size < hi-lo-length.Inch || size > hi-lo+length.Inch/4 || size > to-from-length.Inch {
		return nil
	}
	whole := e
	whole.Pieces = nil
	return answer.Stop(answer.Ask(fmt.Sprintf("row %d is about %s wide: is %s how wide or how long it is?", e.Row, c.Len(hi-lo), c.Len(size)), "",
		c.As("wide: the row is up", whole), c.Sure("long: one piece of it is up", e)))
}

// onSeams says what lies across the long edges of the new pieces.
func onSeams(c answer.Ctx, r *answer.Reply, b event.Hung) {
	var edges []length.Length
	for _, q := range b.Pieces {
		lo, hi := q.Span(b.Surface.Lie(b.Run).Other())
		edges = append(edges, lo, hi)
	}
	rows.OnSeams(c, r, b.Surface, b.Run, edges, b.Pieces...)
}
