package close

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/say"
	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar/hanging"
)

type (
	hitFacts struct {
		Run   string  `json:"run"`
		Strap string  `json:"strap"`
		X     say.Len `json:"x"`
		Y     say.Len `json:"y"`
		Past  say.Len `json:"past"`
	}
	plateFacts struct {
		Run   string `json:"run"`
		Strap string `json:"strap"`
		Rule  string `json:"rule"`
	}
	reachFacts struct {
		Screw  say.Len      `json:"screw"`
		Tip    say.Len      `json:"tip"`
		Hits   []hitFacts   `json:"hits"`
		Close  []hitFacts   `json:"close"`
		Plates []plateFacts `json:"plates"`
		Fits   []say.Len    `json:"fits"`
	}
)

// whereNot says where not to screw.
func whereNot(c answer.Ctx, e hanging.Reach) answer.Reply {
	if len(c.State.Standing()) == 0 {
		r := answer.Tell("reach", nil, "no pipe, wire or duct noted, and no room: that is not the same as none")
		r.Note("caution", answer.CautionScrew)
		return r
	}
	if r := ofRun(c); r != nil {
		c = c.In(r)
	}
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	if len(e.Fixes) > 0 {
		return at(c, e)
	}
	s := place.Ceiling
	q := behind.Of(c, s, e.Screw.L)
	for _, w := range place.Walls { // if a room's only runs are in one wall, the question is about that wall
		if len(q.Routes) == 0 {
			if wq := behind.Of(c, place.Surface(w), e.Screw.L); len(wq.Routes) > 0 {
				s, q = place.Surface(w), wq
			}
		}
	}
	a := reach.Check(q.Query)
	facts := factsOf(c, q)
	lines := []string{tipText(c, s, q, a)}
	if len(q.Routes) == 0 {
		lines = append(lines, fmt.Sprintf("no pipe, wire or duct noted in %s: that is not the same as none. Look before you screw", c.Where(s)))
		r := answer.Tell("reach", facts, strings.Join(lines, "\n"))
		behind.Unplanned(c, &r)
		return r
	}
	hit := func(x reach.Crossing) hitFacts {
		return hitFacts{Run: q.Routes[x.Run].Name, Strap: q.Set[x.Support].Name(), X: c.Fact(x.At.X), Y: c.Fact(x.At.Y), Past: c.Fact(x.Past)}
	}
	facts.Hits = append(facts.Hits, say.Each(a.Hits(), hit)...)
	facts.Close = append(facts.Close, say.Each(a.Close(), hit)...)
	lines = append(lines, keepClear(c, "HIT", q, a.Hits())...)
	lines = append(lines, keepClear(c, "close", q, a.Close())...)
	if len(facts.Hits)+len(facts.Close) == 0 {
		lines = append(lines, reachesNone(c, q))
	}
	for _, p := range a.Plates {
		facts.Plates = append(facts.Plates, plateFacts{q.Routes[p.Run].Name, q.Set[p.Support].Name(), p.Rule.Source})
	}
	lines = append(lines, platesText(c, q, a)...)
	if fit := fitText(c, s, q, &facts); fit != "" {
		lines = append(lines, fit)
	}
	r := answer.Tell("reach", facts, strings.Join(lines, "\n"))
	for _, n := range a.Notes {
		switch n.Kind {
		case reach.DepthUnknown:
			r.Note("assumed", q.Routes[n.Run].Name+": depth not said, taken as touching the board")
		case reach.NoPlateHeat:
			r.Note("check", q.Routes[n.Run].Name+": plates kill a heat tube's output; mark its lines and screw between")
		}
	}
	for _, w := range place.Walls { // and in the other walls
		wq := behind.Of(c, place.Surface(w), e.Screw.L)
		if place.Surface(w) == s || len(wq.Routes) == 0 {
			continue
		}
		wa := reach.Check(wq.Query)
		said := append(keepClear(c, "HIT", wq, wa.Hits()), keepClear(c, "close", wq, wa.Close())...)
		if len(said) == 0 {
			said = []string{reachesNone(c, wq)}
		}
		r.Line(string(w) + " wall: " + strings.Join(said, "; "))
	}
	behind.Unplanned(c, &r)
	if len(facts.Hits)+len(facts.Close) > 0 {
		r.Note("caution", answer.CautionReach)
	}
	return r
}

// reachesNone says that the screw reaches no run noted on a surface, if it is known where screws go there.
func reachesNone(c answer.Ctx, q behind.Query) string {
	if len(q.Set) > 0 {
		return "the screw reaches no noted run"
	}
	return fmt.Sprintf("no framing noted there, so keep off %s", strings.Join(say.Most(say.Each(q.Routes, c.RouteText), 3), ", "))
}

// ofRun returns the room of the run that a question names ("will a 1 5/8 hit p1"), nil if it names none or a room too.
func ofRun(c answer.Ctx) *site.Room {
	if c.Line.Room != "" {
		return nil
	}
	for _, r := range c.State.Standing() {
		for _, rt := range r.Routes {
			if _, en := rt.Now(); en != nil && slices.ContainsFunc(strings.Fields(strings.ToLower(c.Words)), func(w string) bool { return strings.Trim(w, "?.,!") == rt.Name }) {
				return r
			}
		}
	}
	return nil
}

