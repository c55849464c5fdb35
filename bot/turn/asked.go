package turn

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/sentences"
)

// Remember stores the questions of a message. A message without an id cannot be edited, so its questions
// are not stored.
func (t *Turn) Remember(of string, all []ledger.Asked) {
	if of == "" || t.Err != nil {
		return
	}
	t.Err = t.l.SetAsked(of, all)
}

// settle records which entries the answer to question i of the message made, and which were made by what
// followed the question: the batch's records from index from, and from index behind.
func (t *Turn) settle(i, from, behind int) {
	if i < 0 || t.Err != nil || t.l.Wait {
		return
	}
	all := slices.Clone(t.l.Asked[t.Of])
	a := &all[i]
	a.By = cmp.Or(a.By, t.in.ID)
	a.Made = t.l.Seqs(from, behind)
	a.Behind = append(slices.Clip(a.Behind), t.l.Seqs(behind, len(t.l.Batch.Records))...)
	t.Remember(t.Of, all)
}

// Reading returns the choice that text makes as an answer to q.
func (t *Turn) Reading(q *pending.Question, text string) (c grammar.Choice, ok bool) {
	n := q.Choice(text)
	if line, err := t.Ctx().Parse(text, true); err == nil && n == 0 {
		if pick, is := line.Entry.(record.Pick); is {
			n = pick.N
		}
	}
	if n > 0 && n <= len(q.Choices) {
		return q.Choices[n-1], true
	}
	if q.Base == "" {
		return c, false
	}
	line, err := t.Ctx().Parse(q.Base+" "+text, false)
	return grammar.Choice{Lines: []grammar.Line{line}}, err == nil
}

// PickAgain changes the answer to question i of the message: it strikes what the first answer made and
// takes the new choice. rest is what waits behind it.
func (t *Turn) PickAgain(i int, c grammar.Choice, rest string) {
	all := t.l.Asked[t.Of]
	q := all[i].Question
	var old []*site.Entry
	for _, a := range slices.Backward(all[i:]) {
		for _, seq := range slices.Backward(a.Made) {
			if en := t.l.State.Entry(seq); !en.Struck() && !answer.Hidden(en.Body) {
				old = append(old, en)
			}
		}
	}
	room := ""
	for _, en := range old {
		room = en.Room
	}
	c = t.inRoom(c, room)
	if why := revise.InUse(t.Ctx(), old); why != "" {
		t.AskEdit(old, sentences.Split(c.String()), why, false)
		return
	}
	t.answering(&q)
	t.step = i
	for _, en := range old {
		if _, ok := en.Body.(event.RoomSize); ok {
			continue // the new size replaces it
		}
		t.Strikes = "(edited) " + say.FirstLine(en.Text)
		if t.Save(event.Strike{Seq: en.Seq}); t.Err != nil {
			return
		}
	}
	t.Ans.Seq, t.Ans.Saved, t.Strikes = 0, false, ""
	left := slices.Clone(all)
	for k := range left[i+1:] { // the questions that the first answer led to
		left[i+1+k].Over = true
	}
	t.Remember(t.Of, left)
	t.choose(c, rest)
	for _, en := range old {
		if !en.Struck() || t.Err != nil || t.l.Wait {
			continue
		}
		what := "in place of"
		if back, ok := en.Body.(event.Strike); ok {
			what, en = "brought back", t.l.State.Entry(back.Seq)
		} else if !t.Ans.Saved {
			what = "struck"
		}
		n := message.Note{Kind: "moved", Text: fmt.Sprintf("%s %d: %s", what, en.Seq, say.FirstLine(en.Text))}
		t.Ans.Notes = append(t.Ans.Notes, n)
		t.Ans.Reply = short(t.Ans.Reply + "\n" + n.Text)
	}
}

// lost returns the newest question that the sender was asked in the thread of the message, if it was
// dropped without an answer and no other is open there.
func (t *Turn) lost(mine bool) *ledger.Asked {
	if mine || t.in.Thread == "" {
		return nil
	}
	var last *ledger.Asked
	for _, all := range t.l.Asked {
		for _, a := range all {
			if a.Who == t.Who() && !a.Over && a.ID == t.in.Thread && (last == nil || a.Sent >= last.Sent) {
				last = &a
			}
		}
	}
	if last == nil || last.By != "" || last.Saved && last.Rest == "" {
		return nil
	}
	return last
}

// AskEdit asks whether an edit or a deletion is meant. The choice to keep has no lines, so it changes
// nothing. again means that an earlier edit was asked about already; this one replaces it without showing
// the question again.
func (t *Turn) AskEdit(old []*site.Entry, lines []string, why string, again bool) {
	choice := grammar.Choice{Label: "take it back"}
	if len(lines) > 0 {
		choice.Label = "take the new one"
	}
	choice.Lines = append(revise.Strikes(old), t.asRead(grammar.Reads("", Joined(lines...))).Lines...)
	t.edit = t.in.Of
	t.ask(&answer.Question{
		Why: fmt.Sprintf("%s (entry %d). Change it all the same?", why, old[0].Seq), Choices: []grammar.Choice{choice, {Label: "keep what was noted"}},
	}, false)
	if again {
		t.Ans.Kind, t.Ans.Ask = "edit", nil
		t.Ans.Reply = "1 now takes: " + say.FirstWords(strings.Join(lines, "; "))
		if len(lines) == 0 {
			t.Ans.Reply = "1 now takes it back"
		}
	}
}

// EditTo replaces the old entry by the changed line.
func (t *Turn) EditTo(en *site.Entry, text string) {
	c := t.Ctx()
	line, err := c.Parse(text, false)
	switch e := err.(type) {
	case nil:
		c.Line = line
		t.Take(revise.Correct(c, en, line.Entry))
	case *grammar.Refusal:
		t.Show(answer.Refused(e))
		t.Ans.Reply += fmt.Sprintf("\n%d stays as it was", en.Seq)
	case *grammar.Ask:
		strike := grammar.Line{Entry: record.Strike{Seq: int(en.Seq)}}
		todo := say.Each(e.Choices, t.asRead)
		for i, ch := range todo {
			todo[i].Lines = append([]grammar.Line{strike}, ch.Lines...)
		}
		t.Take(answer.Ask(e.Why, "", todo...))
	default: // the new words are chatter
		t.Take(revise.Strike(c, en, false, false))
	}
}

// inRoom returns the choice with its first line in the room, if it names none.
func (t *Turn) inRoom(c grammar.Choice, room string) grammar.Choice {
	if len(c.Lines) > 0 && c.Lines[0].Room == "" && t.l.State.Room(room) != nil {
		c.Lines = slices.Clone(c.Lines)
		c.Lines[0].Room = room
	}
	return c
}
