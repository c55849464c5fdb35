package grammar

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// ErrChatter means that the line is not for us: say nothing.
var ErrChatter = errors.New("chatter")

// Refusal says what in a line could not be read: where, which word, what would fit there, and an example
// that parses.
type Refusal struct {
	Col  int    // in runes, from 1
	Word string // "" at the end of the line
	Want string
	Hint string
	Near string // the known word nearest to Word, "" if none is near
	Once bool   // a near miss in a busy channel: hint at most once
	// Plain: Want is the whole answer, not what would fit.
	Plain bool
}

func (r *Refusal) Error() string {
	s := fmt.Sprintf("%d: %q: expected %s", r.Col, r.Word, r.Want)
	if r.Word == "" {
		s = fmt.Sprintf("%d: end of line: expected %s", r.Col, r.Want)
	}
	if r.Near != "" {
		s += "; " + r.Near + "?"
	}
	if r.Hint != "" {
		s += "; try: " + r.Hint
	}
	if r.Once {
		s += " (once)"
	}
	return s
}

// Ask is the error for a line with two readings. Each choice is a whole line with one of them. Without
// choices nothing can be offered, and Why says what to send.
type Ask struct {
	Col     int
	Word    string // the ambiguous words as typed
	Why     string // "84 2: 2 what?"
	Choices []Choice
	Keep    bool // the line is kept as a note if nobody answers
}

func (a *Ask) Error() string {
	s := fmt.Sprintf("%d: ask: %s", a.Col, a.Why)
	for i, c := range a.Choices {
		s += fmt.Sprintf(" (%d) %s = %s", i+1, c.Label, c.String())
	}
	return s
}

func (l *line) refuse(pos lexer.Position, want string) *Refusal {
	return &Refusal{Col: pos.Column, Word: l.wordAt(pos.Offset), Want: want}
}

func (l *line) refuseEnd(want string) error {
	return l.refuse(l.Tokens[len(l.Tokens)-1].Pos, want)
}

// refuseAt refuses what is at a byte of the line.
func (l *line) refuseAt(offset int, want string) error {
	for _, p := range l.Pieces {
		if p.Start >= offset && !p.Gone {
			return &Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: want}
		}
	}
	return l.refuseEnd(want)
}

func (l *line) refuseWord(word, want string) error {
	for _, p := range l.Pieces {
		if p.Low == word {
			return &Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: want}
		}
	}
	return l.refuseEnd(want)
}

// noRoom refuses a line for a room that is not declared.
func (l *line) noRoom(offset int, said string) error {
	l.lost = l.before != "" || l.measure() || l.has(lex.Key, "row")
	r := &Refusal{Word: said, Want: "a room of this job", Near: Nearest(said, l.roomNames())}
	for _, p := range l.Pieces {
		if p.Start >= offset {
			r.Col = p.Col
			break
		}
	}
	r.Hint = "room " + said + strings.TrimPrefix(words.rows["room"].Say(l.Units), "room kitchen")
	if i := strings.Index(lex.Lower(l.Text[offset:]), said); r.Near != "" && i >= 0 {
		r.Hint = cmp.Or(l.attempt(l.with(cut{offset + i, offset + i + len(said), r.Near})), r.Hint)
	}
	return r
}

func (l *line) roomNames() []string { return slices.Sorted(maps.Keys(l.Rooms)) }

// wordAt returns what is typed at this byte.
func (l *line) wordAt(offset int) string {
	for _, p := range l.Pieces {
		if p.Start >= offset && !p.Gone {
			return l.Text[p.Start:p.End]
		}
	}
	return ""
}