// tipText says how far the tip of the screw comes past the board and past the support.
func tipText(c answer.Ctx, s place.Surface, q behind.Query, a reach.Answer) string {
	text := fmt.Sprintf("%s: %s screw in %s board, tip %s past the board", c.Where(s), c.Len(q.Screw), c.Thick(q.Board), c.Fine(max(a.Tip, 0)))
	if len(q.Set) == 0 {
		return text
	}
	thin := q.Set[0]
	for _, sup := range q.Set {
		if sup.Thick < thin.Thick {
			thin = sup
		}
	}
	kind := strings.TrimSuffix(string(thin.Kind), "s")
	switch d := a.Tip - thin.Thick; {
	case d > 0:
		text += fmt.Sprintf(", %s past a %s %s", c.Fine(d), c.Len(thin.Thick), kind)
	case d == 0:
		text += fmt.Sprintf(", level with the back of a %s %s", c.Len(thin.Thick), kind)
	default:
		text += fmt.Sprintf(", inside a %s %s", c.Len(thin.Thick), kind)
	}
	if !thin.Measured {
		text += " (thickness assumed: measure one)"
	}
	return text
}

// factsOf are those of a screw that meets nothing.
func factsOf(c answer.Ctx, q behind.Query) reachFacts {
	return reachFacts{Screw: c.Fact(q.Screw), Tip: c.Fact(reach.Tip(q.Screw, q.Board, q.Allow.Set)), Hits: []hitFacts{}, Close: []hitFacts{}, Plates: []plateFacts{}, Fits: []say.Len{}}
}

// keepClear lists crossings run by run. Those with the same strip share a line.
func keepClear(c answer.Ctx, head string, q behind.Query, all []reach.Crossing) []string {
	type strip struct {
		run      int
		from, to length.Length
		along    bool
		axis     place.Axis
	}
	var order []strip
	at := map[strip][]int{}
	past := map[strip]length.Length{}
	for _, x := range all {
		k := strip{x.Run, x.From, x.To, x.Along, q.Supports[x.Support].Lie}
		if at[k] == nil {
			order = append(order, k)
			past[k] = x.Past
		}
		at[k] = append(at[k], x.Support)
		past[k] = max(past[k], x.Past)
	}
	var lines []string
	for _, k := range order {
		wall := cmp.Or(string(q.Surface.Start(k.axis)), "the floor")
		v, _ := q.Routes[k.run].Now()
		how := fmt.Sprintf("%s past its face", c.Fine(max(past[k], 0)))
		if head != "HIT" {
			how = fmt.Sprintf("%s short of it", c.Fine(max(-past[k], 0)))
		}
		along := ""
		if k.along {
			along = " (runs along it)"
		}
		var board length.Length
		face := ""
		if w := place.Wall(wall); w == place.West || w == place.North {
			if board = c.Room.BoardNow(w); board > 0 {
				face = " (board face)"
			}
		}
		lines = append(lines, fmt.Sprintf("%s %s at %s%s, %s: no screw from %s to %s off %s%s",
			head, c.RouteName(v), q.SupportNames(at[k]), along, how, c.Near(k.from-board), c.Near(k.to-board), wall, face))
	}
	return lines
}

// platesText lists the plates still missing, with the rule for each run.
func platesText(c answer.Ctx, q behind.Query, a reach.Answer) []string {
	var lines []string
	for i, rt := range q.Routes {
		var due []int
		var rule reach.Rule
		for _, p := range a.Plates {
			if p.Run == i {
				due, rule = append(due, p.Support), p.Rule
			}
		}
		if len(due) > 0 {
			lines = append(lines, fmt.Sprintf("plates due on %s at %s: nearer than %s (%s)", rt.Name, q.SupportNames(due), c.Len(rule.Setback), rule.Source))
		}
	}
	return lines
}

// fitText says which stock screws have enough bite and margin, or what to do instead.
func fitText(c answer.Ctx, s place.Surface, q behind.Query, facts *reachFacts) string {
	if len(q.Set) == 0 {
		return ""
	}
	sup := q.Supports[0]
	need := fasten.Check(q.Screw, behind.WhereFixed(c, s, q.Set), sup).Need
	thread := fasten.Coarse
	if sup.Steel() {
		thread = fasten.Fine
	}
	fits, advice := reach.Fits(q.Query, fasten.Stock(thread), need)
	var ok []string
	for _, f := range fits {
		if f.OK() {
			ok = append(ok, c.Len(f.Length))
			facts.Fits = append(facts.Fits, c.Fact(f.Length))
		}
	}
	if len(ok) > 0 {
		return "screws that bite and clear it: " + strings.Join(ok[:min(len(ok), 3)], ", ")
	}
	does := map[reach.Advice]string{
		reach.PlateIt: "plate each crossing", reach.KeepLane: "no screws in those strips",
		reach.MoveIt: "have its trade move it", reach.FurOut: "fur the ceiling down", reach.Measure: "measure strap and depth",
	}
	return "no screw length both bites and clears it: " + strings.Join(say.Each(advice, func(a reach.Advice) string { return does[a] }), ", or ")
}
