// Package runs answers what is noted of pipes, wires and ducts behind the board: where they run, and their plates.
package runs

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/settle"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/things"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, answer.InRoom(route))
	answer.OnNote(k, answer.InRoom(plate))
}

type (
	xy struct {
		X say.Len `json:"x"`
		Y say.Len `json:"y"`
	}
	runFacts struct {
		Name  string   `json:"name"`
		What  string   `json:"what"`
		From  xy       `json:"from"`
		To    xy       `json:"to"`
		Depth *say.Len `json:"depth,omitempty"`
	}
)

// route notes a run behind the board.
func route(c answer.Ctx, e things.Route) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	for i, f := range e.Shared {
		if f.How == place.OffWall && f.Wall == "" {
			return settle.AskWall(c, s, e.Shared, i, func(fs []place.Fix) grammar.Entry { next := e; next.Shared = fs; return next })
		}
	}
	if e.Full {
		e.Full, e.Points = false, ofLength(c, s, e.Shared)
	}
	points := make([][]place.Fix, len(e.Points))
	for i := range e.Points { // what was said for all points applies to each
		points[i] = slices.Concat(e.Shared, e.Points[i])
	}
	e.Points, e.Shared = points, nil
	b := event.Route{
		Room: c.Room.Name, Name: e.Name, What: e.What, Surface: s, Size: e.Size.L, How: e.How, Depth: e.Depth.L, Conduit: e.Conduit,
		NotchK: e.Notch.Sup, NotchN: e.Notch.N,
	}
	if n := len(c.Room.SupportsOf(s, b.NotchK)); b.NotchN > n {
		return answer.No(fmt.Sprintf("%s has %d %s, there is no %s", c.Room.Name, n, b.NotchK, e.Notch), "")
	}
	for i, fixes := range e.Points {
		fs, p, stop := settle.Place(c, s, fixes, place.Size{}, func(fs []place.Fix) grammar.Entry {
			next := e
			next.Points = slices.Clone(e.Points)
			next.Points[i] = fs
			return next
		})
		if stop != nil {
			return *stop
		}
		b.Points, b.At = append(b.Points, fs), append(b.At, p.Point)
	}
	b.Name = cmp.Or(b.Name, fmt.Sprintf("%s %d", b.What, c.Room.Nth(b.What)+1))
	if c.Room.Thing(b.Name) != nil {
		return answer.No(fmt.Sprintf("%s is the name of a thing here", b.Name), "")
	}
	old := c.Room.Route(b.Name)
	if old != nil {
		if v, en := old.Now(); v.What != b.What || !strings.EqualFold(en.Who, c.Who) {
			return answer.No(fmt.Sprintf("%s noted %s %s; give yours another name, or strike %d first", en.Who, v.What, b.Name, en.Seq), "")
		}
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply { return routeNoted(c, en, c.Room.Route(b.Name), old != nil) })
}

// ofLength returns the ends of the support, or of the bay, that a run follows.
func ofLength(c answer.Ctx, s place.Surface, shared []place.Fix) [][]place.Fix {
	i := slices.IndexFunc(shared, func(f place.Fix) bool { return f.Sup != "" })
	if i < 0 {
		return [][]place.Fix{nil} // its support is asked for
	}
	set := c.Room.SupportsOf(s, shared[i].Sup)
	if shared[i].N > len(set) || shared[i].N < 1 {
		return [][]place.Fix{nil} // there is none
	}
	at := func(w place.Wall) []place.Fix { return []place.Fix{{How: place.OffWall, Wall: w}} }
	switch {
	case set[shared[i].N-1].Lie == place.Y && s.Upright():
		return [][]place.Fix{{{How: place.UpFrom}}, {{How: place.DownTo}}}
	case set[shared[i].N-1].Lie == place.Y:
		return [][]place.Fix{at(place.North), at(place.South)}
	}
	return [][]place.Fix{at(place.West), at(place.East)}
}

func routeNoted(c answer.Ctx, en *site.Entry, rt *site.RouteState, again bool) answer.Reply {
	v, _ := rt.Now()
	facts := factsOfRun(c, rt)
	text := runText(c, rt)
	switch v.How {
	case "top":
		text += ", on top of the " + supportsOf(c, v.Surface)
	case "notched":
		if v.NotchN > 0 {
			break // noted below
		}
		text += ", notched in, " + c.Len(v.Depth) + " deep"
	case "depth":
		text += ", " + c.Len(v.Depth) + " deep"
	}
	if v.How != "top" {
		d := c.Fact(v.Depth)
		facts.Depth = &d
	}
	if v.NotchN > 0 {
		text += fmt.Sprintf(", notched into %s, %s deep", place.Of{Sup: v.NotchK, N: v.NotchN}, c.Len(v.Depth))
	}
	if v.Conduit {
		text += ", in conduit"
	}
	if again {
		text += " (again)"
	}
	r := c.Noted(en, "run", facts, text)
	if v.How == "notched" && v.NotchN > 0 {
		r.Note("check", "away from its notch it is taken to touch the board until you send it again with `on top of the straps`")
	}
	if v.How == "" {
		r.Note("check", "how deep behind the board? taken as touching it until you say, e.g. `depth 3/4` or `on top of the straps`")
		line := c.Line
		if line.Room == "" {
			line.Room = c.Room.Name
		}
		if e, ok := line.Entry.(things.Route); ok { // the answer is about this run, not one more
			e.Name = rt.Name
			line.Entry = e
		}
		r.More = &answer.Question{Why: "how deep behind the board?", Base: line.String(), Lead: "depth"} // the run is saved all the same
	}
	q := behind.Of(c, v.Surface, 0)
	behind.ScrewHits(c, &r, q, reach.Check(q.Query), func(name string) bool { return name == rt.Name })
	for _, th := range c.Room.Things {
		if tv, e := th.Now(); e != nil && tv.Surface == v.Surface {
			behind.Passes(c, &r, th, rt.Name)
		}
	}
	return r
}

