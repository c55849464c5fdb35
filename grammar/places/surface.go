package places

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/read"
)

// WhereSyntax is a surface. A wall alone may be one, or what a distance is off.
type WhereSyntax struct {
	Pos     lexer.Position
	Ceiling bool   `parser:"( @'ceiling'"`
	Wall    string `parser:"| @Wall"`
	Shape   string `parser:"  @('slope' | 'bulkhead' | 'bulkhead bottom' | 'bulkhead face' | 'bulkhead back')?"`
	Face    string `parser:"| @Face"`
	Alone   string `parser:"| @('slope' | 'bulkhead' | 'bulkhead bottom' | 'bulkhead face' | 'bulkhead back') )"`
}

type SupportN struct {
	What string        `parser:"@Support"`
	N    numbers.Count `parser:"@@"`
	Edge bool          `parser:"@'edge'?"`
}

// NeedWall is a required wall.
type NeedWall struct {
	Pos  lexer.Position
	Wall place.Wall
}

const wallsFit = "a wall: north, east, south or west"

func (w *NeedWall) Or(wall place.Wall) place.Wall {
	if w == nil {
		return wall
	}
	return w.Wall
}

func (w *NeedWall) At(pos lexer.Position) lexer.Position {
	if w == nil {
		return pos
	}
	return w.Pos
}

func (w *NeedWall) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	if t.Type != lex.Wall {
		return read.Missing(in, wallsFit)
	}
	in.Next()
	*w = NeedWall{t.Pos, place.Wall(t.Value)}
	return nil
}

// Surface is the surface said: the ceiling, a wall, a slope or a part of a bulkhead. A slope or bulkhead
// without its wall is found later, in the room.
func (s *WhereSyntax) Surface() place.Surface {
	switch {
	case s == nil:
		return ""
	case s.Ceiling:
		return place.Ceiling
	}
	if s.Face != "" {
		return place.Surface(s.Face)
	}
	shape := s.Shape + s.Alone
	if shape == "bulkhead" {
		shape = place.Bottom
	}
	return place.Surface(strings.TrimSpace(s.Wall + " " + shape))
}

func (s *SupportN) Of(l *read.Source) place.Of {
	return place.Of{Sup: place.SupportKind(s.What), N: numbers.Counted(l, &s.N), Edge: s.Edge}
}