// judge turns an error into what the sender gets: an Ask, a Refusal with a hint that parses, or silence.
func (l *line) judge(err error, about Kind) error {
	if _, ok := errors.AsType[*Ask](err); ok {
		return err
	}
	row := words.rows[about]
	ours := l.ours(row)
	if r := l.told(); r != nil {
		return l.hinted(r)
	}
	if row == nil && !l.first && !l.addressed && !ours && !l.answers() {
		if err := l.misspelt(); err != ErrChatter {
			return err
		}
		if r := l.swapped(); r != nil {
			return l.hinted(r)
		}
		if r := l.asksOfNoted(); r != nil {
			return l.hinted(r)
		}
		if err := l.unread(); err != nil {
			return err
		}
		return ErrChatter
	}
	r, ok := errors.AsType[*Refusal](err)
	if !ok {
		r = &Refusal{Col: l.Tokens[0].Pos.Column, Word: l.wordAt(l.Tokens[0].Pos.Offset), Want: beginnings}
		if perr, ok := err.(participle.Error); ok {
			r.Col, r.Word = perr.Position().Column, l.wordAt(perr.Position().Offset)
			if row != nil {
				r.Want = row.Fits
			}
			if u, ok := err.(*unfilled); ok {
				r.Want = u.want
			}
		}
	}
	if r.Word == "" {
		r.Col = len([]rune(l.Text)) + 1
	}
	if l.answers() && !l.measure() {
		r.Want, r.Hint = `a distance, "off" and a wall: 30 off north`, words.rows["help"].Example
	}
	spelt := r.Hint == "" && l.hint(r, row)
	if r.Want == beginnings && !spelt && !l.addressed && (r.Hint == words.rows["thing"].Say(l.Units) || r.Hint == words.rows["run"].Say(l.Units)) {
		if err := l.unread(); err != nil {
			return err
		}
	}
	l.hinted(r)
	r.Once = !ours && !l.addressed && !l.lost && l.everyday(row, spelt)
	long := len(l.Pieces)-l.begin >= 7
	if l.addressed || spelt || r.Near != "" && !long && !(l.cmd != nil && l.cmd.Kind == "stock") {
		return r
	}
	talks := l.remarks() || l.otherThings(r.Once) && !ours && !l.lost ||
		r.Once && (strings.HasPrefix(l.asSaid(), "room for ") || !l.has(lex.Number, "") && !l.opens("log", "set", "help") && l.talkIn(lex.Plain(l.Read[max(l.ended, 0):])) != "")
	switch {
	case talks && roomSaid.MatchString(l.asSaid()):
		return l.unread()
	case (long && (talks || r.Once || l.free() && r.general()) || strings.Contains(r.Hint, "note ") || r.Once && became[lex.Lower(r.Word)]) && l.tells():
		return l.kept("")
	case talks:
		return ErrChatter // "cut my thumb"
	}
	return r
}

// otherThings reports whether a question or a command is also said about other things, and this one is.
func (l *line) otherThings(once bool) bool {
	return l.cmd != nil && (l.cmd.talk != nil && l.cmd.talk(l) || once && (l.cmd.Kind == "any" || l.cmd.Kind == "find" && strings.HasPrefix(l.Pieces[l.begin].Low, "where")))
}

// free reports whether a line is talk about the job rather than one of our forms with a mistake in it:
// three of its words are none that our forms need.
func (l *line) free() bool {
	others := 0
	for _, t := range l.Tokens {
		if _, ours := slices.BinarySearch(words.vocab, t.Value); t.Type == lex.Word && !ours {
			others++
		}
	}
	for _, p := range l.Pieces[l.begin:] {
		if lex.Filler[p.Low] && p.Low != "wall" {
			others++
		}
	}
	return others > 2
}

const beginnings = "a thing, a wall, a row, a room or a command"

// ours reports whether the line is always answered: it has a length and a command, a wall, a support or a
// thing, or it names a row.
func (l *line) ours(row *kind) bool {
	for i, t := range l.Tokens {
		if t.Type == lex.Key && t.Value == "row" && row != nil && row.Kind != "ready" && row.Kind != "piece" && (i > 0 || l.Tokens[1].Type == lex.Number) {
			return true
		}
	}
	return l.measure() && (row != nil || slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool {
		switch t.Type {
		case lex.Wall, lex.Support, lex.Thing, lex.Service, lex.Name:
			return true
		}
		return t.Type == lex.Key && t.Value == "ceiling"
	}))
}

// remarks reports whether a line begins with a row or a piece and goes on in other words: "row 2 looks
// good".
func (l *line) remarks() bool {
	if t := l.Tokens[0]; l.cmd != nil || t.Value != "row" && !(t.Type == lex.Name && lex.IsPiece(t.Value)) {
		return false
	}
	i := 1
	for l.Tokens[i].Type == lex.Number || l.Tokens[i].Value == "row" || l.Tokens[i].Value == "." {
		i++
	}
	said, rest := l.Tokens[i], l.Tokens[i:]
	talk := said.Type == lex.Word && (!slices.Contains(words.vocab, said.Value) || talk[said.Value] && !headWord(said.Value))
	return talk && !slices.ContainsFunc(rest, func(t lexer.Token) bool { return t.Type == lex.Number })
}

