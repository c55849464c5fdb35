package bot

import (
	"fmt"
	"strings"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
)

type (
	xy struct {
		X Len `json:"x"`
		Y Len `json:"y"`
	}
	runFacts struct {
		Name  string `json:"name"`
		What  string `json:"what"`
		From  xy     `json:"from"`
		To    xy     `json:"to"`
		Depth *Len   `json:"depth,omitempty"`
	}
	hitFacts struct {
		Run   string `json:"run"`
		Strap string `json:"strap"`
		X     Len    `json:"x"`
		Y     Len    `json:"y"`
		Past  Len    `json:"past"`
	}
	plateFacts struct {
		Run   string `json:"run"`
		Strap string `json:"strap"`
		Rule  string `json:"rule"`
	}
	reachFacts struct {
		Screw  Len          `json:"screw"`
		Tip    Len          `json:"tip"`
		Hits   []hitFacts   `json:"hits"`
		Close  []hitFacts   `json:"close"`
		Plates []plateFacts `json:"plates"`
		Fits   []Len        `json:"fits"`
	}
)

// where says how the board of a surface is fixed, as the codes ask.
func (t *turn) whereFixed(s place.Surface, set []place.Support) fasten.Where {
	board, _ := t.st.BoardNow()
	w := fasten.Where{
		Code: place.Code(t.st.CodeNow()), Wall: s.IsWall(), Board: board.Thick, Across: true,
		Texture: s == place.Ceiling && t.room.Textured(),
	}
	if v, set := t.st.SettingNow("rated"); set {
		w.Rated = int(v.N)
	}
	if run, ok := t.room.BoardsRun(s); ok && len(set) > 0 {
		w.Across, w.Bay = run != set[0].Run, place.WidestBay(set)
	}
	return w
}

// screwFor is the screw the lead set, else the usual one.
func (t *turn) screwFor(where fasten.Where, sup place.Support) fasten.Screw {
	if l := t.st.ScrewSet(); l != 0 {
		return fasten.Check(l, where, sup)
	}
	return fasten.ScrewLength(where, sup)
}

// jobScrew is its length on a ceiling's supports.
func (t *turn) jobScrew(set []place.Support) length.Length {
	var sup place.Support
	if len(set) > 0 {
		sup = set[0]
	}
	return t.screwFor(t.whereFixed(place.Ceiling, set), sup).Length
}

// reach says where not to screw.
func (t *turn) reach(e grammar.Reach) {
	if !t.needRoom() {
		return
	}
	s := place.Ceiling
	q := t.reachQuery(s, e.Screw.L)
	for _, w := range place.Walls { // a room whose only runs are in one wall is asked about that wall
		if len(q.routes) == 0 {
			if wq := t.reachQuery(place.Surface(w), e.Screw.L); len(wq.routes) > 0 {
				s, q = place.Surface(w), wq
			}
		}
	}
	a := reach.Check(q.Query)
	u := t.units()
	facts := reachFacts{Screw: fact(u, q.Screw), Tip: fact(u, a.Tip), Hits: []hitFacts{}, Close: []hitFacts{}, Plates: []plateFacts{}, Fits: []Len{}}
	lines := []string{t.tipText(s, q, a)}
	if len(q.routes) == 0 {
		lines = append(lines, fmt.Sprintf("no pipe, wire or duct noted in %s: that is not the same as none. Look before you screw", t.where(s)))
		t.tell("reach", facts, strings.Join(lines, "\n"))
		return
	}
	for _, c := range a.Hits() {
		facts.Hits = append(facts.Hits, q.hitFact(u, c))
	}
	for _, c := range a.Close() {
		facts.Close = append(facts.Close, q.hitFact(u, c))
	}
	lines = append(lines, t.keepClear("HIT", q, a.Hits())...)
	lines = append(lines, t.keepClear("close", q, a.Close())...)
	if len(facts.Hits)+len(facts.Close) == 0 {
		lines = append(lines, "the screw reaches no noted run")
	}
	for _, p := range a.Plates {
		facts.Plates = append(facts.Plates, plateFacts{q.routes[p.Run].Name, place.Of{Sup: q.set[p.Support].Kind, N: q.set[p.Support].N}.String(), p.Rule.Source})
	}
	lines = append(lines, t.platesText(q, a)...)
	fit := t.fitText(s, q, &facts)
	if fit != "" {
		lines = append(lines, fit)
	}
	t.tell("reach", facts, strings.Join(lines, "\n"))
	for _, n := range a.Notes {
		switch n.Kind {
		case reach.DepthUnknown:
			t.note("assumed", q.routes[n.Run].Name+": depth not said, taken as touching the board")
		case reach.NoPlateHeat:
			t.note("check", q.routes[n.Run].Name+": plates kill a heat tube's output; mark its lines and screw between")
		}
	}
	if len(facts.Hits)+len(facts.Close) > 0 {
		t.note("caution", cautionReach)
	}
}

