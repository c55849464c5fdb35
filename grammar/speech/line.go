package speech

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Item is a word of the line, or several that belong together, or a length.
type Item struct {
	Tag  byte
	Text string // canonical; as typed for a length
	Low  string // as typed, in lower case
	N    int    // value of a small whole number, or of an ordinal
	Sep  byte   // ',' or '&' before it, else 0
	At   int    // its first byte
	None bool   // it looks like a length and is none that may be offered
}

// Line is a line by its parts of speech: Tags has the tag of each item, Used if it has been taken.
type Line struct {
	*read.Source
	Items []Item
	Tags  []byte
	Rest  bool     // some of it is left, to be kept as a note beside it
	Doubt bool     // a frame fits that may not be meant
	Of    string   // the declared room that it names, "several" if more than one
	Named []string // all that it names, as far as they are declared
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

// Scan sorts the words of a line.
func Scan(s *read.Source) *Line {
	l := &Line{Source: s}
	l.names(s.Room)
	l.names(s.Room2)
	var sep byte
	for i := s.Begin; i < len(s.Pieces); {
		p := s.Pieces[i]
		if p.Gone {
			sep, i = ',', i+1
			continue
		}
		if p.Kind == '.' && (p.Low == "," || p.Low == ";" || p.Low == ":" || p.Low == "-" || p.Low == "–" || p.Low == "." || p.Low == "(" || p.Low == ")") || p.Low == "&" || (p.Low == "and" || p.Low == "n" && len(l.Tags) > 0 && l.Tags[len(l.Tags)-1] == Length) && i+1 < len(s.Pieces) && s.NumberAt(i+1) {
			if sep = ','; p.Low == "&" || p.Low == "and" || p.Low == "n" {
				sep = '&'
			}
			i++
			continue
		}
		it, n := l.item(i)
		if it.Tag != 0 {
			it.Sep, it.At, sep = sep, p.Start, 0
			if m := many.FindStringSubmatch(it.Low); m != nil && it.Tag == Length && l.plural(i+n) {
				l.add(Item{Tag: 'c', Low: m[1], Sep: it.Sep, At: it.At})
				it = Item{Tag: Length, Text: m[2], Low: m[2], At: it.At + len(it.Low) - len(m[2])}
			}
			l.add(it)
		}
		i += n
	}
	for i := 1; i+1 < len(l.Tags); i++ { // "62 to the south wall", but not "from 3 to east", "goes 30 to east"
		if l.Items[i].Low == "to" && l.Tags[i-1] == Length && l.Tags[i+1] == Wall && (i < 2 || strings.IndexByte("O1T", l.Tags[i-2]) < 0 && (l.Tags[i-2] != 'V' || !l.Has("S"))) {
			l.Items[i].Tag, l.Tags[i] = 'O', 'O'
		}
	}
	if said := lex.Lower(s.Read); (both.MatchString(said) || ofEach.MatchString(said) && (l.Has("CKH") || strings.Contains(said, "strapped")) && !l.Has("SZW")) && len(l.Named) < 2 {
		l.Named = nil
		for _, room := range slices.Sorted(maps.Values(s.Rooms)) {
			l.names(room)
		}
		if strings.Contains(said, "both") && len(l.Named) != 2 { // which two?
			l.Of, l.Named = "several", nil
		}
	}
	if len(l.Named) > 1 {
		l.Of = "several"
	}
	return l
}

// both are words for all the rooms there are.
var both = pattern.Compile(`\b(?:both|all|each|every|all the|all of the) rooms?\b|\bin both(?:$|[,.])|\bboth (?:the )?(?:lids|ceilings)\b|\b(?:lids|ceilings) (?:are )?both\b`)

// ofEach are words for them beside ceilings and framing.
var ofEach = pattern.Compile(`^both\b|^all (?:the )?(?:\d|ceil|strapped|furred|battened|joists|straps)|\beverywhere\b|\bthroughout\b`)

// names adds a room to those that the line names.
func (l *Line) names(room string) {
	if room != "" && !slices.Contains(l.Named, room) {
		l.Named = append(l.Named, room)
	}
}

// Clone returns the line with no part of it used.
func (l *Line) Clone() *Line {
	other := *l
	other.Items, other.Tags = slices.Clone(l.Items), slices.Clone(l.Tags)
	return &other
}

func (l *Line) add(it Item) { l.Items, l.Tags = append(l.Items, it), append(l.Tags, it.Tag) }

// Across returns how many pieces at i say that something goes from end to end, 0 if they do not.
func (l *Line) Across(i int) int {
	if sym, n := l.PhraseAt(i, tags); sym.Value == "A" && whole.MatchString(lex.Lower(l.Read[l.Pieces[i].Start:])) {
		return n
	}
	return 0
}

var whole = regexp.MustCompile(`^(?:(?:the )?(?:full|whole|entire) |all |(?:wall|end|corner|side) to |the length)`)

// plural reports whether the piece is a plural, as after a number of them.
func (l *Line) plural(i int) bool {
	return i < len(l.Pieces) && strings.HasSuffix(l.Pieces[i].Low, "s")
}

// item returns what is at piece i, with tag 0 if it changes nothing, and how many pieces it takes.
func (l *Line) item(i int) (Item, int) {
	p := l.Pieces[i]
	if of, ok := strings.CutSuffix(p.Low, "'s"); ok { // "strapping's 16 oc", "ceiling's 8 foot"
		switch sym := tags.Whole(of); {
		case sym.Value != "" && sym.Type == 0:
			return Item{Tag: sym.Value[0], Text: of, Low: of}, 1
		case lex.Phrases.Whole(of).Type == lex.Support:
			return Item{Tag: Support, Text: lex.Phrases.Whole(of).Value, Low: of}, 1
		}
	}
	said := func(n int) string { return lex.Lower(l.Read[p.Start:l.Pieces[i+n-1].End]) }
	sym, n := l.PhraseAt(i, tags)
	if m := gauge.FindStringSubmatch(l.Read[p.Start:]); m != nil && (i == 0 || !sizes[l.Pieces[i-1].Low]) {
		k := i + len(lex.Pieces(m[1]))
		if m[1][2] != ' ' && (k >= len(l.Pieces) || !sizes[l.Pieces[k].Low]) || k < len(l.Pieces) && cabled[l.Pieces[k].Low] {
			return Item{Tag: Service, Text: "wire", Low: m[1]}, k - i
		}
	}
	if every := spacings[p.Low]; every != "" && l.Source.Has(lex.Support, "") {
		return Item{Tag: Length, Text: every, Low: every + "s"}, 1
	}
	t, wide := l.TokenAt(i)
	if (t.Type == lex.Number || p.Kind == '0') && (n == 0 || sym.Value != "1") && !(n == 1 && sym.Value == "c" && l.Pieces[i].Low == "both") {
		return l.Number(i, measure.List)
	}
	typ, value := t.Type, t.Value
	if typ == lex.Tag && p.Low == "studs" && !(len(l.Tags) > 0 && l.Tags[len(l.Tags)-1] == Wall) { // "2x6 studs", not "26 off west studs"
		typ, value = lex.Support, "studs"
	}
	if typ == lex.Room {
		l.Of = value
		l.names(value)
		if len(l.Tags) > 0 && l.Tags[len(l.Tags)-1] == 'A' { // across the hall
			return Item{Tag: Room, Text: value, Low: said(wide)}, wide
		}
		return Item{}, wide
	}
	named := map[lex.Type]byte{lex.Wall: Wall, lex.Service: Service, lex.Support: Support, lex.Direction: Direction, lex.Thing: Thing, lex.Name: Thing, lex.Face: Thing}[typ]
	switch {
	case named == Thing && toward[before(l, i)]: // the wire to the fan
		return Item{Tag: Stray, Text: value, Low: said(wide)}, wide
	case named != 0 && wide >= n && !(typ == lex.Thing && n > 0 && sym.Type == lex.Service):
		return Item{Tag: named, Text: value, Low: said(wide)}, wide
	case n == 1 && sym.Type == lex.Service && i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "of": // a stack of board
		return Item{Tag: Stray, Text: p.Low, Low: p.Low}, 1
	case n > 0 && sym.Type == lex.Service:
		return Item{Tag: Service, Text: sym.Value, Low: said(n)}, n
	case n > 0:
		it := Item{Tag: sym.Value[0], Text: said(n), Low: said(n)}
		if it.Tag == Ordinal {
			it.N = lex.Ordinal[it.Low]
		}
		if it.Tag == '-' || it.Tag == 'x' && !(i > 0 && i+1 < len(l.Pieces) && l.NumberAt(i+1)) {
			return Item{}, n
		}
		return it, n
	case topic.RoomNoun[p.Low] || topic.BesideRoom[p.Low]:
		return Item{Tag: Room, Text: p.Low, Low: p.Low}, 1
	case lex.Heard(p.Low), p.Low == "for" && !(i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "the") && !(len(l.Tags) > 0 && (l.Tags[len(l.Tags)-1] == 'V' || l.Tags[len(l.Tags)-1] == Wall)):
		return Item{Tag: '?', Text: p.Low, Low: p.Low}, 1
	case p.Low == "of" && len(l.Tags) > 0 && l.Tags[len(l.Tags)-1] == Wall:
		return Item{Tag: '/', Text: p.Low, Low: p.Low}, 1
	case lex.Compass[p.Low] != "" && (i+1 < len(l.Pieces) && (l.NumberAt(i+1) || l.Pieces[i+1].Low == "same") || i > 0 && l.Pieces[i-1].Low == "as"):
		return Item{Tag: Wall, Text: lex.Compass[p.Low], Low: p.Low}, 1
	case lex.Filler[p.Low], idle[p.Low], p.Kind == '.', len(p.Low) == 1:
		if lines[p.Low] {
			return Item{Tag: 'z', Text: p.Low, Low: p.Low}, 1
		}
		return Item{}, 1
	}
	return Item{Tag: Stray, Text: p.Low, Low: p.Low}, 1
}

// spacings are those of framing in words.
var spacings = map[string]string{"twelves": "12", "sixteens": "16", "nineteens": "19.2", "twenty-fours": "24", "twentyfours": "24"}

// toward are words before a thing that a run leads to, or passes.
var toward = lex.Set("to", "for", "feeds", "feed", "feeding", "behind", "serving", "past", "of")

// before returns the word before piece i.
func before(l *Line, i int) string {
	for i--; i >= 0; i-- {
		if p := l.Pieces[i]; p.Low != "the" && p.Low != "a" && p.Low != "," {
			return p.Low
		}
	}
	return ""
}

// Number returns the length at piece i, as long as the slot lets it be, or the support of that number: "2nd".
func (l *Line) Number(i int, slot measure.Slot) (Item, int) {
	from := l.Pieces[i].Start
	readings, n, _ := measure.Scan(l.Read[from:], l.Units, slot)
	if n == 0 {
		n = l.Pieces[i].End - from
	}
	said := strings.TrimSpace(l.Read[from : from+n])
	if first, rest, two := strings.Cut(said, " and "); two && (Whole(first) > 0 || slot == measure.One) && !fraction.MatchString(lex.Lower(rest)) { // "18 and 24"
		said = first
	}
	if short, ok := strings.CutSuffix(said, " shy"); ok && strings.HasPrefix(l.Read[from+len(said):], " of ") { // of the wall, not of the mark
		said = short
	}
	if short, ok := strings.CutSuffix(said, " in"); ok && l.inside(from+len(said)) { // "2 in row 1", "6 in the lid"
		said = short
	}
	k := 1
	for i+k < len(l.Pieces) && l.Pieces[i+k].Start < from+len(said) {
		k++
	}
	if i+k < len(l.Pieces) && notLengths[l.Pieces[i+k].Low] { // 10 awg, 15 amp
		return Item{Tag: Stray, Low: lex.Lower(said)}, k + 1
	}
	if said == "one" && (i > 0 && l.Pieces[i-1].Low == "the" || i+k < len(l.Pieces) && (l.Pieces[i+k].Low == "way" || l.Pieces[i+k].Low == ".")) { // "bed 2, the one at the back"
		return Item{}, k
	}
	if said == "one" || said == "a" || lex.Numeral(lex.Lower(said)) && Whole(said) == 0 && len(readings) != 1 { // no length, but it may be a part of one
		return Item{Tag: '?', Low: lex.Lower(said)}, k
	}
	if said == "1" && i+k < len(l.Pieces) && l.Pieces[i+k].Low == "st" {
		return Item{Tag: '1', Low: "1st"}, k + 1
	}
	if i+k < len(l.Pieces) && (l.Pieces[i+k].Low == "nd" || l.Pieces[i+k].Low == "rd" || l.Pieces[i+k].Low == "th") {
		return Item{Tag: Ordinal, N: Whole(said), Low: said}, k + 1
	}
	low := lex.Lower(said)
	if l.Units == length.Metric && commaPoint.MatchString(said) { // 3,15 m
		said = strings.Replace(said, ",", ".", 1)
	}
	return Item{Tag: Length, Text: said, Low: low, N: Whole(said), None: n > 0 && len(readings) == 0}, k
}

// fraction matches what is a part of the number before it.
var fraction = regexp.MustCompile(`[/½¼¾⅛⅜⅝⅞]|\b(?:half|quarters?|eighths?|sixteenths?)\b`)

// inside reports whether the word at a byte shows that the "in" before it is no inch.
func (l *Line) inside(at int) bool {
	i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start >= at })
	return i >= 0 && (within[l.Pieces[i].Low] || lex.Phrases.Whole(l.Pieces[i].Low).Type == lex.Wall)
}

