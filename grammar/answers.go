package grammar

import (
	"errors"
	"fmt"
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
	// Keep: the line tells something, and Hint is no line of its sender's: it is kept as a note.
	Keep bool
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
	Base    string // a line to which the answer is added
	Keep    bool   // the line is kept as a note if nobody answers
	Part    bool   // it is about a part of the line
}

func (a *Ask) Error() string {
	s := fmt.Sprintf("%d: ask: %s", a.Col, a.Why)
	for i, c := range a.Choices {
		s += fmt.Sprintf(" (%d) %s = %s", i+1, c.Label, c.String())
	}
	return s
}
