// Package close answers what has to be known before a room is closed, and what comes after: where not to
// screw, the checklist, the hand-off, coats and snags.
package close

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/ready"
	"strapline/bot/answer/rows"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/finish"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnQuestion(k, whereNot)
	answer.OnQuestion(k, answer.InRoom(checklist))
	answer.OnNote(k, func(c answer.Ctx, e hanging.Check) answer.Reply {
		if e.State == "add" && len(c.State.Standing()) == 0 { // on the list of the job
			return c.Answer(record.Snag{Text: e.What})
		}
		return answer.InRoom(check)(c, e)
	})
	answer.OnQuestion(k, answer.InRoom(handoff))
	answer.OnNote(k, answer.InRoom(coat))
	answer.OnNote(k, answer.InRoom(painted))
	answer.OnQuestion(k, snags)
	answer.OnQuestion(k, nextCoat)
	answer.OnQuestion(k, reachable)
	answer.OnQuestion(k, passed)
}

// checklist says whether a room can be closed.
func checklist(c answer.Ctx, _ hanging.Ready) answer.Reply {
	if ready.Trade(c) != "" {
		return c.Answer(record.Next{})
	}
	facts := struct {
		Ready bool              `json:"ready"`
		Open  []ready.OpenCheck `json:"open"`
	}{Open: ready.Blocking(c)}
	facts.Ready = len(facts.Open) == 0
	text := c.Room.Name + ": ready to close" + waivedText(c)
	if up := rowsUp(c); facts.Ready && len(up) > 0 {
		text += "; up already: " + strings.Join(up, ", ")
	}
	if !facts.Ready {
		parts := say.Each(facts.Open, func(o ready.OpenCheck) string { return fmt.Sprintf("%s (%s)", o.What, o.Who) })
		text = fmt.Sprintf("%s: not ready. Open: %s", c.Room.Name, strings.Join(say.Most(parts, 20), ", "))
	}
	r := answer.Tell("ready", facts, text)
	if len(c.Room.Routes) == 0 {
		r.Note("check", "no pipe, wire or duct noted here: that is not the same as none")
	}
	behind.Unplanned(c, &r)
	if facts.Ready {
		r.Note("caution", answer.CautionReady)
	}
	return r
}

func waivedText(c answer.Ctx) string {
	var out []string
	for _, k := range c.Room.Checks(ready.CheckNames()) {
		if k.State == "waived" {
			out = append(out, fmt.Sprintf("%s waived by %s: %s", k.What, k.Entry.Who, k.Reason))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, "; ") + ")"
}

func check(c answer.Ctx, e hanging.Check) answer.Reply {
	what := e.What
	var stop *answer.Reply
	if e.State != "add" {
		what, stop = checkNamed(c, e.What)
	} else if name, ok := strings.CutSuffix(what, ready.Reachable("")); ok && len(c.Named(name)) > 0 {
		var th *site.ThingState
		if th, stop = c.OneThing(name, func(n string) grammar.Entry { return hanging.Check{What: ready.Reachable(n), State: "add"} }); stop == nil {
			c, what = c.In(th.Room), ready.Reachable(th.Name)
		}
	}
	if stop != nil {
		return *stop
	}
	if e.State == "waived" && e.Reason == "" {
		return answer.No("a waiver needs its reason", fmt.Sprintf("check %s waived no insulation in this wall", what))
	}
	return answer.Save(event.Checked{Room: c.Room.Name, What: what, State: e.State, Reason: e.Reason}, func(en *site.Entry) answer.Reply {
		left := len(ready.Blocking(c))
		text := c.Room.Name + " " + hanging.Check{What: what, State: e.State}.String()
		if _, err := strconv.Atoi(e.What); err == nil {
			text = c.Room.Name + " " + hanging.Check{What: e.What, State: e.State}.String() + ", " + what
		}
		if e.Reason != "" && e.Reason != what {
			text += ", " + e.Reason
		}
		switch {
		case slices.Contains(ready.Stages, what):
		case e.State == "add":
			text += fmt.Sprintf("; open until `check %d ok`", en.Seq)
		case left == 0:
			text += "; ready to close"
		default:
			text += fmt.Sprintf("; %d left before it is closed", left)
		}
		return c.Noted(en, "check", nil, text)
	})
}

// checkNamed returns the check that the words name: exactly, in part, or nearly.
func checkNamed(c answer.Ctx, words string) (string, *answer.Reply) {
	var names []string
	for _, k := range c.Room.Checks(ready.CheckNames()) {
		if names = append(names, k.What); k.Entry != nil && fmt.Sprint(k.Entry.Seq) == words {
			return k.What, nil
		}
	}
	for _, en := range c.State.HitsIn(c.Room.Name) {
		names = append(names, "hit "+en.Body.(event.Hit).What)
	}
	for _, th := range c.Room.Things {
		if ready.MustStay(c, th) {
			names = append(names, ready.Reachable(th.Name))
		}
	}
	words = strings.ReplaceAll(words, "vapor", "vapour")
	var found []string
	for _, n := range names {
		if n == words || slices.Contains(ready.Stages, words) || words == "framing" {
			return words, nil
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
		return found[0], nil
	}
	if n := grammar.Nearest(words, names); n != "" {
		return n, nil
	}
	return "", answer.Stop(answer.No(fmt.Sprintf("%q is not on the list of %s: %s", words, c.Room.Name, strings.Join(say.Most(names, 20), ", ")), "check add "+words))
}

// handoff lists what the next trade needs.
func handoff(c answer.Ctx, e hanging.Handoff) answer.Reply {
	want := func(who string) bool { return e.To == "" || e.To == who }
	lines := []string{"hand-off " + c.Room.Name}
	snags := ready.Snags(c)
	var wired, other, paint []string
	for _, th := range c.Room.Things {
		v, e := th.Now()
		if e == nil {
			continue
		}
		if st, _ := th.Stands(); st == site.Open || ready.MustStay(c, th) {
			continue
		}
		item := fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At()))
		if answer.KindOf(v.What).Electric {
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
			lines = append(lines, fmt.Sprintf("%s: %s %s", who, what, strings.Join(say.Most(list, 20), ", ")))
		}
	}
	add("taper", "fix", snags)
	add("taper", "up:", rowsUp(c))
	add("electrician", "not cut:", wired)
	add("hanger", "not cut:", other)
	add("painter", "cut after paint:", paint)
	var left []string
	for _, o := range ready.Blocking(c) {
		if want(o.Who) {
			left = append(left, o.What)
		}
	}
	if len(left) > 0 {
		lines = append(lines, "to clear: "+strings.Join(left, ", "))
	}
	if len(lines) == 1 {
		lines = append(lines, "nothing open")
	}
	return answer.Tell("handoff", nil, strings.Join(lines, "\n"))
}