// tipText says how far the screw comes past board and support.
func (t *turn) tipText(s place.Surface, q query, a reach.Answer) string {
	text := fmt.Sprintf("%s: %s screw in %s board, tip %s past the board", t.where(s), t.f(q.Screw), t.exact(q.Board), t.fine(max(a.Tip, 0)))
	if len(q.set) == 0 {
		return text
	}
	thin := q.set[0]
	for _, sup := range q.set {
		if sup.Thick < thin.Thick {
			thin = sup
		}
	}
	kind := strings.TrimSuffix(string(thin.Kind), "s")
	switch d := a.Tip - thin.Thick; {
	case d > 0:
		text += fmt.Sprintf(", %s past a %s %s", t.fine(d), t.f(thin.Thick), kind)
	case d == 0:
		text += fmt.Sprintf(", level with the back of a %s %s", t.f(thin.Thick), kind)
	default:
		text += fmt.Sprintf(", inside a %s %s", t.f(thin.Thick), kind)
	}
	if !thin.Measured {
		text += " (thickness assumed: measure one)"
	}
	return text
}

func (q query) hitFact(u length.Units, c reach.Crossing) hitFacts {
	return hitFacts{
		Run: q.routes[c.Run].Name, Strap: place.Of{Sup: q.set[c.Support].Kind, N: q.set[c.Support].N}.String(),
		X: fact(u, c.At.X), Y: fact(u, c.At.Y), Past: fact(u, c.Past),
	}
}

// keepClear lists crossings run by run; those with the same strip share a line.
func (t *turn) keepClear(head string, q query, all []reach.Crossing) []string {
	type strip struct {
		run      int
		from, to length.Length
		along    bool
		axis     place.Axis
	}
	var order []strip
	at := map[strip][]int{}
	past := map[strip]length.Length{}
	for _, c := range all {
		k := strip{c.Run, c.From, c.To, c.Along, q.Supports[c.Support].Lie}
		if at[k] == nil {
			order = append(order, k)
			past[k] = c.Past
		}
		at[k] = append(at[k], c.Support)
		past[k] = max(past[k], c.Past)
	}
	var lines []string
	for _, k := range order {
		wall := "west"
		if k.axis == place.Y {
			wall = "north"
		}
		if q.surface.IsWall() && k.axis == place.Y {
			wall = "the floor"
		}
		v, _ := q.routes[k.run].Now()
		how := fmt.Sprintf("%s past its face", t.fine(max(past[k], 0)))
		if head != "HIT" {
			how = fmt.Sprintf("%s short of it", t.fine(max(-past[k], 0)))
		}
		along := ""
		if k.along {
			along = " (runs along it)"
		}
		var board length.Length
		face := ""
		if w := place.Wall(wall); w == place.West || w == place.North {
			if board = t.room.BoardNow(w); board > 0 {
				face = " (board face)"
			}
		}
		lines = append(lines, fmt.Sprintf("%s %s at %s%s, %s: no screw from %s to %s off %s%s",
			head, t.routeName(v), q.supportNames(at[k]), along, how, t.near(k.from-board), t.near(k.to-board), wall, face))
	}
	return lines
}

