package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
)

// routeKinds are the runs and what reach calls them.
var routeKinds = map[string]reach.Kind{
	"pipe": reach.Pipe, "wire": reach.Wire, "gas": reach.Gas, "duct run": reach.Duct, "heat tube": reach.HeatTube,
}

// route notes a run behind the board.
func (t *turn) route(e grammar.Route) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	for i, f := range e.Shared {
		if f.How == place.OffWall && f.Wall == "" {
			t.askWall(s, e.Shared, i, func(fs []place.Fix) grammar.Entry { next := e; next.Shared = fs; return next })
			return
		}
	}
	for i := range e.Points { // what was said for all points is said for each
		e.Points[i] = slices.Concat(e.Shared, e.Points[i])
	}
	e.Shared = nil
	b := site.Route{
		Room: t.room.Name, Name: e.Name, What: e.What, Surface: s, Size: e.Size.L, How: e.How, Depth: e.Depth.L, Conduit: e.Conduit,
		NotchK: e.Notch.Sup, NotchN: e.Notch.N,
	}
	if n := len(t.room.SupportsOf(s, b.NotchK)); b.NotchN > n {
		t.no(fmt.Sprintf("%s has %d %s, there is no %s", t.room.Name, n, b.NotchK, place.Of{Sup: b.NotchK, N: b.NotchN}.String()), "")
		return
	}
	for i, fixes := range e.Points {
		fs, p, ok := t.place(s, fixes, place.Size{}, func(fs []place.Fix) grammar.Entry {
			next := e
			next.Points = slices.Clone(e.Points)
			next.Points[i] = fs
			return next
		})
		if !ok {
			return
		}
		b.Points, b.At = append(b.Points, fs), append(b.At, p.Point)
	}
	if b.Name == "" {
		b.Name = fmt.Sprintf("%s %d", b.What, t.room.Nth(b.What)+1)
	}
	if t.room.Thing(b.Name) != nil {
		t.no(fmt.Sprintf("%s is the name of a thing here", b.Name), "")
		return
	}
	old := t.room.Route(b.Name)
	if old != nil {
		if v, en := old.Now(); v.What != b.What || !strings.EqualFold(en.Who, t.in.Who) {
			t.no(fmt.Sprintf("%s noted %s %s; give yours another name, or strike %d first", en.Who, v.What, b.Name, en.Seq), "")
			return
		}
	}
	if t.save(b) == nil {
		return
	}
	t.routeNoted(t.room.Route(b.Name), old != nil)
}

func (t *turn) routeNoted(rt *site.RouteState, again bool) {
	v, _ := rt.Now()
	u := t.units()
	path := rt.Path()
	facts := runFacts{Name: rt.Name, What: v.What, From: point(u, path[0]), To: point(u, path[len(path)-1])}
	var at []string
	for _, p := range path {
		at = append(at, t.coords(v.Surface, p))
	}
	text := fmt.Sprintf("%s %s: %s", t.where(v.Surface), t.routeName(v), strings.Join(at, " to "))
	switch v.How {
	case "top":
		text += ", on top of the supports"
	case "notched":
		if v.NotchN > 0 {
			break // said below
		}
		text += ", notched in, " + t.f(v.Depth) + " deep"
	case "depth":
		text += ", " + t.f(v.Depth) + " deep"
	}
	if v.How != "top" {
		d := fact(u, v.Depth)
		facts.Depth = &d
	}
	if v.NotchN > 0 {
		text += fmt.Sprintf(", notched into %s, %s deep", place.Of{Sup: v.NotchK, N: v.NotchN}.String(), t.f(v.Depth))
	}
	if v.Conduit {
		text += ", in conduit"
	}
	if again {
		text += " (again)"
	}
	t.noted("run", facts, text)
	if v.How == "notched" && v.NotchN > 0 {
		t.note("check", "away from its notch taken as touching the board until you send it again with `on top of the straps`")
	}
	if v.How == "" {
		t.note("check", "how deep behind the board? taken as touching it until you say, e.g. `depth 3/4` or `on top of the straps`")
		t.askDepth()
	}
	q := t.reachQuery(v.Surface, 0)
	t.screwHits(q, reach.Check(q.Query), func(name string) bool { return name == rt.Name })
	for _, th := range t.room.Things {
		if tv, e := th.Now(); e != nil && tv.Surface == v.Surface {
			t.passes(th, rt.Name)
		}
	}
}

