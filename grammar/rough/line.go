package rough

import (
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// item is a word of the line, or several that belong together, or a length.
type item struct {
	tag  byte
	text string // canonical; as typed for a length
	low  string // as typed, in lower case
	n    int    // value of a small whole number, or of an ordinal
	sep  byte   // ',' or '&' before it, else 0
	at   int    // its first byte
}

// line is a line by its parts of speech: tags has the tag of each item.
type line struct {
	*read.Source
	items []item
	tags  []byte
	rest  bool   // some of it is left, to be kept as a note beside it
	of    string // the declared room that it names
	spelt bool   // a number in the room's name is a word
	doubt bool   // a frame fits that may not be meant
}

// gauge is what is said of a cable by its wires: 14-2, 12/2; with a space only before the words of cabled.
var (
	gauge  = regexp.MustCompile(`^(1[0248][-/ ][23])(?:$|[\s,;])`)
	sizes  = lex.Set("x", "by", "off", "from", "in", "inch", "out", "up", "oc", "wide", "high", "long", "first", "at", "is", "north", "south", "east", "west")
	cabled = lex.Set("straight", "romex", "wire", "cable", "runs", "running", "goes", "stapled", "feed", "feeds", "across")
)

// commaPoint is a number of metres as it is written in much of the world.
var commaPoint = regexp.MustCompile(`^\d{1,2},\d{1,2}$`)

// notLengths are units of no length.
var notLengths = lex.Set("awg", "gauge", "ga", "amp", "amps", "volt", "volts", "psi", "degrees", "circuits")

// many are counts before the size of each: "two 1/2 coppers".
var many = regexp.MustCompile(`^(2|3|two|three|both) (\d/\d.*)$`)

// scan sorts the words of a line.
func scan(s *read.Source) *line {
	l := &line{Source: s}
	typed := map[int]int{} // the token that begins at a byte
	for i, t := range s.Tokens {
		typed[t.Pos.Offset] = i
	}
	var sep byte
	for i := s.Begin; i < len(s.Pieces); {
		p := s.Pieces[i]
		if p.Gone {
			sep, i = ',', i+1
			continue
		}
		if p.Kind == '.' && (p.Low == "," || p.Low == ";" || p.Low == ":" || p.Low == "-" || p.Low == "–" || p.Low == "." || p.Low == "(" || p.Low == ")") || p.Low == "&" || (p.Low == "and" || p.Low == "n" && len(l.tags) > 0 && l.tags[len(l.tags)-1] == length_) && i+1 < len(s.Pieces) && s.NumberAt(i+1) {
			if sep = ','; p.Low == "&" || p.Low == "and" || p.Low == "n" {
				sep = '&'
			}
			i++
			continue
		}
		it, n := l.item(i, typed)
		if it.tag != 0 {
			it.sep, it.at, sep = sep, p.Start, 0
			if m := many.FindStringSubmatch(it.low); m != nil && it.tag == length_ && l.plural(i+n) {
				l.add(item{tag: 'c', low: m[1], sep: it.sep, at: it.at})
				it = item{tag: length_, text: m[2], low: m[2]}
			}
			l.add(it)
		}
		i += n
	}
	return l
}

func (l *line) add(it item) { l.items, l.tags = append(l.items, it), append(l.tags, it.tag) }

// plural reports whether the piece is a plural, as after a number of them.
func (l *line) plural(i int) bool {
	return i < len(l.Pieces) && strings.HasSuffix(l.Pieces[i].Low, "s")
}

// item returns what is at piece i, with tag 0 if it changes nothing, and how many pieces it takes.
func (l *line) item(i int, typed map[int]int) (item, int) {
	p := l.Pieces[i]
	if of, ok := strings.CutSuffix(p.Low, "'s"); ok { // "strapping's 16 oc", "ceiling's 8 foot"
		switch sym := tags.Whole(of); {
		case lex.Phrases.Whole(of).Type == lex.Support:
			return item{tag: support, text: lex.Phrases.Whole(of).Value, low: of}, 1
		case sym.Value != "" && sym.Type == 0:
			return item{tag: sym.Value[0], text: of, low: of}, 1
		case topic.RoomNoun[of]:
			return item{tag: room, text: of, low: of}, 1
		}
	}
	said := func(n int) string { return lex.Lower(l.Read[p.Start:l.Pieces[i+n-1].End]) }
	sym, n := l.PhraseAt(i, tags)
	if m := gauge.FindStringSubmatch(l.Read[p.Start:]); m != nil && (i == 0 || !sizes[l.Pieces[i-1].Low]) {
		k := i + len(lex.Pieces(m[1]))
		if m[1][2] != ' ' && (k >= len(l.Pieces) || !sizes[l.Pieces[k].Low]) || k < len(l.Pieces) && cabled[l.Pieces[k].Low] {
			return item{tag: service, text: "wire", low: m[1]}, k - i
		}
	}
	at, token := typed[p.Start]
	if (token && l.Tokens[at].Type == lex.Number || p.Kind == '0') && (n == 0 || sym.Value != "1") && !(n == 1 && sym.Value == "c" && l.Pieces[i].Low == "both") {
		return l.number(i)
	}
	_, wide := l.PhraseAt(i, lex.Phrases) // pieces of the lexer's token
	if _, k := l.Declared(i); k > wide {
		wide = k
	}
	wide = max(wide, 1)
	var typ lex.Type
	value := ""
	if token {
		typ, value = l.Tokens[at].Type, l.Tokens[at].Value
	}
	if typ == lex.Tag && p.Low == "studs" && !(len(l.tags) > 0 && l.tags[len(l.tags)-1] == wall) { // "2x6 studs", not "26 off west studs"
		typ, value = lex.Support, "studs"
	}
	if typ == lex.Room {
		if l.of != "" && l.of != value {
			l.of = "several"
		} else {
			l.of = value
		}
		return item{}, wide
	}
	named := map[lex.Type]byte{lex.Wall: wall, lex.Service: service, lex.Support: support, lex.Direction: direction, lex.Thing: thing, lex.Name: thing, lex.Face: thing}[typ]
	switch {
	case named == thing && toward[before(l, i)]: // the wire to the fan
		return item{tag: stray, text: value, low: said(wide)}, wide
	case named != 0 && wide >= n && !(typ == lex.Thing && n > 0 && sym.Type == lex.Service):
		return item{tag: named, text: value, low: said(wide)}, wide
	case n == 1 && sym.Type == lex.Service && i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "of": // a stack of board
		return item{tag: stray, text: p.Low, low: p.Low}, 1
	case n > 0 && sym.Type == lex.Service:
		return item{tag: service, text: sym.Value, low: said(n)}, n
	case n > 0:
		it := item{tag: sym.Value[0], text: said(n), low: said(n)}
		if run, ok := ways[it.low]; ok && l.EW != l.NS { // lengthwise
			it.tag, it.text = direction, "ew"
			if (l.EW > l.NS) != run {
				it.text = "ns"
			}
		}
		if it.tag == ordinal {
			it.n = lex.Ordinal[it.low]
		}
		if it.tag == '-' || it.tag == 'x' && !(i > 0 && i+1 < len(l.Pieces) && l.NumberAt(i+1)) {
			return item{}, n
		}
		return it, n
	case topic.RoomNoun[p.Low] || topic.BesideRoom[p.Low]:
		return item{tag: room, text: p.Low, low: p.Low}, 1
	case lex.Heard(p.Low), p.Low == "for" && !(len(l.tags) > 0 && (l.tags[len(l.tags)-1] == 'V' || l.tags[len(l.tags)-1] == wall)):
		return item{tag: '?', text: p.Low, low: p.Low}, 1
	case p.Low == "of" && len(l.tags) > 0 && l.tags[len(l.tags)-1] == wall:
		return item{tag: '/', text: p.Low, low: p.Low}, 1
	case lex.Compass[p.Low] != "" && (i+1 < len(l.Pieces) && (l.NumberAt(i+1) || l.Pieces[i+1].Low == "same") || i > 0 && l.Pieces[i-1].Low == "as"):
		return item{tag: wall, text: lex.Compass[p.Low], low: p.Low}, 1
	case lex.Filler[p.Low], idle[p.Low], p.Kind == '.', len(p.Low) == 1:
		if lines[p.Low] {
			return item{tag: 'z', text: p.Low, low: p.Low}, 1
		}
		return item{}, 1
	}
	return item{tag: stray, text: p.Low, low: p.Low}, 1
}

// toward are words before a thing that a run leads to, or passes.
var toward = lex.Set("to", "for", "feeds", "feed", "feeding", "behind", "serving", "past", "of")

// before returns the word before piece i.
func before(l *line, i int) string {
	for i--; i >= 0; i-- {
		if p := l.Pieces[i]; p.Low != "the" && p.Low != "a" && p.Low != "," {
			return p.Low
		}
	}
	return ""
}

// number returns the length at piece i, or the support of that number: "2nd".
func (l *line) number(i int) (item, int) {
	from := l.Pieces[i].Start
	_, n, _ := measure.Scan(l.Read[from:], l.Units, measure.List)
	if n == 0 {
		n = l.Pieces[i].End - from
	}
	said := strings.TrimSpace(l.Read[from : from+n])
	if first, rest, two := strings.Cut(said, " and "); two && whole(first) > 0 && whole(rest) > 0 { // "18 and 24"
		said = first
	}
	if short, ok := strings.CutSuffix(said, " shy"); ok && strings.HasPrefix(l.Read[from+len(said):], " of ") { // of the wall, not of the mark
		said = short
	}
	k := 1
	for i+k < len(l.Pieces) && l.Pieces[i+k].Start < from+len(said) {
		k++
	}
	if i+k < len(l.Pieces) && notLengths[l.Pieces[i+k].Low] { // 10 awg, 15 amp
		return item{tag: stray, low: lex.Lower(said)}, k + 1
	}
	if said == "one" || said == "a" || lex.Numeral(lex.Lower(said)) && whole(said) == 0 { // no length, but it may be a part of one
		return item{tag: '?', low: lex.Lower(said)}, k
	}
	if said == "1" && i+k < len(l.Pieces) && l.Pieces[i+k].Low == "st" {
		return item{tag: '1', low: "1st"}, k + 1
	}
	if i+k < len(l.Pieces) && (l.Pieces[i+k].Low == "nd" || l.Pieces[i+k].Low == "rd" || l.Pieces[i+k].Low == "th") {
		return item{tag: ordinal, n: whole(said), low: said}, k + 1
	}
	low := lex.Lower(said)
	if l.Units == length.Metric && commaPoint.MatchString(said) { // 3,15 m
		said = strings.Replace(said, ",", ".", 1)
	}
	return item{tag: length_, text: said, low: low, n: whole(said)}, k
}

// whole returns the value of a small whole number in figures or as a word, else 0.
func whole(s string) int {
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' || n > 999 {
			return lex.Counts[lex.Lower(s)]
		}
		n = 10*n + int(r-'0')
	}
	return n
}

