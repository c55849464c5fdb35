package find

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/note"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/square"
	"strapline/grammar/lex"
	"strapline/grammar/record"
)

// mostListed is the maximum number of things named on one line of a list.
const mostListed = 8

// list says what was noted: of a kind, in a room, on a wall.
func list(c answer.Ctx, e record.List) answer.Reply {
	if e.What == "board" {
		text := c.BoardText()
		if note := told.Board(c); note != "" {
			text += "\n" + note
		}
		return answer.Tell("board", nil, text)
	}
	if e.What == "here" {
		return here(c)
	}
	rooms := c.SpeakOf()
	if e.What == "" && c.Line.Room == "" && answer.Refers(c.Words) {
		rooms = about(c, rooms)
	}
	if e.On != "" {
		if stop := c.NeedRoom(); stop != nil {
			return *stop
		}
		rooms = []*site.Room{c.Room}
	}
	facts := note.ThingsFacts{Things: []note.ThingFacts{}}
	var lines []string
	for _, r := range rooms {
		c := c.In(r)
		head := r.Name
		switch {
		case e.On != "":
			head = c.Where(e.On)
		case e.What == "size":
			lines = append(lines, sizeText(c))
			continue
		case e.What == "area":
			lines = append(lines, areaText(c))
			continue
		case e.What == "":
			head = sizeText(c)
		}
		kinds, named := listed(c, e, &facts)
		switch {
		case e.What != "" && len(kinds) == 1:
			lines = append(lines, head+": "+counted(kinds[0], named[kinds[0]]))
		case len(kinds) > 0 || e.What == "" && e.On == "":
			lines = append(append(lines, head), say.Each(kinds, func(k string) string { return counted(k, named[k]) })...)
		}
	}
	if len(lines) == 0 && (e.What == "size" || e.What == "area") {
		return answer.Nothing("no room is noted yet", answer.ARoom("", c.Units))
	}
	if len(lines) == 0 {
		what, where := "no "+e.What, "yet"
		if e.What == "" {
			what = "nothing"
		}
		if len(rooms) == 1 {
			where = "in " + rooms[0].Name
		}
		if e.On != "" {
			where = "on " + c.Where(e.On)
		}
		return answer.Tell("list", facts, fmt.Sprintf("%s noted %s: that is not the same as %s", what, where, what))
	}
	return answer.Tell("list", facts, strings.Join(say.MostLines(lines, "name a room or a kind: `list lights`"), "\n"))
}

// holds says what holds a weight: what the crew noted of backing, then the framing.
func holds(c answer.Ctx, _ record.Holds) answer.Reply {
	found := told.About(c, "blocking")
	var lines []string
	var near answer.Reply
	if len(found.Found) > 0 && !found.Away {
		lines = told.Lines(c, found)
	}
	for _, r := range c.SpeakOf() {
		c := c.In(r)
		framed := len(lines)
		for _, on := range r.Shell().Surfaces() {
			if set := r.Supports(on); len(set) > 0 {
				lines = append(lines, fmt.Sprintf("%s: %s %s%s", c.Where(on), say.Supports(len(set), set[0].Kind), say.Direction(set[0].Run), spacing(c, set)))
			}
		}
		if len(r.Routes) > 0 {
			near.Note("check", r.Name+", keep off "+strings.Join(say.Most(say.Each(r.Routes, c.RouteText), 3), ", "))
		}
		behind.Unplanned(c, &near)
		if len(lines) == framed && c.Line.Room != "" {
			lines = append(lines, fmt.Sprintf("no framing noted in %s: `%s`", r.Name, answer.NoStraps))
		}
	}
	if len(lines) == 0 {
		lines = []string{fmt.Sprintf("no backing and no framing noted: `%s`", answer.NoStraps)}
	} else if len(found.Found) == 0 {
		lines = append(lines, "no backing noted: that is not the same as none")
	}
	r := answer.Tell("holds", nil, strings.Join(say.MostLines(lines, "name a room"), "\n"))
	r.Notes = near.Notes
	r.Note("check", answer.CheckWeight)
	return r
}

// listed returns the things and runs of the room at hand that are asked for, by kind, kinds in the order
// noted.
func listed(c answer.Ctx, e record.List, facts *note.ThingsFacts) (kinds []string, named map[string][]string) {
	named = map[string][]string{}
	add := func(kind, name string) {
		if named[kind] == nil {
			kinds = append(kinds, kind)
		}
		named[kind] = append(named[kind], name)
	}
	for _, th := range c.Room.Things {
		v, en := th.Now()
		if en == nil || e.On != "" && v.Surface != e.On || e.What != "" && v.What != e.What {
			continue
		}
		facts.Things = append(facts.Things, note.FactsOf(c, th))
		name, on := th.Name, ""
		if v.Surface != place.Ceiling && e.On == "" {
			on = v.Surface.Name() + ", "
		}
		text := fmt.Sprintf("%s (%s%s)", name, on, c.Coords(v.Surface, th.At()))
		if st, _ := th.Stands(); st != site.Noted {
			text += " " + string(st)
		}
		add(v.What, text)
	}
	for _, rt := range c.Room.Routes {
		v, en := rt.Now()
		if en == nil || e.On != "" && v.Surface != e.On || e.What != "" && !runIs(v.What, e.What) {
			continue
		}
		text := c.RouteText(rt)
		switch {
		case !deep.MatchString(c.Words):
		case v.Depth > 0:
			text += " " + c.Len(v.Depth) + " deep"
		default:
			text += " depth not said"
		}
		add(v.What, text)
	}
	return kinds, named
}

