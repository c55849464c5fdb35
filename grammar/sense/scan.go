package sense

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/topic"
)

// item is a word of the line, or a length.
type item struct {
	typ   lex.Type
	value string // canonical, in lower case; as typed for a number
	low   string // as typed, in lower case
	n     int    // value of a whole number, else 0
	feet  int    // the figures with which a number begins: the 12 of "4x12 half inch"
	list  bool   // it follows a comma or "and"
	said  bool   // it follows "is" or a colon
	count string // "one" if it follows "a": "and a ten"
	unit  bool   // it has a unit or a fraction, so it is not a count
	used  bool
}

func (it item) is(words ...string) bool { return slices.Contains(words, it.value) }

// line is a line with its words sorted.
type line struct {
	said  string // as typed
	items []item
	room  string // declared room, "" if none or several are named
	mark  bool   // it has a question mark
	doubt bool   // a frame fits that may not be meant
	names lex.Names
}

// scan sorts the words of a line.
func scan(s string, n lex.Names) *line {
	r := lex.Read(s, n)
	r.Cut(0)
	l := &line{said: strings.TrimSpace(s), mark: r.Question || asks(r.Pieces), names: n}
	declared, end := 0, 0
	for i := 0; i < len(r.Tokens)-1; i++ {
		t := r.Tokens[i]
		parting := r.Read[min(end, t.Pos.Offset):t.Pos.Offset]
		it := item{typ: t.Type, value: t.Value, low: wordAt(r, t.Pos.Offset), list: strings.ContainsAny(parting, ",&") || strings.Contains(parting, " and "),
			said: strings.Contains(parting, ":") || strings.Contains(parting, " is ")}
		if strings.HasSuffix(parting, " a ") {
			it.count = "one"
		}
		end = t.Pos.Offset + len(it.low)
		if said, ok := strings.CutSuffix(it.low, "'s"); ok && topic.RoomNoun[said] { // "bath's 8' x 5'"
			it.low, it.value = said, said
		}
		switch t.Type {
		case lex.Word:
			next := r.Tokens[i+1]
			if w := lex.Compass[t.Value]; w != "" && (next.Type == lex.Number || next.Value == "same" || len(l.items) > 0 && l.items[len(l.items)-1].low == "as") {
				it.typ, it.value = lex.Wall, w
			}
		case lex.Room:
			declared++
			l.room = t.Value
		case lex.Number:
			end = t.Pos.Offset
			_, n, _ := measure.Scan(r.Read[end:], r.Units, measure.One)
			if first, _, two := strings.Cut(r.Read[end:end+n], " and "); two && whole(first) > 0 { // "rows 2 and 3"
				n = len(first)
			} else if said, in := strings.CutSuffix(r.Read[end:end+n], " in"); in && within[wordAt(r, end+n)] { // "pot 2 in row 1"
				n = len(said)
			}
			if n > 0 {
				end += n
			} else {
				end += len(it.low)
			}
			it.value = strings.TrimSpace(r.Read[t.Pos.Offset:end])
			if count, wide, ok := strings.Cut(it.value, " "); ok && whole(count) > 0 && whole(wide) > 0 && crossed(r.Read[end:]) { // "10 4x8"
				l.items = append(l.items, item{typ: t.Type, value: count, low: count, n: whole(count)})
				it.value = wide
			}
			it.n = whole(it.value)
			it.used = it.value == "one" || it.value == "a" // not a length, but it counts
			it.feet = whole(it.value[:len(it.value)-len(strings.TrimLeft(it.value, "0123456789"))])
			it.unit = it.n == 0 && strings.ContainsAny(it.value, `'"’”″′/½¼¾⅛⅜⅝⅞.`) || strings.ContainsAny(it.value, "cmfi")
			for i+1 < len(r.Tokens)-1 && r.Tokens[i+1].Pos.Offset < end {
				i++
			}
		}
		l.items = append(l.items, it)
	}
	if declared > 1 {
		l.room = ""
	}
	return l
}

// asks reports whether a line begins as a question does.
func asks(ps []lex.Piece) bool {
	i := 0
	for i < len(ps)-1 && (talkBefore[ps[i].Low] || !ps[i].Word()) {
		i++
	}
	can := i+1 < len(ps) && ps[i].Low == "can" && strings.HasPrefix(ps[i+1].Low, "light") // a kind of light
	return i < len(ps) && asking[ps[i].Low] && !can
}

// crossed reports whether an x and a number follow, or the nickname of boards of that length: "4x8", "8s".
func crossed(s string) bool {
	if footed.MatchString(s) {
		return true
	}
	rest, ok := strings.CutPrefix(strings.TrimLeft(s, " "), "x")
	return ok && strings.TrimLeft(rest, " 0123456789") != strings.TrimLeft(rest, " ")
}

