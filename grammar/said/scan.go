package said

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

// Word is a word or phrase of the line, or a number.
type Word struct {
	Class
	Text  string // as typed, in lower case
	Value string // as in our lines: a thickness, a type, a length, a surface, a thing
	N     int    // a count, or the number of a row; 0 if none was said
	Rows  []int  // the rows, if several were said
	Wide  string // the width of boards, in inches, if it was said
	Many  bool   // in the plural
	By    string // the wall that they are nearest to
	Plain bool   // figures without a unit
	Used  bool
}

func (w Word) Is(c Class) bool { return w.Class&c != 0 }

// Line is a line with its words sorted.
type Line struct {
	Text      string // without its room
	Said      string // as typed
	Words     []Word
	Room      string
	Metric    bool
	Elsewhere bool   // a room is named that is not noted
	InRoom    bool   // one is named that is, in the line or before it
	Tied      bool   // something is put right in it
	Doubt     bool   // a frame fits that may not be meant
	Why       string // what has to be asked, "" if that is whether it was meant
	Noted     func(thing string) bool
}

// Scan sorts the words of a line; nil if it asks.
func Scan(s *read.Source) *Line {
	l := &Line{Text: strings.TrimSpace(s.Read), Said: strings.TrimSpace(s.Text), Metric: s.Units == length.Metric}
	if plain := contracted.ReplaceAllStringFunc(s.Read, plainly); plain != s.Read {
		s = read.CutLine(plain, s.Context)
	}
	if s.Question || len(s.Pieces) > longestLine {
		return nil
	}
	l.Noted = func(thing string) bool {
		return s.Name != nil && s.Name(thing) || s.Noun != nil && !slices.ContainsFunc(strings.Fields(thing), func(w string) bool { return !s.Noun(w) && !s.Noun(strings.TrimSuffix(w, "s")) })
	}
	rooms, at := 0, 0
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
				w, end = Word{Class: On, Value: t.Value}, to
				if behind.Value == "slope" {
					w.Value += " slope"
					end = to + len(slopeBehind.FindString(lex.Lower(s.Read[to:])))
				}
			case t.Value == "ceiling" && t.Type == lex.Key:
				w, end = Word{Class: On, Value: string(place.Ceiling)}, to
			case t.Value == "slope" && t.Type == lex.Key:
				w, end = Word{Class: On, Value: "slope"}, to
			case p.Low == "flat" && !w.Is(Thick):
				w = Word{Class: On, Value: string(place.Ceiling)}
			case p.Low == "walls":
				w = Word{Class: On, Value: "walls"}
			case t.Type == lex.Word && topic.RoomNoun[p.Low] && s.Rooms[p.Low] == "":
				l.Elsewhere = l.Elsewhere || i+1 == len(s.Pieces) || !sideWords[s.Pieces[i+1].Low] // "off the hall side"
			case s.Rooms[p.Low+" room"] != "" && t.Type != lex.Thing && s.Rooms[p.Low] == "" && (behind.Value == "ceiling" || behind.Type == lex.Wall): // "main lid"
				w, l.Room = Word{Class: Small | In, Value: p.Low + " room"}, p.Low+" room"
				rooms, at = rooms+1, len(l.Words)
			case t.Type == lex.Room:
				w, end, l.Room = Word{Class: Small | In, Value: t.Value}, to, t.Value
				rooms, at = rooms+1, len(l.Words)
			case t.Type == lex.Service && t.Value == "wire" && len(l.Words) > 0 && l.Words[len(l.Words)-1].Is(Thing): // "the alarm wire"
				w, end = Word{Class: Small}, to
			case t.Type == lex.Name, t.Type == lex.Thing && !w.Is(Came), t.Type == lex.Service && t.Value == "wire":
				w = Word{Class: Thing | w.Class&Stuff, Value: t.Value, Many: t.Type == lex.Thing && strings.HasSuffix(p.Low, "s")}
				if end = to; t.Type == lex.Thing && behind.Type == lex.Number && !w.Many { // "light 2"
					if m := leadingFigures.FindStringSubmatch(s.Read[to:]); m != nil {
						w.Value, end = w.Value+" "+m[1], to+len(m[0])
					}
				}
			}
		}
		if p.Low == "ones" && l.side(len(l.Words)-1) != "" {
			w = l.ones(s.Context)
		}
		if prev := l.At(len(l.Words) - 1); (p.Low == "side" || p.Low == "end") && (prev.Class == 0 && prev.Text != "" && !sideless[prev.Text] || prev.Is(Thing)) {
			w = Word{Class: On, Value: "?"}
		}
		if p.Low == "wall" && !l.At(len(l.Words)-1).Is(On) && !(l.At(len(l.Words)-1).Is(Side) && l.At(len(l.Words)-2).Is(On)) { // by a name of its own
			w = Word{Class: On, Value: "?"}
		}
		w.Text = strings.TrimSpace(lex.Lower(s.Read[p.Start:end]))
		l.Words = append(l.Words, w)
		for i < len(s.Pieces) && s.Pieces[i].Start < end {
			i++
		}
	}
	l.InRoom = s.Room != "" || rooms > 0
	if rooms > 1 {
		l.Room = ""
	}
	if at > 0 && l.Words[at-1].Is(Sep) && l.Part(IsUp, 0, at) && l.Part(IsUp, at, len(l.Words)) { // "lid up, bath lid up"
		l.Elsewhere = true
	}
	l.resolve()
	if l.misheard() {
		return nil
	}
	return l
}

