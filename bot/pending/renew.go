package pending

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// Renewed returns what a correction makes of the lines that the question is about: a line that is read in full,
// of which nothing but the correction is new, or the choices that there are then. It returns neither if the
// correction changes nothing of it.
func (q *Question) Renewed(by grammar.Entry, c answer.Ctx) (line *grammar.Line, choices []grammar.Choice) {
	if q.Line != nil {
		found := Amended(*q.Line, by, c)
		switch {
		case len(found) == 1:
			return &found[0], nil
		case len(found) > 1:
			return nil, each(found)
		}
	}
	for _, ch := range q.Choices {
		if len(ch.Lines) == 1 && !declines(ch) {
			choices = append(choices, each(Amended(ch.Lines[0], by, c))...)
		} else if s, swap := by.(record.Swap); swap && len(ch.Lines) > 1 {
			choices = append(choices, alike(ch.Lines, s)...)
		}
	}
	return nil, choices
}

// Amended returns what a correction could make of a line.
func Amended(l grammar.Line, by grammar.Entry, c answer.Ctx) (all []grammar.Line) {
	if in, ok := by.(record.Instead); ok && in.Room != "" {
		if l.Room == in.Room {
			return nil
		}
		l.Room = in.Room
		return []grammar.Line{l}
	}
	found := amend.Entry(l.Entry, by, c.Units)
	if s, ok := by.(record.Swap); ok && s.Old.L == 0 {
		found = amend.Likely(l.Entry, found)
	}
	for _, e := range found {
		next := l
		next.Entry = e
		all = append(all, next)
	}
	return all
}

func each(lines []grammar.Line) []grammar.Choice {
	return say.Each(lines, func(l grammar.Line) grammar.Choice {
		return grammar.Choice{Label: l.String(), Lines: []grammar.Line{l}}
	})
}

// alike returns the choice of several lines with the distance changed that they share.
func alike(lines []grammar.Line, s record.Swap) []grammar.Choice {
	all := make([]grammar.Entry, len(lines))
	for i, l := range lines {
		all[i] = l.Entry
	}
	next, ok := amend.Alike(all, s)
	if !ok {
		return nil
	}
	c := grammar.Choice{Lines: slices.Clone(lines)}
	for i, e := range next {
		c.Lines[i].Entry = e
	}
	c.Label = fmt.Sprintf("all %d: %s", len(lines), strings.ReplaceAll(c.String(), "\n", "; "))
	return []grammar.Choice{c}
}

// declines reports whether a choice only gives the question up.
func declines(c grammar.Choice) bool { return strings.HasPrefix(c.Label, "no: ") }

// Declining returns the choices that only give the question up.
func (q *Question) Declining() []grammar.Choice {
	return slices.DeleteFunc(slices.Clone(q.Choices), func(c grammar.Choice) bool { return !declines(c) })
}

// About returns the one line that the question is about, "" if there are several.
func (q *Question) About() string {
	if q.Line != nil {
		return q.Line.String()
	}
	about := ""
	for _, c := range q.Choices {
		if len(c.Lines) == 1 && !declines(c) {
			if about != "" {
				return ""
			}
			about = c.Lines[0].String()
		}
	}
	return about
}

// What returns the kind of thing that the question is about, "" if it is about none.
func (q *Question) What() string {
	lines := []grammar.Line{}
	if q.Line != nil {
		lines = append(lines, *q.Line)
	}
	for _, c := range q.Choices {
		lines = append(lines, c.Lines...)
	}
	for _, l := range lines {
		if th, ok := l.Entry.(things.Thing); ok {
			return th.What
		}
	}
	return ""
}

// Corrects reports whether an entry corrects what was said last, and names nothing that is noted.
func Corrects(e grammar.Entry) bool {
	switch e := e.(type) {
	case record.Swap:
		return e.Of == "" || e.Of == record.It
	case record.Instead:
		return e.Of == "" || e.Of == record.It
	case record.Turn:
		return e.Of == "" || e.Of == record.It
	case record.Refix:
		return e.Name == record.It
	}
	return false
}