// take finds the first match of an expression over the tags and marks its items as used. It returns the
// items of its groups.
func (l *line) take(p *regexp.Regexp) []int {
	m := p.FindSubmatchIndex(l.tags)
	if m == nil {
		return nil
	}
	for i := m[0]; i < m[1]; i++ {
		l.tags[i] = used
	}
	at := make([]int, 0, len(m)/2)
	for i := 2; i < len(m); i += 2 {
		at = append(at, m[i])
	}
	return at
}

// settle marks the items with one of the tags as used.
func (l *line) settle(tags string) {
	for i, t := range l.tags {
		if strings.IndexByte(tags, t) >= 0 {
			l.tags[i] = used
		}
	}
}

// has reports whether an item with one of the tags is not used yet, or was there.
func (l *line) has(tags string) bool {
	return slices.ContainsFunc(l.items, func(it item) bool { return strings.IndexByte(tags, it.tag) >= 0 })
}

// left returns the unused items of a tag.
func (l *line) left(tag byte) (at []int) {
	for i, t := range l.tags {
		if t == tag {
			at = append(at, i)
		}
	}
	return at
}

// lost returns the number of words that have no part.
func (l *line) lost() (n int) {
	for _, t := range l.tags {
		if strings.IndexByte(parts, t) >= 0 {
			n++
		}
	}
	return n
}

