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

// onSeams says what lies across the long edges of the new pieces.
func onSeams(c answer.Ctx, r *answer.Reply, b event.Hung) {
	var edges []length.Length
	for _, q := range b.Pieces {
		lo, hi := q.Span(b.Surface.Lie(b.Run).Other())
		edges = append(edges, lo, hi)
	}
	rows.OnSeams(c, r, b.Surface, b.Run, edges, b.Pieces...)
}
