package turn

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/sentences"
)

// pick answers the open question with choice n.
func (t *Turn) pick(open *pending.Question, n int) {
	if open == nil {
		return
	}
	if open.Base != "" && n > len(open.Choices) && len(open.Declining()) == len(open.Choices) { // its base takes a number
		if line, err := t.Ctx().Parse(fmt.Sprintf("%s %d", open.Base, n), false); err == nil && open.AsksFor(line.Entry) {
			t.answered(open, line)
			return
		}
	}
	if n < 1 || n > len(open.Choices) {
		t.again(open, fmt.Sprintf("there is no choice %d. ", n))
		return
	}
	if t.l.Stale[t.Who()] && t.in.Thread == "" {
		t.again(open, "still open: ")
		return
	}
	t.answering(open)
	t.choose(open.Choices[n-1], open.Rest)
	t.keepsAnswered(open)
}

// answersOpen takes an entry that is none by itself as the answer to an open question, the sender's own or a colleague's. It
// reports whether it was one.
func (t *Turn) answersOpen(text string, open *pending.Question, mine bool, line grammar.Line, err error) bool {
	_, asks := errors.AsType[*grammar.Ask](err)
	_, refused := errors.AsType[*grammar.Refusal](err)
	alone := err == nil && !isBare(line) && !isKept(line)
	stale := t.l.Stale[t.Who()]
	if !alone && !asks && mine && !stale && t.meant(open, text) {
		return true
	}
	said := !errors.Is(err, grammar.ErrChatter) || pending.Tells(text) || mine && open.Near(text)
	if !alone && mine && open.Base != "" && said && !open.OfAnother(text) && !(open.Room() != "" && stale) && t.fills(open, text, err) {
		return true
	}
	if !alone && !asks && open == nil && said {
		if who, q, whole := pending.OfColleague(t.l.Pending, text, t.Ctx()); q != nil {
			t.Close(who, q)
			t.answered(q, whole)
			return true
		}
	}
	if refused && mine && open.Base != "" && said && text[0] >= '0' && text[0] <= '9' || mine && open.Excludes(text) {
		t.again(open, text+" does not fit there. ")
		return true
	}
	return false
}

// fills takes a text that completes the base of a question. alone is the error of the text by itself.
func (t *Turn) fills(open *pending.Question, text string, alone error) bool {
	for _, filled := range open.Filled(relate.Opened(text)) {
		whole, err := t.Ctx().Parse(open.Base+" "+filled, false)
		if err == nil && open.AsksFor(whole.Entry) {
			t.answered(open, whole)
			return true
		}
		if ask, asks := errors.AsType[*grammar.Ask](err); asks && !ask.Part && open.Led(ask, alone) {
			t.answering(open)
			t.Rest = strings.TrimSpace(open.Rest + "\n" + t.Rest)
			t.Take(answer.Asks(ask, ""))
			return true
		}
	}
	return false
}

// replaces takes a line that says in full what a question of the sender is about.
func (t *Turn) replaces(open *pending.Question, line grammar.Line, err error) bool {
	for q := open; !t.Beside && q != nil; q = q.Under {
		if n := q.Begun(line, err); n > 0 {
			t.pick(q, n)
			return true
		}
		if err == nil && q.Fuller(t.Ctx(), line) {
			t.Close(t.Who(), q)
			t.choose(grammar.Choice{Lines: append([]grammar.Line{line}, q.NoteBeside(line)...)}, q.Rest)
			return true
		}
	}
	return false
}

// meant takes an answer in words of the sender's own. It reports whether it was one.
func (t *Turn) meant(open *pending.Question, text string) bool {
	n := open.Means(text)
	if n == 0 && open.Ways() {
		n = open.Way(text, t.Ctx())
	}
	switch {
	case n > 0:
		t.pick(open, n)
		return true
	case n < 0:
		t.again(open, "that fits several: ")
		return true
	case pending.Unsure(text):
		t.Close(t.Who(), open)
		t.giveUp(open, true)
		t.Show(answer.Tell("kept", nil, "send it again when you know"))
		return true
	}
	if open.Base != "" || open.Saved || !open.Ways() {
		return false
	}
	line, err := t.Ctx().Parse(open.Said+" "+text, false)
	if err != nil || !open.Completed(line, open.Said) {
		return false
	}
	t.answered(open, line)
	return true
}

