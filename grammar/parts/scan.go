package parts

import (
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// Item is a word, a phrase or a number of the text, sorted.
type Item struct {
	Is     Class
	Text   string // canonical; as typed for a number
	Low    string // as typed, in lower case
	N      int    // value of a whole number without a unit, else 0
	Spelt  bool   // the number is a word
	Plural bool
	Joins  bool // it stands right behind a number, as the s of 16s
	Used   bool // it has a part in what is said
}

// Line is a text, sorted.
type Line struct {
	*read.Source
	words  *speech.Line
	Items  []Item
	Metric string // the unit of a length in centimetres or millimetres
	ToEdge bool   // its distances are to its near edge
	Vague  bool   // "about there"
}

// Scan sorts the words of a line. ok is false if one of them makes its places uncertain.
func Scan(s *speech.Line) (l *Line, ok bool) {
	if !slices.ContainsFunc(s.Tokens, func(t lexer.Token) bool { return t.Type == lex.Thing }) && !slices.ContainsFunc(s.Pieces[s.Begin:], func(p lex.Piece) bool {
		return isThing(p.Low) || openings[p.Low] != nil || classes[p.Low] == Round || classes[p.Low] == Gang
	}) {
		return nil, false
	}
	to := nearEdge.FindAllStringIndex(s.Read, -1)
	l = &Line{Source: s.Source, words: s, ToEdge: to != nil}
	if reached.MatchString(s.Read) { // of a valve it is said anyway
		to = append(to, stays.FindAllStringIndex(s.Read, -1)...)
	}
	ended := 0
	for i := s.Begin; i < len(s.Pieces); {
		p := s.Pieces[i]
		if p.Gone || slices.ContainsFunc(to, func(m []int) bool { return m[0] <= p.Start && p.Start < m[1] }) {
			i++
			continue
		}
		if a, b := l.fromTo(i); b > 0 { // "780-870 up"
			l.Items = append(l.Items, Item{Is: Number, Text: l.word(i), Low: l.word(i), N: a}, Item{Is: Toward, Low: "to"}, Item{Is: Number, Text: l.word(i + 2), Low: l.word(i + 2), N: b})
			i += 3
			continue
		}
		if a, b := l.bothWalls(i); a != "" {
			if l.At(len(l.Items)-1).Is == Every {
				l.Items = l.Items[:len(l.Items)-1]
			}
			l.Items = append(l.Items, Item{Is: Wall, Text: a, Low: a}, Item{Is: And, Low: "and"}, Item{Is: Wall, Text: b, Low: b}, Item{Is: Wallish, Low: "walls"})
			i += 2
			continue
		}
		if m := times.FindStringSubmatch(p.Low); m != nil && l.At(l.Prev(len(l.Items))).Is == Kind { // "pots x3"
			l.Items = append(l.Items, Item{Is: By, Low: "x"}, Item{Is: Number, Text: m[1], Low: m[1], N: speech.Whole(m[1])})
			i++
			continue
		}
		if n := l.countedSize(i); n > 0 {
			i += n
			continue
		}
		if all := l.tight(i); all != nil { // "pots 18,48,78 off west"
			for k, text := range all {
				if k > 0 {
					l.Items = append(l.Items, Item{Is: Filler, Low: ","})
				}
				l.Items = append(l.Items, Item{Is: Number, Text: text, Low: text, N: speech.Whole(text)})
			}
			i += 2*len(all) - 1
			continue
		}
		it, n := l.sort(i)
		before := l.At(len(l.Items) - 1)
		switch {
		case it.Low == "more" && (before.Is == One || before.Is == Number && isThing(l.word(i+1))): // "one more", "two more cans"
			it.Is = Filler
		case it.Is == About && it.Low != "?" && !s.NumberAt(i+1) && before.Is != Number:
			it.Is, l.Vague = Filler, true // "right about there"
		case it.Is == About && (it.Low == "?" || !s.NumberAt(i+1)), it.Is == Other && (topic.Negates[it.Low] || changes[it.Low]), it.Is == Other && lex.Heard(it.Low):
			return nil, false
		case it.Is == Other && topic.RoomNoun[it.Low] && l.within(i) && s.Rooms[it.Low] == "":
			return nil, false // in a room that is not declared
		case (it.Is == Other || it.Is == Up) && topic.BesideSize[it.Low] && !(it.Is == Up && i > s.Begin && (s.Pieces[i-1].Kind != 'a' || unitWords[l.word(i-1)] || lex.Numeral(l.word(i-1)))):
			it.Is = Filler
		case p.Low == "room" && before.Is == Wall: // off the furnace room
			it.Is = Filler
		case p.Low == "room" && i > s.Begin && s.Pieces[i-1].Word() && classes[l.word(i-1)] != Filler && classes[l.word(i-1)] != Of:
			return nil, false // of another room
		case edges[it.Low] && !(before.Is == Kind && it.Low == "edge"): // which one?
			return nil, false
		case it.Is == Other && p.Kind == '.':
			if !strings.Contains(",.:;()-!#", it.Low) {
				return nil, false
			}
			it.Is = Filler
		}
		if m := inMetric.FindStringSubmatch(it.Low + it.Text); m != nil && it.Is == Number {
			l.Metric = m[1]
		}
		if it.Is == Kind && before.Is == Wallish && l.At(len(l.Items)-2).Is != Wall && len(l.Items) < 3 { // "2 wall sconces"
			l.Items[len(l.Items)-1].Is = Filler
		}
		it.Joins = ended == p.Start && ended > 0
		l.Items = append(l.Items, it)
		i += n
		ended = s.Pieces[i-1].End
	}
	return l, len(l.Items) > 0
}

// tight returns whole numbers of several things with commas between them and no spaces, from piece i on.
func (l *Line) tight(i int) (all []string) {
	if l.Units == length.Metric || !slices.ContainsFunc(l.Items, func(it Item) bool { return it.Is == Kind && it.Plural }) {
		return nil
	}
	for ; i < len(l.Pieces) && speech.Whole(l.word(i)) > 0; i += 2 {
		all = append(all, l.word(i))
		if i+2 >= len(l.Pieces) || l.word(i+1) != "," || l.Pieces[i].End != l.Pieces[i+1].Start || l.Pieces[i+1].End != l.Pieces[i+2].Start {
			break
		}
	}
	if len(all) < 2 {
		return nil
	}
	return all
}

var (
	// nearEdge are words for what distances are measured to, wherever they stand.
	nearEdge = regexp.MustCompile(`(?i)\b(?:measured |all |both |dims? )?(?:(?:to|from|at|is|are) )?(?:the |its |their )?(?:near(?:est)?|close(?:st|r)?) (?:edge|side|face)s?(?: of (?:it|them|each|the hole|the opening))?\b`)
	reached  = regexp.MustCompile(`(?i)\b(?:valve|shutoff|shut-off|cleanout|clean-out|junction|jbox|j-box)`)
	stays    = regexp.MustCompile(`(?i),? (?:it )?(?:has to|have to|needs to|must|gotta) (?:stay|be|remain|be left|keep|have) (?:open|accessible|reachable|access)|,? (?:please |pls )?(?:keep|leave) (?:it )?(?:open|accessible|reachable|access)|,? (?:it )?(?:needs|wants|gets) (?:a |an )?(?:access )?(?:panel|hatch|door)`)
)

// countedSize takes a count and the size of each, `six 4" pots`, which is no length of 6' 4". It returns their pieces, 0 if they are none.
func (l *Line) countedSize(i int) int {
	m := sizesOf.FindStringSubmatch(lex.Lower(l.Read[l.Pieces[i].Start:]))
	if m == nil || !isThing(m[3]+m[5]) && !isThing(m[4]) {
		return 0
	}
	l.Items = append(l.Items, Item{Is: Number, Text: m[1], Low: m[1], N: speech.Whole(m[1])}, Item{Is: Number, Text: m[2], Low: m[2]})
	return 1 + len(lex.Pieces(m[2]))
}

var sizesOf = regexp.MustCompile(`^(\d|1\d|two|three|four|five|six|eight|ten) (\d\d? ?(?:"|”|''|in(?:ch)?\b|mm)) ?(?:([a-z]+ ([a-z]+s))|([a-z]+s))\b`)

var times = regexp.MustCompile(`^x(\d\d?)$`)

var inMetric = regexp.MustCompile(`(?i)\d ?(cm|mm|m)$`)

// changes are words for what was done.
var changes = lex.Set("put", "done", "closed", "finished", "cut", "opened")

// placed are words with which a place begins.
var placed = lex.Set("at", "is", "goes", "sits", "on", "in", ",", ":")

// materials are words for what the box of a thing is made of, or for its shape.
var materials = lex.Set("metal", "plastic", "steel", "octagon", "pancake", "round", "square", "vapour", "vapor", "pvc")

// edges are words for a part of a thing that a distance may be to.
var edges = lex.Set("edge", "edges", "underside", "nearside")

// fromTo returns the numbers of an extent that is written with a dash, where they cannot be feet and inches.
func (l *Line) fromTo(i int) (from, to int) {
	if i+2 >= len(l.Pieces) || l.Pieces[i].Kind != '0' || l.word(i+1) != "-" || l.Pieces[i+2].Kind != '0' {
		return 0, 0
	}
	a, b := speech.Whole(l.word(i)), speech.Whole(l.word(i+2))
	if a == 0 || b <= a || b < 12 {
		return 0, 0
	}
	return a, b
}

// bothWalls returns the walls of "the long walls", "each long side", "" if they are not said.
func (l *Line) bothWalls(i int) (a, b string) {
	long, of := l.word(i) == "long", l.word(i+1)
	if !long && l.word(i) != "short" || l.EW == l.NS || classes[of] != Wallish && classes[of] != End || !strings.HasSuffix(of, "s") && classes[l.word(i-1)] != Every {
		return "", ""
	}
	if long == (l.EW > l.NS) {
		return "north", "south"
	}
	return "west", "east"
}

// isThing reports whether a word is one for a thing.
func isThing(w string) bool { return lex.ThingOf[w] != "" || Also[w] != "" }

// word returns the word of piece i, "" outside the entry.
func (l *Line) word(i int) string {
	if i < l.Begin || i >= len(l.Pieces) {
		return ""
	}
	return l.Pieces[i].Low
}

// within reports whether "in" precedes the word at i.
func (l *Line) within(i int) bool {
	for i--; classes[l.word(i)] == Filler; i-- {
	}
	return l.word(i) == "in"
}

// sort returns the item at piece i, and how many pieces it has.
func (l *Line) sort(i int) (it Item, n int) {
	p, next := l.Pieces[i], l.word(i+1)
	it = Item{Low: p.Low, Text: p.Low, Is: classes[p.Low]}
	t, span := l.TokenAt(i)
	if n := lex.Counts[p.Low]; n > 1 && l.At(len(l.Items)-1).Is == One { // "the other two 30 off north"
		return Item{Is: Number, Text: p.Low, Low: p.Low, N: n, Spelt: true}, 1
	}
	if p.Kind == '0' || t.Type == lex.Number && (it.Is == Other || it.Is == Filler || it.Is == One && unitWords[next]) {
		num, n := l.words.Number(i, measure.One)
		switch num.Tag {
		case speech.Length:
			if num.None {
				return Item{Is: About, Low: "?"}, n
			}
			return Item{Is: Number, Text: num.Text, Low: num.Low, N: num.N, Spelt: p.Word()}, n
		case speech.Ordinal, '1':
			if num.N > len(lex.Ordinals) { // "duct 8 rd"
				return Item{Is: About, Low: "?"}, n
			}
			low := lex.Ordinals[max(num.N, 1)-1]
			return Item{Is: classes[low], Low: low}, n
		case '?':
			if it.Is != One {
				return Item{Is: About, Low: "?"}, n // one number, or two?
			}
		}
	}
	if n := l.words.Across(i); n > 1 {
		return Item{Is: Full, Low: l.said(i, n)}, n
	}
	switch {
	case p.Low == "put" && next != "the" && classes[next] != Pronoun: // no thing that may be noted
		return Item{Low: p.Low, Is: Filler}, 1
	case p.Low == "in" && (next == "from" || next == "off"):
		it.Is = Off
		return it, 2
	case (p.Low == "by" || p.Low == "x" || p.Low == "then") && l.NumberAt(i+1) && slices.Contains([]Class{Wall, Wallish, End}, l.At(len(l.Items)-1).Is):
		it.Is = And
		return it, 1
	case p.Low == "by" && !(l.At(len(l.Items)-1).Is == Number && l.NumberAt(i+1)):
		it.Is = Near
		return it, 1
	case Also[p.Low] != "":
		it.Is, it.Text, it.Plural = Kind, Also[p.Low], strings.HasSuffix(p.Low, "s")
		return it, 1
	case t.Type == lex.Name && it.Is == Near: // "over sink", where that is noted too
		return it, 1
	case t.Type == lex.Word && lex.ThingOf[p.Low] != "": // the fan of "fan box", at the start
		t.Type, t.Value = lex.Thing, lex.ThingOf[p.Low]
	}
	if w := l.Walls[p.Low]; w != "" && (classes[next] == Corner || classes[next] == End || l.Seen[p.Low] == "" && l.At(l.Prev(len(l.Items))).Is == Off) { // the door corner, of the door wall
		return Item{Is: Wall, Text: string(w), Low: p.Low}, 1
	}
	if what, k := l.PhraseAt(i, openings); k > 0 && t.Type != lex.Wall {
		if is := classes[l.word(i+k)]; is == Wallish || is == End {
			return Item{Is: About, Low: "?"}, k // the wall that it is in: which?
		}
		if t.Type != lex.Name {
			it.Is, it.Text, it.Plural = Kind, what.Value, strings.HasSuffix(l.word(i+k-1), "s")
			return it, k
		}
	}
	switch t.Type {
	case lex.Thing:
		if t.Value == "box" && i > l.Begin && materials[l.word(i-1)] && !l.NumberAt(i+span) && !placed[l.word(i+span)] && slices.ContainsFunc(l.Items, func(it Item) bool { return it.Is == Number }) {
			return Item{Is: Filler, Low: p.Low}, span // "light 30 off west 41 off north, metal box"
		}
		it.Is, it.Text, it.Plural = Kind, t.Value, strings.HasSuffix(l.word(i+span-1), "s")
		it.Low = l.said(i, span)
		return it, span
	case lex.Face:
		return Item{Is: About, Low: "?"}, span
	case lex.Room: // the line's own
		it.Is = Filler
		return it, span
	case lex.Wall, lex.Direction, lex.Name:
		if t.Type == lex.Wall && l.Walls[p.Low] != "" && span == 1 && classes[next] != Corner && classes[next] != End && l.At(l.Prev(len(l.Items))).Is == Near { // "behind the tv"
			return it, 1
		}
		it.Is, it.Text = map[lex.Type]Class{lex.Wall: Wall, lex.Direction: Along, lex.Name: Named}[t.Type], t.Value
		return it, span
	case lex.Key:
		switch t.Value {
		case "slope", "bulkhead", "bulkhead bottom", "bulkhead face", "bulkhead back": // their places have rules of their own
			return Item{Is: About, Low: "?"}, span
		case "off", "ceiling", "oc", "between":
			if p.Low == "s" { // 16s
				return it, 1
			}
			it.Is, it.Text = classes[t.Value], t.Value
			return it, span
		case "halfway along", "halfway", "in the middle": // what it is the middle of comes next
			it.Is = Mid
			return it, l.middleLen(i)
		}
	case lex.Tag:
		if tags[t.Value] {
			it.Is, it.Text = Tag, t.Value
			return it, span
		}
	}
	switch p.Low {
	case "ne", "nw", "se", "sw", "northeast", "northwest", "southeast", "southwest":
		return Item{Is: About, Low: "?"}, 1 // in that corner: off which walls?
	}
	return it, 1
}

// middleLen returns how many pieces of "in the middle", "half way" say that it is the middle.
func (l *Line) middleLen(i int) int {
	if classes[l.word(i)] == Mid {
		return 1
	}
	for n := 1; n < 3; n++ {
		if w := l.word(i + n); w == "way" || classes[w] == Mid {
			return n + 1
		}
	}
	return 1
}

// said returns n words in lower case.
func (l *Line) said(i, n int) string {
	return strings.Join(strings.Fields(lex.Lower(l.Read[l.Pieces[i].Start:l.Pieces[i+n-1].End])), " ")
}

// tags are what a distance may be to or off, as canonical words.
var tags = lex.Set("to edge", "bare", "studs", "finished floor", "subfloor")

var unitWords = lex.Set("foot", "feet", "ft", "inch", "inches", "and")

// openings are the words for openings in the framing.
var openings = func() lex.Table {
	t := lex.Table{}
	for w, what := range places.Openings {
		t.Add(w, lex.Symbol{Value: what})
		t.Add(w+"s", lex.Symbol{Value: what})
	}
	return t
}()

func (l *Line) At(i int) Item {
	if i < 0 || i >= len(l.Items) {
		return Item{}
	}
	return l.Items[i]
}

// Next returns the index of the first item after i that is no filler.
func (l *Line) Next(i int) int {
	for i++; i < len(l.Items) && l.Items[i].Is == Filler; i++ {
	}
	return i
}

func (l *Line) Prev(i int) int {
	for i--; i >= 0 && l.Items[i].Is == Filler; i-- {
	}
	return i
}

// Use marks items as having a part.
func (l *Line) Use(all ...int) {
	for _, i := range all {
		if i >= 0 && i < len(l.Items) {
			l.Items[i].Used = true
		}
	}
}
