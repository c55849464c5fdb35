package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/finish"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
)

// usualChecks is the list a room passes before it is closed, and who clears
// each (common practice, no source). The lead adds to it or waives one.
var usualChecks = []struct{ what, who string }{
	{"electrical inspection", "electrician"},
	{"plumbing inspection", "plumber"},
	{"insulation", "lead"},
	{"vapour barrier", "lead"},
	{"backing", "lead"},
	{"nails", "hanger"}, // supports fast and flush, nothing proud
	{"photos", "lead"},
}

// buried are kinds that have to stay reachable (junction boxes: NEC 314.29;
// valves and cleanouts likewise).
var buried = map[string]bool{"junction box": true, "valve": true, "cleanout": true}

type readyFacts struct {
	Ready bool        `json:"ready"`
	Open  []openCheck `json:"open"`
}

type openCheck struct {
	What string `json:"what"`
	Who  string `json:"who"`
}

func checkNames() []string {
	var names []string
	for _, c := range usualChecks {
		names = append(names, c.what)
	}
	return names
}

func clears(what string) string {
	for _, c := range usualChecks {
		if c.what == what {
			return c.who
		}
	}
	return "lead"
}

// blocking lists what keeps the room from being closed.
func (t *turn) blocking() []openCheck {
	open := []openCheck{}
	waived := map[string]bool{}
	for _, c := range t.room.Checks(checkNames()) {
		waived[c.What] = !c.Open()
		switch {
		case c.State == "failed":
			open = append(open, openCheck{c.What + " failed", clears(c.What)})
		case c.Open():
			open = append(open, openCheck{c.What, clears(c.What)})
		}
	}
	for _, s := range append([]place.Surface{place.Ceiling}, "north", "east", "south", "west") {
		q := t.reachQuery(s, 0)
		a := reach.Check(q.Query)
		for _, rt := range q.routes {
			if due := q.platesDue(a, rt.Name); len(due) > 0 {
				open = append(open, openCheck{fmt.Sprintf("plates on %s at %s", rt.Name, q.supportNames(due)), trade(rt)})
			}
		}
	}
	for _, th := range t.room.Things {
		v, e := th.Now()
		if e == nil {
			continue
		}
		if what := th.Name + " has to stay reachable"; buried[v.What] && !waived[what] {
			if st, _ := th.Stands(); st != site.Open {
				open = append(open, openCheck{what, "lead"})
			}
		}
	}
	for _, en := range t.st.HitsIn(t.room.Name) {
		if what := "hit " + en.Body.(site.Hit).What; !waived[what] {
			open = append(open, openCheck{what + " at " + t.clock(en.Sent), "lead"})
		}
	}
	return open
}

func trade(rt *site.RouteState) string {
	v, _ := rt.Now()
	switch v.What {
	case "wire":
		return "electrician"
	case "gas":
		return "gas fitter"
	}
	return "plumber"
}

func (t *turn) ready() {
	if !t.needRoom() {
		return
	}
	facts := readyFacts{Open: t.blocking()}
	facts.Ready = len(facts.Open) == 0
	if facts.Ready {
		text := t.room.Name + ": ready to close" + t.waivedText()
		if up := t.rowsUp(); len(up) > 0 {
			text += "; up already: " + strings.Join(up, ", ")
		}
		t.tell("ready", facts, text)
	} else {
		var parts []string
		for _, o := range facts.Open {
			parts = append(parts, fmt.Sprintf("%s (%s)", o.What, o.Who))
		}
		t.tell("ready", facts, fmt.Sprintf("%s: not ready. Open: %s", t.room.Name, strings.Join(parts, ", ")))
	}
	if len(t.room.Routes) == 0 {
		t.note("check", "no pipe, wire or duct noted here: that is not the same as none")
	}
	if facts.Ready {
		t.note("caution", cautionReady)
	}
}