// parts are the tags of words that change what is said if they are left out.
const parts = ".ZWDTnbMpXxFCkw/"

// misheard reports whether a word beside a number may be a part of it, as a phone writes it: "too 84",
// "16 tin".
func (l *line) misheard() bool {
	tag := func(i int) byte {
		if i < 0 || i >= len(l.items) {
			return 0
		}
		return l.items[i].tag
	}
	for i := range l.items {
		before, after := tag(i-1), tag(i+1)
		if l.tags[i] == used {
			continue
		}
		switch near := before == length_ || after == length_; {
		case near && tag(i) != length_ && tag(i) != 'c' && (tag(i) == '?' || lex.Numeral(l.items[i].low)),
			near && tag(i) == 'T' && l.items[i].low == "to" && !(after == length_ && strings.IndexByte("WVNKFjlU", before) >= 0) && !(before == length_ && strings.IndexByte("CHW1.", after) >= 0),
			tag(i) == length_ && l.items[i].sep == '&' && i > 0 && strings.HasSuffix(l.items[i-1].low, "one"): // "first one and 90"
			return true
		}
	}
	return false
}

func (l *line) said(i int) string { return l.items[i].text }

func (l *line) wall(i int) place.Wall { return place.Wall(l.items[i].text) }

// size returns the length of an item, 0 if it has several readings.
func (l *line) size(i int) length.Length { return l.length(l.items[i].text) }

