package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// What is to be done or waited for goes on the list of the room, what is told as mended is kept as such, both in the
// crew's own words.
var (
	closing = set("close cover board lid tape mud hang touch bury seal drywall sheet skim prime paint start closing taping boarding covering hanging")
	visits  = set("inspection inspector inspect")
	until   = set("until till til before first yet")
	// works are what somebody is told to do, worked that it is done, fits what is put on to mend something.
	works   = set("plate seal fireseal caulk firecaulk patch shim block cap foam insulate mark move protect brace tighten reroute clip fix replace redo refill fill retape mend repair plug tape trim sister pack fire firestop fireblock scrape")
	worked  = set("plated sealed firesealed caulked firecaulked patched shimmed capped foamed protected braced tightened rerouted clipped fixed replaced redone redid refilled filled retaped mended repaired plugged drove driven redrove sunk countersunk reset sistered packed trimmed")
	fits    = set("collar collars plate plates blocking backing caulk sealant seal foam patch shim shims brace bracing cover caps sticker sleeve boot mesh bead batts block blocks fireblock pad pads")
	parts   = set("penetration penetrations hole holes spot spots gap gaps window windows door doors box boxes corner corners pop pops")
	objects = set("it that this them those these thats both all everything")
)

// sign reports whether a part of a line ends there.
func sign(w string) bool { return strings.Trim(w, ",.;:!&-") == "" }

// own is the line without its frame.
func (l *line) own() string {
	return strings.TrimRight(strings.TrimSpace(l.Text[l.Pieces[l.Begin].Start:]), ".!, ")
}

// ofWork reports whether a word from i on is of the work, or stands for what was spoken of.
func (l *line) ofWork(i int) bool {
	return slices.ContainsFunc(l.low[min(max(i, 0), len(l.low)):], func(w string) bool {
		return objects[w] || fits[w] || parts[w] || topic.Works(w) || flawedWork[w]
	})
}

// holds is the word of what has to wait, -1 if nothing has: nobody may close or tape before it is seen, passed or here.
func (l *line) holds() int {
	for i, w := range l.low {
		next, ends := l.at(i+1), until[l.at(i+1)] || until[l.at(i+2)] || sign(l.at(i+2))
		shut, waits := closing[strings.TrimSuffix(w, "s")], false
		switch {
		case shut && slices.ContainsFunc(l.low[max(i-3, 0):i], func(w string) bool { return forbids[w] }):
			waits = ends && (objects[next] || until[next] || next == "") || topic.Works(next) || next == "the" && (topic.Works(l.at(i+2)) || topic.NamesRoom(l.at(i+2)) || l.Rooms[l.at(i+2)] != "" || topic.Works(l.at(i+3)))
		case shut && l.any(until) && (l.has("anyone", "anybody", "nobody", "noone") || l.any(visits) || (l.at(i-1) == "you" || l.at(i-1) == "we") && l.has("want", "wants", "need", "needs")),
			(w == "hold" || w == "wait" || w == "waiting") && l.has("off", "on", "for", "until", "til", "till") && (l.ofWork(i) || l.any(visits)):
			waits = true
		case (w == "leave" || w == "keep") && l.has("open", "off", "uncovered") && (l.any(until) || l.any(topic.Day) || l.any(visits)):
			waits = true
		case visits[w]:
			waits = (l.any(topic.Day) || l.has("booked", "coming", "wants", "needs", "pending", "waiting")) && !l.has("passed", "pass", "signed", "approved", "ok", "cleared") && !l.any(failed)
		}
		if waits {
			return i
		}
	}
	return -1
}

var forbids = set("cant dont don't never nobody noone no-one no not")