// askDepth keeps a question open that a depth alone answers. The run is saved
// all the same, so letting the question drop loses nothing.
func (t *turn) askDepth() {
	line := t.line
	if line.Room == "" {
		line.Room = t.room.Name
	}
	p := &pending{Said: t.said, Sent: t.sent.UnixMilli(), ID: t.threadID(), Why: "how deep behind the board?", Base: line.String(), Saved: true}
	t.j.pending[strings.ToLower(t.in.Who)] = p
	t.keep(p)
}

func point(u length.Units, p place.Point) xy { return xy{fact(u, p.X), fact(u, p.Y)} }

func (t *turn) routeName(v site.Route) string {
	s := v.Name
	if !strings.HasPrefix(s, v.What) {
		s = v.What + " " + s
	}
	if v.Size != 0 {
		s += " " + t.f(v.Size)
	}
	return s
}

// query is a reach query with the names behind its indexes.
type query struct {
	reach.Query
	surface place.Surface
	routes  []*site.RouteState
	set     []place.Support
}

// reachQuery puts the room's runs and supports to reach. screw 0 is the job's own.
func (t *turn) reachQuery(s place.Surface, screw length.Length) query {
	board, _ := t.st.BoardNow()
	q := query{surface: s, routes: t.room.RoutesOn(s), set: t.room.Supports(s)}
	if screw == 0 {
		screw = t.jobScrew(q.set)
	}
	usual := reach.Usual()
	q.Query = reach.Query{
		Screw: screw, Board: board.Thick, Code: place.Code(t.st.CodeNow()),
		Allow: reach.Allow{
			Set: t.st.SettingOr("set", usual.Set), Margin: t.st.SettingOr("margin", usual.Margin), Beside: usual.Beside,
		},
	}
	q.Supports = q.set
	for _, rt := range q.routes {
		q.Runs = append(q.Runs, t.reachRun(rt, q.set))
	}
	return q
}

func (t *turn) reachRun(rt *site.RouteState, set []place.Support) reach.Run {
	v, _ := rt.Now()
	run := reach.Run{Name: rt.Name, Kind: routeKinds[v.What], Half: v.Size / 2, Depth: v.Depth}
	switch v.How {
	case "top":
		run.How = reach.OnTop
	case "depth", "notched":
		run.How = reach.Behind
		if v.How == "notched" && (v.Depth == 0 || v.NotchN > 0) {
			run.How = reach.NotSaid // elsewhere than in its notch nobody said
		}
	}
	for _, p := range rt.Path() {
		run.Path = append(run.Path, place.Point{X: p.X, Y: p.Y})
	}
	for i, sup := range set {
		if v.NotchN == sup.N && v.NotchK == sup.Kind {
			run.Notched = append(run.Notched, reach.Notch{Support: i, Depth: v.Depth})
		}
		switch {
		case rt.Plated(sup.Kind, sup.N):
			run.Guards = append(run.Guards, reach.Guard{Support: i, By: reach.Plate})
		case v.Conduit && v.What == "wire": // the exception is for wires (NEC 300.4)
			run.Guards = append(run.Guards, reach.Guard{Support: i, By: reach.Conduit})
		}
	}
	return run
}

// supportNames lists the supports of crossings: "straps 2, 3".
func (q query) supportNames(at []int) string {
	slices.Sort(at)
	at = slices.Compact(at)
	kind := string(q.set[at[0]].Kind)
	if len(at) == 1 {
		return place.Of{Sup: q.set[at[0]].Kind, N: q.set[at[0]].N}.String()
	}
	var ns []int
	for _, i := range at {
		ns = append(ns, q.set[i].N)
	}
	return kind + " " + ranges(ns)
}