func (l *line) length(said string) length.Length {
	r, _, _ := measure.Scan(said, l.Units, measure.List)
	if len(r) != 1 {
		return 0
	}
	return r[0].L
}

// far is a distance off a wall.
type far struct {
	at   int // its item
	text string
	wall place.Wall
}

func (f far) String() string { return f.text + " off " + string(f.wall) }

var (
	farOff  = regexp.MustCompile(`N[ijIoAVU]*O[OoPB]*(W)`)
	farBare = regexp.MustCompile(`(N)[oi]*(W)`)
	offFar  = regexp.MustCompile(`O(W)P*(N)`)
)

// fars takes the distances off walls. Several numbers before one wall, joined by "and", are all off it.
func (l *line) fars() (all []far) {
	for {
		m := farOff.FindSubmatchIndex(l.tags)
		if m == nil {
			break
		}
		from, w := m[0], l.wall(m[2])
		at := []int{from}
		for k := from; k > 0 && l.tags[k-1] == length_ && (l.items[k].sep == '&' || l.has("c")); k-- {
			at = append([]int{k - 1}, at...)
		}
		for _, k := range at {
			all = append(all, far{k, l.said(k), w})
		}
		for i := at[0]; i < m[1]; i++ {
			l.tags[i] = used
		}
	}
	for m := l.take(offFar); m != nil; m = l.take(offFar) {
		all = append(all, far{m[1], l.said(m[1]), l.wall(m[0])})
	}
	for _, m := range farBare.FindAllSubmatchIndex(l.tags, -1) {
		if l.items[m[4]].sep == 0 {
			l.use(m[0], m[1])
			all = append(all, far{m[2], l.said(m[2]), l.wall(m[4])})
		}
	}
	return all
}

// ends returns the walls at the ends of what runs beside wall w, the start first.
func ends(w place.Wall) (from, to place.Wall) {
	if eastWest(w) {
		return place.North, place.South
	}
	return place.West, place.East
}

func eastWest(w place.Wall) bool { return w == place.East || w == place.West }