// within are words after "in" that show that it is no inch.
var within = lex.Set("row", "rows", "the", "this", "that", "here", "there", "my", "a", "ceiling", "lid")

// Whole returns the value of a small whole number in figures or as a word, else 0.
func Whole(s string) int {
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' || n > 999 {
			return lex.Counts[lex.Lower(s)]
		}
		n = 10*n + int(r-'0')
	}
	return n
}

// Take finds the first match of an expression over the tags and marks its items as used. It returns the
// items of its groups.
func (l *Line) Take(p *regexp.Regexp) []int {
	m := p.FindSubmatchIndex(l.Tags)
	if m == nil {
		return nil
	}
	l.Use(m[0], m[1])
	at := make([]int, 0, len(m)/2)
	for i := 2; i < len(m); i += 2 {
		at = append(at, m[i])
	}
	return at
}

// Settle marks the items with one of the tags as used.
func (l *Line) Settle(tags string) {
	for i, t := range l.Tags {
		if strings.IndexByte(tags, t) >= 0 {
			l.Tags[i] = Used
		}
	}
}

// Has reports whether an item with one of the tags is not used yet, or was there.
func (l *Line) Has(tags string) bool {
	return slices.ContainsFunc(l.Items, func(it Item) bool { return strings.IndexByte(tags, it.Tag) >= 0 })
}

