package read

import (
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// Saying is a run of words that name something, as typed except for case and filler.
type Saying struct {
	Pos   lexer.Position
	Raw   string // as typed, with the sign after it
	Text  string
	First lex.Type
	Times string // " x 2" behind all of a kind, if they were counted, " but d1" if it is left out
}

// Take consumes the tokens of the run. It returns false if there are none.
func (s *Saying) Take(in *lexer.PeekingLexer, belongs func(*lexer.Token) bool) bool {
	first := *in.Peek()
	for !in.Peek().EOF() && belongs(in.Peek()) {
		in.Next()
	}
	end := in.Peek().Pos.Offset
	if end == first.Pos.Offset {
		return false
	}
	raw := strings.TrimSpace(first.Pos.Filename[first.Pos.Offset:end])
	*s = Saying{Pos: first.Pos, Raw: raw, Text: lex.Plain(raw), First: first.Type}
	return true
}

// InLabel reports whether a token may be part of a label: not a word of the grammar, not a number, and not
// a name with the shape of d1.
func InLabel(t *lexer.Token) bool {
	switch t.Type {
	case lex.Word:
		return !topic.Noise(t.Value)
	case lex.Thing, lex.Service, lex.Room, lex.Place:
		return true
	case lex.Tag:
		return t.Value != "studs"
	case lex.Name:
		return len(t.Value) > 1 && !lex.Shape(t.Value)
	}
	return false
}

// Label distinguishes a thing that has no name with the shape of d1. A room at its start is the room, and
// not part of it.
type Label struct{ Saying }

func (w *Label) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Type == lex.Room || !w.Take(in, InLabel) {
		return participle.NextMatch
	}
	return nil
}

// Lead is a label before its thing: "sink light". It stops before the last thing of the run.
type Lead struct{ Saying }

func (w *Lead) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Type == lex.Thing {
		return participle.NextMatch
	}
	var run Lead
	before := in.MakeCheckpoint()
	last := -1
	run.Take(in, func(t *lexer.Token) bool {
		if t.Type == lex.Thing {
			last = t.Pos.Offset
		}
		return InLabel(t)
	})
	in.LoadCheckpoint(before)
	if !w.Take(in, func(t *lexer.Token) bool { return t.Pos.Offset < last }) {
		return participle.NextMatch
	}
	switch first, _, _ := strings.Cut(w.Text, " "); first {
	case "by", "over", "near", "above", "behind": // it precedes what the thing is near
		in.LoadCheckpoint(before)
		return participle.NextMatch
	}
	return nil
}

// Noted is a thing as people call it: "the light over the sink".
type Noted struct{ Saying }

func (w *Noted) Parse(in *lexer.PeekingLexer) error {
	if !w.Take(in, func(t *lexer.Token) bool { return InLabel(t) || t.Type == lex.Name || t.Type == lex.Wall }) {
		return Missing(in, "a noted thing")
	}
	return nil
}

// Aim is what a distance is measured from, as people call it: "the sink light", "that one".
type Aim struct{ Saying }

func (w *Aim) Parse(in *lexer.PeekingLexer) error {
	if !w.Take(in, InLabel) {
		return Missing(in, "a strap and its number, a mark or a noted thing")
	}
	return nil
}

// parted matches what separates the names of a list.
var parted = regexp.MustCompile(`(?i)[,&+]|\sand\s`)

// Known returns the names. Each must be, or may become, a known noun, or be a single word next to
// something that shows that the line is for us: a row, or another name.
func (w *Names) Known(l *Source, sure bool) ([]string, error) {
	var list []string
	for _, s := range w.List {
		sure = sure || s.First == lex.Name || l.MayName(s.Text)
	}
	for _, s := range w.List {
		if s.First != lex.Name {
			s.Text = grammar.CanonicalThings(s.Text)
			if s.Text != "all thing" && s.Text != "all things" && !l.MayName(s.Text) && !(sure && l.Word(s.Text)) {
				return nil, l.Refuse(s.Pos, "the name of a noted thing")
			}
			if each := strings.Fields(s.Text); len(each) > 1 && !slices.ContainsFunc(each, func(n string) bool { return !l.nameLike(n) }) {
				list = append(list, each...)
				continue
			}
		}
		list = append(list, s.Text+s.Times)
	}
	return list, nil
}

