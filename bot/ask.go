package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// oneThing is the thing that the words name, or nil when a question or a
// refusal has been set as the answer. with makes the entry again with the
// thing's own name.
func (t *turn) oneThing(words string, with func(name string) grammar.Entry) *site.ThingState {
	found := t.st.Find(words)
	if t.line.Room != "" {
		found = slices.DeleteFunc(found, func(th *site.ThingState) bool { return th.Room != t.room })
	}
	if len(found) > 1 && t.room != nil {
		here := slices.DeleteFunc(slices.Clone(found), func(th *site.ThingState) bool { return th.Room != t.room })
		if len(here) > 0 {
			found = here
		}
	}
	switch len(found) {
	case 1:
		return found[0]
	case 0:
		t.noThing(words)
		return nil
	}
	var choices []choice
	for _, th := range found[:min(len(found), 9)] {
		line := t.line
		line.Room, line.Entry = th.Room.Name, with(th.Name)
		v, _ := th.Now()
		choices = append(choices, choice{
			Label: fmt.Sprintf("%s %s (%s)", th.Room.Name, th.Name, t.coords(v.Surface, th.At())), Text: line.String(),
		})
	}
	t.ask(fmt.Sprintf("which %s?", words), "", choices...)
	return nil
}

func (t *turn) noThing(words string) {
	in := ""
	if t.line.Room != "" {
		in = " in " + t.room.Name
		if other := t.st.Find(words); len(other) > 0 {
			t.no(fmt.Sprintf("%s is noted in %s, not in %s", other[0].Name, other[0].Room.Name, t.room.Name), other[0].Room.Name+": find "+other[0].Name)
			t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
			return
		}
	}
	var known []string
	for _, r := range t.st.Standing() {
		for _, th := range r.Things {
			if _, e := th.Now(); e != nil {
				known = append(known, th.Name)
			}
		}
	}
	for _, th := range t.st.Gone(words) {
		if notes := th.Notes(); len(notes) > 0 {
			if by := notes[len(notes)-1].StruckBy(); by != nil {
				t.no(fmt.Sprintf("%s was struck by %s", words, t.byWhen(by)), fmt.Sprintf("strike %d", by.Seq))
				t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
				return
			}
		}
	}
	near, hint := "", "log"
	if n := grammar.Nearest(words, known); n != "" {
		near, hint = fmt.Sprintf("; did you mean %s?", n), ""
	}
	t.no(fmt.Sprintf("no note of %q%s%s", words, in, near), hint)
	t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
}

func (t *turn) find(e grammar.Find) {
	if name, ok := strings.CutPrefix(e.Name, "mark "); ok && t.room != nil && t.isMark(name) {
		m, at, _ := t.room.Mark(name)
		u := t.units()
		t.tell("mark", markFacts{Name: name, Surface: string(m.Surface), X: fact(u, at.X), Y: fact(u, at.Y)},
			t.where(m.Surface)+" mark "+name+": "+t.coords(m.Surface, at)+" (studs)")
		return
	}
	if rt := t.routeNamed(e.Name); rt != nil {
		t.room = rt.Room
		t.findRoute(rt)
		return
	}
	th := t.oneThing(e.Name, func(n string) grammar.Entry { return grammar.Find{Name: n} })
	if th == nil {
		return
	}
	t.room = th.Room
	t.ans.Room = th.Room.Name
	v, en := th.Now()
	at := th.At()
	st, over := th.Stands()
	u := t.units()
	facts := findFacts{
		Name: th.Name, Surface: string(v.Surface), X: fact(u, at.X), Y: fact(u, at.Y), State: string(st),
		From: []fromFacts{}, Probes: []struct{}{},
	}
	// Two distances find it on bare framing; under a board a third is the check.
	show := 2
	if st == site.Covered {
		show = 3
	}
	var steps []string
	for i, s := range locate.From(th) {
		facts.From = append(facts.From, fromFacts{
			Kind: string(s.Kind), Ref: s.Ref, Dir: string(s.Dir), Dist: fact(u, s.Dist), Face: string(s.Face),
		})
		if i < show {
			steps = append(steps, t.stepText(s))
		}
	}
	text := fmt.Sprintf("%s %s: %s, to centre", t.where(v.Surface), t.thingName(v), strings.Join(steps, ", "))
	switch {
	case st == site.Covered:
		facts.CoveredBy = t.pieceName(over)
		text += fmt.Sprintf(". Covered by %s since %s, not cut", facts.CoveredBy, t.clock(over.Entry.Sent))
	case st == site.Open:
		text += ". Open"
	default:
		text += ". Not covered"
	}
	text += fmt.Sprintf(" (%s)", t.byWhen(en))
	facts.Photos = t.photosOf(th)
	if len(facts.Photos) > 0 {
		text += "\nphoto: " + strings.Join(facts.Photos, " ")
	}
	t.tell("find", facts, text)
	if st == site.Covered {
		t.note("caution", cautionFor(v.What))
	}
	if st != site.Open {
		t.passes(th, "")
	}
	t.save(site.Told{Room: th.Room.Name, Names: []string{th.Name}})
}

