package grammar

import (
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The rules about planning the boards and about closing a room.

type runSyntax struct {
	Pos   lexer.Position
	Size  *aLength   `parser:"( @@ 'in'? )?"`
	What  string     `parser:"@Service"`
	Items []*runItem `parser:"@@*"`
}

// runItem is one part of where a run goes, in the order said.
type runItem struct {
	Pos     lexer.Position
	From    bool         `parser:"  @'off'"`
	Through bool         `parser:"| @'through'"`
	To      bool         `parser:"| ('over' | 'across' | 'up' | 'down')? @'to'"`
	Depth   *needLength  `parser:"| 'depth' 'of'? @@"`
	Deep    bool         `parser:"| @('deep' | 'behind') 'board'?"`
	Top     bool         `parser:"| @'on top' Support?"`
	Notched bool         `parser:"| @'notched'"`
	Into    string       `parser:"  ( ('in' | 'into') @Support? )?"`
	Conduit bool         `parser:"| @'conduit'"`
	Inside  bool         `parser:"| ('on' | 'in' | 'inside') (  @'conduit'"`
	OnWhat  *supportN    `parser:"    | @@"`
	On      *whereSyntax `parser:"   | @@"`
	InName  string       `parser:"    | @Name"`
	OnNone  *noSurface   `parser:"    | @@ )"`
	Support *supportN    `parser:"| @@"`
	Where   *whereSyntax `parser:"| @@"`
	Along   *supportN    `parser:"| 'along' @@"`
	Goes    bool         `parser:"| @('run' | 'runs' | 'running')"`
	Mark    string       `parser:"| ( 'mark' | Thing ) @Name"`
	Name    string       `parser:"| @Name"`
	Num     *distance    `parser:"| @@"`

	taken bool // the number of the support it is notched into
	deep  bool // its "deep" belongs to the number before it
}

type plateSyntax struct {
	Pos   lexer.Position
	Run   string       `parser:"( 'plate' | @Name 'plated' )"`
	Items []*plateItem `parser:"@@+"`
}

type plateItem struct {
	Pos  lexer.Position
	Run  string  `parser:"  ('on' | 'over' | 'in' | 'at')* (  @Name"`
	What string  `parser:"  | @Support"`
	N    *counts `parser:"    @@ )"`
}

type codeSyntax struct {
	Pos  lexer.Position
	Code string `parser:"'code' @Word"`
}

type setSyntax struct {
	Pos    lexer.Position
	Length string      `parser:"'set' (  (  @('margin' | 'stagger' | 'sliver' | 'short' | 'rip' | 'set' | 'clearance')"`
	Screw  bool        `parser:"          | @'screw'"`
	Head   bool        `parser:"            @('set' | 'depth')? ) 'to'?"`
	L      *needLength `parser:"         @@"`
	Number string      `parser:"       | @('waste' | 'compound' | 'box' | 'rated') ('of' | 'to')?"`
	N      *amount     `parser:"         @@"`
	Per    *count      `parser:"         ( 'per' @@ ('sq' 'ft' | 'sqft')? )? )"`
}

// reachSyntax is "reach", or "1 5/8 ok?".
type reachSyntax struct {
	Pos   lexer.Position
	Screw *oneLength `parser:"(  'reach' @@? ('screw' | 'screws')?"`
	OK    *okSyntax  `parser:" | @@ )"`
}

type okSyntax struct {
	Pos   lexer.Position
	Screw oneLength `parser:"@@"`
	OK    bool      `parser:"('screw' | 'screws')? @'ok'"`
}

type screwsSyntax struct {
	Pos      lexer.Position
	Courtesy *courtesy  `parser:"'screws' @@?"`
	L        *oneLength `parser:"@@?"`
}

// planAskSyntax is a question about the plan, or a word that says it all.
type planAskSyntax struct {
	Pos      lexer.Position
	What     string    `parser:"@('cuts' | 'order' | 'bring' | 'painted' | 'texture' | 'rest' | 'otherway')"`
	Ceiling  bool      `parser:"@'ceiling'?"`
	Board    bool      `parser:"@'board'?"`
	Courtesy *courtesy `parser:"@@?"`
	ID       *pieceID  `parser:"( @@"`
	Row      *count    `parser:"| 'row' @@ )?"`
}

// pieceSyntax is "whats r2.1", "which board for row 2", "r2?".
type pieceSyntax struct {
	Pos      lexer.Position
	ID       *pieceID  `parser:"( 'piece' | 'find' )* ( @@"`
	Row      *count    `parser:"  | 'row' @@ )"`
	Courtesy *courtesy `parser:"@@?"`
	Up       bool      `parser:"@( 'up' | 'hung' | 'go' )?"`
}

type readySyntax struct {
	Pos  lexer.Position
	Said bool `parser:"@'ready' 'up'? 'yet'?"`
}

type handoffSyntax struct {
	Pos lexer.Position
	To  string `parser:"'handoff' 'to'? @('taper' | 'electrician' | 'painter' | 'hanger')?"`
}

type coatSyntax struct {
	Pos lexer.Position
	N   count     `parser:"'coat' @@"`
	Air *anything `parser:"@@?"`
}

type layoutSyntax struct {
	Pos      lexer.Position
	Courtesy *courtesy `parser:"'layout' @@?"`
	N        *count    `parser:"@@?"`
}

type checkSyntax struct {
	Pos  lexer.Position
	Text string `parser:"'check' @Text"`
}

// courtesy is what people add to a question and means nothing.
type courtesy struct{ _ int }

var courtesies = set([]string{"do", "i", "we", "need", "have", "for", "yet", "now", "today", "tomorrow", "tmrw", "there", "total", "got", "so", "far", "me", "us", "option"})

func (*courtesy) Parse(lex *lexer.PeekingLexer) error {
	first := lex.Peek().Pos.Offset
	for t := lex.Peek(); t.Type == tWord && courtesies[t.Value]; t = lex.Peek() {
		lex.Next()
	}
	if lex.Peek().Pos.Offset == first {
		return participle.NextMatch
	}
	return nil
}

// amount is a plain number that is no length.
type amount struct {
	Pos lexer.Position
	N   float64
}

func (a *amount) Parse(lex *lexer.PeekingLexer) error {
	t := lex.Peek()
	s := t.Pos.Filename[t.Pos.Offset:]
	figures := s[:len(s)-len(strings.TrimLeft(s, "0123456789."))]
	n, err := strconv.ParseFloat(figures, 64)
	if t.Type != tNumber || err != nil || len(figures) > 9 || strings.HasPrefix(s[len(figures):], "/") {
		return missing(lex, "a plain number")
	}
	*a = amount{t.Pos, n}
	pass(lex, t.Pos.Offset+len(figures))
	switch lex.Peek().Value {
	case "%", "gal", "gallon", "gallons", "min", "minutes":
		lex.Next()
	}
	return nil
}

// pass passes the tokens before a byte of the line.
func pass(lex *lexer.PeekingLexer, end int) {
	for !lex.Peek().EOF() && lex.Peek().Pos.Offset < end {
		lex.Next()
	}
}

// counts are the numbers of supports: 3 5 7, 2 to 6.
type counts struct {
	Pos lexer.Position
	N   []int
}

// mostCounted bounds a range of supports.
const mostCounted = 200

func (c *counts) Parse(lex *lexer.PeekingLexer) error {
	c.Pos = lex.Peek().Pos
	for len(c.N) == 0 || lex.Peek().Type == tNumber {
		var n count
		if err := n.Parse(lex); err != nil {
			return err
		}
		c.N = append(c.N, n.N)
		if lex.Peek().Value != "to" {
			continue
		}
		lex.Next()
		var last count
		if err := last.Parse(lex); err != nil {
			return err
		}
		if last.N <= n.N || last.N-n.N > mostCounted {
			return &unfilled{lexer.Token{Type: tNumber, Pos: last.Pos}, "a number past the first one"}
		}
		for i := n.N + 1; i <= last.N; i++ {
			c.N = append(c.N, i)
		}
	}
	return nil
}
