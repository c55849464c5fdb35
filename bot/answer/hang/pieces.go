package hang

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/hanging"
	"strapline/grammar/things"
)

// upAlready refuses what hangs by the notes. The holes that are said to be cut in it are news all the same.
func upAlready(c answer.Ctx, what, hint string, cut []string) *answer.Reply {
	if len(cut) > 0 {
		c.Line.Room = c.Room.Name // they are in this room
		return answer.Stop(opened(c, things.Opened{Names: cut}))
	}
	return answer.Stop(answer.No(what+" is up already", hint))
}

// pieces lays the pieces of a row end to end from its west or north end, after what hangs there and past
// notches. Without sizes it takes all that is left of the row.
func pieces(c answer.Ctx, e hanging.Hung, s place.Surface, r rows.Row) ([]place.Rect, *answer.Reply) {
	left := rows.Bare(c, e.Row, s, r)
	if len(left) == 0 {
		return nil, upAlready(c, fmt.Sprintf("%s row %d", c.Where(s), e.Row), fmt.Sprintf("who hung row %d", e.Row), e.Cut)
	}
	along := func(a, z length.Length) place.Rect { return r.Rect.With(r.Axis, a, z) }
	if len(e.Pieces) == 0 {
		return say.Each(left, func(q [2]length.Length) place.Rect { return along(q[0], q[1]) }), nil
	}
	var out []place.Rect
	if e.Begun != "" && e.Begun == s.Start(r.Axis).Opposite() { // laid from the other end, towards what hangs there
		z := left[len(left)-1]
		at := z[1]
		for _, p := range e.Pieces {
			at -= p.L
		}
		if at-z[0] > length.Inch {
			left = [][2]length.Length{{at, z[1]}}
		}
	}
	at := left[0][0]
	// Pieces are cut short of the walls, so the last one of a stretch counts as reaching its end.
	full := func() *answer.Reply {
		from, to := left[0][0], left[0][1]
		if over := at - to; over > length.Inch/2 {
			return answer.Stop(answer.Ask(fmt.Sprintf("that is %s longer than what is left of row %d (%s). Send the pieces again", c.Len(over), e.Row, c.Len(to-from)), ""))
		}
		if last := &out[len(out)-1]; to-at < length.Inch {
			a, _ := last.Span(r.Axis)
			*last = along(a, to)
		}
		return nil
	}
	for i, p := range e.Pieces {
		if long := p.L > answer.LongestBoard; long || p.L < length.Inch {
			why := map[bool]string{true: "no board is that long; "}[long]
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("a piece of %s? %ssend the row again", c.Len(p.L), why), ""))
		}
		if i > 0 && len(left) > 1 && left[0][1]-at < length.Inch {
			if stop := full(); stop != nil {
				return nil, stop
			}
			left = left[1:]
			at = left[0][0]
		}
		out = append(out, along(at, at+p.L))
		at += p.L
	}
	return out, full()
}

// looseButts says which butts of the new pieces miss the support that both ends are screwed to.
func looseButts(c answer.Ctx, r *answer.Reply, b event.Hung) {
	set := c.Room.Supports(b.Surface)
	lie := b.Surface.Lie(b.Run)
	if b.All || len(set) == 0 || set[0].Lie == lie {
		return
	}
	hung := c.Room.Pieces(b.Surface)
	var butts []length.Length
	for _, q := range b.Pieces {
		start, end := q.Span(lie)
		lo, hi := q.Span(lie.Other())
		for _, p := range hung {
			from, to := p.Rect.Span(lie)
			if a, z := p.Rect.Span(lie.Other()); max(a, lo) < min(z, hi) {
				if from == end {
					butts = append(butts, end)
				}
				if to == start {
					butts = append(butts, start)
				}
			}
		}
	}
	slices.Sort(butts)
	for _, at := range slices.Compact(butts) {
		away := func(s place.Support) length.Length { return max(s.Pos-at, at-s.Pos) }
		near := slices.MinFunc(set, func(a, b place.Support) int { return cmp.Compare(away(a), away(b)) })
		off, side := away(near), "short of"
		if near.Pos < at {
			side = "past"
		}
		if 2*off >= near.Wide {
			r.Note("check", fmt.Sprintf("butt at %s is %s %s %s: back-block it", c.Len(at), c.Len(off), side, place.Of{Sup: near.Kind, N: near.N}))
		}
	}
}
