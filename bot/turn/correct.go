package turn

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/relate"
)

// A correction that names nothing is of what its sender said last: of what is asked about, if that is it, of what
// is held until its room is noted, or of their last note. If what was said last was not saved and the
// correction is of none of it, the last note is an older one that is probably right, so it is not changed
// without asking.

// corrects answers a correction of what its sender said last, unless that is their last note.
func (t *Turn) corrects(text string, open *pending.Question, mine bool) bool {
	room, i, held := t.lastHeld()
	asks := mine && open != nil && !open.Saved && (t.in.Thread != "" || t.l.Unsaved[t.Who()])
	if !asks && !held && !t.l.Unsaved[t.Who()] {
		return t.correctsLast(text)
	}
	by, ok := t.correction(text, open)
	switch {
	case !ok:
		return false
	case asks && (t.renews(open, by, text) || t.rewords(open, text)):
		return true
	case held:
		return t.changesHeld(room, i, by)
	}
	if s, swap := by.(record.Swap); swap && s.Old.L != 0 { // it says what it corrects
		return false
	}
	return t.asksWhich(text, open)
}

// correctsLast answers a correction of the place in the sender's last note, when that is of no one thing: the
// grammar knows the last thing alone.
func (t *Turn) correctsLast(text string) bool {
	last := t.l.State.LastOf(t.in.Who)
	if last == nil {
		return false
	}
	if b, ok := last.Body.(event.Stock); ok {
		if next, ok := revise.Recounted(t.Ctx(), b, text); ok {
			t.Take(revise.Correct(t.Ctx(), last, next))
			return true
		}
	}
	if relate.Opened(text) == text {
		return false
	}
	if _, thing := last.Body.(event.Thing); thing {
		return false
	}
	by, ok := t.correction(text, nil)
	if _, refix := by.(record.Refix); !ok || !refix {
		return false
	}
	t.line(grammar.Line{Entry: by})
	return true
}

// correction reads text as a correction of what is asked about. ok is false if it is none, or names what it
// corrects.
func (t *Turn) correction(text string, open *pending.Question) (by grammar.Entry, ok bool) {
	c := t.Ctx()
	c.Asked = &grammar.Last{Name: record.It, Now: true}
	if open != nil {
		c.Asked.What = open.What()
	}
	line, err := only(c.Parse(text, true))
	return line.Entry, err == nil && line.Room == "" && pending.Corrects(line.Entry)
}

// only takes the one line that a question offers.
func only(line grammar.Line, err error) (grammar.Line, error) {
	if ask, is := errors.AsType[*grammar.Ask](err); is && len(ask.Choices) == 1 && len(ask.Choices[0].Lines) == 1 {
		line, err = ask.Choices[0].Lines[0], nil
	}
	return line, err
}

// renews asks the question again with the correction in it, or takes what it is about if nothing is left to
// ask. "yes but 16 up" takes the one choice as corrected.
func (t *Turn) renews(open *pending.Question, by grammar.Entry, text string) bool {
	line, choices := open.Renewed(by, t.Ctx())
	switch {
	case line != nil:
		was := open.Line.String()
		t.Lead = append(t.Lead, fmt.Sprintf("changed to %s, from %s", line, was))
		t.answered(open, *line)
		return true
	case len(choices) == 0:
		return false
	case len(choices) == 1 && pending.Yes(strings.Fields(text)[0]): // "yes but 16 up"
		t.answering(open)
		t.choose(choices[0], open.Rest)
		return true
	}
	why := "did you mean this?"
	if len(choices) > 1 {
		why = "which one?"
	}
	if was := open.About(); was != "" {
		why = "in place of " + was + ": " + why
	}
	t.answering(open)
	t.Rest = Joined(open.Rest, t.Rest)
	t.Take(answer.Ask(why, "", append(choices[:min(len(choices), 8)], open.Declining()...)...))
	return true
}

// rewords reads what is asked about again with the correction in it, or asks in which place of it that belongs. It is for a
// question whose choices lead to another one, so no line of them has the number.
func (t *Turn) rewords(open *pending.Question, text string) bool {
	found := revise.InText(t.Ctx(), text, open.Said)
	if len(found) == 0 {
		return false
	}
	t.answering(open)
	if len(found) == 1 {
		t.Lead, t.Said = append(t.Lead, "changed to "+found[0]), found[0]
		t.choose(grammar.Choice{Text: found[0]}, open.Rest)
		return true
	}
	t.Rest = Joined(open.Rest, t.Rest)
	t.Take(answer.Ask("which one?", "", say.Each(found[:min(len(found), 8)], func(words string) grammar.Choice { return grammar.Reads(words, words) })...))
	return true
}

// changesHeld corrects a note that is held until its room is noted.
func (t *Turn) changesHeld(room string, i int, by grammar.Entry) bool {
	list := slices.Clone(t.l.Held[room])
	found := pending.Amended(list[i].Line, by, t.Ctx())
	if len(found) != 1 {
		t.Show(answer.No("your last note is only held: "+list[i].Line.String()+". Drop it and send it again", "undo"))
		return true
	}
	was := list[i].Line.String()
	list[i].Line = found[0]
	list[i].Said += say.AnswerSign + t.Said
	t.setHeld(room, list)
	t.Show(answer.Tell("held", nil, fmt.Sprintf("held, changed: %s (was %s)", found[0], was)))
	t.Ans.Room = room
	return true
}

// asksWhich asks whether a correction is of the sender's last note, though what they said since was not saved.
func (t *Turn) asksWhich(text string, open *pending.Question) bool {
	last := t.l.State.LastOf(t.in.Who)
	line, err := only(t.Ctx().Parse(text, false))
	if last == nil || err != nil {
		return false
	}
	if open != nil && !open.Saved && !open.Stays(t.l.Opt.Kinds) {
		t.drop(open)
	}
	t.asking = nil
	t.Take(answer.Ask(fmt.Sprintf("%s%d: %s. Is it that one?", pending.NothingSaved, last.Seq, say.FirstLine(last.Text)), "",
		grammar.Choice{Label: "change it", Lines: []grammar.Line{line}}, grammar.Choice{Label: "no: leave it"}))
	return true
}
