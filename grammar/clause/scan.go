package clause

import (
	"regexp"
	"slices"
	"strapline/grammar/measure"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/topic"
)

// item is a word, a phrase or a number of the text, sorted.
type item struct {
	is     class
	text   string // canonical; as typed for a number
	low    string // as typed, in lower case
	n      int    // value of a whole number without a unit, else 0
	spelt  bool   // the number is a word
	plural bool
	joins  bool // it stands right behind a number, as the s of 16s
	used   bool
}

// line is a text, sorted.
type line struct {
	Context
	Said
	items  []item
	toEdge bool // its distances are to its near edge
}

// scan sorts the words of a text. ok is false if one of them makes its places uncertain.
func scan(text string, c Context) (l *line, ok bool) {
	if reached.MatchString(text) { // of a valve it is said anyway
		text = stays.ReplaceAllStringFunc(text, func(s string) string { return strings.Repeat(" ", len(s)) })
	}
	near := nearEdge.MatchString(text)
	text = nearEdge.ReplaceAllStringFunc(text, func(s string) string { return strings.Repeat(" ", len(s)) })
	r := lex.Read(text, c.Names)
	l = &line{Context: c, toEdge: near}
	end := 0
	for i := 0; i < len(r.Pieces); {
		p := r.Pieces[i]
		it, n, next := l.sort(r, i)
		switch {
		case it.low == "more" && len(l.items) > 0 && (l.items[len(l.items)-1].is == one || l.items[len(l.items)-1].is == number && i+1 < len(r.Pieces) && isThing(r.Pieces[i+1].Low)): // "one more", "two more cans"
			it.is = filler
		case it.is == about && it.low != "?" && !r.NumberAt(i+1) && !(len(l.items) > 0 && l.items[len(l.items)-1].is == number):
			it.is, l.Doubt = filler, true // "right about there"
		case it.is == about && (it.low == "?" || !r.NumberAt(i+1)), it.is == other && topic.Negates[it.low], it.is == other && lex.Heard(it.low):
			return nil, false
		case it.is == other && topic.RoomNoun[it.low] && i > 0 && lex.Compass[it.low] == "" && within(r, i) && c.Rooms[it.low] == "":
			return nil, false // in a room that is not declared
		case (it.is == other || it.is == up) && topic.BesideSize[it.low] && !(it.is == up && i > 0 && (r.Pieces[i-1].Kind != 'a' || unitWords[r.Pieces[i-1].Low] || lex.Numeral(r.Pieces[i-1].Low))):
			it.is = filler
		case p.Low == "room" && i > 0 && r.Pieces[i-1].Word() && classes[r.Pieces[i-1].Low] != filler && classes[r.Pieces[i-1].Low] != of:
			return nil, false // of another room
		case edges[it.low] && !(len(l.items) > 0 && l.items[len(l.items)-1].is == kind && it.low == "edge"): // which one?
			return nil, false
		case it.is == other && p.Kind == '.':
			if !strings.Contains(",.:;()-!#", it.low) {
				return nil, false
			}
			it.is = filler
		}
		it.joins = end == p.Start && end > 0
		l.items = append(l.items, it)
		if len(l.items) == 1 {
			r.Emit(lex.Word, it.low, i) // what follows does not begin the line
		}
		if i += n; next > 0 { // the length ends within pieces
			for i < len(r.Pieces) && r.Pieces[i].Start < next {
				i++
			}
			end = next
		} else {
			end = r.Pieces[i-1].End
		}
	}
	return l, len(l.items) > 0
}

var (
	// nearEdge are words for what distances are measured to, wherever they stand.
	nearEdge = regexp.MustCompile(`(?i)\b(?:measured |all |both |dims? )?(?:(?:to|from|at|is|are) )?(?:the |its |their )?(?:near(?:est)?|close(?:st|r)?) (?:edge|side|face)s?(?: of (?:it|them|each|the hole|the opening))?\b`)
	reached  = regexp.MustCompile(`(?i)\b(?:valve|shutoff|shut-off|cleanout|clean-out|junction|jbox|j-box)`)
	stays    = regexp.MustCompile(`(?i),? (?:it )?(?:has to|have to|needs to|must|gotta) (?:stay|be|remain|be left) (?:open|accessible|reachable)`)
)

// edges are words for a part of a thing that a distance may be to.
var edges = lex.Set("edge", "edges", "underside", "nearside")

// isThing reports whether a word is one for a thing.
func isThing(w string) bool { return lex.ThingOf[w] != "" || also[w] != "" }

