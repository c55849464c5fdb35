package grammar

import (
	"errors"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Context is what a line is read against: the job's units and the names declared so far. All names are in
// lower case with single spaces.
type Context struct {
	Units length.Units
	Rooms map[string]string     // room names and aliases -> the room's name
	Walls map[string]place.Wall // aliases of walls, "window" for "window wall"
	// Seen are kinds of openings that are noted in one wall only: the window wall is that one.
	Seen map[string]place.Wall
	// Opening are those of Rooms whose size is still asked for.
	Opening []string
	// Name reports whether the words are a declared thing, mark or label.
	// MaxWords is the longest such name, in words.
	Name     func(words string) bool
	MaxWords int
	// Noun reports whether the word is in the name, kind or label of something noted.
	Noun func(word string) bool
	// EW and NS are the sides of the sender's room, for "the short way"; zero if there is none.
	EW, NS length.Length
	Last   Last // what the sender noted last, which the next line may refer to
	// Asked says that the sender has an open question, so a bare digit or a bare length may be its answer.
	Asked bool
	// Follows is [Right] after a message of ours, so that a few words about a wall, a side or a size
	// belong to it. It stays above 0 for a few more messages.
	Follows int
}

// Right is the value after a message that was answered.
const Right = 3

// longestLine limits the work for one line, in bytes.
const longestLine = 4096

// Parse parses one entry. The error is an *Ask, a *Refusal or ErrChatter; even then the line says which
// room was named.
//
// A line in another language of the crew is read in English. Questions and refusals about it give the
// words and columns as typed.
func Parse(text string, c *Context) (Line, error) {
	var names lex.Names
	if c != nil {
		names = lex.Names{Rooms: c.Rooms, Walls: c.Walls, Name: c.Name, MaxWords: c.MaxWords}
	}
	text, shifts := lex.Spanish.English(lex.Fold(text), names)
	line, err := parse(text, c, false)
	if r, ok := err.(*Refusal); ok { // the text read may be longer than the one typed
		r.Col = min(r.Col, utf8.RuneCountInString(text)+1)
	}
	if shifts == nil {
		return line, err
	}
	switch e := err.(type) {
	case *Ask:
		typed(shifts, &e.Col, &e.Word)
	case *Refusal:
		typed(shifts, &e.Col, &e.Word)
	}
	return line, err
}

// typed maps a column and the word there back to what was typed.
func typed(shifts []lex.Shift, col *int, word *string) {
	at, said := lex.Source(shifts, *col)
	*col = at
	if said != "" && *word != "" {
		*word = said
	}
}

func parse(text string, c *Context, nested bool) (Line, error) {
	if c == nil {
		c = &Context{}
	}
	if c.Units == "" {
		copied := *c
		copied.Units = length.Imperial
		c = &copied
	}
	text = lex.Fold(strings.TrimRightFunc(text, unicode.IsSpace))
	if len(text) > longestLine {
		return Line{}, &Refusal{Col: longestLine + 1, Want: "a shorter line", Hint: words.rows["find"].Example}
	}
	switch said := strings.TrimSpace(text); {
	case c.Asked && picked(said) > 0:
		return Line{Entry: Pick{picked(said)}}, nil
	case said == "?":
		return Line{Entry: Help{}}, nil
	}
	typed := text
	if !nested {
		if err := c.whichWay(text); err != nil {
			readChoices(err.(*Ask), c)
			return Line{}, err
		}
		head, rest := roomBefore(text, c)
		right, ask := c.righted(rest)
		if ask != nil {
			readChoices(ask, c)
			return Line{}, ask
		}
		if right != "" {
			text = head + right
		}
		text = reword(text, c)
	}
	text, by, err := relative(text, c)
	if by != nil {
		return Line{Entry: by}, nil
	}
	if ask, ok := err.(*Ask); ok && !nested {
		readChoices(ask, c)
	}
	if err != nil {
		return Line{}, err
	}
	l := cutLine(text, c)
	e, err := l.entry()
	if err == nil && l.doubts(e) {
		r := l.refuse(l.Tokens[0].Pos, `a note without a question mark, or "where is"`)
		r.Hint = Line{Room: l.Room, At: l.At, Exact: l.Exact, Before: l.Before, After: l.After, Entry: e}.String()
		err = r
	}
	if err == nil && l.mistimed > 0 {
		p := l.Pieces[l.mistimed-1]
		err = &Refusal{Col: p.Col, Word: strings.Fields(l.Text[p.Start:])[0], Want: "a time like 9:58 or 3:15 pm",
			Hint: Line{Room: l.Room, Before: l.Before, After: l.After, Entry: e}.String()}
	}
	if err == nil && l.before != "" {
		err = l.noRoom(0, l.before)
	}
	if err == nil && l.room2 != "" {
		err = l.refuse(l.Tokens[0].Pos, "one room: "+l.Room+" or "+l.room2)
	}
	if err != nil && nested { // in our own words: nobody typed it
		return l.Line, err
	}
	if err != nil {
		if got, herr := l.heard(err); herr == nil {
			return got, nil
		} else if herr != err {
			err = herr
		} else {
			_, about := l.recognise()
			err = l.judge(err, about)
		}
		err = l.sensed(err)
	}
	if as, ok := errors.AsType[*keeps](err); ok {
		if _, rest := roomBefore(typed, c); text != typed && strings.HasSuffix(l.Text, as.note.Text) {
			as.note.Text = noteText(rest) // in the sender's words, not ours
		}
		e, err = as.note, nil
		l.Before, l.After = 0, 0 // its words still say so
	}
	if err != nil {
		if ask, ok := err.(*Ask); ok {
			readChoices(ask, c)
		}
		return l.Line, err
	}
	if in, ok := e.(InRoom); ok && in.Name == l.Room {
		l.Room = "" // "in in den den"
	}
	l.Line.Entry = e
	return l.Line, nil
}

// readChoices reads the texts of a question's choices into lines, if they have one reading.
func readChoices(a *Ask, c *Context) {
	for i, ch := range a.Choices {
		if line, err := nested(ch.Text, c); err == nil {
			a.Choices[i] = Choice{Label: ch.Label, Lines: []Line{line}}
		}
	}
}

// entry parses the line by its rule and checks the result.
func (l *line) entry() (Entry, error) {
	if l.Tokens[0].EOF() {
		if l.Room == "" || l.At != "" { // "kitchen at 3pm" is no note
			return nil, ErrChatter
		}
		room := l.Room
		l.Room = ""
		return InRoom{room}, nil
	}
	if e := l.whole(); e != nil {
		return e, nil
	}
	rule, _ := l.recognise()
	produce := rules[rule]
	if produce == nil {
		return nil, ErrChatter
	}
	in, err := l.Stream()
	if err != nil {
		return nil, err
	}
	s, err := produce(in)
	if err != nil {
		return nil, err
	}
	e, err := s.entry(l)
	if l.wrong != nil {
		return nil, l.wrong
	}
	if err != nil {
		return nil, err
	}
	if k := words.rows[e.Kind()]; k != nil && !k.asks && !k.text {
		err = l.leftover()
	}
	return e, err
}

// recognise returns the rule that reads the line, and the row of the table to blame if that fails: none if
// such words are ordinary talk too.
func (l *line) recognise() (rule string, about Kind) {
	t, next := l.Tokens[0], l.Tokens[min(1, len(l.Tokens)-1)]
	word := t.Type == lex.Word || t.Type == lex.Service || t.Type == lex.Name
	switch {
	case l.cmd != nil && t.Value == "any" && next.Type == lex.Number: // "any 12s left"
		return "left", "any"
	case l.cmd != nil && t.Value == "find" && next.Type == lex.Name && l.pieceNext(l.pieceAt(next.Pos.Offset)):
		return "piece", "find"
	case l.cmd != nil:
		return t.Value, l.cmd.Kind
	case (t.Type == lex.Thing || t.Type == lex.Service) && l.asksOver():
		return "any", "any"
	case t.Type == lex.Thing:
		return "thing", "thing"
	case t.Type == lex.Support && next.Type == lex.Number:
		return "support", "support"
	case t.Type == lex.Support:
		return "support", "supports"
	case (t.Type == lex.Wall || t.Type == lex.Room) && next.Type == lex.Word && (next.Value == "is" || next.Value == "aka"):
		return "alias", "alias"
	case t.Type == lex.Wall:
		return "surface", "boarded"
	case t.Type == lex.Face && strings.Contains(t.Value, "notch"):
		return "surface", "boarded"
	case t.Value == "ceiling", t.Type == lex.Face, t.Type == lex.Key && strings.HasPrefix(t.Value, "bulkhead "):
		return "surface", "up"
	case t.Value == "row" && !l.asksPiece():
		return "row", "hung"
	case (t.Value == "not" || t.Value == "*") && next.Type != lex.Number:
		return "swap", ""
	case t.Value == "not", t.Value == "*", t.Type == lex.Number && l.has(lex.Key, "not"):
		return "swap", "swap"
	case (t.Type == lex.Number || word) && l.leads():
		return "thing", ""
	case t.Type == lex.Service, t.Type == lex.Number && l.sizedRun():
		if l.measure() || l.has(lex.Name, "") || l.has(lex.Key, "row") {
			about = "run"
		}
		return "run", about
	case t.Type == lex.Number && l.asksScrew():
		return "reach", "reach"
	case t.Value == "row", t.Type == lex.Name && l.asksPiece():
		return "piece", ""
	case t.Type == lex.Name && lex.IsPiece(t.Value) && (l.has(lex.Key, "up") || l.has(lex.Word, "hung") || l.has(lex.Word, "went")):
		return "pieces", "hung"
	case t.Type == lex.Name && next.Value == "plated":
		return "plate", "plate"
	}
	if t.Type == lex.Number || t.Type == lex.Word {
		rule = l.counts()
	}
	if t.Type == lex.Number && rule == "" && l.Asked {
		rule = "bare"
	}
	return rule, ""
}

// pieceAt returns the piece at a byte of the line, -1 if none begins there.
func (l *line) pieceAt(offset int) int {
	return slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start == offset })
}

