package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
)

// The open questions of a sender are stacked. The newest is asked; those under it wait until it is
// answered or dropped. So nothing is lost if somebody goes on to something else, or if their next message
// leads to a question too.

// mostOpen is the most questions kept per sender; one more pushes out the oldest.
const mostOpen = 4

// open returns the question that the message may answer, and whether it may: in a thread that thread's
// question, else the newest.
func (t *turn) open() (q *pending.Question, mine bool) {
	top := t.d.Pending[t.who()]
	if t.in.Thread != "" {
		for q := top; q != nil; q = q.Under {
			if q.ID == t.in.Thread {
				return q, true
			}
		}
	}
	return top, top != nil && (t.in.Thread == "" || top.ID == "")
}

// pile makes q and those under it the open questions of a sender.
func (d *Desk) pile(who string, q *pending.Question) (err error) {
	delete(d.stale, who)
	if q == nil {
		delete(d.Pending, who)
		d.Batch.Pending[who] = nil
		return nil
	}
	d.Pending[who] = q
	d.Batch.Pending[who], err = json.Marshal(q)
	return err
}

// close removes an open question of the sender.
func (t *turn) close(q *pending.Question) {
	top := t.d.Pending[t.who()]
	left := top.Without(func(o *pending.Question) bool { return o == q })
	if left == top {
		return
	}
	if err := t.d.pile(t.who(), left); err != nil {
		t.err = err
	}
}

// keep puts q on top of the sender's open questions. It replaces one about the same message, room or
// supports.
func (t *turn) keep(q *pending.Question) {
	q.Under = t.d.Pending[t.who()].Without(func(o *pending.Question) bool {
		return !t.beside && !o.Stays(t.d.opt.Kinds) || o.Said == q.Said || o.From != "" && o.From == q.From && o.Edit == q.Edit && o.Why == q.Why || q.Room() != "" && o.Room() == q.Room() || q.Supports() != "" && o.Supports() == q.Supports()
	})
	n := 1
	for o := q.Under; o != nil; o = o.Under {
		if n++; n > mostOpen {
			t.giveUp(o)
			last := o
			q.Under = q.Under.Without(func(o *pending.Question) bool { return o == last })
			break
		}
	}
	if err := t.d.pile(t.who(), q); err != nil {
		t.err = err
		return
	}
	if all := t.d.Pictures[t.who()]; len(all) > 0 { // an older log keeps pictures in the question's row
		t.err = t.d.mark(pictureMark+t.who(), all)
	}
}

// drop gives up the open question because the sender went on to something else.
func (t *turn) drop(open *pending.Question) {
	t.close(open)
	t.giveUp(open)
}

// giveUp says what is lost with a question, or keeps it as a note.
func (t *turn) giveUp(open *pending.Question) {
	lost := open.Lost()
	if open.Rest == "" && open.OnlyAsks(t.d.opt.Kinds) { // nothing was to be saved
		lost = ""
	}
	if open.Keep {
		b := event.Note{Text: strings.Join(append([]string{open.Said}, parse.Split(open.Rest)...), "; ")}
		if r := t.d.State.RoomOf(t.in.Who); r != nil {
			b.Room = r.Name
		}
		e, err := t.d.save(open.From, event.Event{Who: t.in.Who, Sent: open.Sent, Text: open.Said, Body: b})
		if err != nil {
			t.err = err
			return
		}
		lost = fmt.Sprintf("noted %d, on no plan: %s", e.Seq, say.FirstLine(b.Text))
	}
	if lost != "" {
		t.lead = append(t.lead, lost)
	}
}

// goOn takes those entries after a question that do not depend on it: notes that stand alone, and one that
// answers it. The rest waits for the question.
func (d *Desk) goOn(in message.In, w *whole, out *message.Out, entries []string, asked *turn) error {
	q := d.Pending[asked.who()]
	own := joined(entries...)
	if q == nil || q.Saved || own == "" {
		return nil
	}
	ask := len(out.Answers) - 1 // index of the question: it comes last
	var wait []string
	for i := 0; i < len(entries); i++ {
		c := d.ctx(in, entries[i], in.Sent)
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
			if asked.waits(q, strings.TrimSuffix(q.Rest, own)); asked.err != nil {
				return asked.err
			}
		}
		n := d.turn(in, text, "")
		n.part, n.beside = w, true
		n.run(text, nil)
		switch n.claim(); {
		case n.err != nil || d.wait:
			return n.err
		case len(w.kept) > 0 && w.kept[len(w.kept)-1].turn == n:
			w.add(n)
			continue
		case n.ans.Error != nil || n.ans.Kind == "":
			wait = append(wait, text)
			continue
		case fills: // the question is answered
			out.Answers[ask] = n.ans
			w.add(n)
			return d.parts(in, w, append(wait, entries[i+1:]...), out)
		}
		w.add(n)
		at := ask
		if ask++; n.ans.Asks() {
			at++
		}
		out.Answers = slices.Insert(out.Answers, at, n.ans)
	}
	asked.waits(q, joined(append([]string{strings.TrimSuffix(q.Rest, own)}, wait...)...))
	return asked.err
}

// waits sets what waits for a question of the sender.
func (t *turn) waits(q *pending.Question, rest string) {
	if q.Rest != rest {
		t.change(q, func(q *pending.Question) { q.Rest = rest })
	}
}

// change changes an open question of the sender, where it is open and where it is remembered.
func (t *turn) change(q *pending.Question, change func(*pending.Question)) {
	var pile func(o *pending.Question) *pending.Question
	pile = func(o *pending.Question) *pending.Question {
		if o == nil {
			return nil
		}
		left := *o
		if left.Under = pile(o.Under); o.Said == q.Said && o.Why == q.Why && o.Sent == q.Sent { // o may be a copy of it, or the same asked again
			change(&left)
		}
		return &left
	}
	said := q.Said
	t.err = t.d.pile(t.who(), pile(t.d.Pending[t.who()]))
	all := slices.Clone(t.d.Asked[q.From])
	if n := len(all); n > 0 && all[n-1].Said == said {
		change(&all[n-1].Question)
		t.remember(q.From, all)
	}
}

// remind adds the question that is still open to the reply, once for each question, if the message did not
// answer it. After that, a number does not count as its answer until it has been shown again: by "open", or
// by the number itself.
func (d *Desk) remind(in message.In, out *message.Out) {
	who := strings.ToLower(in.Who)
	q, n := d.Pending[who], len(out.Answers)
	if q == nil || q.Saved || n == 0 || out.Answers[n-1].Ask != nil || out.Answers[n-1].Who != in.Who {
		return
	}
	key := fmt.Sprint(who, q.Sent, q.Said, q.Why)
	if d.reminded[key] {
		d.stale[who] = true
		return
	}
	delete(d.stale, who)
	d.reminded[key] = true
	said, _, _ := strings.Cut(q.Said, answerSign)
	if strings.HasPrefix(q.Why, said) {
		said = ""
	} else {
		said = say.FirstWords(said) + ": "
	}
	out.Answers[n-1].Reply += "\nstill open: " + said + answer.Shown(q.Why, q.Choices)
}
