package parse

import (
	"errors"
	"fmt"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/relate"
	"strapline/grammar/unread"
)

// namesOne reports whether a statement has a word for something that may be noted.
func namesOne(l *read.Source) bool {
	if strings.Contains(l.Text, "'s gone") { // "the fan's gone"
		return true
	}
	return !l.Question && (l.Has(lex.Thing, "") || l.Has(lex.Name, "") || l.Has(lex.Support, "") || l.Has(lex.Service, ""))
}

// corrected reads a line about something noted that says what became of it: it is gone, it is somewhere else. sure
// says that only lines are read of which each word is accounted for. ok is false if it is none.
func corrected(l *read.Source, said string, sure bool) (got grammar.Line, err error, ok bool) {
	if !namesOne(l) || l.AsksSomething() {
		return l.Line, nil, false
	}
	gone, ask := relate.Gone(l, said)
	right := ""
	if ask == nil && gone == "" {
		right, ok, ask = relate.RightedBy(l, said)
	}
	if ask != nil {
		return l.Line, l.Choices(ask), true
	}
	if right == "" && gone == "" && !sure {
		gone, right = relate.Loosely(l, said)
		if got, gerr := l.Again(right); gerr == nil {
			return l.Line, orNote(l, meant(l, right, got)), true
		}
	}
	if got, err = l.Again(gone); err == nil {
		return got, nil, true
	}
	if right != "" {
		got, err = l.Again(right)
		if ask, asks := errors.AsType[*grammar.Ask](err); asks {
			return l.Line, l.Choices(ask), true
		}
		if err == nil && !ok {
			return l.Line, meant(l, right, got), true
		}
		if err == nil {
			return got, nil, true
		}
	}
	if name, to, linked := relate.Subject(l.Context, said); linked && to == "wrong" && l.Context.KnowsOf(name) && !sure {
		r := l.Refuse(l.Tokens[0].Pos, fmt.Sprintf("where it should be: `fix %s` and its distances", name))
		r.Hint = unread.Finding(l, name)
		return l.Line, l.Hinted(r), true
	}
	return l.Line, nil, false
}

// meant asks whether a line was meant.
func meant(l *read.Source, label string, got grammar.Line) *grammar.Ask {
	ask := l.Asks("did you mean this?")
	ask.Choices = []grammar.Choice{{Label: label, Lines: []grammar.Line{got}}}
	return ask
}