// deep is in a question for how far behind the board a run is.
var deep = regexp.MustCompile(`(?i)\bdee?p|\bdepth`)

// counted is one line of a list: "3 lights: ...".
func counted(what string, names []string) string {
	if len(names) > 1 {
		what = lex.Plural(what)
	}
	return fmt.Sprintf("%d %s: %s", len(names), what, strings.Join(say.Most(names, mostListed), ", "))
}

// sizeText gives the size of the room at hand and the supports of its ceiling.
func sizeText(c answer.Ctx) string {
	b, en := c.Room.Said()
	text := c.Room.Name
	if en != nil {
		text += fmt.Sprintf(" %s east-west x %s north-south", c.Len(b.EW), c.Len(b.NS))
	}
	if b.High != 0 {
		text += ", " + c.Len(b.High) + " high"
	}
	if shape, leans := c.Room.Shell().Shape(); leans {
		text += "; walls as measured:"
		for _, l := range square.Lines[:4] {
			text += fmt.Sprintf(" %s %s,", l, c.Near(shape.Measure(l)))
		}
		text += " " + c.Area(shape.Area())
	}
	if set := c.Room.Supports(place.Ceiling); len(set) > 0 {
		text += fmt.Sprintf("; %s %s%s", say.Supports(len(set), set[0].Kind), say.Direction(set[0].Run), spacing(c, set))
	}
	shell := c.Room.Shell()
	for _, w := range place.Walls {
		if b, ok := shell.Slopes[w]; ok && b.Over > 0 {
			text += fmt.Sprintf("; slope %s to %s over %s", w, c.Len(b.Low), c.Len(b.Over))
		}
	}
	for _, b := range shell.Bulkheads {
		at := "along"
		if b.Off > 0 {
			at = c.Len(b.Off) + " off"
		}
		text += fmt.Sprintf("; bulkhead %s wide, %s down, %s %s", c.Len(b.Wide), c.Len(b.Drop), at, b.Wall)
	}
	c.Room.Aliases(func(alias string, w place.Wall) {
		if w != "" {
			text += fmt.Sprintf("; %s is the %s wall", w, alias)
		}
	})
	return text
}

// about returns those of the rooms that the whole message names, else the one that the sender is in, else all of them.
func about(c answer.Ctx, rooms []*site.Room) []*site.Room {
	said := lex.Lower(c.Message)
	if named := slices.DeleteFunc(slices.Clone(rooms), func(r *site.Room) bool { return !strings.Contains(said, r.Name) }); len(named) > 0 {
		return named
	}
	if c.Room != nil {
		return []*site.Room{c.Room}
	}
	return rooms
}

// here says which room the sender is in: that of what they say without naming one.
func here(c answer.Ctx) answer.Reply {
	switch {
	case c.Entered != "":
		return answer.Tell("list", nil, "you are in "+c.Entered+", and its size is not noted")
	case c.Room == nil && len(c.State.Standing()) == 0:
		return answer.Nothing("no room is noted yet", answer.ARoom("", c.Units))
	case c.Room == nil:
		return answer.Nothing("you have not named a room yet", "in "+c.State.Standing()[0].Name)
	}
	return answer.Tell("list", nil, "you are in "+sizeText(c))
}

// areaText gives the area of the ceiling of the room at hand, and how much of it nobody reported hung.
func areaText(c answer.Ctx) string {
	square := func(x, y length.Length) float64 {
		return float64(x) / float64(1000*length.Millimetre) * float64(y) / float64(1000*length.Millimetre)
	}
	whole, up := square(c.Room.Shell().Extent(place.Ceiling)), 0.0
	if shape, leans := c.Room.Shell().Shape(); leans {
		whole = shape.Area()
	}
	b, _ := c.Room.Said()
	for _, n := range b.Less {
		whole -= square(n.EW, n.NS)
	}
	for _, p := range c.Room.Pieces(place.Ceiling) {
		if p.Row == 0 {
			return fmt.Sprintf("%s ceiling: %s, all of it reported up; walls not counted", c.Room.Name, c.Area(whole))
		}
		up += square(p.Rect.X1-p.Rect.X0, p.Rect.Y1-p.Rect.Y0)
	}
	text := fmt.Sprintf("%s ceiling: %s", c.Room.Name, c.Area(whole))
	if up > 0 {
		text += fmt.Sprintf(", %s up, %s left to hang", c.Area(up), c.Area(max(whole-up, 0)))
	} else {
		text += ", none reported up"
	}
	return text + "; walls not counted"
}

// spacing gives the spacing of the supports if it is even, and the position of the first.
func spacing(c answer.Ctx, set []place.Support) string {
	if len(set) < 2 {
		return ""
	}
	step := set[1].Pos - set[0].Pos
	for i := range set[1:] {
		if d := set[i+1].Pos - set[i].Pos - step; max(d, -d) > length.Inch/16 {
			return ", not evenly"
		}
	}
	a := set[0].Axis()
	return fmt.Sprintf(", %s on centre, first %s off %s", c.Near(max(step, -step)), c.Near(c.Room.Shell().FromStart(place.Ceiling, place.Point{}.With(a, set[0].Pos)).On(a)), place.Ceiling.Start(a))
}

// runIs reports whether what asks for a run of that kind.
func runIs(kind, what string) bool {
	switch what {
	case "cable", "wiring":
		what = "wire"
	case "water", "pex", "plumbing":
		return kind == "pipe" || kind == "heat tube"
	case "pipe":
		return kind == "pipe" || kind == "heat tube"
	case "duct":
		return kind == "duct run"
	}
	return kind == what
}
