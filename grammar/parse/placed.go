package parse

import (
	"errors"
	"strings"

	"strapline/grammar"
	"strapline/grammar/clause"
	"strapline/grammar/read"
	"strapline/grammar/spots"
	"strapline/grammar/unread"
)

// placed reads things and where they are by the words of a line. ok is false if they tell nothing that can be
// taken; otherwise it is an entry, or a question. A single thing with words to spare is only asked about once it
// is clear why nothing else reads the line.
func placed(l *read.Source, why error) (got grammar.Line, err error, ok bool) {
	if l.Question || l.Lost || l.Begin >= len(l.Pieces) || len(l.Pieces) > 60 || l.Unknown != "" || l.Room2 != "" {
		return l.Line, nil, false
	}
	m := spots.Of(l.Read, spots.Context{Context: clause.Context{Names: l.Names, Last: l.Last.Wall}, Seen: l.Seen, EW: l.EW, NS: l.NS})
	if m == nil || m.Lost > mostLost {
		return l.Line, nil, false
	}
	if m.Lost > 0 && m.Base == "" && len(m.Readings) == 1 && len(m.Readings[0].Lines) == 1 {
		if r, refused := errors.AsType[*grammar.Refusal](why); why == nil || refused && (!unread.General(r) || len(l.Pieces)-l.Begin < 8) {
			return l.Line, nil, false // naming the wrong word helps more
		} else if refused && m.Lost == 1 {
			if hint := l.Attempt(m.Readings[0].Lines[0]); hint != "" {
				r.Hint = hint
				return l.Line, r, true
			}
		}
	} else if why != nil {
		return l.Line, nil, false
	}
	ask := l.Asks("did you mean this?")
	if m.Why != "" {
		ask.Why = m.Why
	}
	if m.Base != "" {
		ask.Base, ask.Keep = m.Base, true
		if l.Room != "" {
			ask.Base = l.Room + ": " + m.Base
		}
		return l.Line, ask, true
	}
	for _, r := range m.Readings {
		c := grammar.Choice{Label: strings.Join(r.Lines, "; ")}
		for _, text := range r.Lines {
			one, gerr := l.Again(text)
			if inner, asks := errors.AsType[*grammar.Ask](gerr); asks && len(inner.Choices) > 0 && len(r.Lines) == 1 && len(m.Readings) == 1 {
				return l.Line, l.Choices(inner), true
			}
			if gerr != nil {
				return l.Line, nil, false
			}
			c.Lines = append(c.Lines, one)
		}
		if m.Sure {
			return c.Lines[0], nil, true
		}
		if r.Short != "" {
			c.Label = r.Lines[0][:strings.Index(r.Lines[0], ",")] + " at " + r.Short
		}
		c.Label = allOf(len(r.Lines), c.Label)
		switch {
		case r.Label != "" && len(r.Lines) == 1 && m.Why != "":
			c.Label = r.Label
		case r.Label != "":
			c.Label = r.Label + ": " + c.Label
		}
		if l.Room != "" && m.Why == "" {
			c.Label = l.Room + ": " + c.Label
		}
		ask.Choices = append(ask.Choices, c)
	}
	if m.Why == "" || len(m.Readings[0].Lines) != 1 { // else each choice is an answer to it
		ask = orNote(l, ask)
	}
	ask.Keep, l.Line.Loose = true, m.Lost > 0 || !m.Tied
	return l.Line, ask, true
}
