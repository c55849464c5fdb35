package hang

import (
	"cmp"
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/note"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

type (
	coveredThing struct {
		Name  string `json:"name"`
		What  string `json:"what"`
		Room  string `json:"room"`
		By    string `json:"covered_by,omitempty"`
		Since string `json:"since,omitempty"`
	}
	coveredFacts struct {
		Things []coveredThing `json:"things"`
	}
)

// covered lists what the board hides and nobody has cut.
func covered(c answer.Ctx, _ record.Covered) answer.Reply {
	facts := coveredFacts{Things: []coveredThing{}}
	var lines []string
	for _, r := range c.SpeakOf() {
		// By what covers them and when they are due, in the order noted.
		var groups []string
		in := map[string][]string{}
		for _, th := range r.Things {
			st, over := th.Stands()
			if st != site.Covered {
				continue
			}
			v, _ := th.Now()
			facts.Things = append(facts.Things, coveredThing{
				Name: th.Name, What: v.What, Room: r.Name, By: say.Piece(over), Since: c.Clock(over.Entry.Sent),
			})
			group := fmt.Sprintf("%s, %s since %s", r.Name, say.Piece(over), c.Clock(over.Entry.Sent))
			if v.Due != "" {
				group += ", due " + v.Due
			}
			if in[group] == nil {
				groups = append(groups, group)
			}
			in[group] = append(in[group], th.Name)
		}
		for _, g := range groups {
			lines = append(lines, g+": "+strings.Join(in[g], ", "))
		}
		for _, on := range r.Shell().Surfaces() {
			if left := NotUp(c, r, on); left != "" {
				lines = append(lines, say.Where(r.Name, on)+": "+left)
			}
		}
	}
	head := "nothing covered that is not open"
	if n := len(facts.Things); n > 0 {
		head = fmt.Sprintf("%d covered, not open", n)
	}
	if more := c.Unplanned(c.SpeakOf()); more != "" {
		lines = append(lines, more)
	}
	return answer.Tell("covered", facts, strings.Join(append([]string{head}, lines...), "\n"))
}

// NotUp says which rows of a surface have not been reported hung, if some have, and how much of a row is
// left.
func NotUp(c answer.Ctx, r *site.Room, on place.Surface) string {
	pieces := r.Pieces(on)
	if len(pieces) == 0 {
		return ""
	}
	var missing, part []string
	for n := 1; n <= Rows(c, r, on, pieces[0].Run); n++ {
		switch left, any := rowLeft(r, on, n); {
		case !any:
			missing = append(missing, fmt.Sprint(n))
		case left > 0:
			part = append(part, fmt.Sprintf("row %d has %s left", n, c.Near(left)))
		}
	}
	if len(missing) > 0 {
		part = append([]string{fmt.Sprintf("nobody reported %s %s hung", say.Plural(len(missing), "row"), strings.Join(missing, ", "))}, part...)
	}
	return strings.Join(part, "; ")
}

// rowLeft returns how much of row n of a surface is bare, and whether anything hangs in it.
func rowLeft(r *site.Room, s place.Surface, n int) (left length.Length, any bool) {
	var up, whole length.Length
	for _, p := range r.Pieces(s) {
		if p.Row == 0 {
			return 0, true
		}
		if p.Row != n {
			continue
		}
		any = true
		axis := s.Lie(p.Run)
		from, to := p.Rect.Span(axis)
		a, z := p.Rect.Span(axis.Other())
		lo, hi := r.Shell().Within(s, axis, a, z)
		if whole == 0 {
			whole = hi - lo
			for _, g := range gone(r, s, p.Rect.With(axis, lo, hi), axis) {
				whole -= min(g[1], hi) - max(g[0], lo)
			}
		}
		up += to - from
	}
	if left = whole - up; left < length.Inch {
		left = 0 // just the clearance at the walls
	}
	return left, any
}

// Rows returns the number of rows of a surface without a layout: up to the last one that hangs, plus as
// many rows of the board in use as the rest takes. The gap that a rip leaves does not count.
func Rows(c answer.Ctx, r *site.Room, on place.Surface, run place.Direction) int {
	board, _ := c.State.BoardNow()
	from, to := r.Shell().Clear(on).Span(on.Lie(run).Other())
	open := c.State.SettingOr("rip", layout.Defaults().Rip)
	last, at := 0, length.Length(0)
	for n, up := range hungRowsAt(r, on, run) {
		if n > last {
			last, at = n, up[1]
		}
	}
	if rows := inforce.RowsByLine(site.Plane{Room: r, Surface: on}, run, board.Wide, c.State); last == 0 && rows != nil {
		return len(rows)
	}
	return last + max(int((to-from-at-open+board.Wide-1)/board.Wide), 0)
}

// anyOver answers "any pipe over row 3" from the notes, and never says that there is none. Without a row
// it looks on all surfaces, unless one is said.
func anyOver(c answer.Ctx, e record.AnyOver) answer.Reply {
	if len(c.State.Standing()) == 0 {
		return answer.Tell("any", note.ThingsFacts{Things: []note.ThingFacts{}}, fmt.Sprintf("no %s noted, and no room yet: that is not the same as none. Look before you screw", cmp.Or(e.What, "pipe or wire")))
	}
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	facts := note.ThingsFacts{Things: []note.ThingFacts{}}
	noted := func(on place.Surface, rect *place.Rect, keep bool) (found []string) {
		for _, th := range c.Room.Things {
			v, en := th.Now()
			if en == nil || v.Surface != on || rect != nil && !rect.Has(th.At()) || e.What != "" && v.What != e.What {
				continue
			}
			if keep {
				facts.Things = append(facts.Things, note.FactsOf(c, th))
			}
			found = append(found, fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At())))
		}
		return append(found, note.RoutesOver(c, e.What, on, rect)...)
	}
	where := c.Room.Name
	var found, others []string
	if e.Row > 0 {
		on := answer.SurfaceOf(e.Surface)
		r, stop := rowRect(c, hanging.Hung{Row: e.Row, Surface: e.Surface}, on)
		if stop != nil {
			return *stop
		}
		where = fmt.Sprintf("%s row %d", c.Where(on), e.Row)
		found = noted(on, &r.rect, true)
		for _, o := range c.Room.Shell().Surfaces() {
			if e.Surface == "" && o != on && len(noted(o, nil, false)) > 0 {
				others = append(others, o.Name())
			}
		}
	} else {
		all := c.Room.Shell().Surfaces()
		if e.Surface != "" {
			all, where = []place.Surface{e.Surface}, c.Where(e.Surface)
		}
		for _, on := range all {
			found = append(found, noted(on, nil, true)...)
		}
	}
	what := "no " + e.What
	if e.What == "" {
		what = "nothing"
	}
	text := fmt.Sprintf("%s noted in %s: that is not the same as %s. Look before you screw", what, where, what)
	if len(found) > 0 {
		text = fmt.Sprintf("%s: %s. Only what was noted", where, strings.Join(found, ", "))
	}
	r := answer.Tell("any", facts, text)
	if len(others) > 0 {
		next := e
		next.Surface = place.Surface(strings.TrimSuffix(others[0], " wall"))
		r.Note("check", fmt.Sprintf("that is the ceiling; some is noted on the %s too: `%s`", strings.Join(others, ", "), next))
	}
	return r
}
