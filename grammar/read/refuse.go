package read

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// RoomInLabel refuses a label that says the thing is in a room that is not declared: "smoke alarm in
// hall" is none of the room at hand.
func (l *Source) RoomInLabel(label string) error {
	words := strings.Fields(label)
	for i, w := range words {
		if i > 0 && words[i-1] == "in" && topic.RoomNoun[w] && l.Rooms[w] == "" {
			return l.NoRoom(max(strings.Index(lex.Lower(l.Text), " "+w)+1, 0), w)
		}
	}
	return nil
}

func (l *Source) Refuse(pos lexer.Position, want string) *grammar.Refusal {
	return &grammar.Refusal{Col: pos.Column, Word: l.WordAt(pos.Offset), Want: want}
}

func (l *Source) RefuseEnd(want string) error {
	return l.Refuse(l.Tokens[len(l.Tokens)-1].Pos, want)
}

// RefuseAt refuses what is at a byte of the line.
func (l *Source) RefuseAt(offset int, want string) error {
	for _, p := range l.Pieces {
		if p.Start >= offset && !p.Gone {
			return &grammar.Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: want}
		}
	}
	return l.RefuseEnd(want)
}

func (l *Source) RefuseWord(word, want string) error {
	for _, p := range l.Pieces {
		if p.Low == word {
			return &grammar.Refusal{Col: p.Col, Word: l.Text[p.Start:p.End], Want: want}
		}
	}
	return l.RefuseEnd(want)
}

// NoRoom refuses a line for a room that is not declared.
func (l *Source) NoRoom(offset int, said string) error {
	l.Lost = l.Unknown != "" || l.Measure() || l.Has(lex.Key, "row")
	r := &grammar.Refusal{Word: said, Want: "a room of this job", Near: grammar.Nearest(said, l.RoomNames())}
	for _, p := range l.Pieces {
		if p.Start >= offset {
			r.Col = p.Col
			break
		}
	}
	r.Hint = "room " + said + strings.TrimPrefix(Words.Rows["room"].Say(l.Units), "room kitchen")
	if i := strings.Index(lex.Lower(l.Text[offset:]), said); r.Near != "" && r.Near != said && i >= 0 {
		r.Hint = cmp.Or(l.Attempt(l.With(Edit{offset + i, offset + i + len(said), r.Near})), r.Hint)
	}
	return r
}

func (l *Source) RoomNames() []string { return slices.Sorted(maps.Keys(l.Rooms)) }

// WordAt returns what is typed at this byte.
func (l *Source) WordAt(offset int) string {
	for _, p := range l.Pieces {
		if p.Start >= offset && !p.Gone {
			return l.Text[p.Start:p.End]
		}
	}
	return ""
}
