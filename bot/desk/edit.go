package desk

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
	"strapline/store"
)

// edited answers a message that the sender changed or deleted after sending it: line by line it corrects
// or strikes what the message had noted. An open question about it is closed. If
// the message answered a question, the new words answer it instead. If something has been covered since,
// or somebody was given a value, it asks first and changes nothing until that is answered.
func (d *Desk) edited(in message.In) (message.Out, error) {
	seqs, same, err := d.madeBy(in)
	if err != nil || same {
		return message.Out{}, err
	}
	t := d.turn(in, in.Text, "")
	deleted := in.Text == "" && len(in.Photos) == 0
	var closed *pending.Question
	for q := d.Pending[t.who()]; q != nil && closed == nil; q = q.Under {
		if q.From != "" && (q.From == t.of || q.From == in.Of) {
			closed = q
			t.close(q)
		}
	}
	before := d.Pending[t.who()]
	let := t.forget()
	out, err := d.changeTo(in, seqs, closed)
	if err != nil || d.wait {
		return message.Out{}, err
	}
	open := d.Pending[t.who()]
	asks := open != nil && open != before
	var lost []string
	if deleted {
		lost = t.lose()
	}
	switch {
	case closed != nil && !asks && (len(out.Answers) == 0 || deleted && !closed.Saved):
		t.show(answer.Tell("dropped", nil, "question closed, not saved: "+say.FirstWords(closed.Said)))
	case len(let) > 0 && len(out.Answers) == 0:
		t.show(answer.Tell("dropped", nil, "no longer held: "+strings.Join(let, "; ")))
	case deleted && len(out.Answers) == 0 && t.takeOff():
		t.show(answer.Tell("dropped", nil, "photo dropped: it is no longer waiting for a note"))
	case len(lost) > 0 && len(out.Answers) == 0:
		t.show(answer.Tell("dropped", nil, "photo taken off "+strings.Join(lost, ", ")+": its message is deleted"))
	}
	if t.ans.Kind != "" {
		out.Answers = append(out.Answers, t.ans)
	}
	return out, t.err
}

// changeTo changes what a message has put into the log to what its new words say. closed is the question
// about it that was open.
func (d *Desk) changeTo(in message.In, seqs []uint64, closed *pending.Question) (out message.Out, err error) {
	lines := parse.Split(in.Text)
	if i := d.answeredBy(in.Of); i >= 0 && len(lines) > 0 {
		t := d.turn(in, lines[0], joined(lines[1:]...))
		a := d.Asked[t.of][i]
		if c, ok := t.reading(&a.Question, lines[0]); ok {
			rest := ""
			if closed != nil && closed.From == t.of && i+1 < len(d.Asked[t.of]) {
				rest = closed.Rest // it waited for a question that the first answer led to
			}
			t.pickAgain(i, c, rest)
			if t.err != nil || d.wait {
				return message.Out{}, t.err
			}
			out.Answers = append(out.Answers, t.ans)
			if t.ans.Asks() {
				return out, nil
			}
			seqs = slices.DeleteFunc(seqs, func(seq uint64) bool { return slices.Contains(a.Made, seq) })
			lines = lines[1:]
		}
	}
	old, lines := d.changed(d.origin(in), seqs, lines)
	if len(old) == 0 {
		more, err := d.entries(in, lines)
		out.Answers = append(out.Answers, more.Answers...)
		return out, err
	}
	t := d.turn(in, in.Text, "")
	if in.Text == "" {
		t.said = "(deleted) " + say.FirstLine(old[0].Text)
		t.ans.Said = t.said
	}
	if why := revise.InUse(t.ctx(), old); why != "" {
		t.askEdit(old, lines, why, closed != nil && closed.Edit != "")
		out.Answers = append(out.Answers, t.ans)
		return out, t.err
	}
	for i, en := range old {
		n := d.turn(in, t.said, "")
		n.strikes = "(edited) " + say.FirstLine(en.Text)
		if i < len(lines) {
			n.said, n.ans.Said = lines[i], lines[i]
			n.editTo(en, lines[i])
		} else {
			n.take(revise.Strike(n.ctx(), en, false, false))
		}
		if n.err != nil || d.wait {
			return message.Out{}, n.err
		}
		if n.ans.Kind != "" {
			out.Answers = append(out.Answers, n.ans)
		}
	}
	if len(lines) > len(old) {
		more, err := d.entries(in, lines[len(old):])
		out.Answers = append(out.Answers, more.Answers...)
		return out, err
	}
	return out, nil
}