func (t *turn) stepText(s locate.Step) string {
	d := t.near(s.Dist)
	if s.Kind != locate.Wall && length.RoundNearest(s.Dist, t.units()) == 0 {
		return "in line with " + s.Ref
	}
	if s.Kind != locate.Wall {
		return d + " " + string(s.Dir) + " of " + s.Ref
	}
	if s.Ref == "floor" {
		return d + " up"
	}
	face := "studs"
	if s.Face == place.BoardFace {
		face = "board face"
	}
	if t.room.Finished(place.Wall(strings.TrimSuffix(s.Ref, " notch"))) {
		face = "finished wall"
	}
	return d + " off " + s.Ref + " (" + face + ")"
}

func (t *turn) covered() {
	facts := coveredFacts{Things: []coveredThing{}}
	var lines []string
	for _, r := range t.speakOf() {
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
				Name: th.Name, What: v.What, Room: r.Name, By: t.pieceName(over), Since: t.clock(over.Entry.Sent),
			})
			group := fmt.Sprintf("%s, %s since %s", r.Name, t.pieceName(over), t.clock(over.Entry.Sent))
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
		if left := t.notUp(r); left != "" {
			lines = append(lines, left)
		}
	}
	head := "nothing covered that is not open"
	if n := len(facts.Things); n > 0 {
		head = fmt.Sprintf("%d covered, not open", n)
	}
	t.tell("covered", facts, strings.Join(append([]string{head}, lines...), "\n"))
	t.ans.Room = t.line.Room
}

// speakOf is the room a question names, or all of them.
func (t *turn) speakOf() []*site.Room {
	if t.line.Room != "" {
		return []*site.Room{t.room}
	}
	return t.st.Standing()
}

// notUp says which ceiling rows nobody has reported hung, where some were, and
// how much of a row is left.
func (t *turn) notUp(r *site.Room) string {
	pieces := r.Pieces(place.Ceiling)
	if len(pieces) == 0 {
		return ""
	}
	var missing, part []string
	for n := 1; n <= t.rows(r, pieces[0].Run); n++ {
		switch left, any := t.rowLeft(r, n); {
		case !any:
			missing = append(missing, fmt.Sprint(n))
		case left > 0:
			part = append(part, fmt.Sprintf("row %d has %s left", n, t.near(left)))
		}
	}
	if len(missing) > 0 {
		part = append([]string{fmt.Sprintf("nobody reported %s %s hung", plural(len(missing), "row"), strings.Join(missing, ", "))}, part...)
	}
	if len(part) == 0 {
		return ""
	}
	return r.Name + ": " + strings.Join(part, "; ")
}

// rowLeft is how much of ceiling row n is bare, and whether anything of it hangs.
func (t *turn) rowLeft(r *site.Room, n int) (left length.Length, any bool) {
	c := r.Clear()
	var up, whole length.Length
	for _, p := range r.Pieces(place.Ceiling) {
		if p.Row == 0 {
			return 0, true
		}
		if p.Row != n {
			continue
		}
		any = true
		axis := alongRun(p.Run)
		from, to := p.Rect.Span(axis)
		lo, hi := c.Span(axis)
		up, whole = up+to-from, hi-lo
	}
	if left = whole - up; left < length.Inch {
		left = 0 // the clearance at the walls
	}
	return left, any
}

// rows is how many rows of the board in use the ceiling takes.
func (t *turn) rows(r *site.Room, run place.Run) int {
	board, _ := t.st.BoardNow()
	c := r.Clear()
	across := c.X1 - c.X0
	if run == place.EW {
		across = c.Y1 - c.Y0
	}
	return int((across + board.Wide - 1) / board.Wide)
}

// anyOver answers "any pipe over row 3" from the notes, and never says that
// there is none.
func (t *turn) anyOver(e grammar.AnyOver) {
	if !t.needRoom() {
		return
	}
	where := t.room.Name
	rect := t.room.Clear()
	in := func(p place.Point) bool { return true }
	if e.Row > 0 {
		r, ok := t.rowRect(grammar.Hung{Row: e.Row}, place.Ceiling)
		if !ok {
			return
		}
		where += fmt.Sprintf(" row %d", e.Row)
		in, rect = r.rect.Has, r.rect
	}
	var found []string
	facts := thingsFacts{Things: []thingFacts{}}
	for _, th := range t.room.Things {
		v, en := th.Now()
		if en == nil || (e.Row > 0 && v.Surface != place.Ceiling) || !in(th.At()) {
			continue
		}
		if e.What != "" && v.What != e.What {
			continue
		}
		facts.Things = append(facts.Things, t.thingFacts(th))
		found = append(found, fmt.Sprintf("%s (%s)", th.Name, t.coords(v.Surface, th.At())))
	}
	found = append(found, t.routesOver(e, rect)...)
	what := e.What
	if what == "" {
		what = "thing"
	}
	if len(found) == 0 {
		t.tell("any", facts, fmt.Sprintf("no %s noted in %s: that is not the same as no %s. Look before you screw", what, where, what))
		return
	}
	t.tell("any", facts, fmt.Sprintf("%s: %s. Only what was noted", where, strings.Join(found, ", ")))
}