// fewestTelling is how many words a message has, at least, that is kept when nothing comes of it: "wrong room" tells nothing.
const fewestTelling = 4

// keepsRefused keeps a message as a note when what it, or the answer to a question about it, came to is refused.
func (t *Turn) keepsRefused(text string) {
	why, refused := strings.CutPrefix(t.Ans.Reply, answer.NotSaved)
	if t.Err != nil || t.l.Wait || !refused || t.Ans.Saved || len(strings.Fields(text)) < fewestTelling {
		return
	}
	b := event.Note{Text: text}
	if r := t.l.State.RoomOf(t.in.Who); r != nil {
		b.Room = r.Name
	}
	if e := t.Save(b); e != nil {
		t.Ans.Kind, t.Ans.Error, t.Ans.Reply = "note", nil, short(fmt.Sprintf("kept as note %d, not on the plan: %s\n%s", e.Seq, say.FirstWords(text), why))
	}
}

// keepsAnswered keeps the message behind a question if its answer is refused.
func (t *Turn) keepsAnswered(open *pending.Question) {
	if !open.Saved && !open.OnlyAsks(t.l.Opt.Kinds) && !strings.HasPrefix(open.Why, pending.NothingSaved) {
		t.keepsRefused(open.Said)
	}
}

// choose takes a choice as the answer, and then what waited for the question.
func (t *Turn) choose(c grammar.Choice, rest string) {
	i, from := t.step, len(t.l.Batch.Records)
	behind := -1                           // where the records of what waited begin
	if c = t.asRead(c); len(c.Lines) > 0 { // an older log has its text
		own := t.Rest
		t.Rest = Joined(append(texts(c.Lines[1:]), rest, own)...)
		t.line(c.Lines[0])
	} else {
		t.Show(answer.Tell("kept", nil, "kept as it was"))
		c.Lines = []grammar.Line{{}}
	}
	if !t.Ans.Asks() && t.Err == nil && !t.l.Wait {
		behind = t.following(c.Lines[1:], rest)
	}
	if behind < 0 {
		behind = len(t.l.Batch.Records)
	}
	t.settle(i, from, behind)
}

func (t *Turn) asRead(ch grammar.Choice) grammar.Choice { return t.reads(t.Ctx(), ch, 1) }

// reads reads the lines of a choice, each as it would be read after those before it, and up to two questions on the way.
func (t *Turn) reads(c answer.Ctx, ch grammar.Choice, doubts int) grammar.Choice {
	if ch.Text == "" || doubts > 2 {
		return ch
	}
	c.Walls = maps.Collect(maps.All(c.Walls))
	lines := sentences.Split(ch.Text)
	for i, text := range lines {
		line, err := c.Parse(text, false)
		if ask, asks := errors.AsType[*grammar.Ask](err); asks {
			ask.Choices = say.Each(ask.Choices, func(ch grammar.Choice) grammar.Choice { return t.reads(c, ch, doubts+1) })
			line = grammar.Line{Entry: grammar.Doubtful{Said: text, Ask: *ask}}
		} else if err != nil || i > 0 && pending.Corrects(line.Entry) {
			if len(lines) == 1 {
				text = t.Said
			}
			line = grammar.Line{Entry: record.Note{Text: text, Kept: true}}
		}
		switch e := line.Entry.(type) {
		case rooms.Alias:
			c.Walls[e.Name] = e.Wall // of a room's name none
		case rooms.Room:
			c.Opening = append(slices.Clip(c.Opening), e.Name)
		}
		ch.Lines = append(slices.Clip(ch.Lines), line)
	}
	ch.Text = ""
	return ch
}

// texts returns lines as they would be typed.
func texts(lines []grammar.Line) []string { return say.Each(lines, grammar.Line.String) }

// Joined puts texts on lines of their own.
func Joined(texts ...string) string { return strings.TrimSpace(strings.Join(texts, "\n")) }

// answered takes line as the answer to the open question, and then what waited for it.
func (t *Turn) answered(open *pending.Question, line grammar.Line) {
	t.answering(open)
	line.Sure = line.Sure || open.Room() != "" // its name was looked at before its size was asked for
	t.choose(grammar.Choice{Lines: []grammar.Line{line}}, open.Rest)
	t.keepsAnswered(open)
}

