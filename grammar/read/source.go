package read

import (
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/pattern"
)

// Source is a message cut into tokens, with its frame.
type Source struct {
	*lex.Reader
	*grammar.Context
	grammar.Line        // the frame
	Mistimed     int    // the piece of an impossible time, from 1
	Room2        string // another room was named too
	Lost         bool   // it is for a room that is not declared
	Unknown      string // words before a colon that are not a declared room
	RoomFirst    bool   // the room came first
	Begin        int    // the piece at which the entry begins, after its frame
	Ended        int    // the byte after the words it began with
	Addressed    bool   // it began with our name
	Cmd          *Row   // what it began with, nil if with its subject
	Wrong        error  // the first number that does not fit its slot
	begs         int8   // whether its words ask, whatever it begins with: 0 not known, 1 no, 2 yes
}

// CutLine makes a line of a message: its frame and its tokens.
func CutLine(s string, c *grammar.Context) *Source {
	l := &Source{Reader: lex.Read(s, lex.Names{Units: c.Units, Rooms: c.Rooms, Walls: c.Walls, Name: c.Name, MaxWords: c.MaxWords}), Context: c}
	i := l.head()
	if l.Cmd == nil || !l.Cmd.Text {
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

// Has reports whether there is a token of the type, and of the value if given.
func (l *Source) Has(typ lex.Type, value string) bool {
	return slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == typ && (value == "" || t.Value == value) })
}

// Opens reports whether the entry begins with one of the words.
func (l *Source) Opens(with ...string) bool {
	return l.Begin < len(l.Pieces) && slices.Contains(with, l.Pieces[l.Begin].Low)
}

// PieceAt returns the piece at a byte of the line, -1 if none begins there.
func (l *Source) PieceAt(offset int) int {
	return slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start == offset })
}

// Measured reports whether a number is measured from something: "26 off", "7 south of".
func Measured(tokens []lexer.Token) bool {
	end := -1 // where the last number ends
	for i, t := range tokens {
		switch {
		case t.Pos.Offset < end: // part of it
		case t.Type == lex.Number:
			_, n, _ := measure.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), measure.List)
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

// Measure reports whether a number has a unit, a fraction, or something it is measured from.
func (l *Source) Measure() bool {
	if Measured(l.Tokens) || l.Has(lex.Number, "") && l.Has(lex.Key, "off") && (l.Has(lex.Wall, "") || l.Has(lex.Support, "")) {
		return true
	}
	pairs := 0 // "60 west 100 north"
	for i, t := range l.Tokens {
		if t.Type == lex.Wall && l.AfterLength(t) {
			if pairs++; pairs == 2 {
				return true
			}
		}
		if t.Type == lex.Wall && l.Tokens[i+1].EOF() && i > 1 && l.Tokens[i-1].Value == "of" && l.AfterLength(l.Tokens[i-1]) { // "60 of west"
			return true
		}
		if t.Type != lex.Number {
			continue
		}
		_, n, _ := measure.Scan(l.Read[t.Pos.Offset:], l.Units, measure.One)
		said := l.Read[t.Pos.Offset : t.Pos.Offset+n]
		if next := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start >= t.Pos.Offset+n }); next > 0 && next+1 < len(l.Pieces) &&
			l.Pieces[next].Low == "in" && l.Pieces[next+1].Word() && l.Pieces[next+1].Low != "the" && !Talk[l.Pieces[next+1].Low] { // "3 in out of plumb"
			return true
		}
		if strings.ContainsAny(said, `/"'½¼¾⅛⅜⅝⅞′″”’`) || strings.ContainsAny(said, "0123456789") && strings.ContainsFunc(said, unicode.IsLetter) {
			return true
		}
	}
	return false
}

// AfterLength reports whether a number ends right before a token.
func (l *Source) AfterLength(t lexer.Token) bool {
	i := l.PieceAt(t.Pos.Offset)
	return i > 0 && l.LengthBefore(i)
}

// Began returns the words of the command that the line begins with.
func (l *Source) Began() string {
	if l.Cmd == nil {
		return ""
	}
	return lex.Lower(l.Text[l.Pieces[l.Begin].Start:l.Ended])
}

// InWords reports whether the line begins with several words of a command that are also said about other
// things in a busy channel.
func (l *Source) InWords() bool { return strings.Contains(l.Began(), " ") }

// Attempt returns the first of the texts that can be read, in canonical form; "" if none can.
func (l *Source) Attempt(texts ...string) string {
	for _, text := range texts {
		if got, err := Nested(text, l.Context); err == nil {
			return got.String()
		}
	}
	return ""
}

// Hinted ensures that the hint parses.
func (l *Source) Hinted(r *grammar.Refusal) *grammar.Refusal {
	if l.Attempt(r.Hint) == "" {
		r.Hint = Words.Rows["thing"].Say(l.Units)
	}
	return r
}

// SaidWall reports whether the wall at this byte was followed by "wall".
func (l *Source) SaidWall(offset int) bool {
	for i, p := range l.Pieces {
		if p.Start >= offset && p.Low == "wall" {
			return i > 0 && (l.Pieces[i-1].Start == offset || l.Pieces[i-1].Start > offset && i > 1 && l.Pieces[i-2].Start >= offset && l.Pieces[i-2].Start == offset)
		}
	}
	return false
}

// With returns the line as typed with parts of it replaced, in order.
func (l *Source) With(cuts ...Edit) string {
	var b strings.Builder
	at := 0
	for _, c := range cuts {
		b.WriteString(l.Text[at:c.From])
		if c.From > 0 && Wordy(l.Text[c.From-1]) {
			b.WriteByte(' ')
		}
		b.WriteString(c.Text)
		if at = c.To; at < len(l.Text) && Wordy(l.Text[at]) {
			b.WriteByte(' ')
		}
	}
	b.WriteString(l.Text[at:])
	return b.String()
}

// Wordy reports whether a byte would join a word or a number next to it.
func Wordy(b byte) bool {
	return b >= 0x80 || 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z' || '0' <= b && b <= '9'
}

// Edit is a part of a line and its replacement.
type Edit struct {
	From, To int
	Text     string
}

// KeepsAll reports whether a note or a snag begins in text, after at most three words for a room.
func KeepsAll(text string) bool {
	for i, w := range strings.Fields(strings.ToLower(text)) {
		if w == "note" || w == "snag" {
			return true
		}
		if i == 3 || strings.ContainsAny(w, "0123456789") || i == 0 && (HeadWord(w) || lex.Phrases[w] != nil) {
			break
		}
	}
	return false
}

// AsSaid returns the line after its frame as it was said, in lower case with single spaces.
func (l *Source) AsSaid() string {
	if l.Begin >= len(l.Pieces) {
		return ""
	}
	said := strings.TrimRight(strings.Join(strings.Fields(lex.Lower(l.Read[l.Pieces[l.Begin].Start:])), " "), " .!?,")
	said = strings.ReplaceAll(said, " , ", " ")
	said = begun.ReplaceAllString(ended.ReplaceAllString(said, ""), "")
	return strings.Replace(strings.Replace(said, "half inch", "1/2", 1), "rough in ", "rough-in ", 1)
}

// begun are words that may precede the statement.
var begun = pattern.Compile(`^(?:(?:we're|were|we are|i'm) )?using (?:the )?|^(?:theres|there's|there is|we have|we've got|weve got|another) (?:an? )?`)

// ended are words that may follow it.
var ended = pattern.Compile(`(?:,? (?:for real|again|now|sorry|exactly|so far))+$`)
