package unread

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
)

// told refuses statements about noted things and rows in words that do not change a note; nil if the line
// makes none.
func told(l *read.Source) *grammar.Refusal {
	at := l.Begin
	if at < len(l.Pieces) && (l.Opens("i", "we", "they", "just")) {
		at++
	}
	if l.Cmd != nil || at >= len(l.Pieces) {
		return nil
	}
	if r := toldDone(l); r != nil {
		return r
	}
	if m := saidMost.FindStringSubmatch(lex.Lower(l.Text[l.Pieces[l.Begin].Start:])); m != nil {
		return &grammar.Refusal{Col: l.Pieces[l.Begin].Col, Word: l.Text[l.Pieces[l.Begin].Start:l.Pieces[l.Begin].End], Want: `"longest in" before it`,
			Hint: "longest in " + m[1] + "'", Once: true}
	}
	if r := remeasured(l); r != nil {
		return r
	}
	p := l.Pieces[at]
	r := &grammar.Refusal{Col: p.Col, Word: l.Text[p.Start:p.End]}
	switch p.Low {
	case "move", "moved", "shift", "shifted":
		name := known(l)
		if name == "" || !l.Has(lex.Number, "") {
			return nil
		}
		r.Want, r.Hint = fmt.Sprintf(`"fix %s" and its new distances off the walls`, name), Finding(l, name)
		r.Once = !l.Measure() && !l.Has(lex.Wall, "") && !l.Has(lex.Support, "")
		return r
	}
	return nil
}

// remeasured refuses a room's name with two sides. The room may be declared already, and "room" says the
// same explicitly.
func remeasured(l *read.Source) *grammar.Refusal {
	i := slices.IndexFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == lex.Number })
	room := l.Room
	if l.Tokens[0].Type == lex.Room {
		room = l.Tokens[0].Value
	}
	if i < 0 || room == "" {
		return nil
	}
	for _, t := range l.Tokens[:i] { // "den is now"
		if t.Type != lex.Room && !read.Talk[t.Value] && t.Value != "is" {
			return nil
		}
	}
	hint := "room " + room + " " + strings.TrimRight(strings.TrimSuffix(l.Text[l.Tokens[i].Pos.Offset:], " now"), " .!")
	if got, err := read.Nested(hint, l.Context); err != nil || got.Entry.Kind() != "room" {
		return nil
	}
	r := l.Refuse(l.Tokens[i].Pos, `"room" before its name, when it is measured again`)
	r.Hint = hint
	return r
}

// saidDone are words that may mean that a row is hung, or that it is taped.
var saidDone = regexp.MustCompile(`^(?:(row )|r)([1-9]\d?) (done|finished|complete|in|on)$|^all (up)$`)

// saidMost are words that may give the longest board that gets in, or any other height.
var saidMost = regexp.MustCompile(`^(\d{1,2}) ?(?:'|ft|feet|footers?|s) max[.!]?$`)

// toldDone refuses them with the line that would say it explicitly: a ceiling wrongly taken for boarded
// hides what is not cut.
func toldDone(l *read.Source) *grammar.Refusal {
	m := saidDone.FindStringSubmatch(lex.Plain(l.Read[l.Pieces[l.Begin].Start:]))
	if m == nil || l.Question {
		return nil
	}
	for _, p := range l.Pieces[l.Begin:] {
		if p.Low != m[3]+m[4] {
			continue
		}
		r := &grammar.Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: `"up" when it hangs`, Hint: "hung row " + m[2], Once: m[1] == ""}
		if m[4] != "" {
			r.Hint = "ceiling up"
		}
		return r
	}
	return nil
}

// known returns the first thing that the line names: d1, "sink light", a light.
func known(l *read.Source) string {
	for i, t := range l.Tokens {
		switch {
		case t.Type == lex.Name && (lex.Shape(t.Value) || l.Name != nil && l.Name(t.Value)):
			return t.Value
		case t.Type == lex.Thing:
			if i > 0 && l.Noun != nil && l.Noun(l.Tokens[i-1].Value) {
				return l.Tokens[i-1].Value + " " + t.Value
			}
			return t.Value
		}
	}
	return ""
}

// Finding is a line that asks where a thing or a mark is.
func Finding(l *read.Source, name string) string {
	return cmp.Or(l.Attempt("find "+name, "find mark "+name), read.Words.Rows["find"].Example)
}

// answers reports whether a line after a question of ours consists of words that would answer it: "30
// north", "off west", "26 off est".
func answers(l *read.Source) bool {
	if !l.Asked || len(l.Tokens) > 6 || l.TalkIn(lex.Plain(l.Read)) != "" {
		return false
	}
	for i, t := range l.Tokens[1:] {
		before := l.Tokens[i]
		switch {
		case before.Type == lex.Number && (t.Value == "off" || t.Type == lex.Wall),
			before.Type == lex.Wall && t.Type == lex.Number,
			before.Value == "off" && (t.Type == lex.Wall || t.Type == lex.Place):
			return true
		}
	}
	return false
}