// Settle takes lines as the answer to an open question, which what this turn is said answers by itself.
func (t *Turn) Settle(open *pending.Question, lines []grammar.Line) {
	t.answering(open)
	t.choose(grammar.Choice{Lines: lines}, open.Rest)
	t.keepsAnswered(open)
}

// following answers more in the same reply, up to a question or a failure: the other lines of a choice, then what waited
// for the question. It returns where the records of that begin, -1 if they do not.
func (t *Turn) following(lines []grammar.Line, rest string) (behind int) {
	parts := sentences.Split(rest)
	behind = -1
	for i := range len(lines) + len(parts) {
		var n *Turn
		if i < len(lines) {
			n = New(t.l, t.in, t.Said, Joined(append(texts(lines[i+1:]), rest)...))
			n.Of, n.sent, n.answers = t.Of, t.sent, t.answers
			n.line(lines[i])
		} else {
			k := i - len(lines)
			if k == 0 {
				behind = len(t.l.Batch.Records)
			}
			n = New(t.l, t.in, parts[k], Joined(parts[k+1:]...))
			n.Of = t.Of
			n.Run(parts[k], nil)
		}
		if n.Err != nil || t.l.Wait {
			t.Err = n.Err
			return behind
		}
		if n.Ans.Kind == "" {
			continue
		}
		t.Ans.Reply = short(t.Ans.Reply + "\n" + n.Ans.Reply)
		t.Ans.Notes = append(t.Ans.Notes, n.Ans.Notes...)
		if n.Ans.Saved {
			t.Ans.Seq, t.Ans.Saved, t.Ans.Kind, t.Ans.Facts = n.Ans.Seq, true, n.Ans.Kind, n.Ans.Facts
		}
		if n.Ans.Asks() {
			t.Ans.Ask = n.Ans.Ask
			return behind // what is left waits for that question
		}
	}
	return behind
}

func (t *Turn) text() string { return say.Answered(t.Said, t.answers) }

// answering makes this turn the answer to an open question: the entry counts as sent when the original
// note was.
func (t *Turn) answering(open *pending.Question) {
	t.Close(t.Who(), open)
	t.Part = false // it stands for the message that was asked about
	t.Of, t.step = open.From, len(t.l.Asked[open.From])-1
	t.Said, t.answers = open.Said, append(slices.Clip(open.Answers), t.Said)
	t.sent = time.UnixMilli(open.Sent)
	t.Ans.Said, t.Ans.When = t.text(), t.sent.In(t.l.Opt.Loc).Format(time.RFC3339)
}

// again repeats an open question.
func (t *Turn) again(open *pending.Question, lead string) {
	t.Ans.Said = t.text()
	ledger.Set(t.l, t.l.Stale, t.Who(), false)
	t.Ans.Kind = message.KindAsk
	t.Ans.Reply, t.Ans.Ask = lead+answer.Shown(open.Why, open.Choices), []string{}
	for _, c := range open.Choices {
		t.Ans.Ask = append(t.Ans.Ask, c.Label)
	}
}

// ask keeps a question open. saved: the entry is taken, and the question is not asked aloud.
func (t *Turn) ask(q *answer.Question, saved bool) {
	open := &pending.Question{
		Said: t.Said, Answers: t.answers, Sent: t.sent.UnixMilli(), ID: t.ThreadID(), From: t.Of, Edit: t.edit, Why: q.Why, Base: q.Base, Lead: q.Lead, Choices: say.Each(q.Choices, t.asRead),
		Saved: saved, Line: t.asking,
	}
	if !saved {
		open.Rest = t.Rest
	}
	if q.Before {
		open.Line, open.Rest = nil, Joined(t.Said, t.Rest)
	}
	t.keep(open)
	t.Remember(t.Of, append(slices.Clip(t.l.Asked[t.Of]), ledger.Asked{Question: *open, Who: t.Who()}))
	if !saved {
		t.again(open, "")
	}
}

func (t *Turn) ThreadID() string {
	if t.in.Thread != "" {
		return t.in.Thread
	}
	return t.in.ID
}