// doubts reports whether the line is a question although its entry is not: "is the light 26 off west?"
// notes nothing.
func (l *line) doubts(e Entry) bool {
	if k := words.rows[e.Kind()]; k != nil && k.asks {
		pick, ok := e.(Layout)
		return l.Question && ok && pick.Pick > 0
	}
	return l.Question || l.opens("is", "are", "was", "does", "did")
}

// opens reports whether the entry begins with one of the words.
func (l *line) opens(with ...string) bool {
	return l.begin < len(l.Pieces) && slices.Contains(with, l.Pieces[l.begin].Low)
}

// has reports whether there is a token of the type, and of the value if given.
func (l *line) has(typ lex.Type, value string) bool {
	return slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == typ && (value == "" || t.Value == value) })
}

// leads reports whether words or a size precede a thing that is followed by a distance: "sink light 26 off
// west", `6" light 26 off west`.
func (l *line) leads() bool {
	i, count := 0, 0
	for ; l.Tokens[i].Type != lex.Thing; i++ {
		switch t := l.Tokens[i]; t.Type {
		case lex.Word, lex.Service, lex.Name:
			if count++; count > 2 || talk[t.Value] {
				return false
			}
		case lex.Number, lex.Punct:
			if count > 0 {
				return false
			}
		case lex.Key:
			if t.Value != "x" {
				return false
			}
		default:
			return false
		}
	}
	return measured(l.Tokens[i:]) || i > 0 && slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return t.Value == "even" || t.Value == "in the middle" })
}

