package boarding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// word is a word or phrase of the line, or a number.
type word struct {
	class
	text   string // as typed, in lower case
	value  string // as in our lines: a thickness, a type, a length, a surface, a thing
	n      int    // a count, or the number of a row; 0 if none was said
	rows   []int  // the rows, if several were said
	wide   string // the width of boards, in inches, if it was said
	many   bool   // in the plural
	plain  bool   // figures without a unit
	before string // the word before it
	used   bool
}

func (w word) is(c class) bool { return w.class&c != 0 }

// line is a line with its words sorted.
type line struct {
	said      string
	words     []word
	room      string
	metric    bool
	ordinal   bool   // one board is told from others: "the first sheet"
	elsewhere bool   // a room is named that is not noted
	tied      bool   // something is put right in it
	doubt     bool   // a frame fits that may not be meant
	why       string // what has to be asked, "" if that is whether it was meant
}

// scan sorts the words of a line; nil if it asks.
func scan(s *read.Source) *line {
	l := &line{said: strings.TrimSpace(s.Read), metric: s.Units == length.Metric}
	if plain := contracted.ReplaceAllStringFunc(s.Read, plainly); plain != s.Read {
		s = read.CutLine(plain, s.Context)
	}
	if s.Question || len(s.Pieces) > longestLine {
		return nil
	}
	rooms := 0
	for i := s.Begin; i < len(s.Pieces); {
		p := s.Pieces[i]
		if p.Gone {
			i++
			continue
		}
		w, end := l.word(s, i)
		if t, span := s.TokenAt(i); t.Type != 0 && p.Kind != '0' {
			next := i + span // with words that change nothing behind it
			for t, _ := s.TokenAt(next); next < len(s.Pieces) && t.Type == 0 && s.Pieces[next].Word() && (s.Pieces[next].Low == "wall" || !lex.Filler[s.Pieces[next].Low]); t, _ = s.TokenAt(next) {
				next++
			}
			behind, _ := s.TokenAt(next)
			to := s.Pieces[next-1].End
			switch {
			case t.Type == lex.Wall:
				w, end = word{class: on, value: t.Value}, to
				if behind.Value == "slope" {
					w.value += " slope"
					end = to + len(slopeBehind.FindString(lex.Lower(s.Read[to:])))
				}
			case t.Value == "ceiling" && t.Type == lex.Key:
				w, end = word{class: on, value: string(place.Ceiling)}, to
			case t.Value == "slope" && t.Type == lex.Key:
				w, end = word{class: on, value: "slope"}, to
			case p.Low == "flat" && !w.is(thick):
				w = word{class: on, value: string(place.Ceiling)}
			case p.Low == "walls":
				w = word{class: on, value: "walls"}
			case p.Low == "wall" && t.Type == lex.Word:
				w = word{class: on, value: "?"}
			case t.Type == lex.Word && topic.RoomNoun[p.Low] && s.Rooms[p.Low] == "":
				l.elsewhere = true
			case t.Type == lex.Room:
				w, end, l.room = word{class: small}, to, t.Value
				rooms++
			case t.Type == lex.Service && t.Value == "wire" && len(l.words) > 0 && l.words[len(l.words)-1].is(thing): // "the alarm wire"
				w, end = word{class: small}, to
			case t.Type == lex.Name, t.Type == lex.Thing && !w.is(came), t.Type == lex.Service && t.Value == "wire":
				w = word{class: thing | w.class&stuff, value: t.Value, many: t.Type == lex.Thing && strings.HasSuffix(p.Low, "s")}
				if end = to; t.Type == lex.Thing && behind.Type == lex.Number && !w.many { // "light 2"
					if m := leadingFigures.FindStringSubmatch(s.Read[to:]); m != nil {
						w.value, end = w.value+" "+m[1], to+len(m[0])
					}
				}
			}
		}
		w.text = strings.TrimSpace(lex.Lower(s.Read[p.Start:end]))
		if len(l.words) > 0 {
			w.before = l.words[len(l.words)-1].text
		}
		l.words = append(l.words, w)
		for i < len(s.Pieces) && s.Pieces[i].Start < end {
			i++
		}
	}
	if rooms > 1 {
		l.room = ""
	}
	l.resolve()
	if l.misheard() {
		return nil
	}
	return l
}