func rowsUp(c answer.Ctx) []string {
	var out []string
	for _, on := range c.Room.Shell().Surfaces() {
		for _, p := range c.Room.Pieces(on) {
			if name := say.Piece(&p); !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

func coat(c answer.Ctx, e hanging.Coat) answer.Reply {
	air := airSaid(e.Air)
	b := event.Coat{Room: c.Room.Name, N: e.N, Damp: strings.HasSuffix(e.Air, "damp"), Temp: (*float64)(air.Temp)}
	if strings.Contains(e.Air, "%") { // "damp" is no reading
		b.RH = air.Humidity
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		if e.N == 0 {
			return c.Noted(en, "coat", nil, c.Room.Name+" "+e.String()+"\n"+c.Answer(hanging.NextCoat{}).Text)
		}
		wait, checks := dries(c, air, c.Sent)
		r := c.Noted(en, "coat", nil, c.Room.Name+" "+e.String()+": "+wait)
		r.Notes = append(r.Notes, checks...)
		return r
	})
}

// airSaid is the air in which a coat dries. "damp" without a reading counts as one of the slow bands.
func airSaid(said string) (air finish.Air) {
	for word := range strings.FieldsSeq(said) {
		n, _ := strconv.ParseFloat(word[:len(word)-1], 64)
		switch word[len(word)-1] {
		case 'f':
			air.Temp = new(finish.Fahrenheit(n))
		case 'c':
			air.Temp = new(finish.Celsius(n))
		case '%':
			air.Humidity = &n
		default:
			air.Humidity = cmp.Or(air.Humidity, new(80.0))
		}
	}
	return air
}

// dries says when the next coat may follow one that went on then, and what to look at.
func dries(c answer.Ctx, air finish.Air, on time.Time) (wait string, checks []message.Note) {
	w := finish.NextCoat(air)
	switch {
	case w.Cold:
		wait = "too cold, under 50 F (10 C) nothing sets right; no next coat until it is warm for 48 h"
	case !w.OK:
		wait = "that reading cannot be right; what do the thermometer and the RH say?"
	default:
		wait = fmt.Sprintf("next one not before %s, likely by %s", c.Clock(on.Add(w.From).UnixMilli()), c.Clock(on.Add(w.To).UnixMilli()))
		if w.Open {
			wait += ", maybe later"
		}
	}
	note := func(due bool, text string) {
		if due {
			checks = append(checks, message.Note{Kind: "check", Text: text})
		}
	}
	note(w.OK, "published drying times differ widely: go by the coat and the label")
	note(w.OK && air.Humidity == nil, "what does the RH read? it counts most")
	note(w.Slow, "heat and air it, or use a setting compound")
	note(w.OK && air.Temp == nil, "what is the temperature?")
	return wait, checks
}

// nextCoat says when the next coat may go on in each room that has one, in the air that was noted with it or is
// asked about.
func nextCoat(c answer.Ctx, e hanging.NextCoat) answer.Reply {
	r := answer.Reply{Kind: "nextcoat"}
	var lines []string
	var checks []message.Note
	for _, room := range c.SpeakOf() {
		air := airSaid(e.Air)
		for _, en := range slices.Backward(c.State.Entries) {
			b, ok := en.Body.(event.Coat)
			if !ok || b.Room != room.Name || en.Struck() {
				continue
			}
			if e.Air == "" { // what was told last counts
				if b.Damp && b.RH == nil {
					b.RH = new(80.0)
				}
				air = finish.Air{Temp: cmp.Or(air.Temp, (*finish.Fahrenheit)(b.Temp)), Humidity: cmp.Or(air.Humidity, b.RH)}
			}
			if b.N == 0 {
				continue
			}
			var wait string
			wait, checks = dries(c, air, time.UnixMilli(en.Sent))
			lines = append(lines, fmt.Sprintf("%s coat %d (%s): %s", room.Name, b.N, c.ByWhen(en), wait))
			break
		}
	}
	if len(lines) == 0 {
		lines = []string{fmt.Sprintf("no coat noted%s: `coat 1 65f 50%%` notes one, and says when the next may follow", inRoom(c))}
		switch w := finish.NextCoat(airSaid(e.Air)); {
		case w.Cold:
			lines = append(lines, "under 50 F (10 C) nothing sets right; no coat until it is warm for 48 h")
		case w.OK && e.Air != "":
			lines = append(lines, fmt.Sprintf("in %s one dries in %.0f h to %.0f h, going by published times that differ widely", e.Air, w.From.Hours(), w.To.Hours()))
		}
	}
	r.Text = strings.Join(say.MostLines(lines, "name a room"), "\n")
	r.Notes = append(r.Notes, checks...)
	return r
}

// painted notes that a room is painted. What is due after paint is due now.
func painted(c answer.Ctx, _ boards.Painted) answer.Reply {
	if left := rows.NotUp(c, c.Room, place.Ceiling); !c.Line.Sure && (left != "" || len(c.Room.Pieces(place.Ceiling)) == 0) {
		why := c.Room.Name + ": " + cmp.Or(left, "no ceiling board reported hung")
		up := c.As("it is all up, and painted", boards.UpAll{})
		up.Lines = append(up.Lines, c.LineOf(boards.Painted{}))
		choices := []grammar.Choice{up, {Label: "not painted yet"}}
		if left != "" {
			choices = append(choices, c.Sure("only what is up is painted", boards.Painted{}))
		}
		return answer.Ask(why+". Painted all the same?", "", choices...)
	}
	return answer.Save(event.Painted{Room: c.Room.Name}, func(en *site.Entry) answer.Reply {
		var due []string
		for _, th := range c.Room.Things {
			v, e := th.Now()
			if e == nil || v.Due != "after paint" {
				continue
			}
			if st, _ := th.Stands(); st != site.Open {
				due = append(due, fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At())))
			}
		}
		text := c.Room.Name + " painted"
		if len(due) > 0 {
			text += "; due now: " + strings.Join(due, ", ")
		}
		r := c.Noted(en, "painted", nil, text)
		if len(due) > 0 {
			r.Note("caution", answer.CautionWire)
		}
		return r
	})
}