// Left returns the unused items of a tag.
func (l *Line) Left(tag byte) (at []int) {
	for i, t := range l.Tags {
		if t == tag {
			at = append(at, i)
		}
	}
	return at
}

// Lost returns the number of words that have no part.
func (l *Line) Lost() (n int) {
	for _, t := range l.Tags {
		if strings.IndexByte(parts, t) >= 0 {
			n++
		}
	}
	return n
}

// parts are the tags of words that change what is said if they are left out.
const parts = ".ZWDTnbMpXxFCkw/"

// Misheard reports whether a word beside a number may be a part of it, as a phone writes it: "too 84",
// "16 tin".
func (l *Line) Misheard() bool {
	tag := func(i int) byte {
		if i < 0 || i >= len(l.Items) {
			return 0
		}
		return l.Items[i].Tag
	}
	for i := range l.Items {
		before, after := tag(i-1), tag(i+1)
		if l.Tags[i] == Used {
			continue
		}
		switch near := before == Length || after == Length; {
		case near && tag(i) != Length && tag(i) != 'c' && (tag(i) == '?' || lex.Numeral(l.Items[i].Low)),
			near && tag(i) == 'T' && l.Items[i].Low == "to" && !(after == Length && strings.IndexByte("WVNKFjlU", before) >= 0) && !(before == Length && strings.IndexByte("CHW1.K", after) >= 0),
			tag(i) == Length && l.Items[i].Sep == '&' && i > 0 && strings.HasSuffix(l.Items[i-1].Low, "one"): // "first one and 90"
			return true
		}
	}
	return false
}

