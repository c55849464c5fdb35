package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

var talkBefore = set("so and ok okay hey also but then now lead guys bot strapline anyone")

// question is the question in canonical words, "" when it is none of ours. One with a word that has
// no part in it is only answered where it names what was noted.
func (l *line) question() string {
	if text := l.ofThing(); text != "" || l.strays() > 0 {
		return text
	}
	rows := l.rows()
	wall, _ := l.first(lex.Wall)
	up := l.any(set("hung hang hanging boarded close closed up"))
	switch {
	case l.has("who", "whos", "who's", "when") && up && len(rows) > 0:
		return "who hung row " + number(rows[0])
	case l.has("who", "whos", "who's", "when") && up && wall.value != "":
		return "who hung " + wall.value + " wall"
	case l.has("who", "whos", "who's", "when") && up && (l.room != "" || l.has("ceiling")):
		return "who hung ceiling"
	case l.has("screw", "screws") && l.has("where", "not", "safe", "avoid", "clear", "hit") && !l.has("many"):
		return "reach"
	case l.has("screws") && l.has("many", "count") && l.rest():
		return "how many screws"
	case l.has("still", "left") && l.has("open", "uncut", "covered"), l.has("covered", "buried", "hidden", "bury", "hide"):
		return "what's covered"
	case l.has("ready", "close") && l.any(set("ceiling room it up good row lid this")) && l.rest():
		return "ready"
	case l.has("cut", "cutlist", "cuts") && l.has("list", "cutlist", "sizes"):
		return "cuts"
	case l.hasType(lex.Support) && l.any(set("which way direction run runs spacing far oc apart on many size")):
		return "list size"
	case l.has("big", "size", "wide", "long", "dimensions") && l.room != "":
		return "list size"
	case l.boardish() && l.has("left", "hand", "remaining") && !l.has("hang", "do"):
		return "boards left"
	case l.boardish() && (l.any(needing) || l.has("many", "much") && !l.has("did")):
		return "order"
	case wall.value != "" && l.has("in", "on", "behind", "inside"):
		return "list everything on " + wall.value + " wall"
	case l.has("left", "remaining") && l.has("hang", "board", "do"):
		return "whats left to hang"
	case l.has("list", "everything") && l.room != "":
		return "list everything"
	}
	return ""
}

// ofThing is a question about a thing, a kind of thing or what runs there.
func (l *line) ofThing() string {
	thing, at := l.asked()
	if at < 0 || l.several() {
		return ""
	}
	rows := l.rows()
	switch {
	case l.has("any", "anything") && len(rows) > 0 && l.items[at].typ != lex.Name:
		return "any " + l.items[at].value + " over row " + number(rows[0])
	case l.has("any", "anything") && l.items[at].typ == lex.Service && l.strays() == 0 && !l.has("row"):
		return "any " + l.items[at].value + " noted"
	case l.any(finding), l.any(set("cut covered open opened behind cover covers")) && !l.has("list"):
		return "where is " + thing
	case l.items[at].typ == lex.Thing && l.any(set("list show how what which many")):
		return "list " + lex.Plural(l.items[at].value)
	}
	return ""
}

// several reports whether more than one thing is named.
func (l *line) several() bool {
	n := 0
	for _, it := range l.items {
		if it.typ == lex.Name {
			n++
		}
	}
	return n > 1
}

// asked is the thing that the line asks of, by its name or its kind with the words that tell it
// from others, and where its kind stands.
func (l *line) asked() (string, int) {
	if name, at := l.first(lex.Name); at >= 0 {
		return name.value, at
	}
	for i, it := range l.items {
		if it.typ != lex.Thing && it.typ != lex.Service {
			continue
		}
		words := []string{it.value}
		if n := ordinals[l.at(i-1).low]; n > 0 && n <= 6 && l.at(i-1).low != "top" {
			return l.at(i-1).low + " " + it.value, i
		}
		if w := l.at(i - 1); w.typ == lex.Word && l.names.Name != nil && l.names.Name(w.low+" "+it.value) {
			return w.low + " " + it.value, i
		}
		for k := i + 1; k < len(l.items); k++ { // "light above the sink": as it was noted
			w := l.items[k]
			if w.typ == lex.Word && !near[w.low] && !asking[w.low] && l.names.Name != nil && (l.names.Name("over "+w.low) || l.names.Name(it.value+" over "+w.low) || l.names.Name(w.low)) {
				return it.value + " over " + w.low, i
			}
		}
		return strings.Join(words, " "), i
	}
	return "", -1
}

var near = set("over above by near at beside next under")

// boardish reports whether the line speaks of boards.
func (l *line) boardish() bool {
	return l.any(boards) || len(l.sizes()) > 0
}

// elsewhere reports whether the line names a room that is not declared.
func (l *line) elsewhere() bool {
	return l.room == "" && slices.ContainsFunc(l.items, func(it item) bool { return it.typ == lex.Word && rooms[it.low] })
}
