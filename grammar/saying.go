package grammar

import (
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar/lex"
)

// saying is a run of words that name something, as typed except for case and filler.
type saying struct {
	Pos   lexer.Position
	Raw   string // as typed, with the sign after it
	Text  string
	First lex.Type
}

// take consumes the tokens of the run. It returns false if there are none.
func (s *saying) take(in *lexer.PeekingLexer, belongs func(*lexer.Token) bool) bool {
	first := *in.Peek()
	for !in.Peek().EOF() && belongs(in.Peek()) {
		in.Next()
	}
	end := in.Peek().Pos.Offset
	if end == first.Pos.Offset {
		return false
	}
	raw := strings.TrimSpace(first.Pos.Filename[first.Pos.Offset:end])
	*s = saying{first.Pos, raw, lex.Plain(raw), first.Type}
	return true
}

// inLabel reports whether a token may be part of a label: not a word of the grammar, not a number, and not
// a name with the shape of d1.
func inLabel(t *lexer.Token) bool {
	switch t.Type {
	case lex.Word, lex.Thing, lex.Service, lex.Room, lex.Place:
		return true
	case lex.Tag:
		return t.Value != "studs"
	case lex.Name:
		return len(t.Value) > 1 && !lex.Shape(t.Value)
	}
	return false
}

// label distinguishes a thing that has no name with the shape of d1. A room at its start is the room, and
// not part of it.
type label struct{ saying }

func (w *label) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Type == lex.Room || !w.take(in, inLabel) {
		return participle.NextMatch
	}
	return nil
}

// lead is a label before its thing: "sink light". It stops before the last thing of the run.
type lead struct{ saying }

func (w *lead) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Type == lex.Thing {
		return participle.NextMatch
	}
	var run lead
	before := in.MakeCheckpoint()
	last := -1
	run.take(in, func(t *lexer.Token) bool {
		if t.Type == lex.Thing {
			last = t.Pos.Offset
		}
		return inLabel(t)
	})
	in.LoadCheckpoint(before)
	if !w.take(in, func(t *lexer.Token) bool { return t.Pos.Offset < last }) {
		return participle.NextMatch
	}
	switch first, _, _ := strings.Cut(w.Text, " "); first {
	case "by", "over", "near", "above", "behind": // it precedes what the thing is near
		in.LoadCheckpoint(before)
		return participle.NextMatch
	}
	return nil
}

// noted is a thing as people call it: "the light over the sink".
type noted struct{ saying }

func (w *noted) Parse(in *lexer.PeekingLexer) error {
	if !w.take(in, func(t *lexer.Token) bool { return inLabel(t) || t.Type == lex.Name || t.Type == lex.Wall }) {
		return missing(in, "a noted thing")
	}
	return nil
}

// aim is what a distance is measured from, as people call it: "the sink light", "that one".
type aim struct{ saying }

func (w *aim) Parse(in *lexer.PeekingLexer) error {
	if !w.take(in, inLabel) {
		return missing(in, "a strap and its number, a mark or a noted thing")
	}
	return nil
}

// parted matches what separates the names of a list.
var parted = regexp.MustCompile(`(?i)[,&+]|\sand\s`)

// known returns the names. Each must be, or may become, a known noun, or be a single word next to
// something that shows that the line is for us: a row, or another name.
func (w *names) known(l *line, sure bool) ([]string, error) {
	var list []string
	for _, s := range w.List {
		sure = sure || s.First == lex.Name || l.noun(s.Text)
	}
	for _, s := range w.List {
		if s.First != lex.Name {
			s.Text = canonicalThing(s.Text)
			if !l.noun(s.Text) && !(sure && l.word(s.Text)) {
				return nil, l.refuse(s.Pos, "the name of a noted thing")
			}
			if each := strings.Fields(s.Text); len(each) > 1 && !slices.ContainsFunc(each, func(n string) bool { return !l.nameLike(n) }) {
				list = append(list, each...)
				continue
			}
		}
		list = append(list, s.Text)
	}
	return list, nil
}

// names is a list of names: d1 d2, or descriptions of what was noted ("sink light").
type names struct{ List []saying }

func (w *names) Parse(in *lexer.PeekingLexer) error {
	for {
		var s saying
		t := *in.Peek()
		switch {
		case t.Type == lex.Name:
			in.Next()
			s = saying{t.Pos, t.Value, t.Value, lex.Name}
		case !s.take(in, func(next *lexer.Token) bool {
			return inLabel(next) && next.Type != lex.Name && !parted.MatchString(next.Pos.Filename[t.Pos.Offset:next.Pos.Offset])
		}):
			if len(w.List) == 0 {
				return missing(in, "a name")
			}
			return nil
		}
		w.List = append(w.List, s)
	}
}