var footed = regexp.MustCompile(`^ ?(?:['’]?s\b|footers?\b|foot(?:ers)? (?:boards?|sheets?))`)

// within are words after "in" that show that it is not an inch.
var within = lex.Set("row", "rows", "the", "this", "that", "here", "there", "my")

// wordAt returns the first word at or after a byte of the line.
func wordAt(r *lex.Reader, at int) string {
	for _, p := range r.Pieces {
		if p.Start >= at {
			return p.Low
		}
	}
	return ""
}

// whole returns the value of a whole number in figures or as one word, else 0.
func whole(s string) int {
	if n, err := strconv.Atoi(s); err == nil && n > 0 {
		return n
	}
	return lex.Counts[strings.ToLower(s)]
}

// at returns the item at i, a zero one outside the line.
func (l *line) at(i int) item {
	if i < 0 || i >= len(l.items) {
		return item{}
	}
	return l.items[i]
}

// has reports whether one of the words is in the line.
func (l *line) has(words ...string) bool {
	return slices.ContainsFunc(l.items, func(it item) bool { return it.typ != lex.Number && (it.is(words...) || slices.Contains(words, it.low)) })
}

// any reports whether a word of the set is in the line.
func (l *line) any(set map[string]bool) bool {
	return slices.ContainsFunc(l.items, func(it item) bool { return it.typ == lex.Word && set[it.low] || it.typ != lex.Number && set[it.value] })
}

// first returns the first item of a type.
func (l *line) first(typ lex.Type) (item, int) {
	for i, it := range l.items {
		if it.typ == typ {
			return it, i
		}
	}
	return item{}, -1
}

// numbers returns the numbers that are not used yet.
func (l *line) numbers() (free []int) {
	for i, it := range l.items {
		if it.typ == lex.Number && !it.used {
			free = append(free, i)
		}
	}
	return free
}

// take returns the words of a number and marks it as used.
func (l *line) take(i int) string {
	l.items[i].used = true
	return l.items[i].value
}

// rows takes the rows named: "row 2", "third row", "rows 1 to 3".
func (l *line) rows() (rows []int) {
	for i, it := range l.items {
		switch {
		case it.is("row", "course") && l.at(i+1).typ == lex.Number && l.at(i+1).n > 0:
			for k := i + 1; l.at(k).typ == lex.Number && l.at(k).n > 0 && !l.at(k).unit && (k == i+1 || l.at(k).list); k++ {
				from := l.at(k).n
				rows = append(rows, from)
				l.items[k].used = true
				if to := l.at(k + 2).n; l.at(k+1).is("to", "through", "-") && to > from && to < from+20 {
					for n := from + 1; n <= to; n++ {
						rows = append(rows, n)
					}
					l.items[k+2].used = true
					k += 2
				}
			}
		case lex.Ordinal[it.low] > 0 && l.at(i+1).is("row", "course"):
			rows = append(rows, lex.Ordinal[it.low])
		case it.low == "top" && l.at(i+1).is("row", "course"):
			rows = append(rows, 1)
		case it.typ == lex.Number && it.n > 0 && l.at(i+1).is("nd", "rd", "th", "st") && l.at(i+2).is("row", "course"):
			rows = append(rows, it.n)
			l.items[i].used = true
		}
	}
	return rows
}

// sided reports whether a place is given as left or right.
func (l *line) sided() bool {
	for i, it := range l.items {
		if it.is("left", "right") && it.typ == lex.Place && (l.at(i-1).is("off", "on", "to", "at", "in", "of", "along") || l.at(i+1).low == "side") {
			return true
		}
	}
	return false
}

// elsewhere reports whether the line is of a room that is not declared: "light in the hall".
func (l *line) elsewhere() bool {
	for i, it := range l.items {
		if it.typ == lex.Word && topic.RoomNoun[it.low] && l.at(i-1).low == "in" {
			return true
		}
	}
	return false
}

// misheard reports whether a word that may be part of a number precedes one: "ate 90".
func (l *line) misheard() bool {
	for i, it := range l.items {
		if l.at(i+1).typ == lex.Number && it.typ != lex.Number && (lex.Heard(it.low) || lex.Numeral(it.low) || unclear[it.low] && !(it.low == "over" && l.has("slope"))) {
			return true
		}
	}
	return false
}

// strays returns the number of words that belong to no frame.
func (l *line) strays() (n int) {
	for _, it := range l.items {
		if (it.typ == lex.Word || it.typ == lex.Other || it.typ == lex.Cmd) && len(it.low) > 1 && !plain[it.low] {
			n++
		}
	}
	return n
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
