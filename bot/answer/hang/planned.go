package hang

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
)

// hungPlan hangs planned pieces by their ids, or whole rows.
func hungPlan(c answer.Ctx, e hanging.HungPlan) answer.Reply {
	whole := rows.Whole(e.IDs)
	if p, stop := c.InForce(e.Surface); stop != nil {
		return *stop
	} else if p == nil && whole != nil && c.Room != nil { // nobody has seen a layout, so its sizes were not hung
		return hungRows(c, whole, hanging.Hung{Surface: e.Surface, Cut: e.Cut})
	}
	p, stop := c.Plan(e.Surface)
	if stop != nil {
		return *stop
	}
	rows, stop := piecesNamed(c, p, e.IDs, e.Cut)
	if stop != nil {
		return *stop
	}
	var pieces []place.Rect
	for i := range p.Rows {
		if len(rows[i]) > 0 {
			pieces = append(pieces, rowOf(p, i)...)
		}
	}
	cut, stop := cutNames(c, p.Surface, e.Cut, over(pieces), func(names []string) grammar.Entry { next := e; next.Cut = names; return next })
	if stop != nil {
		return *stop
	}
	if c.Room.Pick(p.Surface) == 0 {
		return answer.Save(event.PlanPick{Room: c.Room.Name, Surface: p.Surface, Pick: 1}, func(*site.Entry) answer.Reply {
			return hangRow(c, p, e.IDs, rows, cut, 0, nil)
		})
	}
	return hangRow(c, p, e.IDs, rows, cut, 0, nil)
}

// hangRow hangs the named pieces of row i and then those of later rows. before holds the replies for
// earlier rows.
func hangRow(c answer.Ctx, p *inforce.Plan, ids []string, rows map[int][]string, cut []string, i int, before []answer.Reply) answer.Reply {
	for ; i < len(p.Rows); i++ {
		if len(rows[i]) > 0 {
			break
		}
	}
	what := fmt.Sprintf("row %d", i+1)
	if slices.ContainsFunc(rows[i], func(id string) bool { return slices.Contains(ids, id) }) {
		what = strings.Join(rows[i], " + ")
	}
	b := event.Hung{Room: c.Room.Name, Surface: p.Surface, Row: i + 1, Run: p.Run}
	for n, pc := range p.Rows[i].Pieces {
		if slices.Contains(rows[i], pc.ID) {
			b.N = append(b.N, n+1)
			b.Pieces = append(b.Pieces, p.Rect(pc))
			b.Sizes = append(b.Sizes, pc.Cut)
			p.Take(&b, pc.ID)
		}
	}
	cut = slices.DeleteFunc(slices.Clone(cut), func(name string) bool {
		under := over(rowOf(p, i))(c.Room.Thing(name).At())
		if under {
			b.Cut = append(b.Cut, name)
		}
		return under
	})
	return saveHung(c, b, what, "as planned").After(func(r answer.Reply) answer.Reply {
		said := append(slices.Clip(before), r)
		last := true
		for k := i + 1; k < len(p.Rows); k++ {
			last = last && len(rows[k]) == 0
		}
		if !last {
			return hangRow(c, p, ids, rows, cut, i+1, said)
		}
		r = answer.Join(said)
		if len(cut) > 0 {
			r.Note("check", "not under these pieces, so not marked as cut: "+strings.Join(cut, ", "))
		}
		return r
	})
}

// rowOf returns where the pieces of a row lie, those that were up before too: a hole in them may be cut with it.
func rowOf(p *inforce.Plan, i int) []place.Rect { return say.Each(p.Rows[i].Pieces, p.Rect) }

// hungRows hangs whole rows without a plan, each as e says. What is cut is that under any of them.
func hungRows(c answer.Ctx, all []int, e hanging.Hung) answer.Reply {
	on := answer.SurfaceOf(e.Surface)
	ids := say.Each(all, func(n int) string { return fmt.Sprintf("r%d", n) })
	with := func(cut []string) grammar.Entry { return hanging.HungPlan{IDs: ids, Surface: e.Surface, Cut: cut} }
	if _, known := c.Room.BoardsRun(on); !known {
		var choices []grammar.Choice
		for _, r := range []place.Direction{place.EW, place.NS} {
			each := grammar.Choice{Label: say.Direction(r), Lines: runThen(c, e.Surface, r, with(e.Cut))}
			choices = append(choices, each)
		}
		return answer.Ask("no straps are noted here: which way do the boards run?", "", choices...)
	}
	var under []place.Rect
	for _, e.Row = range all {
		if strip, stop := rows.Of(c, e, on); stop == nil {
			under = append(under, strip.Rect)
		}
	}
	if len(all) > 1 {
		cut, stop := cutNames(c, on, e.Cut, over(under), with)
		if stop == nil {
			stop = cutsUnder(c, on, cut, under, "rows "+say.Ranges(all), with)
		}
		if stop != nil {
			return *stop
		}
		e.Cut = cut
	}
	return nextRow(c, all, e, nil)
}

