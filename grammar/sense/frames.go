package sense

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/grammar/lex"
	"strapline/grammar/quantity"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

func set(words string) map[string]bool { return lex.Set(strings.Fields(words)...) }

var (
	passed     = set("passed pass ok okay good signed approved tested done in clear cleared happy inspected")
	failed     = set("failed fail rejected bounced")
	inPart     = set("half except tomorrow rest some most only kneewalls slopes still")
	denies     = topic.Negates
	otherCoat  = set("yesterday monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thurs fri sat sun ago last paint primer latex") // drying is reckoned from the message
	done       = set("taped sanded primed")
	toCome     = strings.Fields("need needs ready before after next one when for if still should can will gonna tomorrow to half almost")
	flawed     = set("pop pops popped popping proud crack cracked cracks bent dented dent loose stain stained gouge gouged hollow ridge bubble bubbled blister smacked bowed wavy crushed")
	sanded     = set("sand sanded sanding coat mud taped skimmed touch light lights")
	flawedWork = set("screw screws butt butts joint joints seam seams board boards sheet sheets bead corner tape mud ceiling lid row strap straps stud studs nail nails")
)

// coatNames are coats by their purpose, and coats the words that are said of one.
var (
	coatNames = map[string]int{"tape": 1, "taping": 1, "bed": 1, "bedding": 1, "prefill": 1, "fill": 2, "filler": 2, "finish": 3, "final": 3}
	coats     = set("coat coats 1 2 3 st nd rd on done in all both the is are has been was got joints seams walls ceiling i've we've we our my now just there here theres there's ok okay got have has . , : ; ! -")
)

// misses is a thing that was not where it was noted, as it is called: by a name, or its kind with a number or its order.
func (l *line) misses() []string {
	if !l.has("find", "missed") || l.has("cut") && l.has("its", "it's", "now", "it") || !l.has("cant", "can't", "couldnt", "couldn't", "didnt", "didn't", "missed", "not") {
		return nil
	}
	at := slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.Tag == speech.Thing })
	for at >= 0 && at+1 < len(l.Items) && l.Items[at+1].Tag == speech.Thing { // "fan box" is a box
		at++
	}
	if at < 0 || slices.ContainsFunc(l.Items[at+1:], func(it speech.Item) bool { return it.Tag == speech.Thing }) {
		return nil
	}
	name := l.Items[at].Text
	if before := l.Items[max(at-1, 0)].Low; at > 0 && (lex.Ordinal[before] > 0 || l.Name != nil && l.Name(before+" "+name)) {
		name, l.Tags[at-1] = before+" "+name, speech.Used
	} else if at+1 < len(l.Items) && l.Tags[at+1] == speech.Length {
		name, l.Tags[at+1] = name+" "+l.Items[at+1].Text, speech.Used
	}
	if len(l.Left(speech.Length))+len(l.Left(speech.Ordinal)) > 0 {
		return nil
	}
	return []string{"missed " + name}
}

// clause returns the words about i, up to the signs around them.
func (l *line) clause(i int) (from, to int) {
	sign := func(w string) bool { return w == "," || w == "." || w == ";" || w == "but" }
	for from = i; from > 0 && !sign(l.low[from-1]); {
		from--
	}
	for to = i; to < len(l.low) && !sign(l.low[to]); {
		to++
	}
	return from, to
}

