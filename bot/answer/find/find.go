// Package find answers where what was noted is, what is noted in all, and where to look when a hole found nothing.
package find

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/note"
	"strapline/bot/answer/runs"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, find)
	answer.OnNote(k, missed)
	answer.OnQuestion(k, apart)
	answer.OnQuestion(k, list)
	answer.OnQuestion(k, holds)
}

type (
	fromFacts struct {
		Kind string  `json:"kind"`
		Ref  string  `json:"ref"`
		Dir  string  `json:"dir"`
		Dist say.Len `json:"dist"`
		Face string  `json:"face,omitempty"`
	}
	findFacts struct {
		Name      string      `json:"name"`
		Surface   string      `json:"surface"`
		X         say.Len     `json:"x"`
		Y         say.Len     `json:"y"`
		State     string      `json:"state"`
		CoveredBy string      `json:"covered_by,omitempty"`
		From      []fromFacts `json:"from"`
		Probes    []struct{}  `json:"probes"`
		Photos    []string    `json:"photos,omitempty"`
	}
)

// find says where something is, from what is still visible.
func find(c answer.Ctx, e record.Find) answer.Reply {
	if s, ok := supportNamed(c, e.Name); ok {
		return s
	}
	if rt := runs.Named(c, e.Name); rt != nil {
		return runs.Find(c.In(rt.Room), rt)
	}
	if both := c.Named(e.Name); len(both) == 2 && both[0].Name == both[1].Name {
		return findBoth(c, both, e.Off)
	}
	th, stop := c.OneThing(e.Name, func(n string) grammar.Entry { return record.Find{Name: n, Off: e.Off} })
	if stop != nil {
		return *stop
	}
	return findOne(c.In(th.Room), th, e.Off)
}

// supportNamed says where a support of the ceiling is: "strap 4".
func supportNamed(c answer.Ctx, name string) (answer.Reply, bool) {
	s, ok := c.Support(name)
	if !ok {
		return answer.Reply{}, false
	}
	at := place.Point{}.With(s.Axis(), s.Pos)
	start := c.Near(c.Room.Shell().FromStart(place.Ceiling, at).On(s.Axis()))
	x, y := c.Room.Shell().Extent(place.Ceiling)
	far := c.Near(place.Point{X: x, Y: y}.On(s.Axis()) - s.Pos)
	from := place.Ceiling.Start(s.Axis())
	return answer.Tell("support", nil, fmt.Sprintf("%s %s: %s off %s, %s off %s (studs), to centre; runs %s", c.Room.Name, name, start, from, far, from.Opposite(), say.Direction(s.Run))), true
}

// apart says how far two things are from each other.
func apart(c answer.Ctx, e record.Apart) answer.Reply {
	for _, of := range [2][2]string{{e.From, e.To}, {e.To, e.From}} { // from a run a thing is as far as it is clear of it
		if len(c.Named(of[0])) == 0 && runs.Named(c, of[0]) != nil && len(c.Named(of[1])) > 0 {
			return c.Answer(record.Clear{Of: of[1]})
		}
	}
	a, stop := c.OneThing(e.From, func(n string) grammar.Entry { return record.Apart{From: n, To: e.To} })
	if stop != nil {
		return *stop
	}
	b, stop := c.OneThing(e.To, func(n string) grammar.Entry { return record.Apart{From: a.Name, To: n} })
	if stop != nil {
		return *stop
	}
	from, _ := a.Now()
	to, _ := b.Now()
	if a.Room != b.Room || from.Surface != to.Surface || a == b {
		return answer.Tell("apart", nil, fmt.Sprintf("%s is on the %s of %s, %s on the %s of %s", a.Name, from.Surface.Name(), a.Room.Name, b.Name, to.Surface.Name(), b.Room.Name))
	}
	c = c.In(a.Room)
	var legs []string
	for _, w := range place.Walls {
		axis, grows, ok := from.Surface.Axis(w)
		if d := b.At().On(axis) - a.At().On(axis); ok && (d > 0) != grows && d != 0 {
			legs = append(legs, fmt.Sprintf("%s %s", c.Near(max(d, -d)), w))
		}
	}
	if legs == nil {
		return answer.Tell("apart", nil, fmt.Sprintf("%s and %s are at one place", a.Name, b.Name))
	}
	return answer.Tell("apart", nil, fmt.Sprintf("%s to %s: %s, centre to centre", a.Name, b.Name, strings.Join(legs, ", ")))
}

