package grammar

import (
	"regexp"
	"slices"
	"strapline/calc/length"
	"strapline/calc/place"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"
)

// Context is what a line is read against: the job's units and the names
// declared so far. All names are lower case with single spaces.
type Context struct {
	Units length.Units
	Rooms map[string]string     // room names and aliases -> the room's name
	Walls map[string]place.Wall // aliases of walls, "window" for "window wall"
	// Name reports whether the words are a declared thing, mark or label.
	// MaxWords is the longest such name, in words.
	Name     func(words string) bool
	MaxWords int
	// Noun reports whether the word stands in the name, kind or label of
	// something noted.
	Noun func(word string) bool
	// Asked says that the sender has an open question, so that a bare digit
	// or a bare length may answer it.
	Asked bool
}

// longestLine bounds the work for one line, in bytes.
const longestLine = 4096

// Parse reads one entry. The error is an *Ask, a *Refusal or ErrChatter; with
// it, the line still says which room was named.
func Parse(text string, c *Context) (Line, error) { return parse(text, c, false) }

func parse(text string, c *Context, nested bool) (Line, error) {
	if c == nil {
		c = &Context{}
	}
	if c.Units == "" {
		copied := *c
		copied.Units = length.Imperial
		c = &copied
	}
	text = strings.TrimRightFunc(text, unicode.IsSpace)
	if len(text) > longestLine {
		return Line{}, &Refusal{Col: longestLine + 1, Want: "a shorter line", Hint: words.rows["find"].Example}
	}
	switch said := strings.TrimSpace(text); {
	case c.Asked && picked(said) > 0:
		return Line{Entry: Pick{picked(said)}}, nil
	case said == "?":
		return Line{Entry: Help{}}, nil
	}
	l := lexLine(text, c)
	l.nested = nested
	e, err := l.entry()
	if err == nil && l.doubts(e) {
		r := l.refuse(l.tokens[0].Pos, `a note without a question mark, or "where is"`)
		r.Hint = Line{Room: l.Room, At: l.At, Exact: l.Exact, Before: l.Before, After: l.After, Entry: e}.String()
		err = r
	}
	if err == nil && l.mistimed > 0 {
		p := l.ps[l.mistimed-1]
		err = &Refusal{Col: p.col, Word: strings.Fields(l.text[p.start:])[0], Want: "a time like 9:58 or 3:15 pm",
			Hint: Line{Room: l.Room, Before: l.Before, After: l.After, Entry: e}.String()}
	}
	if err == nil && l.before != "" {
		err = l.noRoom(0, l.before)
	}
	if err == nil && l.room2 != "" {
		err = l.refuse(l.tokens[0].Pos, "one room: "+l.Room+" or "+l.room2)
	}
	if err != nil {
		err = l.judge(err)
		if ask, ok := err.(*Ask); ok && !nested {
			ask.read(c)
		}
		return l.Line, err
	}
	l.Line.Entry = e
	return l.Line, nil
}

// entry parses the line by its rule and checks what it says.
func (l *line) entry() (Entry, error) {
	if l.tokens[0].EOF() {
		if l.Room == "" || l.At != "" { // "kitchen at 3pm" is no note
			return nil, ErrChatter
		}
		room := l.Room
		l.Room = ""
		return InRoom{room}, nil
	}
	if e := l.plainWords(); e != nil {
		return e, nil
	}
	if e := l.inOwnWords(); e != nil {
		return e, nil
	}
	produce := rules[l.begins()]
	if produce == nil {
		return nil, ErrChatter
	}
	lex, err := lexer.Upgrade(&tokenReader{l.tokens})
	if err != nil {
		return nil, err
	}
	s, err := produce(lex)
	if err != nil {
		return nil, err
	}
	return s.entry(l)
}

// begins says which rule reads the line, "" when none does.
func (l *line) begins() string {
	switch t := l.tokens[0]; t.Type {
	case tCmd:
		switch next := l.tokens[1]; {
		case t.Value == "any" && next.Type == tNumber: // "any 12s left"
			return "left"
		case t.Value == "find" && next.Type == tName && l.pieceNext(slices.IndexFunc(l.ps, func(p piece) bool { return p.start == next.Pos.Offset })):
			return "piece"
		}
		return t.Value
	case tThing:
		if l.asksOver() {
			return "any"
		}
		return "thing"
	case tSupport:
		return "support"
	case tWall, tRoom:
		if l.tokens[1].Type == tWord && (l.tokens[1].Value == "is" || l.tokens[1].Value == "aka") {
			return "alias"
		}
		if t.Type == tWall {
			return "surface"
		}
	case tKey, tPunct:
		switch t.Value {
		case "row":
			if l.asksPiece() {
				return "piece"
			}
			return "row"
		case "ceiling":
			return "surface"
		case "not", "*":
			return "swap"
		}
	case tNumber:
		for _, t := range l.tokens {
			if t.Value == "not" {
				return "swap"
			}
		}
		switch {
		case l.leads():
			return "thing"
		case l.sizedRun():
			return "run"
		case l.asksScrew():
			return "reach"
		case l.counts() != "":
			return l.counts()
		case l.Asked:
			return "bare"
		}
	case tWord, tService, tName:
		switch {
		case t.Type == tService && l.asksOver():
			return "any"
		case l.leads():
			return "thing"
		case t.Type == tService:
			return "run"
		case t.Type == tName && l.asksPiece():
			return "piece"
		case t.Type == tName && isPiece(t.Value) && (l.has(tKey, "up") || l.has(tWord, "hung") || l.has(tWord, "went")):
			return "pieces"
		case t.Type == tName && l.tokens[1].Value == "plated":
			return "plate"
		case t.Type == tWord:
			return l.counts()
		}
	}
	return ""
}

