package desk

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/bot/turn"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/wording"
)

// entries answers the entries of one message.
func (d *Desk) entries(in message.In, entries []string) (message.Out, error) {
	var out message.Out
	w := &whole{text: strings.Join(entries, "; ")}
	err := d.parts(in, w, entries, &out)
	if err == nil && !d.Wait {
		err = d.rest(in, w, &out)
	}
	if err == nil && !d.Wait && len(d.Held) > 0 {
		err = d.release(in, &out)
	}
	if err == nil && !d.Wait && len(d.Pending) > 0 {
		err = d.named(in, &out)
	}
	if err != nil || d.Wait {
		return message.Out{}, err
	}
	d.remind(in, &out)
	return out, nil
}

// parts answers the parts of a message. After one that leads to a question, those unrelated to it are
// answered too; the rest waits for the question.
func (d *Desk) parts(in message.In, w *whole, entries []string, out *message.Out) error {
	prose := -1 // the part that is what was left of a line
	for i := 0; i < len(entries); i++ {
		lead, err := d.metric(in, entries[i])
		if err != nil {
			return err
		}
		text, rest, read := d.Ctx(in, entries[i], in.Sent).Cut(entries[i])
		t := turn.New(d.Ledger, in, text, "")
		t.Part, t.Prose, t.Lead = true, rest != "" || i == prose, lead
		if rest != "" {
			entries, prose = slices.Concat(entries[:i:i], []string{text, rest}, entries[i+1:]), i+1
		}
		t.Rest = strings.Join(entries[i+1:], "\n")
		t.Run(text, read)
		if t.Claim(); t.Err != nil || d.Wait {
			return t.Err
		}
		t.Missed()
		if en := w.last(); en != nil && t.Ans.Kind == "" && relate.TakesBack(text) {
			t.Show(answer.No(fmt.Sprintf("cannot read %q as a correction; %d stands", say.FirstWords(text), en.Seq), "undo"))
		}
		if t.Ans.Kind == "" && t.Unread == nil && !w.anew {
			if done, err := d.putRight(in, t, out); err != nil || d.Wait {
				return err
			} else if done {
				continue
			}
		}
		d.add(w, t)
		if t.Ans.Kind == "" {
			t.Ans.Kind = message.KindNone
			out.Left = append(out.Left, t.Ans)
			continue
		}
		out.Answers = append(out.Answers, t.Ans)
		d.Follows = grammar.Right
		if t.Ans.Asks() {
			return d.goOn(in, w, out, entries[i+1:], t)
		}
	}
	return nil
}

// metric sets the job's units to metric if nobody has set them and its first room is given in metric.
func (d *Desk) metric(in message.In, text string) (lead []string, err error) {
	if len(d.State.Rooms) > 0 || d.State.UnitsSaid() || !wording.OpensInMetric(text) {
		return nil, nil
	}
	e, err := d.Save(in.ID, event.Event{Who: in.Who, Sent: in.Sent.UnixMilli(), Text: text, Body: event.UnitsSet{Units: length.Metric}})
	if err != nil {
		return nil, err
	}
	return []string{fmt.Sprintf("noted %d: units metric, as you measure; `units imperial` if that is not so", e.Seq)}, nil
}

// goOn takes those entries after a question that do not depend on it: notes that stand alone, and one that
// answers it. The rest waits for the question.
func (d *Desk) goOn(in message.In, w *whole, out *message.Out, entries []string, asked *turn.Turn) error {
	q := d.Pending[asked.Who()]
	own := turn.Joined(entries...)
	if q == nil || q.Saved || own == "" {
		return nil
	}
	ask := len(out.Answers) - 1 // index of the question: it comes last
	var wait []string
	for i := 0; i < len(entries); i++ {
		c := d.Ctx(in, entries[i], in.Sent)
		c.Alone = true
		text, rest, _ := c.Cut(entries[i])
		if rest != "" {
			entries = slices.Concat(entries[:i:i], []string{text, rest}, entries[i+1:])
		}
		line, err := c.Parse(text, false)
		fills := q.Choice(text) > 0 && !pending.Yes(text)
		if q.Base != "" && !fills {
			line, ferr := c.Parse(q.Base+" "+text, false)
			ask, asks := errors.AsType[*grammar.Ask](ferr)
			fills = ferr == nil && q.AsksFor(line.Entry) || asks && q.Led(ask, err)
		}
		if errors.Is(err, grammar.ErrChatter) && !fills && w.last() != nil { // talk behind an entry, which keeps it
			w.said = append(w.said, said{text, nil})
			continue
		}
		_, room := line.Entry.(rooms.Room)
		if _, searches := line.Entry.(record.Notes); !fills && (err != nil || !room && !searches && !answer.OfRoom(line.Entry) && !answer.Told(line.Entry)) {
			wait = append(wait, text)
			continue
		}
		if fills { // the rest is then answered after it
			if asked.Waits(q, strings.TrimSuffix(q.Rest, own)); asked.Err != nil {
				return asked.Err
			}
		}
		n := turn.New(d.Ledger, in, text, "")
		n.Part, n.Beside = true, true
		n.Run(text, nil)
		switch n.Claim(); {
		case n.Err != nil || d.Wait:
			return n.Err
		case n.Unread != nil:
			d.add(w, n)
			continue
		case n.Ans.Error != nil || n.Ans.Kind == "":
			wait = append(wait, text)
			continue
		case fills: // the question is answered
			out.Answers[ask] = n.Ans
			d.add(w, n)
			return d.parts(in, w, append(wait, entries[i+1:]...), out)
		}
		d.add(w, n)
		at := ask
		if ask++; n.Ans.Asks() {
			at++
		}
		out.Answers = slices.Insert(out.Answers, at, n.Ans)
	}
	asked.Waits(q, turn.Joined(append([]string{strings.TrimSuffix(q.Rest, own)}, wait...)...))
	return asked.Err
}