// numbers are the supports' own numbers.
func (q query) numbers(at []int) []int {
	var out []int
	for _, i := range at {
		out = append(out, q.set[i].N)
	}
	return out
}

// ranges lists numbers in order, three and more in a row as "3 to 12".
func ranges(ns []int) string {
	var parts []string
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if k > i+1 {
			parts = append(parts, fmt.Sprintf("%d to %d", ns[i], ns[k]))
		} else {
			for _, n := range ns[i : k+1] {
				parts = append(parts, fmt.Sprint(n))
			}
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// screwHits notes each run that the job's screw reaches or comes near.
func (t *turn) screwHits(q query, a reach.Answer, of func(run string) bool) {
	for i, rt := range q.routes {
		if !of(rt.Name) {
			continue
		}
		var hit, near []int
		var past length.Length
		for _, c := range a.Hits() {
			if c.Run == i {
				hit = append(hit, c.Support)
				past = max(past, c.Past)
			}
		}
		for _, c := range a.Close() {
			if c.Run == i {
				near = append(near, c.Support)
			}
		}
		if len(hit) > 0 {
			t.note("caution", fmt.Sprintf("a %s screw reaches %s at %s, by up to %s: `reach` says where not to screw. %s",
				t.f(q.Screw), rt.Name, q.supportNames(hit), t.fine(past), cautionNear(t.kindOf(rt))))
		} else if len(near) > 0 {
			t.note("caution", fmt.Sprintf("a %s screw comes within %s of %s at %s. %s", t.f(q.Screw), t.f(q.Allow.Margin), rt.Name, q.supportNames(near), cautionNear(t.kindOf(rt))))
		}
	}
}

func (t *turn) kindOf(rt *site.RouteState) string {
	v, _ := rt.Now()
	return v.What
}

// fine prints a small distance exactly, where rounding to 1/16 would hide it.
func (t *turn) fine(l length.Length) string {
	if t.units() == length.Metric {
		return fmt.Sprintf("%.1f mm", length.MM(l))
	}
	return length.Canon(l)
}

// passes notes the run named, or any when name is "", that lies behind an opening.
func (t *turn) passes(th *site.ThingState, name string) {
	v, e := th.Now()
	if e == nil || !needsRoom[v.What] && v.What != "box" && v.What != "outlet" && v.What != "switch" {
		return
	}
	q := t.reachQuery(v.Surface, 0)
	if len(q.Runs) == 0 {
		return
	}
	at := th.At()
	hole := reach.Hole{At: place.Point{X: at.X, Y: at.Y}, W: v.Size.A, H: v.Size.B, Bit: reach.Guide}
	for _, p := range reach.Holes(hole, q.Supports, q.Runs, q.Allow) {
		rt := q.routes[p.Run]
		if name != "" && rt.Name != name {
			continue
		}
		rv, _ := rt.Now()
		where := "behind"
		if p.Beside {
			where = "right beside"
		}
		say := fmt.Sprintf("%s runs %s %s, %s behind the board", t.routeName(rv), where, th.Name, t.f(p.Depth))
		if p.State != reach.Clear {
			say += ": the cutter can reach it"
		}
		t.note("caution", say+". "+cautionNear(rv.What))
	}
}

func (t *turn) plate(e grammar.Plate) {
	if !t.needRoom() {
		return
	}
	rt := t.room.Route(e.Run)
	if rt == nil {
		t.no(fmt.Sprintf("no run %q noted in %s", e.Run, t.room.Name), "pipe p1 40 off west from strap 2 to strap 7 depth 3/4")
		return
	}
	v, _ := rt.Now()
	kind := e.What
	n := len(t.room.SupportsOf(v.Surface, kind))
	for _, i := range e.N {
		if i < 1 || i > n {
			t.no(fmt.Sprintf("%s has %d %s, there is no %s", t.room.Name, n, kind, place.Of{Sup: kind, N: i}.String()), "")
			return
		}
	}
	q := t.reachQuery(v.Surface, 0)
	a := reach.Check(q.Query)
	for _, n := range e.N {
		if !slices.ContainsFunc(a.Crossings, func(c reach.Crossing) bool {
			return q.routes[c.Run] == rt && q.set[c.Support].N == n && q.set[c.Support].Kind == kind
		}) && !slices.Contains(q.numbers(q.platesDue(a, rt.Name)), n) {
			t.no(fmt.Sprintf("%s does not pass %s", e.Run, place.Of{Sup: kind, N: n}.String()), "find "+e.Run)
			return
		}
	}
	if t.save(site.Plates{Room: t.room.Name, Run: e.Run, What: kind, N: e.N}) == nil {
		return
	}
	q = t.reachQuery(v.Surface, 0)
	due := q.platesDue(reach.Check(q.Query), rt.Name)
	left := "; no more due"
	if len(due) > 0 {
		left = "; still due at " + q.supportNames(due)
	}
	var ns []string
	for _, i := range e.N {
		ns = append(ns, place.Of{Sup: kind, N: i}.String())
	}
	t.noted("plate", nil, fmt.Sprintf("%s %s plated at %s%s", t.room.Name, e.Run, strings.Join(ns, ", "), left))
}

func (q query) platesDue(a reach.Answer, run string) []int {
	var out []int
	for _, p := range a.Plates {
		if q.routes[p.Run].Name == run {
			out = append(out, p.Support)
		}
	}
	return out
}

// findRoute says where a run goes and which supports it crosses.
func (t *turn) findRoute(rt *site.RouteState) {
	v, en := rt.Now()
	u := t.units()
	path := rt.Path()
	var at []string
	for _, p := range path {
		at = append(at, t.coords(v.Surface, p))
	}
	q := t.reachQuery(v.Surface, 0)
	var crosses []int
	for _, c := range reach.Check(q.Query).Crossings {
		if q.routes[c.Run] == rt {
			crosses = append(crosses, c.Support)
		}
	}
	text := fmt.Sprintf("%s %s: %s", t.where(v.Surface), t.routeName(v), strings.Join(at, " to "))
	if len(crosses) > 0 {
		text += ", crosses " + q.supportNames(crosses)
	}
	t.tell("run", runFacts{Name: rt.Name, What: v.What, From: point(u, path[0]), To: point(u, path[len(path)-1])},
		text+" ("+t.byWhen(en)+")")
}

// routesOver lists the runs of the kind asked for that pass behind rect.
func (t *turn) routesOver(e grammar.AnyOver, rect place.Rect) []string {
	kind := e.What
	switch kind {
	case "cable", "wiring":
		kind = "wire"
	case "water", "pex", "plumbing":
		kind = "pipe"
	}
	q := t.reachQuery(place.Ceiling, 0)
	hole := reach.Hole{
		At: place.Point{X: (rect.X0 + rect.X1) / 2, Y: (rect.Y0 + rect.Y1) / 2}, W: rect.X1 - rect.X0, H: rect.Y1 - rect.Y0,
	}
	var out []string
	for _, p := range reach.Holes(hole, q.Supports, q.Runs, q.Allow) {
		rt := q.routes[p.Run]
		v, _ := rt.Now()
		water := kind == "pipe" && v.What == "heat tube"
		if kind != "" && v.What != kind && !water && !(kind == "duct" && v.What == "duct run") {
			continue
		}
		path := rt.Path()
		out = append(out, fmt.Sprintf("%s (%s to %s)", t.routeName(v), t.coords(v.Surface, path[0]), t.coords(v.Surface, path[len(path)-1])))
	}
	return out
}

// routeNamed is the run of that name in the room at hand, or else in the only
// other room that has one.
func (t *turn) routeNamed(name string) *site.RouteState {
	if t.room != nil {
		if rt := t.room.Route(name); rt != nil || t.line.Room != "" {
			return rt
		}
	}
	var found *site.RouteState
	for _, r := range t.st.Standing() {
		if rt := r.Route(name); rt != nil {
			if found != nil {
				return nil
			}
			found = rt
		}
	}
	return found
}