// misheard reports whether a word stands where a phone may have written it for a number: "hung 144 + for row 2".
func (l *line) misheard() bool {
	for i, w := range l.words {
		prev, next := l.at(i-1), l.at(i+1)
		if w.text == "half" && (prev.text == "+" || prev.is(count|size|long)) {
			return true
		}
		loose := w.text == "for" || w.text == "to"
		if !loose && !lex.Heard(w.text) || w.is(long|count) {
			continue
		}
		switch {
		case prev.text == "+", prev.text == "hung", prev.text == "boarded" && (loose || next.text != ""),
			prev.is(count|size) && !loose, prev.is(count|size|row) && loose && !prev.is(small) && (next.text == "" || next.is(row|count|size)),
			lex.Heard(next.text), next.is(count|size|long|row) && !loose,
			loose && (prev.is(count|size|long) && next.is(count|size|row) || prev.text == "and" && next.is(row)), loose && (next.text == "" || next.text == "for" || next.text == "to" || next.text == "and"):
			return true
		}
	}
	return false
}

// slopeBehind matches the word for a slope behind its wall.
var slopeBehind = regexp.MustCompile(`^ (?:sloped ceiling|slopes?|rake)\b`)

const longestLine = 60 // pieces

// contracted matches a word with its "is": "lid's up".
var contracted = regexp.MustCompile(`(?i)\b(?:row \d+|[a-z]+)['’]s\b`)

func plainly(said string) string {
	word := strings.TrimRight(strings.TrimRight(said, "sS"), "'’")
	if pronoun[lex.Lower(word)] {
		return said
	}
	return word + " is"
}

var pronoun = lex.Set("it", "that", "there", "here", "what", "who", "where", "how", "let", "he", "she", "when")

var leadingFigures = regexp.MustCompile(`^ (\d{1,2})\b`)