// todo is what waits or has to be done: an order, or what needs, has or got to be.
func (l *line) todo() []string {
	if len(l.low) > 24 || l.has("if", "?", "lol", "haha", "you're", "said") || l.Has("NxN") {
		return nil
	}
	if at := l.holds(); at >= 0 {
		return l.listed(at)
	}
	first := max(slices.IndexFunc(l.low, func(w string) bool { return !lex.Filler[w] && !before[w] }), 0)
	next := l.at(first + 1)
	switch {
	case l.any(denies):
	case (l.at(first) == "call" || l.at(first) == "phone" || l.at(first) == "ring") && len(l.low) < first+7 && l.has("them", "supplier", "yard", "inspector", "plumber", "electrician", "sparky", "framer", "driver"),
		ofTrade[l.at(first)] && objects[next],
		works[l.at(first)] && !lex.Shape(next) && len(l.Left(speech.Length)) == 0 && len(l.low) < first+12 && slices.ContainsFunc(l.low[first+1:], topic.Works) && !l.has("off", "is", "was", "are", "on"):
		return l.listed(first)
	}
	for i, w := range l.low {
		owed := w == "needs" || w == "need" || w == "gotta" || w == "must" || w == "sure" && l.at(i-1) == "make"
		owed = owed || slices.Contains([]string{"has", "have", "got", "remember", "forget", "wants", "still"}, w) && l.at(i+1) == "to"
		after := l.low[i+1:]
		if owed && slices.ContainsFunc(after, func(w string) bool {
			return works[w] || works[strings.TrimSuffix(w, "ing")] || works[strings.TrimSuffix(w, "s")] || worked[w]
		}) && l.ofWork(0) ||
			strings.HasPrefix(w, "need") && slices.ContainsFunc(after[:min(5, len(after))], func(w string) bool { return fits[w] }) && len(l.Left(speech.Length)) < 2 {
			return l.listed(i)
		}
	}
	return nil
}

var (
	before = set("then also and so ok someone somebody please pls just go you can we guys")
	// ofTrade are works of no other trade: "plate it", not "fix it".
	ofTrade = set("plate seal fireseal caulk firecaulk patch shim block foam insulate")
)

// listed puts the line on the list, of several facts only the one that the word at i is of.
func (l *line) listed(i int) []string { return []string{"check add " + lex.Lower(l.part(i, 2))} }

// part is the line in its own words; if it has that many signs or more, only what is between those around i: the rest
// is kept beside it.
func (l *line) part(i, signs int) string {
	from, to := l.clause(i)
	for _, w := range l.low {
		if w == "," || w == "." || w == ";" {
			signs--
		}
	}
	if l.Rest = signs <= 0; l.Rest {
		text := l.Text[l.Pieces[l.Begin+from].Start:]
		if l.Begin+to < len(l.Pieces) {
			text = l.Text[l.Pieces[l.Begin+from].Start:l.Pieces[l.Begin+to].Start]
		}
		return strings.Trim(text, " .,;!")
	}
	return l.own()
}

// mended is what is told as done already: it never stands as open. Where something is now is for corrections.
func (l *line) mended() []string {
	if len(l.low) > 20 || l.any(denies) || l.has("if", "?", "need", "needs", "gotta", "will", "tomorrow", "when", "until", "at", "half", "except", "but", "should", "to", "off") {
		return nil
	}
	if l.at(0) == "put" && l.any(fits) && len(l.low) < 9 { // told, or an order
		return []string{"check add " + lex.Lower(l.own()), "snag fixed: " + l.own()}
	}
	for i, w := range l.low {
		name, on := strings.CutSuffix(w, "'s")
		k := i + 1
		if v := l.at(k); !on && (v == "is" || v == "are" || v == "now" || v == "both") {
			k, on = k+1, true
		}
		on = on || l.at(k) == "fitted" || l.at(k) == "installed"
		on = on && fitted[l.at(k)] && (sign(l.at(k+1)) || l.at(k+1) == "now")
		put := (w == "installed" || w == "fitted" || w == "added") && i == 0 && slices.ContainsFunc(l.low[1:min(5, len(l.low))], func(w string) bool { return fits[w] })
		if put || (worked[w] || w == "moved" && len(l.Left(speech.Length)) == 0) && (l.ofWork(0) || l.any(flawed) || len(l.low) < 3 && w != "fixed") || fits[name] && on && len(l.Left(speech.Length)) < 2 && !l.Has("W") {
			signs := 9
			if from, _ := l.clause(i); from > 0 && !slices.ContainsFunc(l.low[:from], func(w string) bool { return flawed[w] || worked[w] || parts[w] }) {
				signs = 1
			}
			return []string{"snag fixed: " + l.part(i, signs)}
		}
	}
	return nil
}

var fitted = set("on in fitted installed done up")