// measured reports whether a number is measured from something: "26 off", "7 south of".
func measured(tokens []lexer.Token) bool {
	end := -1 // where the last number ends
	for i, t := range tokens {
		switch {
		case t.Pos.Offset < end: // part of it
		case t.Type == lex.Number:
			_, n, _ := length.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), length.List)
			end = t.Pos.Offset + n
		case end < 0:
		case t.Value == "off", t.Value == "along", t.Value == "up", t.Value == "down", t.Value == "oc", t.Value == "x",
			t.Type == lex.Wall && tokens[i+1].Value == "of":
			return true
		default:
			end = -1
		}
	}
	return false
}

// Split splits a message into its entries, which are on lines of their own or between semicolons. A note
// and a snag keep their own semicolons.
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

// keepsAll reports whether a note or a snag begins in text, after at most three words for a room.
func keepsAll(text string) bool {
	for i, w := range strings.Fields(strings.ToLower(text)) {
		if w == "note" || w == "snag" {
			return true
		}
		if i == 3 || strings.ContainsAny(w, "0123456789") || i == 0 && (headWord(w) || lex.Phrases[w] != nil) {
			break
		}
	}
	return false
}

// line is a message cut into tokens, with its frame.
type line struct {
	*lex.Reader
	*Context
	Line             // the frame
	mistimed  int    // the piece of an impossible time, from 1
	room2     string // another room was named too
	lost      bool   // it is for a room that is not declared
	before    string // words before a colon that are not a declared room
	first     bool   // the room came first
	begin     int    // the piece at which the entry begins, after its frame
	ended     int    // the byte after the words it began with
	addressed bool   // it began with our name
	cmd       *kind  // what it began with, nil if with its subject
	wrong     error  // the first number that does not fit its slot
}

// cut makes a line of a message: its frame and its tokens.
func cutLine(s string, c *Context) *line {
	l := &line{Reader: lex.Read(s, lex.Names{Units: c.Units, Rooms: c.Rooms, Walls: c.Walls, Name: c.Name, MaxWords: c.MaxWords}), Context: c}
	i := l.head()
	if l.cmd == nil || !l.cmd.text {
		l.frame(i)
		l.Cut(i)
		return l
	}
	for i < len(l.Pieces) && l.Pieces[i].Low == ":" {
		i++
	}
	if i < len(l.Pieces) {
		l.Emit(lex.Text, strings.TrimSpace(l.Text[l.Pieces[i].Start:]), i)
	}
	l.EOF()
	return l
}