// supportsOf returns what the crew calls the supports of a surface.
func supportsOf(c answer.Ctx, on place.Surface) string {
	if set := c.Room.Supports(on); len(set) > 0 {
		return string(set[0].Kind)
	}
	return "supports"
}

func factsOfRun(c answer.Ctx, rt *site.RouteState) runFacts {
	v, _ := rt.Now()
	path := rt.Path()
	at := func(p place.Point) xy { x, y := c.XY(v.Surface, p); return xy{x, y} }
	return runFacts{Name: rt.Name, What: v.What, From: at(path[0]), To: at(path[len(path)-1])}
}

// runText words a run and the points on its path.
func runText(c answer.Ctx, rt *site.RouteState) string {
	v, _ := rt.Now()
	at := say.Each(rt.Path(), func(p place.Point) string { return c.Coords(v.Surface, p) })
	text := fmt.Sprintf("%s %s: %s", c.Where(v.Surface), c.RouteName(v), strings.Join(at, " to "))
	if slices.ContainsFunc(place.Walls[:], func(w place.Wall) bool { return c.Room.BoardNow(w) > 0 }) {
		text += " (studs)" // measured to studs, which are boarded now
	}
	return text
}

// plate notes that steel plates are in place.
func plate(c answer.Ctx, e things.Plate) answer.Reply {
	rt := c.Room.Route(e.Run)
	if rt == nil {
		return answer.No(fmt.Sprintf("no run %q noted in %s", e.Run, c.Room.Name), "pipe p1 40 off west from strap 2 to strap 7 depth 3/4")
	}
	v, _ := rt.Now()
	n := len(c.Room.SupportsOf(v.Surface, e.What))
	q := behind.Of(c, v.Surface, 0)
	a := reach.Check(q.Query)
	var names []string
	for _, i := range e.N {
		name := place.Of{Sup: e.What, N: i}.String()
		if i < 1 || i > n {
			return answer.No(fmt.Sprintf("%s has %d %s, there is no %s", c.Room.Name, n, e.What, name), "")
		}
		names = append(names, name)
	}
	for k, n := range e.N {
		if !slices.ContainsFunc(a.Crossings, func(x reach.Crossing) bool {
			return q.Routes[x.Run] == rt && q.Set[x.Support].N == n && q.Set[x.Support].Kind == e.What
		}) && !slices.Contains(q.Numbers(q.PlatesDue(a, rt.Name)), n) {
			return answer.No(fmt.Sprintf("%s does not pass %s", e.Run, names[k]), "find "+e.Run)
		}
	}
	return answer.Save(event.Plates{Room: c.Room.Name, Run: e.Run, What: e.What, N: e.N}, func(en *site.Entry) answer.Reply {
		q := behind.Of(c, v.Surface, 0)
		left := "; no more due"
		if due := q.PlatesDue(reach.Check(q.Query), rt.Name); len(due) > 0 {
			left = "; still due at " + q.SupportNames(due)
		}
		return c.Noted(en, "plate", nil, fmt.Sprintf("%s %s plated at %s%s", c.Room.Name, e.Run, strings.Join(names, ", "), left))
	})
}

// Find says where a run goes and which supports it crosses.
func Find(c answer.Ctx, rt *site.RouteState) answer.Reply {
	v, en := rt.Now()
	q := behind.Of(c, v.Surface, 0)
	var crosses []int
	for _, x := range reach.Check(q.Query).Crossings {
		if q.Routes[x.Run] == rt {
			crosses = append(crosses, x.Support)
		}
	}
	text := runText(c, rt)
	if len(crosses) > 0 {
		text += ", crosses " + q.SupportNames(crosses)
	}
	if v.Depth > 0 {
		text += ", " + c.Len(v.Depth) + " deep"
	}
	r := answer.Tell("run", factsOfRun(c, rt), text+" ("+c.ByWhen(en)+")")
	r.Room = rt.Room.Name
	return r
}

// Over returns the runs of a kind ("" for any) that pass behind rect on surface on, or anywhere on
// it if rect is nil.
func Over(c answer.Ctx, kind string, on place.Surface, rect *place.Rect) (out []string) {
	if kind != "conduit" {
		kind = cmp.Or(things.RunWords[kind], kind)
	}
	q := behind.Of(c, on, 0)
	over := func(int) bool { return true }
	if rect != nil {
		passes := reach.Holes(reach.Hole{
			At: place.Point{X: (rect.X0 + rect.X1) / 2, Y: (rect.Y0 + rect.Y1) / 2}, W: rect.X1 - rect.X0, H: rect.Y1 - rect.Y0,
		}, q.Supports, q.Runs, q.Allow)
		over = func(i int) bool { return slices.ContainsFunc(passes, func(p reach.Pass) bool { return p.Run == i }) }
	}
	for i, rt := range q.Routes {
		v, _ := rt.Now()
		water := kind == "pipe" && v.What == "heat tube"
		if !over(i) || kind != "" && v.What != kind && !water && !(kind == "duct" && v.What == "duct run") {
			continue
		}
		out = append(out, c.RouteText(rt))
	}
	return out
}

// Named returns the run of that name in the room at hand, or else in the only other room that has
// one.
func Named(c answer.Ctx, name string) *site.RouteState {
	if c.Room != nil {
		if rt := c.Room.Route(name); rt != nil || c.Line.Room != "" {
			return rt
		}
	}
	var found *site.RouteState
	for _, r := range c.State.Standing() {
		if rt := r.Route(name); rt != nil {
			if found != nil {
				return nil
			}
			found = rt
		}
	}
	return found
}
