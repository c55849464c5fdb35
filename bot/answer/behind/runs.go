// Package behind is about the runs behind a surface: what a screw or a cutter does to them.
package behind

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/told"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar/speech"
)

// routeKinds maps runs to the kinds of package reach.
var routeKinds = map[string]reach.Kind{
	"pipe": reach.Pipe, "wire": reach.Wire, "gas": reach.Gas, "duct run": reach.Duct, "heat tube": reach.HeatTube,
}

// WhereFixed says how the board of a surface is fastened, in the terms of the codes.
func WhereFixed(c answer.Ctx, s place.Surface, set []place.Support) fasten.Where {
	board, _ := c.Room.BoardFor(s)
	w := fasten.Where{
		Code: place.Code(c.State.CodeNow()), Wall: s.Upright(), Board: board.Thick, Across: true,
		Texture: s == place.Ceiling && c.Room.Textured(),
	}
	if v, set := c.State.SettingNow("rated"); set {
		w.Rated = int(v.N)
	}
	if run, ok := c.Room.BoardsRun(s); ok && len(set) > 0 {
		w.Across, w.Bay = run != set[0].Run, place.WidestBay(set)
	}
	return w
}

// ScrewFor returns the screw that the lead set, or else the usual one.
func ScrewFor(c answer.Ctx, where fasten.Where, sup place.Support) fasten.Screw {
	if l := c.State.ScrewSet(); l != 0 {
		return fasten.Check(l, where, sup)
	}
	return fasten.ScrewLength(where, sup)
}

// jobScrew returns its length for a surface's supports.
func jobScrew(c answer.Ctx, s place.Surface, set []place.Support) length.Length {
	var sup place.Support
	if len(set) > 0 {
		sup = set[0]
	}
	return ScrewFor(c, WhereFixed(c, s, set), sup).Length
}

// Query is a reach query with the names of what its indexes refer to.
type Query struct {
	reach.Query
	Surface place.Surface
	Routes  []*site.RouteState
	Set     []place.Support
}

// Of builds the query for the runs and supports of the surface. screw 0 means the job's own.
func Of(c answer.Ctx, s place.Surface, screw length.Length) Query {
	board, _ := c.Room.BoardFor(s)
	q := Query{Surface: s, Routes: c.Room.RoutesOn(s), Set: c.Room.Supports(s)}
	if screw == 0 {
		screw = jobScrew(c, s, q.Set)
	}
	usual := reach.Usual()
	q.Query = reach.Query{
		Screw: screw, Board: board.Thick, Code: place.Code(c.State.CodeNow()),
		Allow: reach.Allow{
			Set: c.State.SettingOr("set", usual.Set), Margin: c.State.SettingOr("margin", usual.Margin), Beside: usual.Beside,
		},
	}
	q.Supports = q.Set
	q.Runs = say.Each(q.Routes, func(rt *site.RouteState) reach.Run { return reachRun(rt, q.Set) })
	return q
}