// findBoth finds a thing of that name in each of two rooms.
func findBoth(c answer.Ctx, both []*site.ThingState, off place.Wall) answer.Reply {
	first, second := findOne(c.In(both[0].Room), both[0], off), findOne(c.In(both[1].Room), both[1], off)
	head := answer.Tell("find", nil, fmt.Sprintf("%s is in two rooms: %s and %s", both[0].Name, both[0].Room.Name, both[1].Room.Name))
	return first.After(func(a answer.Reply) answer.Reply {
		return second.After(func(b answer.Reply) answer.Reply {
			r := answer.Join([]answer.Reply{head, a, b})
			r.Facts = struct {
				Things []any `json:"things"`
			}{[]any{a.Facts, b.Facts}}
			return r
		})
	})
}

// findOne says where a thing is, starting with the distance off the wall that was asked for, if any.
func findOne(c answer.Ctx, th *site.ThingState, off place.Wall) answer.Reply {
	v, en := th.Now()
	at := th.At()
	st, over := th.Stands()
	facts := findFacts{
		Name: th.Name, Surface: string(v.Surface), State: string(st), From: []fromFacts{}, Probes: []struct{}{},
	}
	facts.X, facts.Y = c.XY(v.Surface, at)
	// Two distances suffice on bare framing; once it is boarded, a third serves as a check.
	show := 2
	if st == site.Covered {
		show = 3
	}
	var steps []string
	from := offFirst(locate.From(th), off)
	for i, s := range from {
		facts.From = append(facts.From, fromFacts{
			Kind: string(s.Kind), Ref: s.Ref, Dir: string(s.Dir), Dist: c.Fact(s.Dist), Face: string(s.Face),
		})
		if i < show {
			steps = append(steps, stepText(c, s))
		}
	}
	text := fmt.Sprintf("%s %s: %s, to centre", c.Where(v.Surface), note.ThingName(c, v), strings.Join(steps, ", "))
	if v.Framed {
		text = fmt.Sprintf("%s %s: %s", c.Where(v.Surface), note.ThingName(c, v), note.Spans(c, v.Surface, v.Size.At(at)))
	}
	switch {
	case st == site.Covered:
		facts.CoveredBy = say.Piece(over)
		text += fmt.Sprintf(". Covered by %s since %s, not cut", facts.CoveredBy, c.Clock(over.Entry.Sent))
	case st == site.Open:
		text += ". Open"
	default:
		text += ". Not covered"
	}
	text += fmt.Sprintf(" (%s)", c.ByWhen(en))
	for _, note := range th.Notes() {
		if !note.Struck() {
			facts.Photos = append(facts.Photos, c.State.Photos(note.Seq)...)
		}
	}
	if len(facts.Photos) > 0 {
		text += "\nphoto: " + strings.Join(facts.Photos, " ")
	}
	r := answer.Tell("find", facts, text)
	r.Room = th.Room.Name
	note.Unsettled(c, &r, th)
	if st == site.Covered {
		r.Note("caution", answer.CautionFor(v.What))
	}
	if st != site.Open {
		behind.Passes(c, &r, th, "")
	}
	c.Beside(&r, v.Surface, th.Name)
	return answer.Save(event.Told{Room: th.Room.Name, Names: []string{th.Name}}, func(*site.Entry) answer.Reply { return r })
}

// offFirst moves the distance off a wall to the front, in place of the most reliable one across it.
func offFirst(from []locate.Step, off place.Wall) []locate.Step {
	i := slices.IndexFunc(from, func(s locate.Step) bool { return s.Kind == locate.Wall && s.Ref == string(off) })
	if off == "" || i < 0 {
		return from
	}
	asked := from[i]
	first := slices.IndexFunc(from, func(s locate.Step) bool { return s.Axis == asked.Axis })
	from = slices.Delete(from, i, i+1)
	if first != i {
		from = slices.Delete(from, first, first+1)
	}
	return slices.Insert(from, 0, asked)
}

func stepText(c answer.Ctx, s locate.Step) string {
	d := c.Near(s.Dist)
	if s.Kind != locate.Wall && length.RoundNearest(s.Dist, c.Units) == 0 {
		return "in line with " + s.Ref
	}
	if s.Kind != locate.Wall {
		return d + " " + string(s.Dir) + " of " + s.Ref
	}
	if s.Ref == "floor" {
		if d += " up"; s.Face != "" {
			d += fmt.Sprintf(" (%s)", s.Face)
		}
		return d
	}
	if s.Ref == "ceiling" && s.Face == place.BoardFace {
		return d + " down (ceiling board)"
	}
	if s.Ref == "ceiling" {
		return d + " down (ceiling framing)"
	}
	face := "studs"
	if s.Face == place.BoardFace {
		face = "board face"
	}
	if s.Old {
		face = "finished wall"
	}
	if s.Ref == locate.Slope {
		return d + " up the slope (" + face + ")"
	}
	return d + " off " + s.Ref + " (" + face + ")"
}