// within reports whether "in" precedes the word at i.
func within(r *lex.Reader, i int) bool {
	for i--; i > 0 && classes[r.Pieces[i].Low] == filler; i-- {
	}
	return r.Pieces[i].Low == "in"
}

// sort returns the item at piece i, and how many pieces it has; of a number, where it ends.
func (l *line) sort(r *lex.Reader, i int) (it item, n, stop int) {
	p := r.Pieces[i]
	it = item{low: p.Low, text: p.Low}
	is := classes[p.Low]
	digit := p.Kind == '0' || p.Kind == '.' && p.Low != "." && p.Low != "-" && p.Low != "~"
	if is == other && p.Word() && lex.Numeral(p.Low) || digit || is == one && p.Low == "one" && i+1 < len(r.Pieces) && unitWords[r.Pieces[i+1].Low] || (p.Low == "a" || p.Low == "an") && i+1 < len(r.Pieces) && fractions[r.Pieces[i+1].Low] {
		if at := l.number(r, p.Start); at > p.Start {
			it.is, it.text, it.spelt = number, strings.TrimSpace(r.Read[p.Start:at]), p.Word()
			if n, err := strconv.Atoi(it.text); err == nil {
				it.n = n
			} else {
				it.n = lex.Counts[lex.Lower(it.text)]
			}
			return it, 1, at
		} else if p.Kind == '0' || p.Word() && lex.Numeral(p.Low) {
			return item{is: about, low: "?"}, 1, 0 // one number, or two?
		}
	}
	switch next := r.Pieces[min(i+1, len(r.Pieces)-1)].Low; {
	case p.Low == "in" && (next == "from" || next == "off"):
		it.is = off
		return it, 2, 0
	case p.Low == "by" && !(len(l.items) > 0 && l.items[len(l.items)-1].is == number && r.NumberAt(i+1)):
		it.is = near
		return it, 1, 0
	case also[p.Low] != "":
		it.is, it.text, it.plural = kind, also[p.Low], strings.HasSuffix(p.Low, "s")
		return it, 1, 0
	}
	sym, n := r.PhraseAt(i, lex.Phrases)
	name, m := r.Declared(i)
	if name.Type == lex.Name && is == near { // "over sink", where that is noted too
		m = 0
	}
	if m > n || m == n && sym.Type == lex.Word || m > 0 && n == 0 {
		sym, n = name, m
	}
	what, k := opening(r, i)
	if k > 0 && i+k < len(r.Pieces) && (classes[r.Pieces[i+k].Low] == wallish || classes[r.Pieces[i+k].Low] == end) && sym.Type != lex.Wall {
		return item{is: about, low: "?"}, k, 0 // the wall that it is in: which?
	}
	if k > 0 && sym.Type != lex.Wall && sym.Type != lex.Name {
		it.is, it.text, it.plural = kind, what, strings.HasSuffix(r.Pieces[i+k-1].Low, "s")
		return it, k, 0
	}
	switch sym.Type {
	case lex.Thing:
		it.is, it.text = kind, sym.Value
		it.plural = strings.HasSuffix(r.Pieces[i+n-1].Low, "s")
		it.low = strings.ToLower(strings.Join(lows(r, i, n), " "))
		return it, n, 0
	case lex.Face:
		return item{is: about, low: "?"}, n, 0
	case lex.Room: // the line's own
		it.is = filler
		return it, n, 0
	case lex.Wall, lex.Direction, lex.Name:
		it.is, it.text = map[lex.Type]class{lex.Wall: wall, lex.Direction: along, lex.Name: named}[sym.Type], sym.Value
		return it, n, 0
	case lex.Key:
		switch sym.Value {
		case "slope", "bulkhead", "bulkhead bottom", "bulkhead face", "bulkhead back": // their places have rules of their own
			return item{is: about, low: "?"}, n, 0
		case "off", "ceiling", "oc", "between":
			it.is, it.text = classes[sym.Value], sym.Value
			if sym.Value == "between" && p.Low != "between" && p.Low != "in" && p.Low != "split" { // "halfway between"
				it.is, n = mid, n-1
				if p.Low == "half" {
					n = 2
				}
			}
			return it, n, 0
		case "halfway along", "halfway", "in the middle": // what it is the middle of comes next
			it.is = mid
			return it, middleLen(r, i), 0
		}
	case lex.Tag:
		if tags[sym.Value] {
			it.is, it.text = tag, sym.Value
			return it, n, 0
		}
	}
	if w := lex.Compass[p.Low]; w != "" && compassAt(r, i) {
		it.is, it.text = wall, w
		return it, 1, 0
	}
	switch p.Low {
	case "ne", "nw", "se", "sw", "northeast", "northwest", "southeast", "southwest":
		it.is, it.text = quarter, lex.Compass[p.Low[:1]]+" east"
		if strings.HasSuffix(p.Low, "w") || strings.HasSuffix(p.Low, "west") {
			it.text = lex.Compass[p.Low[:1]] + " west"
		}
		return it, 1, 0
	case "can":
		it.is, it.text = kind, "light"
		return it, 1, 0
	}
	it.is = is
	return it, 1, 0
}