type snagFacts struct {
	Seq  uint64 `json:"seq"`
	Room string `json:"room,omitempty"`
	Text string `json:"text"`
}

// mostSnags is the maximum number of snags in an answer; the oldest come first.
const mostSnags = 12

// snags lists the open snags of the room named, or of all rooms.
func snags(c answer.Ctx, _ record.Snags) answer.Reply {
	facts := struct {
		Snags []snagFacts `json:"snags"`
		More  int         `json:"more,omitempty"` // open ones not listed
	}{Snags: []snagFacts{}}
	var list []string
	for _, en := range c.State.OpenSnags() {
		if c.Line.Room != "" && en.Room != c.Room.Name {
			continue
		}
		if len(list) == mostSnags {
			facts.More++
			continue
		}
		text := en.Body.(event.Snag).Text
		facts.Snags = append(facts.Snags, snagFacts{Seq: en.Seq, Room: en.Room, Text: text})
		list = append(list, fmt.Sprintf("%s%s (%d)", map[bool]string{true: en.Room + ": "}[en.Room != ""], say.FirstLine(text), en.Seq))
	}
	if len(list) == 0 {
		return answer.Tell("snags", facts, "no snag is open"+inRoom(c))
	}
	r := answer.Tell("snags", facts, fmt.Sprintf("%d open: %s", len(list)+facts.More, strings.Join(list, "; ")))
	if facts.More > 0 {
		r.Line(fmt.Sprintf("%d more: name a room, `snags in kitchen`, or `log since %d`", facts.More, facts.Snags[len(facts.Snags)-1].Seq+1))
	}
	return r
}

// inRoom is the room that the line names, with "in" before it.
func inRoom(c answer.Ctx) string {
	if c.Line.Room == "" {
		return ""
	}
	return " in " + c.Room.Name
}