// platesText lists the plates due, with the rule of each run.
func (t *turn) platesText(q query, a reach.Answer) []string {
	var lines []string
	for i, rt := range q.routes {
		var due []int
		var rule reach.Rule
		for _, p := range a.Plates {
			if p.Run == i {
				due, rule = append(due, p.Support), p.Rule
			}
		}
		if len(due) > 0 {
			lines = append(lines, fmt.Sprintf("plates due on %s at %s: nearer than %s (%s)", rt.Name, q.supportNames(due), t.f(rule.Setback), rule.Source))
		}
	}
	return lines
}

// fitText says which stock screws give bite and margin, or what to do instead.
func (t *turn) fitText(s place.Surface, q query, facts *reachFacts) string {
	if len(q.set) == 0 {
		return ""
	}
	sup := q.Supports[0]
	need := fasten.Check(q.Screw, t.whereFixed(s, q.set), sup).Need
	thread := fasten.Coarse
	if sup.Steel() {
		thread = fasten.Fine
	}
	fits, advice := reach.Fits(q.Query, fasten.Stock(thread), need)
	var ok []string
	for _, f := range fits {
		if f.OK() {
			ok = append(ok, t.f(f.Length))
			facts.Fits = append(facts.Fits, fact(t.units(), f.Length))
		}
	}
	if len(ok) > 0 {
		return "screws that bite and clear it: " + strings.Join(ok[:min(len(ok), 3)], ", ")
	}
	say := map[reach.Advice]string{
		reach.PlateIt: "plate each crossing", reach.KeepLane: "no screws in those strips",
		reach.MoveIt: "have its trade move it", reach.FurOut: "fur the ceiling down", reach.Measure: "measure strap and depth",
	}
	var todo []string
	for _, a := range advice {
		todo = append(todo, say[a])
	}
	return "no screw length both bites and clears it: " + strings.Join(todo, ", or ")
}

func (t *turn) code(e grammar.Code) {
	if t.save(site.Code{Code: e.Code}) != nil {
		t.noted("code", nil, map[string]string{"us": "US rules (IRC, NEC)", "canada": "Canadian rules (NBC, CE Code)"}[e.Code]+" from now on; local amendments go first")
	}
}

// settings are the numbers a lead may set, with the bounds taken without asking.
var settings = map[string]struct {
	unit     string
	low, top float64
}{
	"margin": {"", 0, 2}, "set": {"", 0, 0.25}, "stagger": {"", 0, 60}, "sliver": {"", 0, 24}, "short": {"", 0, 48}, "rip": {"", 0, 2},
	"waste": {"%", 0, 50}, "compound": {"gal", 0, 100}, "box": {"screws a box", 1, 100_000}, "rated": {"min", 0, 240},
}

func (t *turn) set(e grammar.Set) {
	rule, ok := settings[e.What]
	if !ok {
		t.no(fmt.Sprintf("%q is no number of mine", e.What), "set waste 10")
		return
	}
	value := e.N
	if rule.unit == "" {
		value = float64(e.L.L) / float64(length.Inch)
	}
	if value < rule.low || value > rule.top {
		t.ask(fmt.Sprintf("%s %g? send it again", e.What, value), "")
		return
	}
	if t.save(site.Setting{What: e.What, L: e.L.L, N: e.N, Per: e.Per}) == nil {
		return
	}
	switch {
	case rule.unit == "":
		t.noted("set", nil, fmt.Sprintf("%s %s", e.What, t.said1(e.L)))
	case e.Per > 0:
		t.noted("set", nil, fmt.Sprintf("%s %g %s per %d sq ft", e.What, e.N, rule.unit, e.Per))
	default:
		t.noted("set", nil, fmt.Sprintf("%s %g %s", e.What, e.N, rule.unit))
	}
}
