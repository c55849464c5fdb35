package read

import (
	"errors"
	"strings"

	"strapline/grammar"
)

// Again reads the line in other words, within its own frame.
func (l *Source) Again(text string) (grammar.Line, error) {
	got, err := Nested(PlainSpaces(text), l.Context)
	if got.Room == "" {
		got.Room = l.Room
	}
	if got.At == "" {
		got.At, got.Exact = l.At, l.Exact
	}
	if got.Before+got.After == 0 {
		got.Before, got.After = l.Before, l.After
	}
	if err == nil && (l.Room2 != "" || l.Unknown != "" || l.Mistimed > 0 || l.Question && !Words.Rows[got.Entry.Kind()].Asks && got.Entry.Kind() != "gap") {
		return got, grammar.ErrChatter
	}
	return got, err
}

func (l *Source) Asks(why string) *grammar.Ask {
	p := l.Pieces[l.Begin]
	return &grammar.Ask{Col: p.Col, Word: l.Text[p.Start:p.End], Why: why}
}

// Choices puts the frame around the choices of a question about the line in other words.
func (l *Source) Choices(inner *grammar.Ask) *grammar.Ask {
	ask := l.Asks(inner.Why)
	for _, c := range inner.Choices {
		got, err := l.Again(c.String())
		if _, more := errors.AsType[*grammar.Ask](err); more {
			ask.Choices = append(ask.Choices, c)
		} else if err == nil {
			ask.Choices = append(ask.Choices, grammar.Choice{Label: c.Label, Text: got.String()})
		}
	}
	return ask
}

// PlainSpaces puts single spaces where what was not said left more, and the sign of its unit.
func PlainSpaces(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, ` " `, " ")), " ")
}
