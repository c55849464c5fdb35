package bot

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/site"
	"strapline/grammar"
	"strapline/store"
)

// edited answers a message that the sender changed or deleted after it was
// sent: corrections and strikes, by line. What has been covered or answered
// from meanwhile is asked about first, and kept until that is answered.
func (j *Job) edited(in In) (Out, error) {
	seqs, same, err := j.madeBy(in)
	if err != nil || same {
		return Out{}, err
	}
	old, lines := j.changed(seqs, grammar.Split(in.Text))
	if len(old) == 0 {
		return j.entries(in, lines)
	}
	t := j.turn(in, in.Text, "")
	if in.Text == "" {
		t.said = "(deleted) " + firstLine(old[0].Text)
		t.ans.Said = t.said
	}
	if why := t.heavy(old); why != "" {
		t.askEdit(old, lines, why)
		return Out{Answers: []Answer{t.ans}}, t.err
	}
	var out Out
	for i, en := range old {
		n := j.turn(in, t.said, "")
		n.strikes = "(edited) " + firstLine(en.Text)
		if i < len(lines) {
			n.said, n.ans.Said = lines[i], lines[i]
			n.editTo(en, lines[i])
		} else {
			n.strikeEntry(en, false, false)
		}
		if n.err != nil {
			return Out{}, n.err
		}
		if n.ans.Kind != "" {
			n.ans.Reply = strings.Join(append(n.lead, n.ans.Reply), "\n")
			out.Answers = append(out.Answers, n.ans)
		}
	}
	if len(lines) > len(old) {
		more, err := j.entries(in, lines[len(old):])
		out.Answers = append(out.Answers, more.Answers...)
		return out, err
	}
	return out, nil
}

// editMark is the name under which the later versions of a message are kept.
const editMark = "edits of "

// madeBy is what the message that in edits, in all its versions, has put into
// the log, and whether its words are those of its last version (a pin, a
// reaction, an edit that changed nothing).
func (j *Job) madeBy(in In) (seqs []uint64, same bool, err error) {
	var last store.Receipt
	for _, id := range append([]string{in.Of}, j.edits[in.Of]...) {
		r, ok := j.replies[id]
		if !ok {
			if r, ok, err = j.log.Load().Receipt(id); err != nil {
				return nil, false, err
			}
		}
		if ok {
			seqs, last = append(seqs, r.Seqs...), r
		}
	}
	if last.ID != "" && last.Hash == hashOf(in) {
		return seqs, true, nil
	}
	if in.ID == "" {
		return seqs, false, nil
	}
	versions := append(slices.Clip(j.edits[in.Of]), in.ID)
	row, err := json.Marshal(versions)
	if err != nil {
		return nil, false, err
	}
	j.edits[in.Of] = versions
	j.batch.Marks[editMark+in.Of] = row
	return seqs, false, nil
}

// changed leaves out what stands the same in the old and the new message.
func (j *Job) changed(seqs []uint64, lines []string) ([]*site.Entry, []string) {
	var old []*site.Entry
	for _, seq := range seqs {
		en := j.state.Entry(seq)
		if en == nil || en.Struck() || hidden(en.Body) {
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

// heavy says why entries cannot be changed without a word, "" when they can.
func (t *turn) heavy(old []*site.Entry) string {
	for _, en := range old {
		for _, th := range t.things(en) {
			if st, over := th.Stands(); st == site.Covered {
				return fmt.Sprintf("%s is covered by %s", th.Name, t.pieceName(over))
			}
			if told := th.ToldSince(en, ""); len(told) > 0 {
				return fmt.Sprintf("%s was given to %s", th.Name, t.byWhen(told[0]))
			}
		}
		if _, ok := en.Body.(site.Gap); ok {
			return "a cut was answered from it"
		}
	}
	return ""
}

// askEdit asks whether an edit or a deletion is meant. Keeping has no text:
// nothing is done.
func (t *turn) askEdit(old []*site.Entry, lines []string, why string) {
	var todo []string
	label := "take it back"
	if len(lines) > 0 {
		label = "take the new one"
	}
	for _, en := range old {
		todo = append(todo, fmt.Sprintf("strike %d", en.Seq))
	}
	todo = append(todo, lines...)
	t.ask(fmt.Sprintf("%s (entry %d). Change it all the same?", why, old[0].Seq), "",
		choice{Label: label, Text: strings.Join(todo, "\n")}, choice{Label: "keep what was noted"})
}

// editTo reads the changed line and puts it in the old entry's place.
func (t *turn) editTo(en *site.Entry, text string) {
	line, err := t.parse(text, false)
	switch e := err.(type) {
	case nil:
	case *grammar.Refusal:
		t.fault(e, "")
		t.ans.Reply += fmt.Sprintf("\n%d stays as it was", en.Seq)
		return
	case *grammar.Ask:
		todo := make([]choice, len(e.Choices))
		for i, c := range e.Choices {
			todo[i] = choice{Label: c.Label, Text: fmt.Sprintf("strike %d\n%s", en.Seq, c.String())}
		}
		t.ask(e.Why, "", todo...)
		return
	default: // the new words are not for us
		t.strikeEntry(en, false, false)
		return
	}
	t.line = line
	t.correct(en, line.Entry)
	if t.room != nil && t.ans.Room == "" {
		t.ans.Room = t.room.Name
	}
}
