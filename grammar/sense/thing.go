package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// things is a thing and its place.
func (l *line) things() []string {
	var what, label, wide string
	kinds := 0
	name, _ := l.first(lex.Name)
	if l.several() {
		return nil
	}
	for i, it := range l.items {
		if it.typ != lex.Thing || l.at(i+1).typ == lex.Thing {
			continue
		}
		if what != it.value {
			kinds++
		}
		if what == "" {
			what = it.value
			if b := l.at(i - 1); b.typ == lex.Thing { // "light box"
				label = b.low
			} else if b.typ == lex.Word && len(b.low) > 2 && !counted[b.low] && !hung[b.low] && !lesser[b.low] && !asking[b.low] {
				label = b.low
			}
		}
		if near[l.at(i+1).low] && l.at(i+2).typ == lex.Word {
			label = "over " + l.at(i+2).low
		}
	}
	if kinds != 1 || l.turned() || l.hasType(lex.Support) && !l.has("of") {
		return nil
	}
	at := l.distances()
	if len(at) == 0 {
		return nil
	}
	if a, b := l.pair(); a != "" {
		wide = a + " x " + b
	}
	if _, more := l.pair(); more != "" {
		return nil
	}
	pairs := paired(at)
	for _, i := range l.numbers() {
		it, next, before := l.at(i), l.at(i+1), l.at(i-1)
		switch {
		case len(pairs) > 1 && it.n == len(pairs) && (next.typ == lex.Thing || before.typ == lex.Thing):
			l.items[i].used = true // their number
		case it.n > 1 && !it.unit && next.typ == lex.Thing && strings.HasSuffix(next.low, "s"):
			return nil // more things than places
		case wide == "" && (next.typ == lex.Thing || (before.typ == lex.Thing || before.typ == lex.Service) && it.unit || next.low == "round" || next.low == "hole" || next.low == "dia"):
			wide = l.take(i)
		}
	}
	if !l.rest() || len(at) > 3 && len(pairs) == 0 {
		return nil
	}
	on := l.onWall()
	if name.value != "" && !name.used {
		label = name.value
	}
	head := strings.TrimSpace(what + " " + label)
	if wide != "" {
		if label == "" {
			head = what + " " + wide
		} else {
			head += ", " + wide
		}
	}
	if len(pairs) > 1 && label == "" {
		for i, p := range pairs {
			pairs[i] = head + ", " + p
		}
		return []string{strings.Join(pairs, "\n")}
	}
	if on != "" {
		at = append(at, on)
	}
	if len(at) > 3 {
		return nil
	}
	return []string{head + ", " + strings.Join(at, ", ")}
}

// paired returns distances in pairs, each off the two walls of a corner; none if they are not.
func paired(at []string) (all []string) {
	across := func(s string) bool { return strings.HasSuffix(s, " west") || strings.HasSuffix(s, " east") }
	for i := 0; i+1 < len(at); i += 2 {
		if !strings.Contains(at[i], " off ") || !strings.Contains(at[i+1], " off ") || across(at[i]) == across(at[i+1]) {
			return nil
		}
		all = append(all, at[i]+", "+at[i+1])
	}
	if len(at)%2 != 0 {
		return nil
	}
	return all
}

var lesser = set("one new another second third next this that little big single same square round whole other only there theres got put have and also with the a")

// upright are words for what goes up through a wall or a ceiling, not along it.
var upright = set("stack riser vertical vertically drop drops")

// runs is a pipe or a wire and its path: with one distance, along the whole of that wall.
func (l *line) runs() []string {
	what, at := l.first(lex.Service)
	if at < 0 || l.turned() || l.any(upright) || l.hasType(lex.Support) && l.has("of", "along") {
		return nil
	}
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
	from, to := "west", "east"
	if strings.HasSuffix(off[0], "west") || strings.HasSuffix(off[0], "east") {
		from, to = "north", "south"
	}
	return []string{strings.TrimSpace(what.value+" "+wide) + ", " + off[0] + " from 0 off " + from + " to 0 off " + to}
}

// openings is a window or a door by its width, height, sill and the distance to its near edge.
func (l *line) openings() []string {
	what := ""
	for _, it := range l.items {
		if openings[it.low] != "" {
			what = openings[it.low]
			break
		}
	}
	if what == "" || l.turned() {
		return nil
	}
	wide, high := l.pair()
	sill := ""
	for i, it := range l.items {
		if it.typ != lex.Number || it.used {
			continue
		}
		before, next := l.at(i-1), l.at(i+1)
		switch {
		case next.is("wide"):
			wide = l.take(i)
		case next.is("tall", "high"):
			high = l.take(i)
		case before.is("sill") || l.at(i-2).is("sill") || next.is("sill"):
			sill = l.take(i) + " up"
		}
	}
	at := l.distances()
	if sill != "" {
		at = append(at, sill)
	}
	if wide == "" || high == "" || len(at) == 0 || !l.rest() {
		return nil
	}
	said := append([]string{what, wide, "x", high}, at...)
	if on := l.onWall(); on != "" {
		said = slices.Insert(said, 4, on)
	}
	return []string{strings.Join(said, " ")}
}

// onWall returns "on north wall" for the last wall that something is on or in, "" if none.
func (l *line) onWall() (on string) {
	for i, it := range l.items {
		if it.typ == lex.Wall && !it.used && (l.at(i-1).is("on") || l.at(i-1).low == "in") {
			on = "on " + it.value + " wall"
		}
	}
	return on
}

// bulkheads is a boxed duct along a wall, by its width and drop.
func (l *line) bulkheads() []string {
	if l.turned() || !l.has("bulkhead", "boxed", "soffit", "box out") {
		return nil
	}
	w, at := l.first(lex.Wall)
	wide, down := l.pair()
	for _, i := range l.numbers() {
		switch next := l.at(i + 1); {
		case next.is("wide", "out"):
			wide = l.take(i)
		case next.is("deep", "down", "drop", "high", "tall"):
			down = l.take(i)
		}
	}
	if at < 0 || wide == "" || down == "" || !l.rest() {
		return nil
	}
	return []string{"bulkhead " + wide + " x " + down + " along " + w.value}
}

// slopes is a ceiling that comes down to a wall, from one height to another, over a part of the room.
func (l *line) slopes() []string {
	w, at := l.first(lex.Wall)
	if l.turned() || at < 0 || !l.has("slope") || l.hasType(lex.Thing) || l.hasType(lex.Support) {
		return nil
	}
	over := ""
	for i, it := range l.items {
		if it.typ == lex.Number && l.at(i-1).is("over") {
			over = " over " + l.take(i)
		}
	}
	free := l.numbers()
	if len(free) != 2 || !l.has("to") {
		return nil
	}
	return []string{"slope " + w.value + " " + l.take(free[0]) + " to " + l.take(free[1]) + over}
}
