package grammar

import (
	"regexp"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
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
type needWall struct {
	Pos  lexer.Position
	Wall place.Wall
}

func (w *needWall) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	if t.Type != tWall {
		return missing(lex, wallsFit)
	}
	lex.Next()
	*w = needWall{t.Pos, place.Wall(t.Value)}
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
	if len(s) > end+1 && strings.IndexByte("./-", s[end]) >= 0 && '0' <= s[end+1] && s[end+1] <= '9' {
		return missing(lex, "a whole number") // row 2.1
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

// take passes the tokens that belong to the run. It reports false when there are none.
func (s *saying) take(lex *lexer.PeekingLexer, belongs func(*lexer.Token) bool) bool {
	first := *lex.Peek()
	for !lex.Peek().EOF() && belongs(lex.Peek()) {
		lex.Next()
	}
	end := lex.Peek().Pos.Offset
	if end == first.Pos.Offset {
		return false
	}
	*s = saying{first.Pos, plain(first.Pos.Filename[first.Pos.Offset:end]), first.Type}
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

// inLabel reports whether a token may stand in a label: no word of the
// grammar, no number, and no name of the shape d1.
func inLabel(t *lexer.Token) bool {
	switch t.Type {
	case tWord, tThing, tService, tRoom, tPlace:
		return true
	case tTag:
		return t.Value != "studs"
	case tName:
		return len(t.Value) > 1 && !shape(t.Value)
	}
	return false
}

// label is what tells one thing from another when it has no name of the shape
// d1. A room at its start is the room, no part of it.
type label struct{ saying }

func (w *label) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Type == tRoom || !w.take(lex, inLabel) {
		return participle.NextMatch
	}
	return nil
}

// lead is a label said before its thing: "sink light". It stops before the
// last thing of the run.
type lead struct{ saying }

func (w *lead) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Type == tThing {
		return participle.NextMatch
	}
	var run lead
	before := lex.MakeCheckpoint()
	last := -1
	run.take(lex, func(t *lexer.Token) bool {
		if t.Type == tThing {
			last = t.Pos.Offset
		}
		return inLabel(t)
	})
	lex.LoadCheckpoint(before)
	if !w.take(lex, func(t *lexer.Token) bool { return t.Pos.Offset < last }) {
		return participle.NextMatch
	}
	return nil
}

// aside is a side behind the figures of a name: it has its unit (bed 2 10' x
// 12') or is more than the inches of a foot (bed 2 13 4 1/2 x 11 9).
var aside = regexp.MustCompile(`^\s+[0-9]+(?:\.[0-9]+)?\s*(?:['’′]|(?:ft|feet|foot|mm|cm|m)\b)|^\s+(?:1[2-9]|[2-9][0-9]|[0-9]{3,})(?:[^0-9/]|$)`)

// sideAlone reports whether the first figures of s are read alone though a
// number follows them: bed 2 160 x 141.
func sideAlone(s string, figures int, u length.Units) bool {
	_, n, _ := length.Scan(s, u, length.One)
	rest := strings.TrimLeft(s[figures:], " ")
	return n == figures && len(rest) < len(s)-figures && rest != "" && '0' <= rest[0] && rest[0] <= '9'
}

// roomName is a new room's name: words, and figures that a comma or a whole
// side follows.
type roomName struct{ saying }

func (w *roomName) Parse(lex *lexer.PeekingLexer) error {
	first := lex.Peek().Pos.Offset
	named := func(t *lexer.Token) bool {
		if t.Type == tNumber && t.Pos.Offset > first {
			rest := t.Pos.Filename[t.Pos.Offset:]
			figures := strings.TrimLeft(rest, "0123456789")
			if len(figures) == len(rest) || len(rest)-len(figures) > 2 {
				return false
			}
			return strings.HasPrefix(figures, ", ") || aside.MatchString(figures) || sideAlone(rest, len(rest)-len(figures), length.Units(t.Value))
		}
		return inLabel(t) || t.Type == tWall || t.Type == tName
	}
	if !w.take(lex, named) {
		return missing(lex, "a name for the room")
	}
	return nil
}

// noted is a thing as people call it: "the light over the sink".
type noted struct{ saying }

func (w *noted) Parse(lex *lexer.PeekingLexer) error {
	if !w.take(lex, func(t *lexer.Token) bool { return inLabel(t) || t.Type == tName || t.Type == tWall }) {
		return missing(lex, "a noted thing")
	}
	return nil
}

// parted is what stands between two names of a list.
var parted = regexp.MustCompile(`(?i)[,&+]|\sand\s`)

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
		case !s.take(lex, func(next *lexer.Token) bool {
			return inLabel(next) && next.Type != tName && !parted.MatchString(next.Pos.Filename[t.Pos.Offset:next.Pos.Offset])
		}):
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
	if !w.take(lex, func(*lexer.Token) bool { return true }) {
		return missing(lex, "a name")
	}
	return nil
}

const wallsFit = "a wall: north, east, south or west"

const sidesFit = "x and the other side"

// needX stands between two sides.
type needX struct{ _ int }

func (*needX) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Value != "x" {
		return missing(lex, sidesFit)
	}
	lex.Next()
	return nil
}

// The no... rules stand last among alternatives, and say what would fit.
type (
	noTarget  struct{ _ int }
	noSurface struct{ _ int }
	noCorner  struct{ _ int }
)

func (*noTarget) Parse(lex *lexer.PeekingLexer) error {
	return missing(lex, "a strap and its number, a mark or a noted thing")
}

func (*noSurface) Parse(lex *lexer.PeekingLexer) error {
	return missing(lex, "a strap and its number, a wall or the ceiling")
}

func (*noCorner) Parse(lex *lexer.PeekingLexer) error {
	return missing(lex, `a corner ("ne") or a place at a wall ("north 60 off west")`)
}

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