// finish is what was done to the boards of a room that are up, and the air a coat dries in: each by the words of its
// own clause. A coat of another day is only kept.
func (l *line) finish() []string {
	air, rest := quantity.Air(strings.Join(l.low, " "), l.Units == length.Metric)
	if m := clock.FindString(rest); m != "" {
		air, rest = strings.TrimSpace(air+" at "+strings.TrimPrefix(m, "at ")), strings.Replace(rest, m, "", 1)
	}
	var all []string
	for i, w := range l.low {
		from, to := l.clause(i)
		of := &line{l.Line, l.low[from:to]}
		coat := w == "coat" || w == "coats"
		if done[w] && !of.has("tomorrow", "half") { // "sanded and ready for paint"
			of.low = l.low[from:i]
		}
		switch {
		case !coat && !done[w], of.any(denies), of.has(toCome...), coat && of.any(otherCoat):
			continue
		case !coat:
			all = append(all, "check "+w+" ok")
			continue
		}
		n := max(lex.Ordinal[l.at(i-1)], coatNames[l.at(i-1)], speech.Whole(l.at(i-1)))
		if b := l.at(i - 1); b == "st" || b == "nd" || b == "rd" {
			n = speech.Whole(l.at(i - 2))
		}
		if n > 0 && n <= 4 {
			all = append(all, strings.TrimSpace(fmt.Sprintf("coat %d %s", n, air)))
		}
	}
	if all == nil && strings.Contains(air, "%") && l.has("humidity", "rh") && !l.has("coat") && !l.any(denies) {
		all = []string{"coat air " + air}
	}
	sealed := func(w string) bool { return topic.Checks[w] == "vapour barrier" } // "poly is on and taped"
	if all == nil || l.Has("WZSx?") || slices.ContainsFunc(l.low, sealed) || l.has("row", "rows", "rest", "part", "some", "most") {
		return nil
	}
	l.Rest = slices.ContainsFunc(strings.Fields(rest), func(w string) bool {
		return !coats[w] && !done[w] && !lex.Filler[w] && coatNames[w]+lex.Ordinal[w] == 0 && l.Rooms[w] == ""
	})
	return []string{strings.Join(all, "\n")}
}

var clock = regexp.MustCompile(`\b(?:at )?\d{1,2}(?::\d\d)? ?[ap]m\b`)

// checks is what an inspector or the lead has approved, a line for each: by the words of its own part of the line, or
// of those behind it if they begin with a list.
func (l *line) checks() []string {
	told := func(w string) bool { return passed[w] || failed[w] || denies[w] || strings.HasSuffix(w, "spected") }
	var all []string
	rest := slices.Clone(l.low) // what no part takes that tells of one
	for i, w := range l.low {
		what := topic.Checks[w]
		if what == "" {
			continue
		}
		layer := what == "insulation" || what == "vapour barrier"
		if layer && l.has(".", "nothing") {
			return nil
		}
		if layer && (l.any(inPart) || l.Has("W")) { // what is in of it, and what is not
			return []string{"check " + what + " open " + l.own()}
		}
		if l.Has("W") || len(l.Left(speech.Length)) > 0 || l.has("off") && !l.has("signed") {
			return nil
		}
		from, to := l.clause(i)
		for to < len(l.low) && l.low[to] != "." && !slices.ContainsFunc(l.low[from:to], told) {
			_, to = l.clause(to + 1)
		}
		for k := from; k < to; k++ {
			switch {
			case l.low[k] != "and" && l.low[k] != "&":
			case k < i && slices.ContainsFunc(l.low[from:k], told):
				from = k
			case k > i && slices.ContainsFunc(l.low[i:k], told):
				to = k
			}
		}
		of := &line{l.Line, l.low[from:to]}
		after := slices.ContainsFunc(l.low[i+1:to], func(w string) bool { return passed[w] })
		state := " ok"
		switch {
		case of.any(failed), of.has("not", "isnt", "isn't") && after:
			state = " failed"
		case of.has("should", "will", "gonna", "if", "when"):
			continue
		case of.any(denies) && !layer:
			continue
		case of.any(denies):
			state = " open " + l.own()
		case !after && !(layer && of.has("on", "up", "stapled", "sealed", "installed")) && !of.has("passed", "approved", "signed", "inspected") && !strings.HasSuffix(w, "ed"):
			continue
		}
		clear(rest[from:to])
		all = append(all, "check "+strings.ReplaceAll(what, "\n", state+"\ncheck ")+state)
	}
	if all == nil {
		return l.inspected()
	}
	l.Rest = slices.ContainsFunc(rest, func(w string) bool {
		return w != "" && !lex.Filler[w] && !otherCoat[w] && l.Rooms[w] == "" && strings.Trim(w, ",.;:!-&") != "" && w != "but"
	})
	if waits := (&line{l.Line, strings.Fields(strings.Trim(strings.Join(rest, " "), " ,.;"))}); l.Rest && waits.holds() >= 0 {
		all, l.Rest = append(all, "check add "+strings.Join(waits.low, " ")), false
	}
	return []string{strings.Join(slices.Compact(all), "\n")}
}