// middleLen returns how many pieces of "in the middle", "half way" say that it is the middle.
func middleLen(r *lex.Reader, i int) int {
	if classes[r.Pieces[i].Low] == mid {
		return 1
	}
	for n := 1; i+n < len(r.Pieces) && n < 3; n++ {
		if w := r.Pieces[i+n].Low; w == "way" || classes[w] == mid {
			return n + 1
		}
	}
	return 1
}

func lows(r *lex.Reader, i, n int) (all []string) {
	for _, p := range r.Pieces[i : i+n] {
		all = append(all, p.Low)
	}
	return all
}

// tags are what a distance may be to or off, as canonical words.
var tags = lex.Set("to edge", "bare", "studs", "finished floor", "subfloor")

var (
	unitWords = lex.Set("foot", "feet", "ft", "inch", "inches", "and")
	fractions = lex.Set("half", "quarter", "eighth")
)

// compassAt reports whether a letter at i is a wall: "off n", "n wall", "30 w".
func compassAt(r *lex.Reader, i int) bool {
	before, after := "", ""
	digit := false
	if i > 0 {
		before, digit = r.Pieces[i-1].Low, r.Pieces[i-1].Kind == '0' || r.Pieces[i-1].Low == `"` || r.Pieces[i-1].Low == "'"
	}
	if before == "the" && i > 1 {
		before = r.Pieces[i-2].Low
	}
	if i+1 < len(r.Pieces) {
		after = r.Pieces[i+1].Low
	}
	if r.Pieces[i].Low == "s" && digit && r.Pieces[i-1].End == r.Pieces[i].Start {
		return false
	}
	c := classes[after]
	if r.Pieces[i].Low == "n" && digit && i+2 < len(r.Pieces) && r.Pieces[i+1].Kind == '0' && classes[r.Pieces[i+2].Low] == off { // "20 n 110 off west"
		return false
	}
	return before == "off" || before == "from" || c == wallish || c == corner || c == end || digit && (after == "" || c == and || i+1 < len(r.Pieces) && r.Pieces[i+1].Kind == '0')
}

// opening returns the kind of the opening in the framing at i, and how many pieces it takes.
func opening(r *lex.Reader, i int) (string, int) {
	for n := min(3, len(r.Pieces)-i); n > 0; n-- {
		said := strings.Join(lows(r, i, n), " ")
		for _, w := range []string{said, strings.TrimSuffix(said, "s")} {
			if what := places.Openings[w]; what != "" {
				return what, n
			}
		}
	}
	return "", 0
}

// number returns where the length or count at a byte ends, the same byte if there is none.
func (l *line) number(r *lex.Reader, at int) int {
	s := r.Read[at:]
	readings, n, _ := measure.Scan(s, l.Units, measure.One)
	if n == 0 || len(readings) == 0 {
		return at
	}
	said := lex.Lower(s[:n])
	if first, rest, two := strings.Cut(said, " and "); two && !strings.ContainsAny(rest, "/½¼¾⅛⅜⅝⅞") && !slices.ContainsFunc(strings.Fields(rest), func(w string) bool { return fractions[strings.TrimSuffix(w, "s")] }) {
		n = len(first)
	} else if short, in := strings.CutSuffix(said, " in"); in && insideOf(r, at+n) { // "2 in row 1", "6 in the lid"
		n = len(short)
	}
	return at + n
}

// insideOf reports whether the word at a byte shows that the "in" before it is no inch.
func insideOf(r *lex.Reader, at int) bool {
	for _, p := range r.Pieces {
		if p.Start >= at {
			return p.Low == "the" || p.Low == "this" || p.Low == "that" || p.Low == "a" || classes[p.Low] == ceiling || classes[p.Low] == row || lex.Phrases.Whole(p.Low).Type == lex.Wall
		}
	}
	return false
}
