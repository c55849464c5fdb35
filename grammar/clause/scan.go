package clause

import (
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/speech"
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
	*read.Source
	Said
	words  *speech.Line
	items  []item
	metric string // the unit of a length in centimetres or millimetres
	toEdge bool   // its distances are to its near edge
}

// scan sorts the words of a line. ok is false if one of them makes its places uncertain.
func scan(s *speech.Line) (l *line, ok bool) {
	if !slices.ContainsFunc(s.Tokens, func(t lexer.Token) bool { return t.Type == lex.Thing }) && !slices.ContainsFunc(s.Pieces[s.Begin:], func(p lex.Piece) bool {
		return isThing(p.Low) || openings[p.Low] != nil || classes[p.Low] == round || classes[p.Low] == gang
	}) {
		return nil, false
	}
	near := nearEdge.FindAllStringIndex(s.Read, -1)
	l = &line{Source: s.Source, words: s, toEdge: near != nil}
	if reached.MatchString(s.Read) { // of a valve it is said anyway
		near = append(near, stays.FindAllStringIndex(s.Read, -1)...)
	}
	end := 0
	for i := s.Begin; i < len(s.Pieces); {
		p := s.Pieces[i]
		if p.Gone || slices.ContainsFunc(near, func(m []int) bool { return m[0] <= p.Start && p.Start < m[1] }) {
			i++
			continue
		}
		it, n := l.sort(i)
		before := l.at(len(l.items) - 1)
		switch {
		case it.low == "more" && (before.is == one || before.is == number && isThing(l.word(i+1))): // "one more", "two more cans"
			it.is = filler
		case it.is == about && it.low != "?" && !s.NumberAt(i+1) && before.is != number:
			it.is, l.Doubt = filler, true // "right about there"
		case it.is == about && (it.low == "?" || !s.NumberAt(i+1)), it.is == other && topic.Negates[it.low], it.is == other && lex.Heard(it.low):
			return nil, false
		case it.is == other && topic.RoomNoun[it.low] && l.within(i) && s.Rooms[it.low] == "":
			return nil, false // in a room that is not declared
		case (it.is == other || it.is == up) && topic.BesideSize[it.low] && !(it.is == up && i > s.Begin && (s.Pieces[i-1].Kind != 'a' || unitWords[l.word(i-1)] || lex.Numeral(l.word(i-1)))):
			it.is = filler
		case p.Low == "room" && i > s.Begin && s.Pieces[i-1].Word() && classes[l.word(i-1)] != filler && classes[l.word(i-1)] != of:
			return nil, false // of another room
		case edges[it.low] && !(before.is == kind && it.low == "edge"): // which one?
			return nil, false
		case it.is == other && p.Kind == '.':
			if !strings.Contains(",.:;()-!#", it.low) {
				return nil, false
			}
			it.is = filler
		}
		if m := inMetric.FindStringSubmatch(it.low + it.text); m != nil && it.is == number {
			l.metric = m[1]
		}
		it.joins = end == p.Start && end > 0
		l.items = append(l.items, it)
		i += n
		end = s.Pieces[i-1].End
	}
	return l, len(l.items) > 0
}

var (
	// nearEdge are words for what distances are measured to, wherever they stand.
	nearEdge = regexp.MustCompile(`(?i)\b(?:measured |all |both |dims? )?(?:(?:to|from|at|is|are) )?(?:the |its |their )?(?:near(?:est)?|close(?:st|r)?) (?:edge|side|face)s?(?: of (?:it|them|each|the hole|the opening))?\b`)
	reached  = regexp.MustCompile(`(?i)\b(?:valve|shutoff|shut-off|cleanout|clean-out|junction|jbox|j-box)`)
	stays    = regexp.MustCompile(`(?i),? (?:it )?(?:has to|have to|needs to|must|gotta) (?:stay|be|remain|be left) (?:open|accessible|reachable)`)
)

var inMetric = regexp.MustCompile(`(?i)\d ?(cm|mm|m)$`)

// edges are words for a part of a thing that a distance may be to.
var edges = lex.Set("edge", "edges", "underside", "nearside")

// isThing reports whether a word is one for a thing.
func isThing(w string) bool { return lex.ThingOf[w] != "" || Also[w] != "" }

// word returns the word of piece i, "" outside the entry.
func (l *line) word(i int) string {
	if i < l.Begin || i >= len(l.Pieces) {
		return ""
	}
	return l.Pieces[i].Low
}

// within reports whether "in" precedes the word at i.
func (l *line) within(i int) bool {
	for i--; classes[l.word(i)] == filler; i-- {
	}
	return l.word(i) == "in"
}

