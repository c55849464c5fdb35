package sense

import (
	"strings"

	"strapline/grammar/lex"
)

// ofRuns are the words that say no more than that a run is one.
var ofRuns = set("parallel side up it all line lines supply feed run runs running goes going go crosses crossing cross across crossways straight full way whole length sits sitting sit lies lays laying is at off end over along wall on to in conduit")

// across are words for a run from wall to wall.
var across = set("crosses cross crossing across straight through")

// upright are words for what goes up through a wall or a ceiling, not along it.
var upright = set("stack riser vertical vertically drop drops")

// runs is a pipe or a wire and its path. With one distance it goes from wall to wall beside that one, or
// ends at the wall that is named.
func (l *line) runs() []string {
	what, at := l.first(lex.Service)
	if at < 0 || l.turned() || l.any(upright) || l.hasType(lex.Thing) || l.has("of", "along") && l.hasType(lex.Support) {
		return nil
	}
	lies := l.lies()
	off := l.distances()
	wide := ""
	for _, i := range l.numbers() {
		if i < at+2 && wide == "" {
			wide = l.take(i)
		}
	}
	if len(off) != 1 || !l.rest() || strings.HasSuffix(off[0], " up") {
		return nil
	}
	from, to, axis := "west", "east", "ew"
	if eastWest[off[0][strings.LastIndexByte(off[0], ' ')+1:]] {
		from, to, axis = "north", "south", "ns"
	}
	if said, i := l.first(lex.Direction); i >= 0 {
		if l.items[i].used = true; said.value != axis {
			return nil
		}
	}
	l.doubt = l.doubt || !l.hasType(lex.Direction) && !l.any(across) // it may end before
	return []string{strings.TrimSpace(what.value+" "+wide) + ", " + off[0] + " from 0 off " + from + " to 0 off " + to + lies}
}

// lies takes how deep a run is, as canonical words: on top of the straps, 3/4 deep, or so far above a
// support's face. Above its back is further from the board, so that one is asked about.
func (l *line) lies() (how string) {
	for i, it := range l.items {
		next, after := l.at(i+1), l.at(i+2)
		switch {
		case it.is("on top") && next.typ == lex.Support:
			l.items[i].used, l.items[i+1].used, how = true, true, " on top of the straps"
		case it.is("conduit"):
			how += " in conduit"
		case it.typ != lex.Number || it.used:
		case next.low == "deep":
			l.items[i+1].used, how = true, " depth "+l.take(i)
		case next.low == "behind" && after.is("board"):
			l.items[i+1].used, l.items[i+2].used, how = true, true, " depth "+l.take(i)
		case (next.low == "above" || next.low == "behind") && after.typ == lex.Support:
			l.items[i+1].used, l.items[i+2].used, how = true, true, " depth "+l.take(i)
			l.doubt = true
		}
	}
	return how
}
