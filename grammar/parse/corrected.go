package parse

import (
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/relate"
	"strapline/grammar/speech"
)

// namesOne reports whether a statement has a word for something that may be noted.
func namesOne(l *read.Source) bool {
	return !l.Question && (l.Has(lex.Thing, "") || l.Has(lex.Name, "") || l.Has(lex.Support, "") || l.Has(lex.Service, ""))
}

// corrected reads a line about something noted that says what became of it: it is gone, it is somewhere else. sure
// says that only lines are read of which each word is accounted for. ok is false if it is none.
func (u *unreadLine) corrected(said string, sure bool) (got grammar.Line, err error, ok bool) {
	l := u.Source
	if !namesOne(l) && !l.Last.Now || l.Question || l.AsksSomething() {
		return l.Line, nil, false
	}
	right, taken, ask := relate.Corrected(l, said, !sure)
	if ask != nil && ask.Base != "" {
		return l.Line, ask, true
	} else if ask != nil {
		return l.Line, l.Choices(ask), true
	}
	if !taken && u.leaveOut([]speech.Guess{{Text: right}}) {
		return l.Line, nil, false
	}
	got, err = l.Again(right)
	switch {
	case right == "" || err != nil:
		return l.Line, nil, false
	case taken:
		return got, nil, true
	case sure:
		return l.Line, meant(l, right, got), true
	}
	return l.Line, orNote(l, meant(l, right, got)), true
}

// meant asks whether a line was meant.
func meant(l *read.Source, label string, got grammar.Line) *grammar.Ask {
	ask := l.Asks("did you mean this?")
	ask.Choices = []grammar.Choice{{Label: label, Lines: []grammar.Line{got}}}
	return ask
}
