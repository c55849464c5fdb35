package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// things is a thing, or several of a kind, and where each is.
func (l *line) things() []string {
	var what, label, wide string
	name, _ := l.first(lex.Name)
	if l.several() || l.hasType(lex.Support) && !l.has("of") {
		return nil
	}
	spots := l.spots()
	if len(spots) == 0 || l.turned() {
		return nil
	}
	for i, it := range l.items {
		if it.typ != lex.Thing || l.at(i+1).typ == lex.Thing {
			continue
		}
		if what != "" && what != it.value {
			return nil
		}
		if b := l.at(i - 1); what == "" && (b.typ == lex.Thing || b.typ == lex.Word && len(b.low) > 2 && !counted[b.low] && !hung[b.low] && !lesser[b.low] && !asking[b.low] && lex.Counts[b.low] == 0 && (b.typ == lex.Thing || len(spots) == 1)) { // "light box"
			label, l.items[i-1].used, l.doubt = b.low, true, b.typ == lex.Word
		}
		what = it.value
		if near[l.at(i+1).low] && l.at(i+2).typ == lex.Word {
			label, l.items[i+1].used, l.items[i+2].used = "over "+l.at(i+2).low, true, true
		}
	}
	if what == "" {
		return nil
	}
	if a, b := l.pair(); a != "" {
		wide = a + " x " + b
	}
	if _, more := l.pair(); more != "" {
		return nil
	}
	for i := range l.items {
		if l.items[i].is("one") && l.at(i+1).typ == lex.Thing {
			l.items[i].value = "1"
		}
	}
	told := false // how many there are
	for _, i := range l.numbers() {
		it, next, before := l.at(i), l.at(i+1), l.at(i-1)
		switch {
		case it.n == len(spots) && it.n > 1 && !it.unit && (next.typ == lex.Thing || before.typ == lex.Thing || l.at(i+2).typ == lex.Thing || next.is("of")):
			l.items[i].used, told = true, true // their number
		case it.n > 1 && !it.unit && next.typ == lex.Thing && strings.HasSuffix(next.low, "s"):
			return nil // more things than places
		case wide == "" && (next.typ == lex.Thing || (before.typ == lex.Thing || before.typ == lex.Service) && it.unit || next.low == "round" || next.low == "hole" || next.low == "dia"):
			wide = l.take(i)
		}
	}
	if !l.rest() || len(spots) > 1 && label+name.value != "" || !told && l.any(all4) && len(spots) == 4 {
		return nil
	}
	if name.value != "" && !name.used {
		label = name.value
	}
	head := strings.TrimSpace(what + " " + label)
	if wide != "" && label != "" {
		head += ","
	}
	if wide != "" {
		head += " " + wide
	}
	for i, at := range spots {
		spots[i] = head + ", " + at
	}
	return []string{strings.Join(spots, "\n")}
}

// spot is what a line says of where things are: the distances along the wall it names, or along both walls
// of the ceiling, in order.
type spot struct {
	on     string // the wall that they are in, "" for the ceiling
	walls  []string
	at     []string // "26 off west", beside its wall
	middle bool
	each   string // off every wall: one in each corner
}

// apart are words for the distance that was said before.
var apart = set("distance measurement number dim")

// all4 are words for every wall.
var all4 = set("each every all both")