// misheard reports whether a word stands where a phone may have written it for a number: "hung 144 + for row 2".
func (l *Line) misheard() bool {
	for i, w := range l.Words {
		prev, next := l.At(i-1), l.At(i+1)
		if w.Text == "half" && !w.Is(Thick) && (prev.Text == "+" || prev.Is(Count|Size|Long)) {
			return true
		}
		loose := w.Text == "for" || w.Text == "to"
		if !loose && !lex.Heard(w.Text) || w.Is(Long|Count) {
			continue
		}
		switch {
		case prev.Text == "+", prev.Text == "hung", prev.Text == "boarded" && (loose || next.Text != ""),
			prev.Is(Count|Size) && !loose, prev.Is(Count|Size|Row) && loose && !prev.Is(Small) && (next.Text == "" || next.Is(Row|Count|Size)),
			lex.Heard(next.Text), next.Is(Count|Size|Long|Row) && !loose,
			loose && (prev.Is(Count|Size|Long) && next.Is(Count|Size|Row) || prev.Text == "and" && next.Is(Row)), loose && (next.Text == "" || next.Text == "for" || next.Text == "to" || next.Text == "and"):
			return true
		}
	}
	return false
}

// sideless are words that tell no side from the others.
var (
	sideless  = lex.Set("one", "far", "near", "same", "each", "back", "front", "long", "short", "inside", "outside", "right", "opposite", "wrong", "good", "cut", "tapered", "butt", "factory")
	sideWords = lex.Set("side", "end", "wall")
)

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

// word reads what begins at piece i and returns where it ends.
func (l *Line) word(r *read.Source, i int) (Word, int) {
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
		return Word{Class: Long | map[bool]Class{false: Size}[many], Value: strconv.Itoa(counted(w[1])) + "'", Many: many}, p.Start + len(w[0])
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
		return Word{Class: Row, N: lex.Ordinal[p.Low], Plain: true}, p.End
	}
	return Word{}, p.End
}

var footWord = regexp.MustCompile(`^(eight|nine|ten|twelve|fourteen|sixteen)[ -]?(?:footers?|foot|ft)\b`)

func counted(s string) int {
	if n, err := strconv.Atoi(s); err == nil {
		return n
	}
	return counts[s]
}

