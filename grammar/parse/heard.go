package parse

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/hanging"
	"strapline/grammar/landmark"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/question"
	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/unread"
	"strapline/grammar/wording"
)

// A line that says or asks something about the job gets an answer even if no rule reads it. This file
// looks for other words that a rule does read, for what has to be asked first, and for what cannot be
// noted yet. Anything else about the job is kept as a note in its own words. Talk gets no answer.

// heard reads a line that no rule reads. It returns err if it finds nothing better.
func (u *unreadLine) heard(err error) (grammar.Line, error) {
	l := u.Source
	_, doubt := errors.AsType[*grammar.Ask](err)
	said := l.AsSaid()
	if sum := hanging.AsSum(said); sum != "" && !(doubt && l.Asked) {
		if got, serr := l.Again(sum); serr == nil {
			return got, nil
		} else if ask, ok := errors.AsType[*grammar.Ask](serr); ok {
			return l.Line, l.Choices(ask)
		}
	}
	if requested.MatchString(said) {
		for _, all := range [][]speech.Guess{u.told(), u.boards()} {
			if got, ok := u.certain(all); ok {
				return got, nil
			}
		}
	}
	if unread.Wants.MatchString(said) {
		return l.Line, unread.Kept(l, "")
	}
	asks := said != "" && l.AsksSomething()
	if doubt {
		if m := u.spots(); m != nil && m.Worked && m.Lost == 0 { // "78-87 up" is no length
			if got, gerr, ok := u.placed(nil); ok {
				return got, gerr
			}
		}
		return l.Line, err
	}
	if asks {
		if got, ok := sorted(l, said); ok {
			return got, nil
		}
	} else if got, ok := u.certain(u.boards()); ok && l.Unknown == "" {
		return got, nil
	} else if got, gerr, ok := u.corrected(said, true); ok && said != "" && len(said) <= longestHeard {
		return got, gerr
	} else if got, gerr, ok := u.wallsNamed(); ok {
		return got, gerr
	} else if got, gerr, ok := landmark.Read(l); ok {
		return got, gerr
	} else if got, gerr, ok := u.placed(nil); ok && said != "" && len(said) <= longestHeard {
		return got, gerr
	}
	if !asks && said != "" {
		if got, gerr := l.Again(question.Order(l, said)); gerr == nil {
			return got, nil
		}
	}
	if said == "" || len(said) > longestHeard || l.Asked && strings.HasPrefix(said, "first ") { // the answer to "where is the first one?"
		return l.Line, err
	}
	if plain := l.ByNumber(said, true); !l.Question && plain != lex.Lower(strings.TrimSpace(l.Text)) {
		if got, gerr := l.Again(plain); gerr == nil {
			return got, nil
		}
	}
	if all := u.boards(); !asks && len(all) == 1 && all[0].Lost == 0 && (!all[0].Note && strings.Contains(all[0].Text, "\n") || strings.HasPrefix(all[0].Text, "delivered ")) { // each word has its part, in several things
		return l.Line, err
	}
	got, proposed, ok := u.ofRough()
	if as, asks := errors.AsType[*grammar.Ask](proposed); ok && !(asks && as.Keep) { // what is only proposed may have a sure reading
		return got, proposed
	}
	if !asks {
		if got, ok := sorted(l, said); ok {
			return got, nil
		}
	}
	if namesOne(l) {
		if got, gerr, ok := wording.HeldTo(l, said); ok {
			return got, gerr
		}
	}
	if got, gerr, ok := u.corrected(said, false); ok {
		return got, gerr
	}
	for _, r := range wording.Otherwise {
		if m := r.Said.FindStringSubmatchIndex(said); m != nil &&
			!(r.Means[0] == "order" && elsewhere.MatchString(said)) && !(l.Cmd != nil && l.Cmd.Kind == "room" && strings.HasPrefix(r.Means[0], "gap")) {
			got, gerr := l.Again(string(r.Said.Regexp().ExpandString(nil, r.Means[0], said, m)))
			if gerr == nil {
				return got, nil
			}
		}
	}
	if proposed != nil {
		return l.Line, proposed
	}
	for _, r := range wording.Asking {
		m := r.Said.FindStringSubmatchIndex(said)
		if m == nil || strings.HasPrefix(r.Means[1], "room ") && (l.Cmd != nil || !asks && len(u.boards()) > 0 || namesOpening(l) || !strings.ContainsAny(said, "'’m") && !strings.Contains(said, "f")) || l.RoomFirst && l.Tokens[0].Type == lex.Number {
			continue
		}
		ask := l.Asks(string(r.Said.Regexp().ExpandString(nil, r.Means[0], said, m)))
		for _, means := range r.Means[1:] {
			text := read.PlainSpaces(string(r.Said.Regexp().ExpandString(nil, means, said, m)))
			got, gerr := l.Again(text)
			if inner, ok := errors.AsType[*grammar.Ask](gerr); ok && len(inner.Choices) > 0 {
				return l.Line, l.Choices(inner)
			}
			if gerr == nil {
				ask.Choices = append(ask.Choices, grammar.Choice{Label: text, Text: got.String()})
			}
		}
		if len(ask.Choices) > 1 || len(ask.Choices) == 1 && !strings.HasPrefix(ask.Choices[0].Label, "note ") { // a note needs no question
			if len(said) <= longestLead {
				ask.Why = said + ": " + ask.Why
			}
			return l.Line, ask
		}
	}
	return l.Line, err
}

