package grammar

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
)

// number is a length as read from the line: the rules that check it come later.
type number struct {
	Pos      lexer.Position
	End      int // the byte after it in the line
	Readings []length.Reading
	Why      string
}

func (n *number) raw() string { return strings.TrimSpace(n.Pos.Filename[n.Pos.Offset:n.End]) }

// bare reports whether the number was said without a unit.
func (n *number) bare() bool {
	return strings.Trim(n.raw(), "0123456789./- ½¼¾⅛⅜⅝⅞⁄") == ""
}

// whole returns the number when it is nothing but figures.
func (n *number) whole() (int, bool) {
	v := 0
	for _, r := range n.raw() {
		if r < '0' || r > '9' || v > 1e6 {
			return 0, false
		}
		v = v*10 + int(r-'0')
	}
	return v, true
}

// take reads a length at the next token and passes the tokens it covers.
func (n *number) take(lex *lexer.PeekingLexer, slot length.Slot) bool {
	t := lex.Peek()
	if t.Type != tNumber {
		return false
	}
	readings, k, why := length.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), slot)
	if k == 0 {
		return false
	}
	*n = number{t.Pos, t.Pos.Offset + k, readings, why}
	for !lex.Peek().EOF() && lex.Peek().Pos.Offset < n.End {
		lex.Next()
	}
	return true
}

// oneLength is a slot that takes a length for itself, aLength one among
// others. They are optional; the need... ones are not.
type (
	oneLength  struct{ number }
	aLength    struct{ number }
	needLength struct{ number }
	needAmong  struct{ number }
)

func (n *oneLength) Parse(lex *lexer.PeekingLexer) error {
	if !n.take(lex, length.One) {
		return participle.NextMatch
	}
	return nil
}

func (n *aLength) Parse(lex *lexer.PeekingLexer) error {
	if !n.take(lex, length.List) {
		return participle.NextMatch
	}
	return nil
}

func (n *needLength) Parse(lex *lexer.PeekingLexer) error {
	if !n.take(lex, length.One) {
		return missing(lex, "a length")
	}
	return nil
}

func (n *needAmong) Parse(lex *lexer.PeekingLexer) error {
	if !n.take(lex, length.List) {
		return missing(lex, "a length")
	}
	return nil
}

// needWall is a wall that must stand here.
type needWall string

func (w *needWall) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	if t.Type != tWall {
		return missing(lex, wallsFit)
	}
	*w = needWall(lex.Next().Value)
	return nil
}

// count is a whole number that must stand here: strap 3, row two.
type count struct {
	Pos lexer.Position
	N   int
}

func (c *count) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	if t.Type != tNumber {
		return missing(lex, "a number")
	}
	c.Pos = t.Pos
	s := t.Pos.Filename[t.Pos.Offset:]
	end := 0
	for end < len(s) && '0' <= s[end] && s[end] <= '9' {
		c.N = min(c.N*10+int(s[end]-'0'), 1e6)
		end++
	}
	if end == 0 { // in words
		r, k, _ := length.Scan(s, length.Imperial, length.List)
		if len(r) != 1 || r[0].L%length.Inch != 0 || r[0].L > 1000*length.Inch {
			return missing(lex, "a number")
		}
		c.N, end = int(r[0].L/length.Inch), k
	}
	for end += t.Pos.Offset; !lex.Peek().EOF() && lex.Peek().Pos.Offset < end; {
		lex.Next()
	}
	return nil
}

// saying is a run of words that name something, as typed but for case and filler.
type saying struct {
	Pos   lexer.Position
	Text  string
	First tokenType
}

func (s *saying) take(lex *lexer.PeekingLexer, types ...tokenType) bool {
	first := *lex.Peek()
	if !slices.Contains(types, first.Type) {
		return false
	}
	for slices.Contains(types, lex.Peek().Type) {
		lex.Next()
	}
	*s = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:lex.Peek().Pos.Offset]), first.Type}
	return true
}