// madeBy returns the entries made by the message that in edits, in all its versions, and by the answers to
// its questions. same reports whether the words are those of its last version, as after a pin, a reaction,
// or an edit that changed nothing.
func (d *Desk) madeBy(in message.In) (seqs []uint64, same bool, err error) {
	var last store.Receipt
	for _, id := range append([]string{in.Of}, d.Edits[in.Of]...) {
		r, ok, err := d.receiptOf(id)
		if err != nil {
			return nil, false, err
		}
		if ok {
			seqs, last = append(seqs, r.Seqs...), r
		}
	}
	// A picture without words hashes the same as its deletion.
	bare := in.Text == "" && last.ID == in.Of
	if last.ID != "" && last.Hash == hashOf(in) && !bare {
		return seqs, true, nil
	}
	if of := d.Answers[in.Of]; of != in.Of { // what followed the question in its message is not the answer's
		for _, a := range d.Asked[of] {
			seqs = slices.DeleteFunc(seqs, func(seq uint64) bool { return slices.Contains(a.Behind, seq) })
		}
	}
	for _, a := range d.Asked[in.Of] {
		seqs = slices.Concat(seqs, a.Made, a.Behind)
	}
	slices.Sort(seqs)
	seqs = slices.Compact(seqs)
	if in.ID == "" {
		return seqs, false, nil
	}
	write(d, d.Edits, in.Of, append(slices.Clip(d.Edits[in.Of]), in.ID))
	return seqs, false, d.mark(editMark+in.Of, d.Edits[in.Of])
}

// changed returns the old entries and the new lines without those that are the same in both. of is the id
// of the message that they belong to.
func (d *Desk) changed(of string, seqs []uint64, lines []string) ([]*site.Entry, []string) {
	var old []*site.Entry
	for _, seq := range seqs {
		en := d.State.Entry(seq)
		if en == nil || en.Struck() || answer.Hidden(en.Body) {
			continue
		}
		if _, ok := en.Body.(event.Strike); ok {
			continue
		}
		same := func(line string) bool {
			asked := slices.ContainsFunc(d.Asked[of], func(a Asked) bool { return a.Said == line })
			return line == en.Text || asked && strings.HasPrefix(en.Text, line+answerSign)
		}
		if i := slices.IndexFunc(lines, same); i >= 0 {
			lines = slices.Delete(slices.Clone(lines), i, i+1)
			continue
		}
		old = append(old, en)
	}
	return old, lines
}

// askEdit asks whether an edit or a deletion is meant. The choice to keep has no lines, so it changes
// nothing. again means that an earlier edit was asked about already; this one replaces it without showing
// the question again.
func (t *turn) askEdit(old []*site.Entry, lines []string, why string, again bool) {
	choice := grammar.Choice{Label: "take it back"}
	if len(lines) > 0 {
		choice.Label = "take the new one"
	}
	var todo []string
	for _, en := range old {
		todo = append(todo, fmt.Sprintf("strike %d", en.Seq))
	}
	choice.Text = strings.Join(append(todo, lines...), "\n")
	t.edit = t.in.Of
	t.ask(&answer.Question{
		Why: fmt.Sprintf("%s (entry %d). Change it all the same?", why, old[0].Seq), Choices: []grammar.Choice{choice, {Label: "keep what was noted"}},
	}, false)
	if again {
		t.ans.Kind, t.ans.Ask = "edit", nil
		t.ans.Reply = "1 now takes: " + say.FirstWords(strings.Join(lines, "; "))
		if len(lines) == 0 {
			t.ans.Reply = "1 now takes it back"
		}
	}
}

// editTo replaces the old entry by the changed line.
func (t *turn) editTo(en *site.Entry, text string) {
	c := t.ctx()
	line, err := c.Parse(text, false)
	switch e := err.(type) {
	case nil:
		c.Line = line
		t.take(revise.Correct(c, en, line.Entry))
	case *grammar.Refusal:
		t.show(answer.Refused(e))
		t.ans.Reply += fmt.Sprintf("\n%d stays as it was", en.Seq)
	case *grammar.Ask:
		strike := grammar.Line{Entry: record.Strike{Seq: int(en.Seq)}}
		todo := make([]grammar.Choice, len(e.Choices))
		for i, ch := range e.Choices {
			if todo[i] = ch; len(ch.Lines) > 0 {
				todo[i].Lines = append([]grammar.Line{strike}, ch.Lines...)
			} else {
				todo[i].Text = strike.String() + "\n" + ch.Text
			}
		}
		t.take(answer.Ask(e.Why, "", todo...))
	default: // the new words are chatter
		t.take(revise.Strike(c, en, false, false))
	}
}
