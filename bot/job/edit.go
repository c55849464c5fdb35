package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/store"
)

// edited answers a message that the sender changed or deleted after it was
// sent: corrections and strikes, by line. What has been covered or answered
// from meanwhile is asked about first, and kept until that is answered.
func (d *desk) edited(in In) (Out, error) {
	seqs, same, err := d.madeBy(in)
	if err != nil || same {
		return Out{}, err
	}
	t := d.turn(in, in.Text, "")
	lines := grammar.Split(in.Text)
	if open := d.pending[t.who()]; open != nil && in.Of == open.From && open.Edit == "" {
		t.close(open, "")
		if len(lines) == 0 {
			t.said = "(deleted) " + say.FirstLine(open.Said)
			t.ans.Said = t.said
			t.show(answer.Tell("dropped", nil, "dropped, not saved: "+say.FirstLine(open.Said)))
			return Out{Answers: []Answer{t.ans}}, t.err
		}
	}
	if picked, c := d.answeredWith(in); picked != nil && len(seqs) > 0 {
		return d.repick(t, seqs, picked, c)
	}
	old, lines := d.changed(seqs, lines)
	if len(old) == 0 {
		return d.entries(in, lines)
	}
	if in.Text == "" {
		t.said = "(deleted) " + say.FirstLine(old[0].Text)
		t.ans.Said = t.said
	}
	if why := t.ctx().Heavy(old); why != "" {
		t.askEdit(old, lines, why)
		return Out{Answers: []Answer{t.ans}}, t.err
	}
	var out Out
	for i, en := range old {
		n := d.turn(in, t.said, "")
		n.strikes = "(edited) " + say.FirstLine(en.Text)
		if i < len(lines) {
			n.said, n.ans.Said = lines[i], lines[i]
			n.editTo(en, lines[i])
		} else {
			n.take(n.ctx().StrikeEntry(en, false, false))
		}
		if n.err != nil || d.wait {
			return Out{}, n.err
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

// madeBy is what the message that in edits, in all its versions, and the answers to
// what it was asked, have put into the log, and whether its words are those of its
// last version (a pin, a reaction, an edit that changed nothing).
func (d *desk) madeBy(in In) (seqs []uint64, same bool, err error) {
	var last store.Receipt
	for _, id := range append([]string{in.Of}, d.edits[in.Of]...) {
		r, ok, err := d.receiptOf(id)
		if err != nil {
			return nil, false, err
		}
		if ok {
			seqs, last = append(seqs, r.Seqs...), r
		}
		if c := d.closed[id]; c.By != "" {
			for _, by := range append([]string{c.By}, d.edits[c.By]...) {
				r, _, err := d.receiptOf(by)
				if err != nil {
					return nil, false, err
				}
				seqs = append(seqs, r.Seqs...)
			}
		}
	}
	if last.ID != "" && last.Hash == hashOf(in) {
		return seqs, true, nil
	}
	if in.ID == "" {
		return seqs, false, nil
	}
	d.edits[in.Of] = append(slices.Clip(d.edits[in.Of]), in.ID)
	return seqs, false, d.mark(editMark+in.Of, d.edits[in.Of])
}

// answeredWith is the choice that an edited answer takes now, and the question it
// answers; nil where the message was no bare answer, or is none now.
func (d *desk) answeredWith(in In) (*grammar.Choice, closed) {
	for _, c := range d.closed {
		if c.By != in.Of {
			continue
		}
		n, err := strconv.Atoi(strings.TrimSpace(in.Text))
		if err != nil {
			n = choiceSaid(&c.question, in.Text)
		}
		if n >= 1 && n <= len(c.Choices) {
			return &c.Choices[n-1], c
		}
	}
	return nil, closed{}
}

// repick takes another choice of a question that was answered: what the first one
// made is struck.
func (d *desk) repick(t *turn, seqs []uint64, picked *grammar.Choice, c closed) (Out, error) {
	old, _ := d.changed(seqs, nil)
	t.said, t.ans.Said = c.Said+" > "+t.said, c.Said+" > "+t.said
	if why := t.ctx().Heavy(old); why != "" {
		t.askEdit(old, []string{picked.String()}, why)
		return Out{Answers: []Answer{t.ans}}, t.err
	}
	var struck []string
	for _, en := range old {
		n := d.turn(t.in, t.said, "")
		n.strikes = "(edited) " + say.FirstLine(en.Text)
		n.take(n.ctx().StrikeEntry(en, false, false))
		if n.err != nil || d.wait {
			return Out{}, n.err
		}
		struck = append(struck, strconv.FormatUint(en.Seq, 10))
	}
	t.choose(*picked, "")
	if t.err == nil && t.ans.Saved && len(struck) > 0 {
		t.ans.Reply += "\nin place of " + strings.Join(struck, ", ")
	}
	return Out{Answers: []Answer{t.ans}}, t.err
}

// changed leaves out what stands the same in the old and the new message.
func (d *desk) changed(seqs []uint64, lines []string) ([]*site.Entry, []string) {
	var old []*site.Entry
	for _, seq := range seqs {
		en := d.state.Entry(seq)
		if en == nil || en.Struck() || answer.Hidden(en.Body) {
			continue
		}
		if _, ok := en.Body.(site.Strike); ok {
			continue
		}
		if i := slices.Index(lines, en.Text); i >= 0 {
			lines = slices.Delete(slices.Clone(lines), i, i+1)
			continue
		}
		old = append(old, en)
	}
	return old, lines
}

// askEdit asks whether an edit or a deletion is meant. Keeping has no lines:
// nothing is done. An edit of the same message that is asked about already takes
// that one's place, and only says so.
func (t *turn) askEdit(old []*site.Entry, lines []string, why string) {
	choice := grammar.Choice{Label: "take it back"}
	if len(lines) > 0 {
		choice.Label = "take the new one"
	}
	var todo []string
	for _, en := range old {
		todo = append(todo, fmt.Sprintf("strike %d", en.Seq))
	}
	choice.Text = strings.Join(append(todo, lines...), "\n")
	open := t.d.pending[t.who()]
	again := open != nil && open.Edit == t.in.Of
	t.ask(&answer.Question{
		Why: fmt.Sprintf("%s (entry %d). Change it all the same?", why, old[0].Seq), Choices: []grammar.Choice{choice, {Label: "keep what was noted"}},
	}, false)
	q := *t.d.pending[t.who()]
	q.Edit, q.From = t.in.Of, ""
	t.keep(&q)
	if again {
		t.ans.Kind, t.ans.Ask = "edit", nil
		t.ans.Reply = "1 now takes: " + say.FirstLine(strings.Join(lines, "; "))
		if len(lines) == 0 {
			t.ans.Reply = "1 now takes it back"
		}
	}
}

// editTo reads the changed line and puts it in the old entry's place.
func (t *turn) editTo(en *site.Entry, text string) {
	c := t.ctx()
	line, err := c.Parse(text, false)
	switch e := err.(type) {
	case nil:
		c.Line = line
		t.take(c.Correct(en, line.Entry))
	case *grammar.Refusal:
		t.show(answer.Refused(e))
		t.ans.Reply += fmt.Sprintf("\n%d stays as it was", en.Seq)
	case *grammar.Ask:
		strike := grammar.Line{Entry: grammar.Strike{Seq: int(en.Seq)}}
		todo := make([]grammar.Choice, len(e.Choices))
		for i, ch := range e.Choices {
			if todo[i] = ch; len(ch.Lines) > 0 {
				todo[i].Lines = append([]grammar.Line{strike}, ch.Lines...)
			} else {
				todo[i].Text = strike.String() + "\n" + ch.Text
			}
		}
		t.take(answer.Ask(e.Why, "", todo...))
	default: // the new words are not for us
		t.take(c.StrikeEntry(en, false, false))
	}
}
