package unread

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Judge turns an error into what the sender gets: an Ask, a Refusal with a hint that parses, or silence.
func Judge(l *read.Source, err error, about grammar.Kind) error {
	if _, ok := errors.AsType[*grammar.Ask](err); ok {
		return err
	}
	row := read.Words.Rows[about]
	if n := l.Begin + 2; about == "coat" && n < len(l.Pieces) && topic.Day[l.Pieces[n].Low] { // "coat 2 yesterday": it counts from when it is told
		return Kept(l, "")
	}
	if about == "boards" && !l.Measure() && ofCrew.MatchString(l.AsSaid()) {
		return Kept(l, "")
	}
	ours := ours(l, row)
	if r := told(l); r != nil {
		return l.Hinted(r)
	}
	if row == nil && !l.RoomFirst && !l.Addressed && !ours && !answers(l) {
		if err := misspelt(l); err != grammar.ErrChatter {
			return err
		}
		if r := swapped(l); r != nil {
			return l.Hinted(r)
		}
		if err := unread(l); err != nil {
			return err
		}
		return grammar.ErrChatter
	}
	r, ok := errors.AsType[*grammar.Refusal](err)
	if !ok {
		r = &grammar.Refusal{Col: l.Tokens[0].Pos.Column, Word: l.WordAt(l.Tokens[0].Pos.Offset), Want: beginnings}
		if perr, ok := err.(participle.Error); ok {
			r.Col, r.Word = perr.Position().Column, l.WordAt(perr.Position().Offset)
			if row != nil {
				r.Want = row.Fits
			}
			if u, ok := err.(*read.Unfilled); ok {
				r.Want = u.Want
			}
		}
	}
	if r.Word == "" {
		r.Col = len([]rune(l.Text)) + 1
	}
	if answers(l) && !l.Measure() {
		r.Want, r.Hint = `a distance, "off" and a wall: 30 off north`, read.Words.Rows["help"].Example
	}
	spelt := r.Hint == "" && hint(l, r, row)
	if r.Want == beginnings && !spelt && !l.Addressed && (r.Hint == read.Words.Rows["thing"].Say(l.Units) || r.Hint == read.Words.Rows["run"].Say(l.Units)) {
		if err := unread(l); err != nil {
			return err
		}
	}
	l.Hinted(r)
	r.Once = !ours && !l.Addressed && !l.Lost && everyday(l, row, spelt)
	long := len(l.Pieces)-l.Begin >= 7
	if l.Addressed || spelt || r.Near != "" && !long && !(l.Cmd != nil && l.Cmd.Kind == "stock") {
		return r
	}
	talks := remarks(l) || otherThings(l, r.Once) && !ours && !l.Lost ||
		r.Once && (strings.HasPrefix(l.AsSaid(), "room for ") || slices.ContainsFunc(l.Pieces[min(l.Begin+1, len(l.Pieces)):], func(p lex.Piece) bool { return offWork[p.Low] }) || !l.Has(lex.Number, "") && !l.Opens("log", "set", "help") && l.TalkIn(lex.Plain(l.Read[max(l.Ended, 0):])) != "")
	switch {
	case talks && roomSaid.MatchString(l.AsSaid()):
		return unread(l)
	case (long && (talks || r.Once || free(l) && General(r)) || strings.Contains(r.Hint, "note ") || r.Once && became[lex.Lower(r.Word)]) && Tells(l):
		return Kept(l, "")
	case talks:
		return grammar.ErrChatter // "cut my thumb"
	}
	return r
}

// otherThings reports whether a question or a command is also said about other things, and this one is.
func otherThings(l *read.Source, once bool) bool {
	return l.Cmd != nil && (l.Cmd.Chat != nil && l.Cmd.Chat(l) || once && (l.Cmd.Kind == "any" || l.Cmd.Kind == "find" && strings.HasPrefix(l.Pieces[l.Begin].Low, "where")))
}

// free reports whether a line is talk about the job rather than one of our forms with a mistake in it:
// three of its words are none that our forms need.
func free(l *read.Source) bool {
	others := 0
	for _, t := range l.Tokens {
		if _, ours := slices.BinarySearch(read.Words.Vocab, t.Value); t.Type == lex.Word && !ours {
			others++
		}
	}
	for _, p := range l.Pieces[l.Begin:] {
		if lex.Filler[p.Low] && p.Low != "wall" {
			others++
		}
	}
	return others > 2
}

const beginnings = "a thing, a wall, a row, a room or a command"

// ours reports whether the line is always answered: it has a length and a command, a wall, a support or a
// thing, or it names a row.
func ours(l *read.Source, row *read.Row) bool {
	for i, t := range l.Tokens {
		if t.Type == lex.Key && t.Value == "row" && row != nil && row.Kind != "ready" && row.Kind != "piece" && (i > 0 || l.Tokens[1].Type == lex.Number) {
			return true
		}
	}
	return l.Measure() && (row != nil || slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool {
		switch t.Type {
		case lex.Wall, lex.Support, lex.Thing, lex.Service, lex.Name:
			return true
		}
		return t.Type == lex.Key && t.Value == "ceiling"
	}))
}

// ofRow reports whether a line begins with a row or a piece.
func ofRow(l *read.Source) bool {
	t := l.Tokens[0]
	return l.Cmd == nil && (t.Value == "row" || t.Type == lex.Name && lex.IsPiece(t.Value))
}