func reachRun(rt *site.RouteState, set []place.Support) reach.Run {
	v, _ := rt.Now()
	run := reach.Run{Kind: routeKinds[v.What], Half: v.Size / 2, Depth: v.Depth, Path: rt.Path()}
	switch v.How {
	case "top":
		run.How = reach.OnTop
	case "depth", "notched":
		run.How = reach.Behind
		if v.How == "notched" && (v.Depth == 0 || v.NotchN > 0) {
			run.How = reach.NotSaid // outside its notch nothing was said
		}
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

// SupportNames names the supports of crossings: "straps 2, 3".
func (q Query) SupportNames(at []int) string {
	slices.Sort(at)
	at = slices.Compact(at)
	kind := string(q.Set[at[0]].Kind)
	if len(at) == 1 {
		return place.Of{Sup: q.Set[at[0]].Kind, N: q.Set[at[0]].N}.String()
	}
	return kind + " " + say.Ranges(say.Each(at, func(i int) int { return q.Set[i].N }))
}

// Numbers returns the supports' own numbers.
func (q Query) Numbers(at []int) []int {
	return say.Each(at, func(i int) int { return q.Set[i].N })
}

// ScrewHits adds a note for each run that the job's screw reaches or comes near.
func ScrewHits(c answer.Ctx, r *answer.Reply, q Query, a reach.Answer, of func(run string) bool) {
	for i, rt := range q.Routes {
		if !of(rt.Name) {
			continue
		}
		var hit, near []int
		var past length.Length
		for _, x := range a.Hits() {
			if x.Run == i {
				hit = append(hit, x.Support)
				past = max(past, x.Past)
			}
		}
		for _, x := range a.Close() {
			if x.Run == i {
				near = append(near, x.Support)
			}
		}
		if len(hit) > 0 {
			r.Note("caution", fmt.Sprintf("a %s screw reaches %s at %s, by up to %s: `reach` says where not to screw. %s",
				c.Len(q.Screw), rt.Name, q.SupportNames(hit), c.Fine(past), answer.CautionNear(kindOf(rt))))
		} else if len(near) > 0 {
			r.Note("caution", fmt.Sprintf("a %s screw comes within %s of %s at %s. %s", c.Len(q.Screw), c.Len(q.Allow.Margin), rt.Name, q.SupportNames(near), answer.CautionNear(kindOf(rt))))
		}
	}
}

func (q Query) PlatesDue(a reach.Answer, run string) []int {
	var out []int
	for _, p := range a.Plates {
		if q.Routes[p.Run].Name == run {
			out = append(out, p.Support)
		}
	}
	return out
}

func kindOf(rt *site.RouteState) string {
	v, _ := rt.Now()
	return v.What
}

// Passes adds a note for the run named, or any if name is "", that passes behind an opening.
func Passes(c answer.Ctx, r *answer.Reply, th *site.ThingState, name string) {
	v, e := th.Now()
	if e == nil || !answer.KindOf(v.What).NeedsRoom && v.What != "box" && v.What != "outlet" && v.What != "switch" {
		return
	}
	if len(c.Room.RoutesOn(v.Surface)) == 0 {
		return
	}
	q := Of(c, v.Surface, 0)
	hole := reach.Hole{At: th.At(), W: v.Size.A, H: v.Size.B, Bit: reach.Guide}
	for _, p := range reach.Holes(hole, q.Supports, q.Runs, q.Allow) {
		rt := q.Routes[p.Run]
		if name != "" && rt.Name != name {
			continue
		}
		rv, _ := rt.Now()
		where := "behind"
		if p.Beside {
			where = "right beside"
		}
		text := fmt.Sprintf("%s runs %s %s, %s behind the board", c.RouteName(rv), where, th.Name, c.Len(p.Depth))
		if p.State != reach.Clear {
			text += ": the cutter can reach it"
		}
		r.Note("caution", text+". "+answer.CautionNear(rv.What))
	}
}

// Unplanned adds to an answer about screws, or about closing the room, what was hit there and the newest notes of runs
// and of where not to screw: they are not on the plan, so no answer counts them.
func Unplanned(c answer.Ctx, r *answer.Reply) {
	all, n := append(slices.Clip(c.State.Told()), c.State.HitsIn(c.Room.Name)...), 0
	if c.Waiting != nil {
		all = append(c.Waiting(), all...)
	}
	for _, en := range slices.Backward(all[max(len(all)-mostTold, 0):]) {
		if _, hit := en.Body.(event.Hit); en.Struck() || en.Room != c.Room.Name && en.Room != "" || strings.HasSuffix(en.Text, "?") || !hit && !speech.TellsOfRun(en.Text) && !screwless.MatchString(en.Text) {
			continue
		}
		if line := told.Quote(c, en); !slices.ContainsFunc(r.Notes, func(n message.Note) bool { return n.Text == line }) {
			r.Note("check", "not on the plan, so look there too: "+line)
		}
		if n++; n == 3 {
			return
		}
	}
}

// screwless matches what says where not to screw.
var screwless = regexp.MustCompile(`(?i)\b(?:no|not|don'?t|never)\b[^.,;]*\b(?:screw|nail|drill|anchor)|\bhit\b`)

// mostTold is the number of the newest notes looked at.
const mostTold = 2000