// sort returns the item at piece i, and how many pieces it has.
func (l *line) sort(i int) (it item, n int) {
	p, next := l.Pieces[i], l.word(i+1)
	it = item{low: p.Low, text: p.Low, is: classes[p.Low]}
	t, span := l.TokenAt(i)
	if p.Kind == '0' || t.Type == lex.Number && (it.is == other || it.is == filler || it.is == one && unitWords[next]) {
		num, n := l.words.Number(i, measure.One)
		switch num.Tag {
		case speech.Length:
			if num.None {
				return item{is: about, low: "?"}, n
			}
			return item{is: number, text: num.Text, low: num.Low, n: num.N, spelt: p.Word()}, n
		case speech.Ordinal, '1':
			return item{is: other, low: lex.Ordinals[max(num.N, 1)-1]}, n
		case '?':
			if it.is != one {
				return item{is: about, low: "?"}, n // one number, or two?
			}
		}
	}
	switch {
	case p.Low == "in" && (next == "from" || next == "off"):
		it.is = off
		return it, 2
	case p.Low == "by" && !(l.at(len(l.items)-1).is == number && l.NumberAt(i+1)):
		it.is = near
		return it, 1
	case Also[p.Low] != "":
		it.is, it.text, it.plural = kind, Also[p.Low], strings.HasSuffix(p.Low, "s")
		return it, 1
	case t.Type == lex.Name && it.is == near: // "over sink", where that is noted too
		return it, 1
	case t.Type == lex.Word && lex.ThingOf[p.Low] != "": // the fan of "fan box", at the start
		t.Type, t.Value = lex.Thing, lex.ThingOf[p.Low]
	}
	if what, k := l.PhraseAt(i, openings); k > 0 && t.Type != lex.Wall {
		if is := classes[l.word(i+k)]; is == wallish || is == end {
			return item{is: about, low: "?"}, k // the wall that it is in: which?
		}
		if t.Type != lex.Name {
			it.is, it.text, it.plural = kind, what.Value, strings.HasSuffix(l.word(i+k-1), "s")
			return it, k
		}
	}
	switch t.Type {
	case lex.Thing:
		it.is, it.text, it.plural = kind, t.Value, strings.HasSuffix(l.word(i+span-1), "s")
		it.low = l.said(i, span)
		return it, span
	case lex.Face:
		return item{is: about, low: "?"}, span
	case lex.Room: // the line's own
		it.is = filler
		return it, span
	case lex.Wall, lex.Direction, lex.Name:
		it.is, it.text = map[lex.Type]class{lex.Wall: wall, lex.Direction: along, lex.Name: named}[t.Type], t.Value
		return it, span
	case lex.Key:
		switch t.Value {
		case "slope", "bulkhead", "bulkhead bottom", "bulkhead face", "bulkhead back": // their places have rules of their own
			return item{is: about, low: "?"}, span
		case "off", "ceiling", "oc", "between":
			if p.Low == "s" { // 16s
				return it, 1
			}
			it.is, it.text = classes[t.Value], t.Value
			if t.Value == "between" && p.Low != "between" && p.Low != "in" && p.Low != "split" { // "halfway between"
				it.is, span = mid, span-1
				if p.Low == "half" {
					span = 2
				}
			}
			return it, span
		case "halfway along", "halfway", "in the middle": // what it is the middle of comes next
			it.is = mid
			return it, l.middleLen(i)
		}
	case lex.Tag:
		if tags[t.Value] {
			it.is, it.text = tag, t.Value
			return it, span
		}
	}
	if w := lex.Compass[p.Low]; w != "" && l.compassAt(i) {
		it.is, it.text = wall, w
		return it, 1
	}
	switch p.Low {
	case "ne", "nw", "se", "sw", "northeast", "northwest", "southeast", "southwest":
		it.is, it.text = quarter, lex.Compass[p.Low[:1]]+" east"
		if strings.HasSuffix(p.Low, "w") || strings.HasSuffix(p.Low, "west") {
			it.text = lex.Compass[p.Low[:1]] + " west"
		}
	}
	return it, 1
}

// middleLen returns how many pieces of "in the middle", "half way" say that it is the middle.
func (l *line) middleLen(i int) int {
	if classes[l.word(i)] == mid {
		return 1
	}
	for n := 1; n < 3; n++ {
		if w := l.word(i + n); w == "way" || classes[w] == mid {
			return n + 1
		}
	}
	return 1
}

// said returns n words in lower case.
func (l *line) said(i, n int) string {
	return strings.Join(strings.Fields(lex.Lower(l.Read[l.Pieces[i].Start:l.Pieces[i+n-1].End])), " ")
}

// tags are what a distance may be to or off, as canonical words.
var tags = lex.Set("to edge", "bare", "studs", "finished floor", "subfloor")

var unitWords = lex.Set("foot", "feet", "ft", "inch", "inches", "and")

// compassAt reports whether a letter at i is a wall: "off n", "n wall", "30 w".
func (l *line) compassAt(i int) bool {
	before, after, digit := l.word(i-1), l.word(i+1), false
	if i > l.Begin {
		digit = l.Pieces[i-1].Kind == '0' || before == `"` || before == "'"
	}
	if before == "the" {
		before = l.word(i - 2)
	}
	if l.word(i) == "s" && digit && l.Pieces[i-1].End == l.Pieces[i].Start || l.word(i) == "n" && digit && l.NumberAt(i+1) && classes[l.word(i+2)] == off { // 16s, "20 n 110 off west"
		return false
	}
	c := classes[after]
	return before == "off" || before == "from" || c == wallish || c == corner || c == end || digit && (after == "" || c == and || l.Pieces[i+1].Kind == '0')
}

// openings are the words for openings in the framing.
var openings = func() lex.Table {
	t := lex.Table{}
	for w, what := range places.Openings {
		t.Add(w, lex.Symbol{Value: what})
		t.Add(w+"s", lex.Symbol{Value: what})
	}
	return t
}()
