package parse

import (
	"errors"
	"regexp"
	"strings"

	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/rough"
	"strapline/grammar/unread"
)

// ofRough reads a line about rooms, framing and runs by its words in any order, and asks whether that was
// meant if some of them have no part in it. ok is false if it is about none of these.
func ofRough(l *read.Source) (got grammar.Line, err error, ok bool) {
	if l.Lost || l.Begin >= len(l.Pieces) {
		return l.Line, nil, false
	}
	of, again := l, l.Again
	if l.Unknown != "" { // "den: 12'2 x 10'6" may be a new room
		of = read.CutLine(strings.Replace(l.Text, ":", ",", 1), l.Context)
		again = func(text string) (grammar.Line, error) {
			if !strings.HasPrefix(text, "room ") {
				return l.Line, grammar.ErrChatter
			}
			return read.Nested(text, l.Context)
		}
	}
	ask := l.Asks("did you mean this?")
	either := false
	for _, g := range rough.Of(of) {
		either = either || g.Either
		if g.Keep {
			kept := unread.Kept(l, "")
			if as, ok := errors.AsType[*unread.Keeps](kept); ok {
				as.Sure = true
			}
			return l.Line, kept, true
		}
		c := grammar.Choice{Label: label(g.Text)}
		for text := range strings.Lines(g.Text) {
			line, gerr := again(text)
			if inner, asks := errors.AsType[*grammar.Ask](gerr); asks && len(inner.Choices) > 0 && !strings.Contains(g.Text, "\n") {
				l.Line.Loose = true
				return l.Line, l.Choices(inner), true
			}
			if gerr != nil {
				return l.Line, nil, false
			}
			if g.Sure {
				return line, nil, true
			}
			c.Lines = append(c.Lines, line)
		}
		if g.Asks != "" {
			ask.Why = g.Asks
		}
		if c.Label = allOf(len(c.Lines), c.Label); g.Label != "" {
			c.Label = g.Label
		}
		if g.Note {
			c.Label, c.Lines = c.Label+", and the rest as a note", append(c.Lines, asNote(l))
		}
		ask.Choices = append(ask.Choices, c)
	}
	if len(ask.Choices) == 0 {
		return l.Line, nil, false
	}
	if either {
		return l.Line, ask, true
	}
	ask = orNote(l, ask)
	return l.Line, ask, true
}

// label words what is proposed: several entries on one line, and the ends of a run as crews say them.
func label(text string) string {
	text = strings.NewReplacer("\n", "; ", "from 0 up to 0 down", "from floor to ceiling").Replace(text)
	return atWall.ReplaceAllString(text, "$1")
}

var atWall = regexp.MustCompile(`((?:from|to) )0 off `)