func (l *Line) Said(i int) string { return l.Items[i].Text }

func (l *Line) WallAt(i int) place.Wall { return place.Wall(l.Items[i].Text) }

// Size returns the length of an item, 0 if it has several readings.
func (l *Line) Size(i int) length.Length { return l.LengthOf(l.Items[i].Text) }

func (l *Line) LengthOf(said string) length.Length {
	r, _, _ := measure.Scan(said, l.Units, measure.List)
	if len(r) != 1 {
		return 0
	}
	return r[0].L
}

// Far is a distance off a wall.
type Far struct {
	Text string
	Wall place.Wall
}

func (f Far) String() string { return f.Text + " off " + string(f.Wall) }

var (
	farOff  = regexp.MustCompile(`N[ijIoAVU]*O[OoPB]*(W)`)
	farBare = regexp.MustCompile(`(N)[oi]*(W)`)
	offFar  = regexp.MustCompile(`O(W)P*(N)`)
)

// Fars takes the distances off walls. Several numbers before one wall, joined by "and", are all off it.
func (l *Line) Fars() (all []Far) {
	for {
		m := farOff.FindSubmatchIndex(l.Tags)
		if m == nil {
			break
		}
		from, w := m[0], l.WallAt(m[2])
		at := []int{from}
		for k := from; k > 0 && l.Tags[k-1] == Length && (l.Items[k].Sep == '&' || l.Has("c")); k-- {
			at = append([]int{k - 1}, at...)
		}
		for _, k := range at {
			all = append(all, Far{l.Said(k), w})
		}
		l.Use(at[0], m[1])
	}
	for m := l.Take(offFar); m != nil; m = l.Take(offFar) {
		all = append(all, Far{l.Said(m[1]), l.WallAt(m[0])})
	}
	for _, m := range farBare.FindAllSubmatchIndex(l.Tags, -1) {
		if l.Items[m[4]].Sep == 0 {
			l.Use(m[0], m[1])
			all = append(all, Far{l.Said(m[2]), l.WallAt(m[4])})
		}
	}
	return all
}

// Use marks items as used.
func (l *Line) Use(from, to int) {
	for i := from; i < to; i++ {
		l.Tags[i] = Used
	}
}

// changing are words that negate a line, or change what was said before.
var changing = lex.Set(strings.Fields("not isnt isn't wasnt wasn't moved moving move instead wrong should shouldnt shouldn't cancel cancelled abandoned removed capped rerouted relocated changed sorry correction oops except unless until never without almost swap delete scratch")...)

// Changes reports whether a line negates or changes something, other than by the words given.
func (l *Line) Changes(but ...string) bool {
	for i, it := range l.Items { // "no pipe there"
		if i > 0 && l.Items[i-1].Low == "no" && (it.Tag == Thing || it.Tag == Service) {
			return true
		}
	}
	return slices.ContainsFunc(l.Pieces[l.Begin:], func(p lex.Piece) bool { return changing[p.Low] && !slices.Contains(but, p.Low) })
}