// timesAndBut matches how many of all of a kind are meant, by which wall, and what is left out: "x 2", "at east", "but d1".
var timesAndBut = regexp.MustCompile(`^(?:x \d+ ?)?(?:at (?:north|east|south|west) ?)?(?:off [^ ,]+ ?)?(?:but [^,]+)?`)

// Names is a list of names: d1 d2, or descriptions of what was noted ("sink light").
type Names struct{ List []Saying }

func (w *Names) Parse(in *lexer.PeekingLexer) error {
	for {
		var s Saying
		t := *in.Peek()
		switch {
		case t.Type == lex.Name:
			in.Next()
			s = Saying{Pos: t.Pos, Raw: t.Value, Text: t.Value, First: lex.Name}
		case !s.Take(in, func(next *lexer.Token) bool {
			return InLabel(next) && next.Type != lex.Name && next.Value != "but" && !parted.MatchString(next.Pos.Filename[t.Pos.Offset:next.Pos.Offset])
		}):
			if len(w.List) == 0 {
				return Missing(in, "a name")
			}
			return nil
		}
		if rest := in.Peek().Pos; strings.HasPrefix(s.Text, "all ") {
			m := timesAndBut.FindString(rest.Filename[rest.Offset:])
			for !in.Peek().EOF() && in.Peek().Pos.Offset < rest.Offset+len(m) {
				in.Next()
			}
			s.Times = strings.TrimRight(" "+m, " ")
		}
		w.List = append(w.List, s)
	}
}

// Anything is the rest of a line, in words.
type Anything struct{ Saying }

func (w *Anything) Parse(in *lexer.PeekingLexer) error {
	if !w.Take(in, func(*lexer.Token) bool { return true }) {
		return Missing(in, "a name")
	}
	return nil
}

// MayName reports whether said names something that may have been noted. It has at most five words, none of
// them talk. One of them is a thing or a declared name, or all are words of notes or look like names.
func (l *Source) MayName(said string) bool {
	fields := strings.Fields(said)
	if len(fields) == 0 || len(fields) > 5 || l.TalkIn(said) != "" {
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
func (l *Source) nameLike(w string) bool {
	if len(w) > 6 || w[0] < 'a' || w[0] > 'z' || slices.Contains(soft, w) {
		return false
	}
	return strings.ContainsAny(w, "0123456789") || len(w) <= 2 && !strings.HasPrefix(l.Pieces[l.Begin].Low, "where")
}

// Word reports whether said is one word that may be a name although nothing has been noted by it; the
// handler can say so.
func (l *Source) Word(said string) bool {
	return said != "" && !strings.Contains(said, " ") && l.TalkIn(said) == ""
}

// TalkIn returns the first word of ordinary talk in said.
func (l *Source) TalkIn(said string) string {
	for _, w := range strings.Fields(said) {
		if Talk[w] {
			return w
		}
	}
	return ""
}

// Courtesy is words that people add to a question without changing it.
type Courtesy struct{ _ int }

func (*Courtesy) Parse(in *lexer.PeekingLexer) error {
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

// NeedX is the required x between two sides.
type NeedX struct{ _ int }

func (*NeedX) Parse(in *lexer.PeekingLexer) error {
	if in.Peek().Value != "x" {
		return Missing(in, SidesFit)
	}
	in.Next()
	return nil
}

const SidesFit = "x and the other side"

type NoSurface struct{ _ int }

func (*NoSurface) Parse(in *lexer.PeekingLexer) error {
	return Missing(in, "a strap and its number, a wall or the ceiling")
}

type NoCorner struct{ _ int }

func (*NoCorner) Parse(in *lexer.PeekingLexer) error {
	return Missing(in, `a corner ("ne") or a place at a wall ("north 60 off west")`)
}

// Missing returns the error for a required slot that is empty.
func Missing(in *lexer.PeekingLexer, want string) error {
	return &Unfilled{*in.Peek(), want}
}

type Unfilled struct {
	Token lexer.Token
	Want  string
}

func (u *Unfilled) Error() string { return participle.FormatError(u) }

func (u *Unfilled) Message() string { return "expected " + u.Want }

func (u *Unfilled) Position() lexer.Position { return u.Token.Pos }