// remarks reports whether a line begins with a row or a piece and goes on in other words: "row 2 looks
// good".
func remarks(l *read.Source) bool {
	if !ofRow(l) {
		return false
	}
	i := 1
	for l.Tokens[i].Type == lex.Number || l.Tokens[i].Value == "row" || l.Tokens[i].Value == "." {
		i++
	}
	said, rest := l.Tokens[i], l.Tokens[i:]
	talk := said.Type == lex.Word && (!slices.Contains(read.Words.Vocab, said.Value) || read.Talk[said.Value] && !read.HeadWord(said.Value))
	return talk && !slices.ContainsFunc(rest, func(t lexer.Token) bool { return t.Type == lex.Number })
}

// everyday reports whether a refused line may be ordinary talk that happens to begin with one of our
// words; it gets at most one hint. A line of which every word is ours, or nearly, is not talk.
func everyday(l *read.Source, row *read.Row, spelt bool) bool {
	rest := l.Tokens[1:]
	if row == nil {
		return l.RoomFirst
	}
	if row.Strict || spelt || len(rest) == 0 || rest[0].EOF() || rest[0].Type == lex.Name {
		return false
	}
	switch rest[0].Value {
	case "off", "up", "down", "of", "to", "not", "at": // "lights off at 5"
		return true
	}
	return slices.ContainsFunc(rest, func(t lexer.Token) bool {
		return t.Type == lex.Word || t.Type == lex.Text || t.Type == lex.Other || l.TalkIn(l.WordAt(t.Pos.Offset)) != ""
	}) || !slices.ContainsFunc(rest, func(t lexer.Token) bool { return t.Type == lex.Number || t.Type == lex.Name })
}

// misspelt handles a line that begins with none of our words, but may be for us if its first word is a
// misspelt one.
func misspelt(l *read.Source) error {
	known := slices.ContainsFunc(l.Tokens[1:], func(t lexer.Token) bool {
		switch t.Type {
		case lex.Number, lex.Name, lex.Wall, lex.Support, lex.Thing, lex.Service, lex.Room:
			return true
		}
		return false
	})
	if !known || l.Tokens[0].Type != lex.Word || len(l.Pieces) < 2 || len(l.Pieces) > 24 {
		return grammar.ErrChatter
	}
	i := l.PieceAt(l.Tokens[0].Pos.Offset)
	if i < 0 || len(l.Pieces[i].Low) < 4 {
		return grammar.ErrChatter
	}
	near, fixed := corrected(l, i)
	if fixed == "" || read.Words.Rows[read.HeadOf(near)] != nil && read.Words.Rows[read.HeadOf(near)].Text || near == "log" || near == "help" {
		return grammar.ErrChatter
	}
	return &grammar.Refusal{Col: l.Pieces[i].Col, Word: l.Text[l.Pieces[i].Start:l.Pieces[i].End], Want: beginnings, Near: near, Hint: fixed, Once: true}
}

// swapped refuses a thing with two letters of its kind swapped and no distance: "ligth over door". Any
// other slip would match too many words of talk: "right over there".
func swapped(l *read.Source) *grammar.Refusal {
	i := l.PieceAt(l.Tokens[0].Pos.Offset)
	if i < 0 || l.Tokens[0].Type != lex.Word || len(l.Tokens) < 2 || !slices.Contains([]string{"over", "by", "near", "above", "in"}, l.WordAt(l.Tokens[1].Pos.Offset)) {
		return nil
	}
	p := l.Pieces[i]
	near := grammar.Nearest(p.Low, read.Words.Vocab)
	sorted := func(s string) string { return string(slices.Sorted(slices.Values([]byte(s)))) }
	if near == "" || near == p.Low || lex.Phrases.Whole(near).Type != lex.Thing || sorted(near) != sorted(p.Low) {
		return nil
	}
	return &grammar.Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: near + ", and two distances", Near: near, Hint: read.Words.Rows["thing"].Say(l.Units), Once: true}
}

// General reports whether a refusal's hint is unrelated to the line.
func General(r *grammar.Refusal) bool {
	return r.Plain || r.Hint == "" || strings.HasPrefix(r.Hint, "find ") || strings.HasPrefix(r.Hint, "help ") || strings.HasPrefix(r.Hint, "note ") ||
		slices.ContainsFunc(read.Kinds, func(k read.Row) bool { return r.Hint == k.Example || r.Hint == k.Metric })
}

// LosesFact reports whether a refused line tells a number that its hint leaves out. Of an order that breaks off, such
// as "gap 9 x", nothing is lost.
func LosesFact(l *read.Source, r *grammar.Refusal) bool {
	if r.Plain || r.Once || !l.Has(lex.Number, "") || l.AsksSomething() || l.Cmd != nil && (r.Word == "" || read.Words.Rows[l.Cmd.Kind] != nil && read.Words.Rows[l.Cmd.Kind].Asks) {
		return false
	}
	in := figure.FindAllString(r.Hint, -1)
	return General(r) || slices.ContainsFunc(figure.FindAllString(l.Text, -1), func(n string) bool { return !slices.Contains(in, n) })
}

var figure = regexp.MustCompile(`\d+`)

// Own returns the hint if it is the sender's own line put right, "" if it is an example.
func Own(r *grammar.Refusal) string {
	if General(r) {
		return ""
	}
	return r.Hint
}
