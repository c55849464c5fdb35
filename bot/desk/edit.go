package desk

import (
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/bot/turn"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar/sentences"
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
	t := turn.New(d.Ledger, in, in.Text, "")
	deleted := in.Text == "" && len(in.Photos) == 0
	var closed *pending.Question
	for q := d.Pending[t.Who()]; q != nil && closed == nil; q = q.Under {
		if q.From != "" && (q.From == t.Of || q.From == in.Of) {
			closed = q
			t.Close(t.Who(), q)
		}
	}
	before := d.Pending[t.Who()]
	let := t.Forget()
	out, err := d.changeTo(in, seqs, closed)
	if err != nil || d.Wait {
		return message.Out{}, err
	}
	open := d.Pending[t.Who()]
	asks := open != nil && open != before
	var lost []string
	if deleted {
		lost = t.Lose()
	}
	switch {
	case closed != nil && !asks && (len(out.Answers) == 0 || deleted && !closed.Saved):
		t.Show(answer.Tell("dropped", nil, "question closed, not saved: "+say.FirstWords(closed.Said)))
	case len(let) > 0 && len(out.Answers) == 0:
		t.Show(answer.Tell("dropped", nil, "no longer held: "+strings.Join(let, "; ")))
	case deleted && len(out.Answers) == 0 && t.TakeOff():
		t.Show(answer.Tell("dropped", nil, "photo dropped: it is no longer waiting for a note"))
	case len(lost) > 0 && len(out.Answers) == 0:
		t.Show(answer.Tell("dropped", nil, "photo taken off "+strings.Join(lost, ", ")+": its message is deleted"))
	}
	if t.Ans.Kind != "" {
		out.Answers = append(out.Answers, t.Ans)
	}
	return out, t.Err
}

// changeTo changes what a message has put into the log to what its new words say. closed is the question
// about it that was open.
func (d *Desk) changeTo(in message.In, seqs []uint64, closed *pending.Question) (out message.Out, err error) {
	lines := sentences.Split(in.Text)
	if i := d.AnsweredBy(in.Of); i >= 0 && len(lines) > 0 {
		t := turn.New(d.Ledger, in, lines[0], turn.Joined(lines[1:]...))
		a := d.Asked[t.Of][i]
		if c, ok := t.Reading(&a.Question, lines[0]); ok {
			rest := ""
			if closed != nil && closed.From == t.Of && i+1 < len(d.Asked[t.Of]) {
				rest = closed.Rest // it waited for a question that the first answer led to
			}
			t.PickAgain(i, c, rest)
			if t.Err != nil || d.Wait {
				return message.Out{}, t.Err
			}
			out.Answers = append(out.Answers, t.Ans)
			if t.Ans.Asks() {
				return out, nil
			}
			seqs = slices.DeleteFunc(seqs, func(seq uint64) bool { return slices.Contains(a.Made, seq) })
			lines = lines[1:]
		}
	}
	old, lines := d.changed(d.Origin(in), seqs, lines)
	if len(old) == 0 {
		more, err := d.entries(in, lines)
		out.Answers = append(out.Answers, more.Answers...)
		return out, err
	}
	t := turn.New(d.Ledger, in, in.Text, "")
	if in.Text == "" {
		t.Said = "(deleted) " + say.FirstLine(old[0].Text)
		t.Ans.Said = t.Said
	}
	if why := revise.InUse(t.Ctx(), old); why != "" {
		t.AskEdit(old, lines, why, closed != nil && closed.Edit != "")
		out.Answers = append(out.Answers, t.Ans)
		return out, t.Err
	}
	for i, en := range old {
		n := turn.New(d.Ledger, in, t.Said, "")
		n.Strikes = "(edited) " + say.FirstLine(en.Text)
		if i < len(lines) {
			n.Said, n.Ans.Said = lines[i], lines[i]
			n.EditTo(en, lines[i])
		} else {
			n.Take(revise.Strike(n.Ctx(), en, false, false))
		}
		if n.Err != nil || d.Wait {
			return message.Out{}, n.Err
		}
		if n.Ans.Kind != "" {
			out.Answers = append(out.Answers, n.Ans)
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
		r, ok, err := d.Receipt(id)
		if err != nil {
			return nil, false, err
		}
		if ok {
			seqs, last = append(seqs, r.Seqs...), r
		}
	}
	// A picture without words hashes the same as its deletion.
	bare := in.Text == "" && last.ID == in.Of
	if last.ID != "" && last.Hash == ledger.Hash(in) && !bare {
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
	return seqs, false, d.Edited(in.Of, in.ID)
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
			asked := slices.ContainsFunc(d.Asked[of], func(a ledger.Asked) bool { return a.Said == line })
			return line == en.Text || asked && strings.HasPrefix(en.Text, line+say.AnswerSign)
		}
		if i := slices.IndexFunc(lines, same); i >= 0 {
			lines = slices.Delete(slices.Clone(lines), i, i+1)
			continue
		}
		old = append(old, en)
	}
	return old, lines
}