// resolve decides what a word is by those beside it.
func (l *Line) resolve() {
	boxed := l.Any(Came|Source) || slices.ContainsFunc(l.Words, func(w Word) bool { return w.Is(Stuff) && !w.Is(Thing) })
	for i, w := range l.Words { // "boxes of screws", "boxes cut"
		if w.Is(Stuff) && w.Is(Thing) && boxed {
			l.Words[i].Class = Stuff
		} else if w.Is(Stuff) && w.Is(Thing) {
			l.Words[i].Class = Thing
		}
	}
	l.numbered()
	l.rowsAlone()
	l.rowsWithin()
	l.wallsUnsaid()
	for i := range l.Words {
		w := &l.Words[i]
		next, prev := l.At(i+1), l.At(i-1)
		switch {
		case w.Is(Count) && w.N >= 8 && w.N <= 16 && !w.Is(Long) && !next.Is(Noun|Long|Kind|Thick|Row|Thing|Piece|Size) && next.Text != "x" && next.Text != "of" &&
			(prev.Text == "a" || prev.Text == "last" || prev.Text == "one" || prev.Text == "another" || prev.Text == "full" || prev.Text == "the" && l.At(i-2).Is(Last) || prev.Text == "1" && l.Any(Used|Spoilt|Came)) && !(prev.Text == "one" && l.At(i-1).Plain):
			*w = Word{Class: Long | Size, Value: strconv.Itoa(w.N) + "'", Text: w.Text, Plain: w.Plain} // "the last twelve"
		case w.Is(Count) && w.N > 0 && w.N < 30 && w.Text != "a" && prev.Is(Noun) && !prev.Is(Small) && !l.At(i-2).Is(Count|Nth) && !next.Is(Noun|Long|Thick|Row|Piece|Thing) && next.Text != "of" && next.Is(Small|IsUp|Done): // "board one is up"
			l.Words[i-1], *w = Word{Class: Nth, N: w.N, Text: prev.Text}, Word{Class: Noun, Text: w.Text}
		case i == 0 && w.Is(Count) && w.N >= 8 && w.N <= 16 && next.Text == "is" && l.At(i+2).Is(IsUp): // "12 is up"
			*w = Word{Class: Long | Size, Value: w.Value + "'", Text: w.Text, Plain: true}
		case (w.Text == "middle" || w.Text == "centre" || w.Text == "center") && next.Is(Row) && next.N == 0:
			w.Class = Middle
		case w.Is(Row) && w.Plain && next.Is(Row) && next.N == 0: // "first row"
			l.Words[i+1].N, l.Words[i+1].Rows = w.N, []int{w.N}
			l.Words[i+1].Many = false
			*w = Word{Class: Small, Text: w.Text}
		case w.Is(Row) && w.Plain && w.N == 1 && next.Is(Count) && l.At(i+2).Is(Row): // "first two rows"
			l.Words[i+2].Rows = nil
			for n := 1; n <= next.N && n < 30; n++ {
				l.Words[i+2].Rows = append(l.Words[i+2].Rows, n)
			}
			l.Words[i+2].N = 1
			*w = Word{Class: Small, Text: w.Text}
			l.Words[i+1].Class = Small
		case w.Is(Row) && w.Plain: // "the first sheet", "third one started"
			n := w.N
			*w = Word{Text: w.Text}
			if next.Text == "one" || next.Is(Count) && l.At(i+2).Is(Noun) {
				w.Class = Small
			} else if next.Is(Noun | Piece) {
				w.Class, w.N = Nth, n
			}
		case w.Is(Count) && w.N >= 8 && w.N <= 16 && !w.Is(Long) && prev.Text == "of" && l.At(i-2).Is(Noun) && !next.Is(Noun|Long|Thick): // "sheets of 12"
			*w = Word{Class: Long, Value: strconv.Itoa(w.N) + "'", Text: w.Text}
		case l.side(i) != "" && next.Is(Thing) && next.Many: // "the two east lights"
			if l.Words[i+1].By, w.Class, w.Used = w.Value, Small, true; prev.Is(Count) && prev.N > 0 {
				l.Words[i+1].N, l.Words[i-1] = prev.N, Word{Class: Small, Text: prev.Text}
			}
		case w.Is(On) && next.Is(Thing) && !strings.HasSuffix(w.Text, "wall"): // "the south cans"
			*w = Word{Text: w.Text}
		case w.Text == "off" && !prev.Is(Count|Size|Long) && (next.Is(On) || next.Text == "the" && l.At(i+2).Is(On)): // "up off the north wall"
			w.Class = Along
		case w.Text == "delivery" && (prev.Is(Later) || next.Is(Later)): // "thursday delivery"
			w.Class = Due
		case w.Text == "took" && l.Any(Source): // "took 15 off the truck"
			w.Class = Came
		case w.Text == "close" && (prev.Text == "is" || prev.Text == "are"), w.Text == "put" && !l.Any(IsUp&^Fits|Came|Source|Count|Later|Due): // "north wall is close now", "i put all the ceiling"
			w.Class = IsUp
		case w.Is(Count) && w.N >= 8 && w.N <= 16 && next.Text == "and" && l.At(i+2).Is(Long) && (prev.Text == "are" || prev.Text == "in"): // "sheets are 10 and 12 foot"
			*w = Word{Class: Long, Value: w.Value + "'", Text: w.Text}
		case w.Text == "half" && prev.Is(Count) && next.Is(Long): // "40 half 12s"
			*w = Word{Class: Thick, Value: "1/2", Text: w.Text}
		case w.Text == "half" && prev.Is(Long): // "10 sheets 4x8 half"
			*w = Word{Class: Thick, Value: "1/2", Text: w.Text}
		case prev.Text == "at" && (w.Is(Count) && w.N <= 12 && !next.Is(Noun|Long|Thick|Kind) && l.Any(Source) || w.Is(Count|Size) && next.Text == "" && l.At(i-2).Is(Done)): // "truck at 9", "done at 2.15"
			*w = Word{Class: Small | Planned, Text: w.Text}
		case w.Is(Thing) && prev.Is(Thing) && lex.ThingOf[prev.Value] != "" && lex.ThingOf[w.Value] != "" && !prev.Many: // "the fan light"
			l.Words[i-1].Class = Small
		}
	}
}