// inspected is a rough-in that was passed, nobody said of what: it is asked which one.
func (l *line) inspected() []string {
	rough := l.has("rough") || l.has("inspector", "inspection") && l.has("signed", "passed", "ok", "okay")
	if !rough || !l.any(passed) && !l.has("sticker") || l.any(failed) || l.has("not", "no", "isnt", "isn't", "if", "when", "before", "until", "tomorrow", "will") || len(l.Left(speech.Length)) > 0 {
		return nil
	}
	l.Rest = true
	return []string{"check electrical inspection ok", "check plumbing inspection ok"}
}

// pieces is a piece to cut, kept with its sizes as they were read: "cut me one at 31 1/2 by 8 foot".
func (l *line) pieces() []string {
	at := strings.Index(string(l.Tags), "NxN")
	if at < 0 || !l.has("cut", "need", "rip", "make", "send", "gimme", "want", "pcs", "piece", "pieces") || l.any(denies) || l.Has("TWDBZS") || l.has("hole", "opening", "gap", "room", "box", "boxes") || l.has("window", "door") && !l.has("over", "under", "beside", "above", "below") {
		return nil
	}
	n, numbers := 1, l.Left(speech.Length)
	switch len(numbers) {
	case 2:
	case 3:
		if n = speech.Whole(l.Items[numbers[0]].Text); numbers[0] > at || n < 1 {
			return nil
		}
	default:
		return nil
	}
	if n == 1 && l.has("twice") {
		n = 2
	}
	if wide, long := speech.Whole(l.Said(at)), speech.Whole(l.Said(at+2)); wide > 0 && wide <= 4 && long > 0 && long <= 16 { // lumber, or whole boards
		return nil
	}
	for i := range l.Tags {
		l.Tags[i] = speech.Used
	}
	last := l.Items[at+2]
	where := strings.TrimRight(l.Read[min(last.At+len(last.Low), len(l.Read)):], " .!")
	if !slices.ContainsFunc(strings.Fields(lex.Lower(where)), func(w string) bool { return !lex.Filler[w] && w != "please" && w != "pls" && w != "twice" }) {
		where = ""
	}
	return []string{fmt.Sprintf("note cut %d at %s x %s%s", n, l.figures(at), l.figures(at+2), where)}
}

// figures is the length at i as the tape reads it, as it was said if it has several readings.
func (l *line) figures(i int) string {
	if size := l.Size(i); size > 0 {
		return length.Canon(size)
	}
	return l.Said(i)
}

// flaw is a defect to fix later; material that is only set aside is none. A gap beside screws is one, and nothing to cut.
func (l *line) flaw() []string {
	gap := l.has("gap") && l.has("screw", "screws", "nail", "nails", "pops")
	if i := slices.IndexFunc(l.low, func(w string) bool { return w == "spots" || w == "spot" || w == "touchups" }); i >= 0 && l.any(sanded) && l.has("left", "touch", "fix", "redo", "more", "touchups") {
		from, to := l.clause(i)
		l.Rest = from > 0 || to < len(l.low)
		return []string{"snag " + strings.Join(l.low[from:to], " ")}
	}
	if !gap && (!l.any(flawed) || l.has("left")) || !l.any(flawedWork) || l.has("count", "stock", "using", "used", "nobody", "spare") {
		return nil
	}
	return []string{"snag " + strings.TrimSpace(l.Text)}
}

// gap is a gap by its two ends, or the rip that closes it.
func (l *line) gap() []string {
	if !l.has("gap", "rip", "opening") || l.any(denies) || l.Has("OZx") || l.has("screw", "screws", "nail", "nails", "pops", "butt", "butts", "seam", "seams") {
		return nil
	}
	var said []string
	for _, i := range l.Left(speech.Length) {
		said = append(said, l.Said(i))
	}
	switch gap := "gap " + strings.Join(said, ", "); {
	case len(said) == 1 && l.has("rip"):
		return []string{"note rip " + said[0], gap}
	case (len(said) == 1 || len(said) == 2) && l.has("gap"):
		return []string{gap}
	}
	return nil
}
