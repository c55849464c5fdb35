package log

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/ready"
	"strapline/bot/answer/rows"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// mostNamed is how many things of a kind a line of what is to do names.
const mostNamed = 5

// coated says what is left of a room with compound on: when the last coat is dry, holes, snags.
func coated(c answer.Ctx) answer.Reply {
	c.Line.Room = c.Room.Name
	r := c.Answer(hanging.NextCoat{})
	for _, line := range open(c) {
		r.Line(line)
	}
	return r
}

// open is what is covered and not cut in the room, its snags, and boards that were told and are not on the plan.
func open(c answer.Ctx) (todo []string) {
	r := c.Room
	var cut []string
	for _, th := range r.Things {
		if st, _ := th.Stands(); st == site.Covered {
			cut = append(cut, th.Name)
		}
	}
	if len(cut) > 0 {
		todo = append(todo, "covered, not cut: "+strings.Join(say.Most(cut, mostNamed), ", "))
	}
	if snags := ready.Snags(c); len(snags) > 0 {
		todo = append(todo, "snags: "+strings.Join(say.Most(snags, mostNamed), "; "))
	}
	if more := told.Unplanned(c, []*site.Room{r}); more != "" {
		todo = append(todo, more)
	}
	return todo
}

// next says what there is to do in the room, in the order of the work: framing, checks, boards, holes, snags.
func next(c answer.Ctx, e record.Next) answer.Reply {
	if e.Who {
		return coming(c)
	}
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	r := c.Room
	var todo []string
	if trade := ready.Trade(c); trade != "" {
		todo = []string{ready.For(c, trade)}
	}
	if slices.ContainsFunc(c.State.Entries, func(en *site.Entry) bool { return en.Room == r.Name && en.Body.Kind() == "coat" && !en.Struck() }) {
		coats := coated(c)
		coats.Text = strings.Join(append(todo, coats.Text), "\n")
		return coats
	}
	if todo != nil {
		return answer.Tell("next", nil, strings.Join(append(todo, open(c)...), "\n"))
	}
	if len(r.Supports(place.Ceiling)) == 0 {
		todo = append(todo, "the straps or joists: none noted, `straps ew 16 oc first 16 off north`")
	}
	p, stop := c.InForce(place.Ceiling)
	if stop != nil {
		return *stop
	}
	left := rows.NotUp(c, r, place.Ceiling)
	up := len(r.Pieces(place.Ceiling)) > 0
	if p != nil {
		if rows, pieces := p.Rest(); len(rows)+len(pieces) > 0 {
			left = strings.Join(append(pieces, strings.Fields(say.Plural(len(rows), "row")+" "+say.Ranges(rows))...), " ")
			if len(rows) == 0 {
				left = strings.Join(pieces, ", ")
			}
			left = "hang " + left + ", `cuts` for the saw"
		} else {
			left = ""
		}
	}
	checks := say.Each(ready.Blocking(c), func(o ready.OpenCheck) string { return fmt.Sprintf("%s (%s)", o.What, o.Who) })
	if len(checks) > 0 {
		todo = append(todo, fmt.Sprintf("clear %d %s: %s", len(checks), say.Plural(len(checks), "check"), strings.Join(say.Most(checks, mostNamed), ", ")))
	}
	switch {
	case !up && p == nil && left == "":
		todo = append(todo, "hang the ceiling: nothing reported up, `layout` has its rows")
	case left != "":
		todo = append(todo, left)
	}
	todo = append(todo, open(c)...)
	if len(todo) == 0 {
		todo = []string{"nothing that is noted"}
	}
	todo[0] = r.Name + ", next: " + todo[0]
	return answer.Tell("next", nil, strings.Join(todo, "\n"))
}

// coming says who does what when, as far as the crew noted it, and what there is to do next: nobody's day is planned here.
func coming(c answer.Ctx) answer.Reply {
	lines := told.Crew(c)
	if len(lines) == 0 {
		lines = []string{"nobody noted who comes or when: ask the lead"}
	}
	r := answer.Tell("next", nil, strings.Join(lines, "\n"))
	if c.Room == nil {
		return r
	}
	return next(c, record.Next{}).After(func(todo answer.Reply) answer.Reply {
		if todo.Refuse == nil {
			r.Line(say.FirstLine(todo.Text))
		}
		return r
	})
}

// boardsUp counts the pieces that hang.
func boardsUp(c answer.Ctx, _ record.Up) answer.Reply {
	n, whole := 0, 0
	var lines []string
	for _, r := range c.SpeakOf() {
		for _, on := range r.Shell().Surfaces() {
			here, all := 0, false
			for _, p := range r.Pieces(on) {
				if all = all || p.Row == 0; p.Row > 0 {
					here++
				}
			}
			n += here
			switch {
			case all:
				whole++
				lines = append(lines, say.Where(r.Name, on)+": reported up as a whole, its boards not counted")
			case here > 0:
				text := fmt.Sprintf("%s: %d %s up", say.Where(r.Name, on), here, say.Plural(here, "piece"))
				if left := rows.NotUp(c, r, on); left != "" {
					text += "; " + left
				}
				lines = append(lines, text)
			}
		}
	}
	head := fmt.Sprintf("%d %s of board reported up", n, say.Plural(n, "piece"))
	if whole > 0 {
		head += fmt.Sprintf(", beside %d %s reported up as a whole", whole, say.Plural(whole, "surface"))
	}
	if n+whole == 0 {
		head = "no board reported up"
	}
	if more := told.Unplanned(c, c.SpeakOf()); more != "" {
		lines = append(lines, more)
	}
	return answer.Tell("up", nil, strings.Join(say.MostLines(append([]string{head}, lines...), "name a room"), "\n"))
}