func (t *turn) waivedText() string {
	var out []string
	for _, c := range t.room.Checks(checkNames()) {
		if c.State == "waived" {
			s := c.What + " waived by " + c.Entry.Who
			if c.Reason != "" {
				s += ": " + c.Reason
			}
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, "; ") + ")"
}

func (t *turn) check(e grammar.Check) {
	if !t.needRoom() {
		return
	}
	what := e.What
	if e.State != "add" {
		var ok bool
		if what, ok = t.checkNamed(e.What); !ok {
			return
		}
	}
	if e.State == "waived" && e.Reason == "" {
		t.no("a waiver needs its reason", fmt.Sprintf("check %s waived no insulation in this wall", what))
		return
	}
	if t.save(site.Checked{Room: t.room.Name, What: what, State: e.State, Reason: e.Reason}) == nil {
		return
	}
	left := len(t.blocking())
	text := fmt.Sprintf("%s %s %s", t.room.Name, what, e.State)
	if e.State == "add" {
		text = fmt.Sprintf("%s has to pass %s too", t.room.Name, what)
	}
	if e.Reason != "" {
		text += ", " + e.Reason
	}
	if left == 0 {
		text += "; ready to close"
	} else {
		text += fmt.Sprintf("; %d left before it is closed", left)
	}
	t.noted("check", nil, text)
}

// checkNamed is the check that the words name: whole, by its words, or nearly.
func (t *turn) checkNamed(words string) (string, bool) {
	var names []string
	for _, c := range t.room.Checks(checkNames()) {
		names = append(names, c.What)
	}
	for _, en := range t.st.HitsIn(t.room.Name) {
		names = append(names, "hit "+en.Body.(site.Hit).What)
	}
	for _, th := range t.room.Things {
		if v, e := th.Now(); e != nil && buried[v.What] {
			names = append(names, th.Name+" has to stay reachable")
		}
	}
	words = strings.ReplaceAll(words, "vapor", "vapour")
	var found []string
	for _, n := range names {
		if n == words {
			return n, true
		}
		all := true
		for w := range strings.FieldsSeq(words) {
			all = all && slices.Contains(strings.Fields(n), w)
		}
		if all {
			found = append(found, n)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	if n := grammar.Nearest(words, names); n != "" {
		return n, true
	}
	t.no(fmt.Sprintf("%q is not on the list of %s: %s", words, t.room.Name, strings.Join(names, ", ")), "check add "+words)
	return "", false
}

// notReady warns when board goes up in a room that has not passed its list.
func (t *turn) notReady() {
	if n := len(t.blocking()); n > 0 {
		t.note("not ready", fmt.Sprintf("%s had not passed its list: %d open, `ready` names them", t.room.Name, n))
	}
}

// handoff lists what the next trade needs.
func (t *turn) handoff(e grammar.Handoff) {
	if !t.needRoom() {
		return
	}
	want := func(who string) bool { return e.To == "" || e.To == who }
	lines := []string{"hand-off " + t.room.Name}
	var snags, wired, other, paint []string
	for _, en := range t.st.OpenSnags() {
		if en.Room == t.room.Name {
			snags = append(snags, fmt.Sprintf("%s (%d)", en.Body.(site.Snag).Text, en.Seq))
		}
	}
	for _, th := range t.room.Things {
		v, e := th.Now()
		if e == nil {
			continue
		}
		if st, _ := th.Stands(); st == site.Open || buried[v.What] {
			continue
		}
		item := fmt.Sprintf("%s (%s)", th.Name, t.coords(v.Surface, th.At()))
		if electric[v.What] {
			wired = append(wired, item)
		} else {
			other = append(other, item)
		}
		if v.Due == "after paint" {
			paint = append(paint, th.Name)
		}
	}
	add := func(who, what string, list []string) {
		if want(who) && len(list) > 0 {
			lines = append(lines, fmt.Sprintf("%s: %s %s", who, what, strings.Join(list, ", ")))
		}
	}
	add("taper", "fix", snags)
	add("taper", "up:", t.rowsUp())
	add("electrician", "not cut:", wired)
	add("hanger", "not cut:", other)
	add("painter", "cut after paint:", paint)
	var left []string
	for _, o := range t.blocking() {
		if e.To == "" || e.To == o.Who {
			left = append(left, o.What)
		}
	}
	if len(left) > 0 {
		lines = append(lines, "to clear: "+strings.Join(left, ", "))
	}
	if len(lines) == 1 {
		lines = append(lines, "nothing open")
	}
	t.tell("handoff", nil, strings.Join(lines, "\n"))
}

func (t *turn) rowsUp() []string {
	var out []string
	for _, p := range t.room.Pieces(place.Ceiling) {
		if name := t.pieceName(&p); !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func (t *turn) coat(e grammar.Coat) {
	if !t.needRoom() {
		return
	}
	b := site.Coat{Room: t.room.Name, N: e.N, Damp: e.Damp}
	var air finish.Air
	if e.Unit != "" {
		f := finish.Fahrenheit(e.Temp)
		if e.Unit == "c" {
			f = finish.Celsius(e.Temp)
		}
		air.Temp, b.Temp = &f, (*float64)(&f)
	}
	if e.RH >= 0 {
		air.Humidity, b.RH = &e.RH, &e.RH
	} else if e.Damp {
		air.Humidity = new(80.0) // "damp" without a reading: among the slow bands
	}
	if t.save(b) == nil {
		return
	}
	w := finish.NextCoat(air)
	text := fmt.Sprintf("%s coat %d", t.room.Name, e.N)
	switch {
	case slices.Contains(w.Notes, finish.TooCold):
		text += ": too cold, under 50 F (10 C) nothing sets right; no next coat until it is warm for 48 h"
	case !w.OK:
		text += ": that reading cannot be right; what do the thermometer and the RH say?"
	default:
		text += fmt.Sprintf(": next one not before %s, likely by %s", t.clock(t.sent.Add(w.From).UnixMilli()), t.clock(t.sent.Add(w.To).UnixMilli()))
		if w.Open {
			text += ", maybe later"
		}
	}
	t.noted("coat", nil, text)
	say := map[finish.NoteKind]string{
		finish.Uncertain: "published drying times differ widely: look at the coat and the label", finish.AskTemp: "what is the temperature?",
		finish.AskHumidity: "what does the RH read? it counts most", finish.SlowAir: "heat and air it, or use a setting compound",
		finish.WarmFirst: "it wants 48 h of 50 F (10 C) before taping",
	}
	for _, n := range w.Notes {
		if s := say[n]; s != "" && n != finish.WarmFirst {
			t.note("check", s)
		}
	}
}

func (t *turn) painted() {
	if !t.needRoom() || t.save(site.Painted{Room: t.room.Name}) == nil {
		return
	}
	var due []string
	for _, th := range t.room.Things {
		v, e := th.Now()
		if e == nil || v.Due != "after paint" {
			continue
		}
		if st, _ := th.Stands(); st != site.Open {
			due = append(due, fmt.Sprintf("%s (%s)", th.Name, t.coords(v.Surface, th.At())))
		}
	}
	text := t.room.Name + " painted"
	if len(due) > 0 {
		text += "; due now: " + strings.Join(due, ", ")
	}
	t.noted("painted", nil, text)
	if len(due) > 0 {
		t.note("caution", cautionWire)
	}
}

// snags lists the open snags of the room that was named, else of all rooms.
func (t *turn) snags() {
	facts := struct {
		Snags []snagFacts `json:"snags"`
	}{Snags: []snagFacts{}}
	var list []string
	for _, en := range t.st.OpenSnags() {
		if t.line.Room != "" && en.Room != t.room.Name {
			continue
		}
		f := snagFacts{Seq: en.Seq, Room: en.Room, Text: en.Body.(site.Snag).Text}
		facts.Snags = append(facts.Snags, f)
		said := fmt.Sprintf("%s (%d)", f.Text, f.Seq)
		if f.Room != "" {
			said = f.Room + ": " + said
		}
		list = append(list, said)
	}
	switch {
	case len(list) > 0:
		t.tell("snags", facts, fmt.Sprintf("%d open: %s", len(list), strings.Join(list, "; ")))
	case t.line.Room != "":
		t.tell("snags", facts, "no snag is open in "+t.room.Name)
	default:
		t.tell("snags", facts, "no snag is open")
	}
}

type snagFacts struct {
	Seq  uint64 `json:"seq"`
	Room string `json:"room,omitempty"`
	Text string `json:"text"`
}
