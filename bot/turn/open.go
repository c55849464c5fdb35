package turn

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/grammar"
	"strapline/grammar/sentences"
)

// The open questions of a sender are stacked. The newest is asked; those under it wait until it is
// answered or dropped. So nothing is lost if somebody goes on to something else, or if their next message
// leads to a question too.

// mostOpen is the most questions kept per sender; one more pushes out the oldest, which becomes a note.
const mostOpen = 4

// open returns the question that the message may answer, and whether it may: in a thread that thread's
// question, else the newest.
func (t *Turn) open() (q *pending.Question, mine bool) {
	top := t.l.Pending[t.Who()]
	if t.in.Thread != "" {
		for q := top; q != nil; q = q.Under {
			if q.ID == t.in.Thread {
				return q, true
			}
		}
	}
	return top, top != nil && (t.in.Thread == "" || top.ID == "")
}

// Close removes an open question of somebody's.
func (t *Turn) Close(who string, q *pending.Question) {
	top := t.l.Pending[who]
	left := top.Without(func(o *pending.Question) bool { return o == q })
	if left == top {
		return
	}
	if err := t.l.Pile(who, left); err != nil {
		t.Err = err
	}
}

// keep puts q on top of the sender's open questions. It replaces one about the same message, room or
// supports.
func (t *Turn) keep(q *pending.Question) {
	q.Under = t.l.Pending[t.Who()].Without(func(o *pending.Question) bool {
		return !t.Beside && !o.Stays(t.l.Opt.Kinds) || o.Said == q.Said || o.From != "" && o.From == q.From && o.Edit == q.Edit && o.Why == q.Why || q.Room() != "" && o.Room() == q.Room() || q.Supports() != "" && o.Supports() == q.Supports()
	})
	n := 1
	for o := q.Under; o != nil; o = o.Under {
		if n++; n > mostOpen {
			t.giveUp(o, true)
			last := o
			q.Under = q.Under.Without(func(o *pending.Question) bool { return o == last })
			break
		}
	}
	if err := t.l.Pile(t.Who(), q); err != nil {
		t.Err = err
		return
	}
	if all := t.l.Pictures[t.Who()]; len(all) > 0 { // an older log keeps pictures in the question's row
		t.Err = t.l.SetPictures(t.Who(), all)
	}
}

// drop gives up the open question because the sender went on to something else.
func (t *Turn) drop(open *pending.Question) {
	t.Close(t.Who(), open)
	t.giveUp(open, false)
}

// giveUp keeps what a question was about as a note, or it says what is lost.
func (t *Turn) giveUp(open *pending.Question, keep bool) {
	lost := open.Lost()
	if open.Kept || open.Rest == "" && open.OnlyAsks(t.l.Opt.Kinds) { // nothing was to be saved
		lost = ""
	}
	if keep && lost != "" {
		said := say.Answered(open.Said, open.Answers)
		b := event.Note{Text: strings.Join(append([]string{said}, sentences.Split(open.Rest)...), "; ")}
		if r := t.l.State.RoomOf(t.in.Who); r != nil {
			b.Room = r.Name
		}
		e, err := t.l.Save(open.From, event.Event{Who: t.in.Who, Sent: open.Sent, Text: said, Body: b})
		if err != nil {
			t.Err = err
			return
		}
		lost = fmt.Sprintf("noted %d, not on the plan: %s", e.Seq, say.FirstLine(b.Text))
	}
	if lost != "" {
		t.Lead = append(t.Lead, lost)
	}
}

// Waits sets what waits for a question of the sender.
func (t *Turn) Waits(q *pending.Question, rest string) {
	t.Change(q, func(q *pending.Question) { q.Rest = rest })
}

// Change changes an open question of the sender, where it is open and where it is remembered.
func (t *Turn) Change(q *pending.Question, change func(*pending.Question)) {
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
	t.Err = t.l.Pile(t.Who(), pile(t.l.Pending[t.Who()]))
	all := slices.Clone(t.l.Asked[q.From])
	if n := len(all); n > 0 && all[n-1].Said == said {
		change(&all[n-1].Question)
		t.Remember(q.From, all)
	}
}

// NoMore takes from a question that offers to keep its message as a note what is kept already.
func (t *Turn) NoMore(q *pending.Question) {
	if q == nil {
		return
	}
	t.Change(q, func(q *pending.Question) {
		q.Kept = true
		q.Choices = slices.Clone(q.Choices)
		for i, c := range q.Choices {
			if c.KeepsNote() && strings.HasPrefix(c.Label, "no: ") {
				q.Choices[i] = grammar.Choice{Label: c.Label}
			}
		}
	})
}