// anything is the rest of a line, in words.
type anything struct{ saying }

func (w *anything) Parse(in *lexer.PeekingLexer) error {
	if !w.take(in, func(*lexer.Token) bool { return true }) {
		return missing(in, "a name")
	}
	return nil
}

// noun reports whether said names something that may have been noted. It has at most five words, none of
// them talk. One of them is a thing or a declared name, or all are words of notes or look like names.
func (l *line) noun(said string) bool {
	fields := strings.Fields(said)
	if len(fields) == 0 || len(fields) > 5 || l.talkIn(said) != "" {
		return false
	}
	if l.Name != nil && l.Name(said) {
		return true
	}
	for i, f := range fields {
		if lex.ThingOf[f] != "" || lex.Shape(f) || l.Name != nil && l.Name(f) || i > 0 && lex.ThingOf[fields[i-1]+" "+f] != "" {
			return true
		}
	}
	return !slices.ContainsFunc(fields, func(w string) bool { return !(l.Noun != nil && l.Noun(w)) && !l.nameLike(w) })
}

// nameLike reports whether an unknown word was meant as a name: l2b, or la and q where no person is looked
// for.
func (l *line) nameLike(w string) bool {
	if len(w) > 6 || w[0] < 'a' || w[0] > 'z' || slices.Contains(soft, w) {
		return false
	}
	return strings.ContainsAny(w, "0123456789") || len(w) <= 2 && !strings.HasPrefix(l.Pieces[l.begin].Low, "where")
}

// word reports whether said is one word that may be a name although nothing has been noted by it; the
// handler can say so.
func (l *line) word(said string) bool {
	return said != "" && !strings.Contains(said, " ") && l.talkIn(said) == ""
}

// talkIn returns the first word of ordinary talk in said.
func (l *line) talkIn(said string) string {
	for _, w := range strings.Fields(said) {
		if talk[w] {
			return w
		}
	}
	return ""
}

// canonicalThing replaces the thing at the end of a name by its canonical kind: "sink pot light" and "sink
// lights" are the "sink light".
func canonicalThing(said string) string {
	fields := strings.Fields(said)
	for i := max(0, len(fields)-2); i < len(fields); i++ {
		if what := lex.ThingOf[strings.Join(fields[i:], " ")]; what != "" {
			return strings.TrimSpace(strings.Join(fields[:i], " ") + " " + what)
		}
	}
	return said
}

// courtesy is words that people add to a question without changing it.
type courtesy struct{ _ int }

func (*courtesy) Parse(in *lexer.PeekingLexer) error {
	first := in.Peek().Pos.Offset
	for t := in.Peek(); t.Type == lex.Word && courtesies[t.Value]; t = in.Peek() {
		in.Next()
	}
	if in.Peek().Pos.Offset == first {
		return participle.NextMatch
	}
	return nil
}

var courtesies = lex.Set("do", "i", "we", "need", "have", "for", "yet", "now", "today", "tomorrow", "tmrw", "there", "total", "got", "so", "far", "me", "us", "option")

func (w *needWall) or(wall place.Wall) place.Wall {
	if w == nil {
		return wall
	}
	return w.Wall
}

func (w *needWall) at(pos lexer.Position) lexer.Position {
	if w == nil {
		return pos
	}
	return w.Pos
}

// needWall is a required wall.
type needWall struct {
	Pos  lexer.Position
	Wall place.Wall
}

func (w *needWall) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	if t.Type != lex.Wall {
		return missing(in, wallsFit)
	}
	in.Next()
	*w = needWall{t.Pos, place.Wall(t.Value)}
	return nil
}

// needX is the required x between two sides.
type needX struct{ _ int }

func (*needX) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Value != "x" {
		return missing(in, sidesFit)
	}
	in.Next()
	return nil
}

const wallsFit = "a wall: north, east, south or west"

const sidesFit = "x and the other side"

type noSurface struct{ _ int }

func (*noSurface) Parse(in *lexer.PeekingLexer) error {
	return missing(in, "a strap and its number, a wall or the ceiling")
}

type noCorner struct{ _ int }

func (*noCorner) Parse(in *lexer.PeekingLexer) error {
	return missing(in, `a corner ("ne") or a place at a wall ("north 60 off west")`)
}

// missing returns the error for a required slot that is empty.
func missing(in *lexer.PeekingLexer, want string) error {
	return &unfilled{*in.Peek(), want}
}

type unfilled struct {
	token lexer.Token
	want  string
}

func (u *unfilled) Error() string { return participle.FormatError(u) }

func (u *unfilled) Message() string { return "expected " + u.want }

func (u *unfilled) Position() lexer.Position { return u.token.Pos }
