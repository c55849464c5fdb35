package things

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/read"
)

// Plate: `plate p1 strap 3`, `plate p1 straps 3 5 7`.
type Plate struct {
	Run  string
	What place.SupportKind
	N    []int
}

func (e Plate) String() string {
	kind := string(e.What)
	if len(e.N) == 1 {
		kind = e.What.One()
	}
	return canon.Say("plate", e.Run, kind, strings.Trim(fmt.Sprint(e.N), "[]"))
}
func (Plate) Kind() grammar.Kind { return "plate" }

func (s *plateSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Plate{Run: s.Run}
	for _, it := range s.Items {
		switch {
		case it.Run != "" && e.Run != "", it.N != nil && e.N != nil && e.What != place.SupportKind(it.What):
			return nil, l.Refuse(it.Pos, "one run and its supports")
		case it.Run != "":
			e.Run = it.Run
		default:
			for _, n := range it.N.N {
				numbers.Counted(l, &numbers.Count{Pos: it.N.Pos, N: n})
			}
			e.What, e.N = place.SupportKind(it.What), append(e.N, it.N.N...)
		}
	}
	switch {
	case e.Run == "":
		return nil, l.RefuseEnd("the run it is over, like p1")
	case e.N == nil:
		return nil, l.RefuseEnd(`"strap" and its number`)
	}
	slices.Sort(e.N)
	e.N = slices.Compact(e.N)
	return e, nil
}

type plateSyntax struct {
	Run   string       `parser:"( 'plate' | @Name 'plated' )"`
	Items []*plateItem `parser:"@@+"`
}

type plateItem struct {
	Pos  lexer.Position
	Run  string  `parser:"  ('on' | 'over' | 'in' | 'at')* (  @Name"`
	What string  `parser:"  | @Support"`
	N    *counts `parser:"    @@ )"`
}

// counts are the numbers of supports: 3 5 7, 2 to 6.
type counts struct {
	Pos lexer.Position
	N   []int
}

func (c *counts) Parse(in *lexer.PeekingLexer) error {
	c.Pos = in.Peek().Pos
	for len(c.N) == 0 || in.Peek().Type == lex.Number {
		var n numbers.Count
		if err := n.Parse(in); err != nil {
			return err
		}
		c.N = append(c.N, n.N)
		if in.Peek().Value != "to" {
			continue
		}
		in.Next()
		var last numbers.Count
		if err := last.Parse(in); err != nil {
			return err
		}
		if last.N <= n.N || last.N-n.N > numbers.MostCounted {
			return &read.Unfilled{Token: lexer.Token{Type: lex.Number, Pos: last.Pos}, Want: "a number past the first one"}
		}
		for i := n.N + 1; i <= last.N; i++ {
			c.N = append(c.N, i)
		}
	}
	return nil
}