// runThen is which way the boards of a surface run, and what hangs on it then.
func runThen(c answer.Ctx, on place.Surface, run place.Direction, e grammar.Entry) []grammar.Line {
	return []grammar.Line{c.LineOf(boards.BoardsRun{Dir: string(run), Surface: on}), c.LineOf(e)}
}

func nextRow(c answer.Ctx, all []int, e hanging.Hung, before []answer.Reply) answer.Reply {
	e.Row = all[0]
	c.Line.Sure = true // of several rows nobody asks for the pieces
	one := e
	on := answer.SurfaceOf(e.Surface)
	if strip, stop := rows.Of(c, e, on); stop == nil {
		one.Cut = slices.DeleteFunc(slices.Clone(e.Cut), func(name string) bool { // what is cut in another row
			th := c.Room.Thing(name)
			return len(all) > 1 && th != nil && !strip.Rect.Has(th.At())
		})
		e.Cut = slices.DeleteFunc(slices.Clone(e.Cut), func(name string) bool { return slices.Contains(one.Cut, name) && !strings.HasPrefix(name, "all ") })
		switch up := len(one.Cut) == 0 && len(rows.Bare(c, e.Row, on, strip)) == 0; { // before
		case up && len(all) > 1:
			return nextRow(c, all[1:], e, before)
		case up && len(before) > 0:
			return answer.Join(before)
		}
	}
	return hung(c, one).After(func(r answer.Reply) answer.Reply {
		if r.Ask != nil && len(all) > 1 { // the rows behind it hang whatever is answered
			ids := say.Each(all[1:], func(n int) string { return fmt.Sprintf("r%d", n) })
			cut := slices.DeleteFunc(slices.Clone(e.Cut), func(name string) bool { return strings.Contains(name, " x ") }) // so many are cut in the first
			r.Ask.Choices = slices.Clone(r.Ask.Choices)
			for i, ch := range r.Ask.Choices {
				if len(ch.Lines) > 0 && ch.Lines[0].Entry.Kind() == e.Kind() {
					r.Ask.Choices[i].Lines = append(slices.Clone(ch.Lines), c.LineOf(hanging.HungPlan{IDs: ids, Surface: e.Surface, Cut: cut}))
				}
			}
		}
		said := append(slices.Clip(before), r)
		if len(all) > 1 && r.Taken() {
			return nextRow(c, all[1:], e, said)
		}
		return answer.Join(said)
	})
}

// piecesNamed sorts ids by the rows of the plan; cut is what is open in them.
func piecesNamed(c answer.Ctx, p *inforce.Plan, ids, cut []string) (map[int][]string, *answer.Reply) {
	rows := map[int][]string{}
	stop := func(text string) (map[int][]string, *answer.Reply) {
		return nil, answer.Stop(answer.No(text, answer.LayoutOf(p.Surface, 0)))
	}
	for _, id := range ids {
		rowText, _, one := strings.Cut(strings.TrimPrefix(id, "r"), ".")
		n, err := strconv.Atoi(rowText)
		if err != nil || n < 1 || n > len(p.Rows) {
			return stop(fmt.Sprintf("the layout of %s has %d rows, there is no %s", c.Where(p.Surface), len(p.Rows), id))
		}
		found := false
		for _, pc := range p.Rows[n-1].Pieces {
			if one && pc.ID != id {
				continue
			}
			found = true
			if slices.Contains(rows[n-1], pc.ID) {
				continue // named twice
			}
			if p.Hung[pc.ID] {
				if one {
					return nil, upAlready(c, id, answer.LayoutOf(p.Surface, 0), cut)
				}
				continue
			}
			rows[n-1] = append(rows[n-1], pc.ID)
		}
		if !found {
			return stop(fmt.Sprintf("row %d has %d pieces, there is no %s", n, len(p.Rows[n-1].Pieces), id))
		}
		if len(rows[n-1]) == 0 {
			return nil, upAlready(c, fmt.Sprintf("row %d", n), answer.LayoutOf(p.Surface, 0), cut)
		}
	}
	return rows, nil
}
