// Package covered answers what the boards hide, and who hung them.
package covered

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/note"
	"strapline/bot/answer/rows"
	"strapline/bot/answer/runs"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnQuestion(k, covered)
	answer.OnQuestion(k, anyOver)
	answer.OnQuestion(k, answer.InRoom(whoHung))
}

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
			if left := rows.NotUp(c, r, on); left != "" {
				lines = append(lines, say.Where(r.Name, on)+": "+left)
			}
		}
	}
	head := "nothing covered that is not open"
	if n := len(facts.Things); n > 0 {
		head = fmt.Sprintf("%d covered, not open", n)
	}
	if more := told.Unplanned(c, c.SpeakOf()); more != "" {
		head = strings.Replace(head, "nothing covered", "nothing on the plan is covered", 1)
		lines = append(lines, more)
	}
	return answer.Tell("covered", facts, strings.Join(append([]string{head}, lines...), "\n"))
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
		return append(found, runs.Over(c, e.What, on, rect)...)
	}
	where := c.Room.Name
	var found, others []string
	if e.Row > 0 {
		on := answer.SurfaceOf(e.Surface)
		r, stop := rows.Of(c, hanging.Hung{Row: e.Row, Surface: e.Surface}, on)
		if stop != nil {
			return *stop
		}
		where = fmt.Sprintf("%s row %d", c.Where(on), e.Row)
		found = noted(on, &r.Rect, true)
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

// whoHung says who reported a row or a surface hung.
func whoHung(c answer.Ctx, e record.Who) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	var by []*site.Entry
	var parts []string
	for _, p := range c.Room.Pieces(s) {
		if slices.Contains(by, p.Entry) || (e.Row > 0 && p.Row != e.Row && p.Row != 0) {
			continue
		}
		by = append(by, p.Entry)
		parts = append(parts, fmt.Sprintf("%s (%s, entry %d)", c.ByWhen(p.Entry), say.Piece(&p), p.Entry.Seq))
	}
	text := c.Where(s) + ": " + strings.Join(parts, ", ")
	if len(parts) == 0 {
		text = "nobody has reported that hung in " + c.Where(s)
	}
	if more := told.Unplanned(c, []*site.Room{c.Room}); more != "" && e.Row == 0 {
		text += "\n" + more
	}
	return answer.Tell("who", told.Facts(c, by), text)
}