// numbered takes things of a kind by their numbers: "lights 1 and 2 cut, 3 not".
func (l *Line) numbered() {
	kind := ""
	number := func(i int) bool { return l.At(i).Is(Count) && l.At(i).Plain && l.At(i).N > 0 && l.At(i).N < 100 }
	for i := 0; i < len(l.Words); i++ {
		w := &l.Words[i]
		switch next := l.At(i + 1); {
		case w.Is(Thing) && w.Many && number(i+1) && !l.At(i+2).Is(Noun|Piece|Long|Row|Size|Stuff):
			kind = strings.TrimSuffix(w.Value, "s")
			w.Class, i = Small, i+1
			for {
				l.Words[i] = Word{Class: Thing, Text: l.Words[i].Text, Value: kind + " " + l.Words[i].Value}
				if next := l.At(i + 1); number(i + 1) {
					i++
				} else if next.Is(Sep) && next.Text != "." && number(i+2) && !l.At(i+3).Is(Noun|Piece|Long|Row|Size|Stuff|Denied) {
					l.Words[i+1].Class, i = Small, i+2
				} else {
					break
				}
			}
		case kind != "" && number(i) && l.At(i-1).Is(Sep|But|CutOut|Shut) && (next.Is(Denied|Still|CutOut|Shut) || next.Is(Small) && l.At(i+2).Is(Denied|Still|CutOut|Shut)):
			*w = Word{Class: Thing, Text: w.Text, Value: kind + " " + w.Value}
		}
	}
}

func (l *Line) At(i int) Word {
	if i < 0 || i >= len(l.Words) {
		return Word{}
	}
	return l.Words[i]
}

// Fresh forgets what a frame used of the line.
func (l *Line) Fresh() {
	l.Doubt, l.Tied, l.Why = false, false, ""
	for i := range l.Words {
		l.Words[i].Used = false
	}
}

// Any reports whether a word of one of the classes is in the line.
func (l *Line) Any(c Class) bool { return l.Find(c) >= 0 }

// Strictly reports whether a word of the class is in the line that is not a small word too.
func (l *Line) Strictly(c Class) bool {
	return slices.ContainsFunc(l.Words, func(w Word) bool { return w.Is(c) && !w.Is(Small|Fits) })
}

// Find returns the first word of one of the classes, -1 if there is none.
func (l *Line) Find(c Class) int {
	return slices.IndexFunc(l.Words, func(w Word) bool { return w.Is(c) })
}

// Use marks all words of the classes as used.
func (l *Line) Use(c Class) {
	for i, w := range l.Words {
		l.Words[i].Used = w.Used || w.Is(c) || c == ^Class(0)
	}
}

// Numbers reports whether a number has no part yet.
func (l *Line) Numbers() bool {
	return slices.ContainsFunc(l.Words, func(w Word) bool {
		return !w.Used && w.Is(Count|Size|Long|Thick) && !w.Is(Small) && w.Text != "one" && w.Text != "both"
	})
}

// Denies reports whether a word that no frame has used denies what is told, or puts it off.
func (l *Line) Denies() bool {
	return slices.ContainsFunc(l.Words, func(w Word) bool { return !w.Used && w.Is(Denied) })
}

// Lost returns how many words have no part in the frame.
func (l *Line) Lost() (n int) {
	for _, w := range l.Words {
		if !w.Used && !w.Is(Small|Sep) && w.Text != "" {
			n++
		}
	}
	return n
}

// Has reports whether one of the words is in the line.
func (l *Line) Has(texts ...string) bool {
	return slices.ContainsFunc(l.Words, func(w Word) bool { return slices.Contains(texts, w.Text) })
}