// doubts reports whether the line is a question though the entry is none: "is
// the light 26 off west?" notes nothing.
func (l *line) doubts(e Entry) bool {
	switch e := e.(type) {
	case Find, Covered, AnyOver, Who, Log, Status, Help, Note, Snag, Snags, Reach, Screws, Ready, Handoff, Cuts, Order, BoardsLeft, Bring, Planned, Rest:
		return false
	case Layout:
		return l.question && e.Pick > 0
	}
	return l.question || l.opens("is", "are", "was", "does", "did")
}

// opens reports whether the entry begins with one of the words.
func (l *line) opens(with ...string) bool {
	return l.start < len(l.ps) && slices.Contains(with, l.ps[l.start].low)
}

// has reports whether a token of the type, and of the value when given, is there.
func (l *line) has(typ tokenType, value string) bool {
	return slices.ContainsFunc(l.tokens, func(t lexer.Token) bool { return t.Type == typ && (value == "" || t.Value == value) })
}

// leads reports whether words or a size stand before a thing that a distance
// follows: "sink light 26 off west", `6" light 26 off west`.
func (l *line) leads() bool {
	i, count := 0, 0
	for ; l.tokens[i].Type != tThing; i++ {
		switch t := l.tokens[i]; t.Type {
		case tWord, tService, tName:
			if count++; count > 2 || words.talk[t.Value] {
				return false
			}
		case tNumber, tPunct:
			if count > 0 {
				return false
			}
		case tKey:
			if t.Value != "x" {
				return false
			}
		default:
			return false
		}
	}
	return measured(l.tokens[i:]) || i > 0 && slices.ContainsFunc(l.tokens, func(t lexer.Token) bool { return t.Value == "even" })
}

// measured reports whether a number is held to something: "26 off", "7 south of".
func measured(tokens []lexer.Token) bool {
	end := -1 // where the last number ends
	for i, t := range tokens {
		switch {
		case t.Pos.Offset < end: // a part of it
		case t.Type == tNumber:
			_, n, _ := length.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), length.List)
			end = t.Pos.Offset + n
		case end < 0:
		case t.Value == "off", t.Value == "along", t.Value == "up", t.Value == "down", t.Value == "oc", t.Value == "x",
			t.Type == tWall && tokens[i+1].Value == "of":
			return true
		default:
			end = -1
		}
	}
	return false
}

// otherName is an alias said the other way round.
var otherName = regexp.MustCompile(`^(?:the )?([a-z' ]{2,30}) wall is (?:the )?(north|east|south|west)(?: wall)?$`)

// plainWords reads what people say with the name first: "d1 is open", "sink
// light?", "is d1 covered", "window wall is north".
func (l *line) plainWords() Entry {
	if l.cmd != nil || len(l.tokens) > 7 {
		return nil
	}
	said := plain(l.read)
	if len(l.tokens) > 1 && l.tokens[len(l.tokens)-2].Type == tWall {
		m := otherName.FindStringSubmatch(strings.ToLower(strings.Trim(l.text, " .!")))
		if m != nil {
			if name := plain(m[1]); name != "" && l.talkIn(name) == "" && words.phrases[name] == nil {
				return Alias{Wall: place.Wall(m[2]), Name: name}
			}
		}
	}
	if l.question && l.declaredName(said) && !(isPiece(said) && l.pieceNext(l.start)) {
		return Find{said}
	}
	i := strings.LastIndexByte(said, ' ')
	if i < 0 || !l.declaredName(said[:i]) {
		return nil
	}
	asks := l.question || l.opens("is")
	switch state := said[i+1:]; {
	case asks && (state == "covered" || state == "open" || state == "cut" || state == "opened"):
		return Find{said[:i]}
	case state == "open", state == "opened", state == "cut":
		return Opened{[]string{said[:i]}}
	}
	return nil
}

// declaredName reports whether said is exactly one name.
func (l *line) declaredName(said string) bool {
	return shape(said) || len(said) > 1 && l.Name != nil && l.Name(said)
}

// Split cuts a message into the texts of its entries: one a line, or between
// semicolons; a note and a snag keep their own semicolons.
func Split(message string) []string {
	var entries []string
	for text := range strings.FieldsFuncSeq(message, func(r rune) bool { return r == '\n' || r == '\r' }) {
		for {
			text = strings.TrimSpace(text)
			first, rest, more := strings.Cut(text, ";")
			if !more || keepsAll(first) {
				break
			}
			if first = strings.TrimSpace(first); first != "" {
				entries = append(entries, first)
			}
			text = rest
		}
		if text != "" {
			entries = append(entries, text)
		}
	}
	return entries
}

// keepsAll reports whether a note or a snag begins in text, behind at most
// three words of a room.
func keepsAll(text string) bool {
	for i, w := range strings.Fields(strings.ToLower(text)) {
		if w == "note" || w == "snag" {
			return true
		}
		if i == 3 || strings.ContainsAny(w, "0123456789") || i == 0 && (words.heads[w] != nil || words.phrases[w] != nil) {
			break
		}
	}
	return false
}