// spots takes all distances of a line and returns the place of each thing, as canonical words. A height
// said once is that of all; a distance off one wall said once is that of all that are off the other.
func (l *line) spots() (all []string) {
	var up string
	var pending []int
	here := &spot{}
	ok, sides := true, []*spot{here}
	add := func(off string, far ...int) {
		for _, i := range far {
			here.walls, here.at = append(here.walls, off), append(here.at, l.take(i)+" off "+off)
		}
		pending = nil
	}
	for i := range l.items {
		it, next, after, before := l.items[i], l.at(i+1), l.at(i+2), l.at(i-1)
		switch {
		case it.typ == lex.Wall && !it.used && !before.is("off") && (before.is("on") || before.low == "in" || next.typ == lex.Number && l.heads(i)) && len(pending) == 0:
			l.items[i].used = true
			if before.is("on") || before.low == "in" {
				l.items[i-1].used = true
			}
			here = &spot{on: it.value}
			sides = append(sides, here)
		case it.typ != lex.Number || it.used || !it.lengthLike() || numbered[before.low] && !it.unit || before.typ == lex.Support:
			switch {
			case l.middles(i):
				l.items[i].used, here.middle = true, true
			case it.low == "same" && apart[next.low] && len(here.at) > 2: // "the other 10 off west, same distance"
				far := here.at[len(here.at)-2]
				here.at, here.walls = append(here.at, far), append(here.walls, far[strings.LastIndexByte(far, ' ')+1:])
			}
		case next.is("up"), next.is("off") && after.is("floor"), up == "" && before.low == "all" && !next.is("off"):
			if up != "" && up != it.value {
				ok = false
			}
			up = l.take(i)
		case next.is("off") && all4[after.low]: // "3 ft off each wall", in every corner
			here.each, l.items[i+1].used, l.items[i+2].used = l.take(i), true, true
		case next.is("off") && after.typ == lex.Wall:
			l.items[i+2].used = true
			add(after.value, append(pending, i)...)
		case next.typ == lex.Wall && after.is("of") && l.named(i+3) != "":
			l.items[i+1].used, l.items[i+3].used = true, true
			here.walls, here.at = append(here.walls, next.value), append(here.at, l.take(i)+" "+next.value+" of "+l.named(i+3))
		case next.typ == lex.Wall && !next.used && !after.is("of") && !l.heads(i+1):
			l.items[i+1].used = true
			add(next.value, append(pending, i)...)
		case next.is("off") && (after.typ == 0 || after.list) && l.along() != "":
			add(l.along(), i)
		case before.typ == lex.Wall && !before.used && (l.at(i-2).is("off", "on") || l.at(i-2).typ == lex.Number && l.at(i-2).used || l.at(i-2).typ == 0) && !next.is("off"):
			l.items[i-1].used = true
			add(before.value, i)
		case next.typ == lex.Number && next.lengthLike() && (next.list || pending != nil || strings.Contains(it.value, "'") && strings.Contains(next.value, "'")): // "4', 9'6 and 15'"
			pending = append(pending, i)
		}
	}
	if len(sides) > 1 && len(here.at) > 0 && len(sides[0].at) == 0 && !sides[0].middle {
		sides = sides[1:]
	}
	for _, s := range sides {
		more := s.words(up)
		ok = ok && (len(more) > 0 || len(s.at) == 0 && s.each == "")
		all = append(all, more...)
	}
	if !ok {
		return nil
	}
	return all
}

// heads reports whether the wall at i is the one that what follows is in, and not what it is off: a
// distance off a wall that meets it follows, "north wall 18 from the west corner".
func (l *line) heads(i int) bool {
	for k := i + 1; k < len(l.items); k++ {
		switch it := l.at(k); {
		case it.typ == lex.Number, it.is("at"):
		case it.is("off") && l.at(k+1).typ == lex.Wall:
			return k > i+1 && eastWest[l.at(k+1).value] != eastWest[l.at(i).value]
		default:
			return false
		}
	}
	return false
}

var eastWest = set("east west")

// words returns a place for each thing there.
func (s *spot) words(up string) (all []string) {
	tail := ""
	if s.on != "" {
		tail = ", on " + s.on + " wall"
	}
	if up != "" && (s.on != "" || len(s.at) < 2) {
		tail = ", " + up + " up" + tail
	} else if up != "" {
		return nil
	}
	var across, along []string
	for i, at := range s.at {
		if eastWest[s.walls[i]] {
			across = append(across, at)
		} else {
			along = append(along, at)
		}
	}
	paired := len(across) > 1
	for i := 0; i+1 < len(s.walls) && paired; i += 2 {
		paired = eastWest[s.walls[i]] != eastWest[s.walls[i+1]]
	}
	switch {
	case s.each != "" && s.on+up == "" && !s.middle && len(s.at) == 0:
		for _, ns := range []string{"north", "south"} {
			all = append(all, s.each+" off "+ns+", "+s.each+" off west", s.each+" off "+ns+", "+s.each+" off east")
		}
	case s.each != "":
		return nil
	case s.middle && len(s.at) == 0:
		return []string{"in the middle" + tail}
	case s.middle && len(across)*len(along) == 0 && s.on == "": // on the centre line
		for _, at := range s.at {
			all = append(all, at+", in the middle")
		}
	case s.on != "" && (eastWest[s.on] && across != nil || !eastWest[s.on] && along != nil):
		return nil // off that wall itself, or the one opposite
	case s.on != "": // along that wall
		for _, at := range s.at {
			all = append(all, at+tail)
		}
	case len(s.at) == 1, s.on == "" && len(s.at) == 0 && up != "":
		return []string{strings.TrimPrefix(strings.Join(s.at, "")+tail, ", ")}
	case len(across) == 1 || len(along) == 1:
		for _, a := range across {
			for _, b := range along {
				all = append(all, a+", "+b+tail)
			}
		}
	case paired && len(across) == len(along):
		for i := 0; i < len(s.at); i += 2 {
			all = append(all, s.at[i]+", "+s.at[i+1])
		}
	}
	return all
}

var lesser = set("one new another second third next this that little big single same square round whole other only there theres got put have and also with the a")

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
		if it.typ == lex.Wall && !it.used && !l.at(i-1).is("off") {
			on = "on " + it.value + " wall"
		}
	}
	return on
}