// The numbers of boards, in the order they are tried.
var (
	ofWidth   = regexp.MustCompile(`^(?:4|48|1200|1220)['’]? ?(?:x|by) ?(\d{1,4})(?:['’]?s\b|['’]|ft\b| ?mm\b)?`)
	byWidth   = regexp.MustCompile(`^(\d{4}) ?x ?(?:1200|1220)\b(?: ?mm\b)?`)
	byMetre   = regexp.MustCompile(`^([1-6])(?:[.,](\d{1,2}))?(?: ?(?:x|by) ?1[.,]2[02]?\b(?: ?m\b)?| ?(?:m|met(?:er|re)s?)\b)`) // "2.4 x 1.2", "3 metre"
	nickname  = regexp.MustCompile(`^(8|9|10|12|14|16)(?:['’]?s\b|[- ]?(?:footers?|foot|ft|feet)\b)`)
	footmark  = regexp.MustCompile(`^(8|9|10|12|14|16)['’](?:[^\d\s]|\s[^\d]|$|\s\d+ ?[x'’])`)
	thickness = regexp.MustCompile(`^(1/2|5/8|3/8)(?: ?(?:["”]|''|ths?\b|inch\b|in\b))?`)
	thickMM   = regexp.MustCompile(`^(9\.5|10|12\.5|13|15|16)( ?mm\b)?`)
	countThen = regexp.MustCompile(`^(\d+) (?:1/2|5/8|3/8)(?:["”]|''| ?inch| ?in)? (?:[a-z-]+ ){0,2}?(?:sheets?|shts?|boards?|bds|eights|nines|tens|twelves|fourteens|sixteens|(?:8|9|10|12|14|16) ?(?:['’]?s\b|foot|ft)|4 ?x)`)
	nth       = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)\b`)
	measured  = regexp.MustCompile(`^\d+(?:['’](?:-?\d+(?:[ -]\d+/\d+)?["”]?| \d+(?:[ -]\d+/\d+)?["”]| \d+/\d+["”]?)?|[ -]\d+/\d+["”]?|\.\d+ ?(?:mm\b|cm\b|m\b)?|/\d+["”]?| ?(?:["”]|in\b|inch(?:es)?\b|mm\b|cm\b|m\b|ft\b|foot(?:er)?s?\b|feet\b))`)
	rowNumber = regexp.MustCompile(`^#? ?(\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\b(?:(?: ?(?:,|&|\+)| and|,? and)? ?(\d{1,2}|two|three|four|five|six)\b)*`)
	rowRange  = regexp.MustCompile(`^(\d{1,2})(?: ?- ?| to | through | thru )(\d{1,2})\b`)
	rowEach   = regexp.MustCompile(`\d+|[a-z]+`)
)

// word reads what begins at piece i and returns where it ends.
func (l *line) word(r *read.Source, i int) (word, int) {
	p := r.Pieces[i]
	s := lex.Lower(r.Read[p.Start:])
	if p.Kind == '0' {
		return l.number(s, p.Start)
	}
	if p.Low == "row" || p.Low == "rows" || p.Low == "course" || p.Low == "courses" {
		return rowSaid(r, i)
	}
	if w := footWord.FindStringSubmatch(s); w != nil { // "ten footers"
		many := strings.HasSuffix(w[0], "s")
		return word{class: long | map[bool]class{false: size}[many], value: strconv.Itoa(counted(w[1])) + "'", many: many}, p.Start + len(w[0])
	}
	for n := min(4, len(r.Pieces)-i); n > 0; n-- {
		var b strings.Builder
		for k := i; k < i+n; k++ {
			if k > i {
				b.WriteByte(' ')
			}
			b.WriteString(strings.ReplaceAll(r.Pieces[k].Low, "-", " "))
		}
		said := b.String()
		if p.Low == "-" && n == 1 {
			said = "-"
		}
		if w, ok := phrases[said]; ok {
			return w, r.Pieces[i+n-1].End
		}
	}
	if lex.Ordinal[p.Low] > 0 {
		return word{class: row, n: lex.Ordinal[p.Low], plain: true}, p.End
	}
	return word{}, p.End
}

var footWord = regexp.MustCompile(`^(eight|nine|ten|twelve|fourteen|sixteen)[ -]?(?:footers?|foot|ft)\b`)

func counted(s string) int {
	if n, err := strconv.Atoi(s); err == nil {
		return n
	}
	return max(lex.Counts[s], counts[s])
}

// number reads the figures at the beginning of s.
func (l *line) number(s string, at int) (word, int) {
	if m := countThen.FindStringSubmatch(s); m != nil {
		n, _ := strconv.Atoi(m[1])
		return word{class: count, n: n, plain: true}, at + len(m[1])
	}
	if m := ofWidth.FindStringSubmatch(s); m != nil && !(strings.HasPrefix(s, "4 ") && strings.ContainsAny(m[0], "'’")) { // "4 x 8'" is four boards
		if v, _ := strconv.Atoi(m[1]); v >= 8 && v <= 16 {
			return word{class: long, value: m[1] + "'", wide: "48"}, at + len(m[0])
		} else if v >= 1800 && v <= 6000 {
			return word{class: long, value: m[1]}, at + len(m[0])
		}
	}
	if m := byWidth.FindStringSubmatch(s); m != nil {
		return word{class: long, value: m[1]}, at + len(m[0])
	}
	if m := byMetre.FindStringSubmatch(s); m != nil && l.metric {
		return word{class: long, value: m[1] + (m[2] + "000")[:3]}, at + len(m[0])
	}
	if m := nickname.FindStringSubmatch(s); m != nil {
		return word{class: long, value: m[1] + "'", many: strings.HasSuffix(m[0], "s")}, at + len(m[0])
	}
	if m := footmark.FindStringSubmatch(s); m != nil {
		return word{class: long | size, value: m[1] + "'"}, at + len(m[1]) + len(s[len(m[1]):]) - len(strings.TrimLeft(s[len(m[1]):], "'’"))
	}
	if m := thickness.FindStringSubmatch(s); m != nil {
		return word{class: thick | size, value: m[1]}, at + len(m[0])
	}
	if m := thickMM.FindStringSubmatch(s); m != nil && (m[2] != "" || l.metric && strings.Contains(m[1], ".")) {
		return word{class: thick, value: m[1] + "mm"}, at + len(m[0])
	}
	if m := nth.FindStringSubmatch(s); m != nil {
		n, _ := strconv.Atoi(m[1])
		return word{class: row, n: n, plain: true}, at + len(m[0])
	}
	if m := measured.FindString(s); m != "" {
		return word{class: size, value: footer.ReplaceAllString(strings.TrimSpace(m), "'")}, at + len(m)
	}
	m := figures.FindString(s)
	n, _ := strconv.Atoi(m)
	switch {
	case m == "":
		return word{}, at + 1
	case l.metric && n >= 1800 && n <= 6000:
		return word{class: long | size, value: m, n: n, plain: true}, at + len(m)
	}
	return word{class: count | size, value: m, n: n, plain: true}, at + len(m)
}

var footer = regexp.MustCompile(` ?foot(?:er)?s?$`)

var figures = regexp.MustCompile(`^\d{1,5}`)

// rowSaid reads "row 2", "rows 1 and 2", "rows 1 to 3", "row"; without a number it is 0.
func rowSaid(r *read.Source, i int) (word, int) {
	p := r.Pieces[i]
	w := word{class: row, many: strings.HasSuffix(p.Low, "s")}
	if i+1 >= len(r.Pieces) {
		return w, p.End
	}
	from := r.Pieces[i+1].Start
	s := lex.Lower(r.Read[from:])
	if m := rowRange.FindStringSubmatch(s); m != nil && (w.many || !strings.Contains(m[0], "-")) {
		a, _ := strconv.Atoi(m[1])
		z, _ := strconv.Atoi(m[2])
		for n := a; n <= z && n < a+30; n++ {
			w.rows = append(w.rows, n)
		}
		if w.n = a; len(w.rows) > 1 {
			return w, from + len(m[0])
		}
		w.rows = nil
	}
	m := rowNumber.FindString(s)
	if m == "" || !w.many {
		m = firstRow.FindString(s)
	}
	for _, said := range rowEach.FindAllString(m, -1) {
		if n := counted(said); n > 0 {
			w.rows = append(w.rows, n)
		}
	}
	if len(w.rows) == 0 {
		return w, p.End
	}
	w.n = w.rows[0]
	return w, from + len(m)
}

// firstRow matches a row's number, if what follows does not make it a length or a count of something else.
var firstRow = regexp.MustCompile(`^(?:\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\b`)

// resolve decides what a word is by those beside it.
func (l *line) resolve() {
	boxed := l.any(came|source) || slices.ContainsFunc(l.words, func(w word) bool { return w.is(stuff) && !w.is(thing) })
	for i, w := range l.words { // "boxes of screws", "boxes cut"
		if w.is(stuff) && w.is(thing) && boxed {
			l.words[i].class = stuff
		} else if w.is(stuff) && w.is(thing) {
			l.words[i].class = thing
		}
	}
	for i := range l.words {
		w := &l.words[i]
		next, prev := l.at(i+1), l.at(i-1)
		switch {
		case w.is(count) && w.n >= 8 && w.n <= 16 && !w.is(long) && !next.is(noun|long|kind|thick|row|thing|piece|size) && next.text != "x" && next.text != "of" &&
			(prev.text == "a" || prev.text == "last" || prev.text == "one" || prev.text == "another" || prev.text == "full" || prev.text == "the" && l.at(i-2).is(last)) && !(prev.text == "one" && l.at(i-1).plain):
			*w = word{class: long | size, value: strconv.Itoa(w.n) + "'", text: w.text, before: w.before, plain: w.plain} // "the last twelve"
		case w.is(row) && w.plain && next.is(row) && next.n == 0: // "first row"
			l.words[i+1].n, l.words[i+1].rows = w.n, []int{w.n}
			l.words[i+1].many = false
			*w = word{class: small, text: w.text, before: w.before}
		case w.is(row) && w.plain && w.n == 1 && next.is(count) && l.at(i+2).is(row): // "first two rows"
			l.words[i+2].rows = nil
			for n := 1; n <= next.n && n < 30; n++ {
				l.words[i+2].rows = append(l.words[i+2].rows, n)
			}
			l.words[i+2].n = 1
			*w = word{class: small, text: w.text, before: w.before}
			l.words[i+1].class = small
		case w.is(row) && w.plain: // "the first sheet", "third one started"
			*w = word{text: w.text, before: w.before}
			if next.text == "one" {
				w.class = small
			}
			l.ordinal = l.ordinal || next.is(noun|piece)
		case w.text == "took" && l.any(source): // "took 15 off the truck"
			w.class = came
		case w.is(count) && w.n <= 12 && prev.text == "at" && !next.is(noun|long|thick|kind) && l.any(source): // "truck at 9"
			*w = word{class: small | planned, text: w.text, before: w.before}
		case w.is(thing) && prev.is(count) && !prev.is(size) && prev.text == "both":
			w.n, l.words[i-1].used = 2, true
		}
	}
}

func (l *line) at(i int) word {
	if i < 0 || i >= len(l.words) {
		return word{}
	}
	return l.words[i]
}

// fresh forgets what a frame used of the line.
func (l *line) fresh() {
	l.doubt, l.tied, l.why = false, false, ""
	for i := range l.words {
		l.words[i].used = false
	}
}

// any reports whether a word of one of the classes is in the line.
func (l *line) any(c class) bool { return l.find(c) >= 0 }

// strictly reports whether a word of the class is in the line that is not a small word too.
func (l *line) strictly(c class) bool {
	return slices.ContainsFunc(l.words, func(w word) bool { return w.is(c) && !w.is(small|fits) })
}

// find returns the first word of one of the classes, -1 if there is none.
func (l *line) find(c class) int {
	for i, w := range l.words {
		if w.is(c) {
			return i
		}
	}
	return -1
}

// use marks all words of the classes as used.
func (l *line) use(c class) {
	for i, w := range l.words {
		l.words[i].used = w.used || w.is(c)
	}
}

// numbers reports whether a number has no part yet.
func (l *line) numbers() bool {
	for _, w := range l.words {
		if !w.used && w.is(count|size|long|thick) && !w.is(small) && w.text != "one" && w.text != "both" {
			return true
		}
	}
	return false
}

// denies reports whether a word that no frame has used denies what is told, or puts it off.
func (l *line) denies() bool {
	for _, w := range l.words {
		if !w.used && w.is(denied) {
			return true
		}
	}
	return false
}

// lost returns how many words have no part in the frame.
func (l *line) lost() (n int) {
	for _, w := range l.words {
		if !w.used && !w.is(small|sep) && w.text != "" {
			n++
		}
	}
	return n
}
