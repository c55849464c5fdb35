package desk

import (
	"fmt"
	"slices"

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
)

// Asked is a question that a message led to, and its outcome. It is kept after it is answered, so that the
// message, or the answer, can still be edited.
type Asked struct {
	pending.Question
	Who    string   `json:"who"`              // lower case
	By     string   `json:"by,omitempty"`     // id of the message that answered it; "" if none did
	Made   []uint64 `json:"made,omitempty"`   // entries that the answer made
	Behind []uint64 `json:"behind,omitempty"` // entries of what followed the question in its message
	Over   bool     `json:"over,omitempty"`   // obsolete: the answer that led to it was changed
}

// origin returns the id of the message whose questions and entries an edit belongs to: if an answer is
// edited, the message that its question was about.
func (d *Desk) origin(in message.In) string {
	if in.Of == "" {
		return in.ID
	}
	if of, ok := d.Answers[in.Of]; ok {
		return of
	}
	return in.Of
}

// remember stores the questions of a message. A message without an id cannot be edited, so its questions
// are not stored.
func (t *turn) remember(of string, all []Asked) {
	if of == "" || t.err != nil {
		return
	}
	write(t.d, t.d.Asked, of, all)
	t.err = t.d.mark(askedMark+of, all)
}

// settle records which entries the answer to question i of the message made, and which were made by what
// followed the question: the batch's records from index from, and from index behind.
func (t *turn) settle(i, from, behind int) {
	if i < 0 || t.err != nil || t.d.wait {
		return
	}
	all := slices.Clone(t.d.Asked[t.of])
	a := &all[i]
	if a.By == "" {
		a.By = t.in.ID
	}
	if a.By != "" {
		write(t.d, t.d.Answers, a.By, t.of)
	}
	a.Made = t.d.seqs(from, behind)
	a.Behind = append(slices.Clip(a.Behind), t.d.seqs(behind, len(t.d.Batch.Records))...)
	t.remember(t.of, all)
}

func (d *Desk) seqs(from, to int) (seqs []uint64) {
	for _, rec := range d.Batch.Records[from:to] {
		seqs = append(seqs, rec.Seq)
	}
	return seqs
}

// answeredBy returns the index, among the questions of its origin, of the one that the message answered;
// -1 if it answered none.
func (d *Desk) answeredBy(id string) int {
	return slices.IndexFunc(d.Asked[d.Answers[id]], func(a Asked) bool { return a.By == id && !a.Over })
}

// reading returns the choice that text makes as an answer to q.
func (t *turn) reading(q *pending.Question, text string) (c grammar.Choice, ok bool) {
	n := q.Choice(text)
	if line, err := t.ctx().Parse(text, true); err == nil && n == 0 {
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
	line, err := t.ctx().Parse(q.Base+" "+text, false)
	return grammar.Choice{Lines: []grammar.Line{line}}, err == nil
}

// pickAgain changes the answer to question i of the message: it strikes what the first answer made and
// takes the new choice. rest is what waits behind it.
func (t *turn) pickAgain(i int, c grammar.Choice, rest string) {
	all := t.d.Asked[t.of]
	q := all[i].Question
	var old []*site.Entry
	for _, a := range slices.Backward(all[i:]) {
		for _, seq := range slices.Backward(a.Made) {
			if en := t.d.State.Entry(seq); !en.Struck() && !answer.Hidden(en.Body) {
				old = append(old, en)
			}
		}
	}
	room := ""
	for _, en := range old {
		room = en.Room
	}
	c = t.d.inRoom(c, room)
	if why := revise.InUse(t.ctx(), old); why != "" {
		t.askEdit(old, parse.Split(c.String()), why, false)
		return
	}
	t.answering(&q)
	t.step = i
	for _, en := range old {
		if _, ok := en.Body.(event.RoomSize); ok {
			continue // the new size replaces it
		}
		t.strikes = "(edited) " + say.FirstLine(en.Text)
		if t.save(event.Strike{Seq: en.Seq}); t.err != nil {
			return
		}
	}
	t.ans.Seq, t.ans.Saved, t.strikes = 0, false, ""
	left := slices.Clone(all)
	for k := range left[i+1:] { // the questions that the first answer led to
		left[i+1+k].Over = true
	}
	t.remember(t.of, left)
	t.choose(c, rest)
	for _, en := range old {
		if !en.Struck() || t.err != nil || t.d.wait {
			continue
		}
		what := "in place of"
		if back, ok := en.Body.(event.Strike); ok {
			what, en = "brought back", t.d.State.Entry(back.Seq)
		} else if !t.ans.Saved {
			what = "struck"
		}
		n := message.Note{Kind: "moved", Text: fmt.Sprintf("%s %d: %s", what, en.Seq, say.FirstLine(en.Text))}
		t.ans.Notes = append(t.ans.Notes, n)
		t.ans.Reply = short(t.ans.Reply + "\n" + n.Text)
	}
}

// inRoom returns the choice with its first line in the room, if it names none.
func (d *Desk) inRoom(c grammar.Choice, room string) grammar.Choice {
	if len(c.Lines) > 0 && c.Lines[0].Room == "" && d.State.Room(room) != nil {
		c.Lines = slices.Clone(c.Lines)
		c.Lines[0].Room = room
	}
	return c
}

// lost returns the newest question that the sender was asked in the thread of the message, if it was
// dropped without an answer and no other is open there.
func (t *turn) lost(mine bool) *Asked {
	if mine || t.in.Thread == "" {
		return nil
	}
	var last *Asked
	for _, all := range t.d.Asked {
		for _, a := range all {
			if a.Who == t.who() && !a.Over && a.ID == t.in.Thread && (last == nil || a.Sent >= last.Sent) {
				last = &a
			}
		}
	}
	if last == nil || last.By != "" || last.Saved && last.Rest == "" {
		return nil
	}
	return last
}