// measure reports whether a number has a unit, a fraction, or something it is measured from.
func (l *line) measure() bool {
	if measured(l.Tokens) || l.has(lex.Number, "") && l.has(lex.Key, "off") && (l.has(lex.Wall, "") || l.has(lex.Support, "")) {
		return true
	}
	pairs := 0 // "60 west 100 north"
	for i, t := range l.Tokens {
		if t.Type == lex.Wall && l.afterLength(t) {
			if pairs++; pairs == 2 {
				return true
			}
		}
		if t.Type == lex.Wall && l.Tokens[i+1].EOF() && i > 1 && l.Tokens[i-1].Value == "of" && l.afterLength(l.Tokens[i-1]) { // "60 of west"
			return true
		}
		if t.Type != lex.Number {
			continue
		}
		_, n, _ := length.Scan(l.Read[t.Pos.Offset:], l.Units, length.One)
		said := l.Read[t.Pos.Offset : t.Pos.Offset+n]
		if next := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start >= t.Pos.Offset+n }); next > 0 && next+1 < len(l.Pieces) &&
			l.Pieces[next].Low == "in" && l.Pieces[next+1].Word() && l.Pieces[next+1].Low != "the" && !talk[l.Pieces[next+1].Low] { // "3 in out of plumb"
			return true
		}
		if strings.ContainsAny(said, `/"'½¼¾⅛⅜⅝⅞′″”’`) || strings.ContainsAny(said, "0123456789") && strings.ContainsFunc(said, unicode.IsLetter) {
			return true
		}
	}
	return false
}

// everyday reports whether a refused line may be ordinary talk that happens to begin with one of our
// words; it gets at most one hint. A line of which every word is ours, or nearly, is not talk.
func (l *line) everyday(row *kind, spelt bool) bool {
	rest := l.Tokens[1:]
	if row == nil {
		return l.first
	}
	if row.Strict || spelt || len(rest) == 0 || rest[0].EOF() || rest[0].Type == lex.Name {
		return false
	}
	switch rest[0].Value {
	case "off", "up", "down", "of", "to", "not", "at": // "lights off at 5"
		return true
	}
	return slices.ContainsFunc(rest, func(t lexer.Token) bool {
		return t.Type == lex.Word || t.Type == lex.Text || t.Type == lex.Other || l.talkIn(l.wordAt(t.Pos.Offset)) != ""
	}) || !slices.ContainsFunc(rest, func(t lexer.Token) bool { return t.Type == lex.Number || t.Type == lex.Name })
}

// misspelt handles a line that begins with none of our words, but may be for us if its first word is a
// misspelt one.
func (l *line) misspelt() error {
	known := slices.ContainsFunc(l.Tokens[1:], func(t lexer.Token) bool {
		switch t.Type {
		case lex.Number, lex.Name, lex.Wall, lex.Support, lex.Thing, lex.Service, lex.Room:
			return true
		}
		return false
	})
	if !known || l.Tokens[0].Type != lex.Word || len(l.Pieces) < 2 || len(l.Pieces) > 24 {
		return ErrChatter
	}
	i := l.pieceAt(l.Tokens[0].Pos.Offset)
	if i < 0 || len(l.Pieces[i].Low) < 4 {
		return ErrChatter
	}
	near, fixed := l.corrected(i)
	if fixed == "" || words.rows[headOf(near)] != nil && words.rows[headOf(near)].text || near == "log" || near == "help" {
		return ErrChatter
	}
	return &Refusal{Col: l.Pieces[i].Col, Word: l.Text[l.Pieces[i].Start:l.Pieces[i].End], Want: beginnings, Near: near, Hint: fixed, Once: true}
}

// swapped refuses a thing with two letters of its kind swapped and no distance: "ligth over door". Any
// other slip would match too many words of talk: "right over there".
func (l *line) swapped() *Refusal {
	i := l.pieceAt(l.Tokens[0].Pos.Offset)
	if i < 0 || l.Tokens[0].Type != lex.Word || len(l.Tokens) < 2 || !slices.Contains([]string{"over", "by", "near", "above", "in"}, l.wordAt(l.Tokens[1].Pos.Offset)) {
		return nil
	}
	p := l.Pieces[i]
	near := Nearest(p.Low, words.vocab)
	sorted := func(s string) string { return string(slices.Sorted(slices.Values([]byte(s)))) }
	if near == "" || near == p.Low || lex.Phrases.Whole(near).Type != lex.Thing || sorted(near) != sorted(p.Low) {
		return nil
	}
	return &Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: near + ", and two distances", Near: near, Hint: words.rows["thing"].Say(l.Units), Once: true}
}

// inWords reports whether the line begins with several words of a command that are also said about other
// things in a busy channel.
func (l *line) inWords() bool { return strings.Contains(l.began(), " ") }