// wallsNamed reads which wall is which, and which of them a side of the room runs to.
func (u *unreadLine) wallsNamed() (grammar.Line, error, bool) {
	if u.Cmd != nil || len(u.Rooms) == 0 || u.Unknown != "" || u.Begin >= len(u.Pieces) {
		return u.Line, nil, false
	}
	if lines := landmark.Called(u.Source); len(lines) == 1 {
		got, err := read.Nested(lines[0], u.Context)
		return got, err, err == nil
	} else if lines != nil {
		return u.asked([]speech.Guess{{Text: strings.Join(lines, "\n"), Worked: true}}, func(text string) (grammar.Line, error) { return read.Nested(text, u.Context) })
	}
	why, labels, texts := landmark.Between(u.Source)
	ask := u.Asks(why)
	for i, text := range texts {
		c := grammar.Choice{Label: labels[i]}
		for line := range strings.Lines(text) {
			got, err := read.Nested(strings.TrimSpace(line), u.Context)
			if err != nil {
				return u.Line, nil, false
			}
			c.Lines = append(c.Lines, got)
		}
		ask.Choices = append(ask.Choices, c)
	}
	switch {
	case len(texts) == 0:
		return u.Line, nil, false
	case len(texts) > 1:
		ask.Keep = true
		return u.Line, ask, true
	case len(ask.Choices[0].Lines) > 1 || strings.Contains(labels[0], "room "): // it turns the room
		ask.Why, ask.Choices[0].Label = "did you mean this?", strings.ReplaceAll(texts[0], "\n", "; ")
		return u.Line, orNote(u.Source, ask), true
	}
	return ask.Choices[0].Lines[0], nil, true
}

// requested matches a request to cut or order something.
var requested = pattern.Compile(`^(?:can|could|would|will) (?:you|u|ya|somebody|someone|one of you) (?:please |pls )?(?:cut|rip|make|send|order)\b`)

// namesOpening reports whether a line names a door or a window.
func namesOpening(l *read.Source) bool {
	return slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return places.Openings[p.Low] != "" })
}

// longestLead is the longest line that is repeated before a question about it, in bytes.
const longestLead = 44

// sorted reads a question by its words.
func sorted(l *read.Source, said string) (grammar.Line, bool) {
	means := question.Question(l, said)
	if means == "" {
		return grammar.Line{}, false
	}
	got, err := l.Again(means)
	return got, err == nil && (read.Words.Rows[got.Entry.Kind()].Asks || got.Entry.Kind() == "gap")
}

// elsewhere are places for which no order can be worked out.
var elsewhere = regexp.MustCompile(`\b(?:slopes?|walls?|layers?|stairs?|bulkhead)\b`)

// longestHeard limits the work for one line, in bytes.
const longestHeard = 200