// plain is what stands in s without case, signs and filler.
func plain(s string) string {
	var b strings.Builder
	for _, p := range pieces(s) {
		if p.kind == '.' || words.filler[p.low] {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(p.low)
	}
	return b.String()
}

// label is what tells one thing from another when it has no name of the shape d1.
type label struct{ saying }

func (w *label) Parse(lex *lexer.PeekingLexer) error {
	if t := lex.Peek(); t.Type == tRoom || t.Type == tName && len(t.Value) == 1 || t.Type == tName && shape(t.Value) {
		return participle.NextMatch
	}
	first := *lex.Peek()
	for t := lex.Peek(); ; t = lex.Peek() {
		if t.Type == tName && (shape(t.Value) || len(t.Value) == 1) || !slices.Contains([]tokenType{tWord, tThing, tService, tName, tRoom}, t.Type) {
			break
		}
		lex.Next()
	}
	if *lex.Peek() == first {
		return participle.NextMatch
	}
	w.saying = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:lex.Peek().Pos.Offset]), first.Type}
	return nil
}

// lead is a label said before its thing: "sink light". It stops before the
// last thing of the run.
type lead struct{ saying }

func (w *lead) Parse(lex *lexer.PeekingLexer) error {
	before := lex.MakeCheckpoint()
	first := *lex.Peek()
	last := before
	found := false
	for t := lex.Peek(); t.Type == tWord || t.Type == tThing || t.Type == tService || t.Type == tName; t = lex.Peek() {
		if t.Type == tThing {
			last, found = lex.MakeCheckpoint(), true
		}
		lex.Next()
	}
	lex.LoadCheckpoint(before)
	if !found || last == before {
		return participle.NextMatch
	}
	lex.LoadCheckpoint(last)
	w.saying = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:lex.Peek().Pos.Offset]), first.Type}
	return nil
}

// roomName is a new room's name: words, and figures that a comma follows.
type roomName struct{ saying }

func (w *roomName) Parse(lex *lexer.PeekingLexer) error {
	first := *lex.Peek()
	for {
		t := lex.Peek()
		named := t.Type == tWord || t.Type == tRoom || t.Type == tName || t.Type == tWall || t.Type == tThing || t.Type == tService
		if t.Type == tNumber && *t != first {
			s := strings.TrimLeft(t.Pos.Filename[t.Pos.Offset:], "0123456789")
			named = strings.HasPrefix(s, ",") && !strings.HasPrefix(t.Pos.Filename[t.Pos.Offset:], ",")
		}
		if !named {
			break
		}
		lex.Next()
	}
	if *lex.Peek() == first {
		return missing(lex, "a name for the room")
	}
	w.saying = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:lex.Peek().Pos.Offset]), first.Type}
	return nil
}

// names is a list of names: d1 d2, or what was noted in words ("sink light").
type names struct{ List []saying }

func (w *names) Parse(lex *lexer.PeekingLexer) error {
	for {
		var s saying
		t := *lex.Peek()
		switch {
		case t.Type == tName:
			lex.Next()
			s = saying{t.Pos, t.Value, tName}
		case !s.take(lex, tWord, tThing, tService):
			if len(w.List) == 0 {
				return missing(lex, "a name")
			}
			return nil
		}
		w.List = append(w.List, s)
	}
}

// anything is the rest of a line, in words.
type anything struct{ saying }

func (w *anything) Parse(lex *lexer.PeekingLexer) error {
	first := *lex.Peek()
	if first.EOF() {
		return missing(lex, "a name")
	}
	for !lex.Peek().EOF() {
		lex.Next()
	}
	w.saying = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:]), first.Type}
	return nil
}

const wallsFit = "a wall: north, east, south or west"

// missing is the error of a slot that must be filled.
func missing(lex *lexer.PeekingLexer, want string) error {
	return &unfilled{*lex.Peek(), want}
}

type unfilled struct {
	token lexer.Token
	want  string
}

func (u *unfilled) Error() string            { return participle.FormatError(u) }
func (u *unfilled) Message() string          { return "expected " + u.want }
func (u *unfilled) Position() lexer.Position { return u.token.Pos }
