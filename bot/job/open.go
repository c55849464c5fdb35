package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/site"
	"strapline/grammar"
)

// A sender's open questions lie one on the other. The newest is the one that is asked;
// those under it wait until it is out of the way, so that somebody who goes on to
// something else, or whose next words are asked about too, loses nothing.

// mostOpen questions of one sender are kept; a further one takes the place of the oldest.
const mostOpen = 4

// stays reports whether a question stays open when its sender goes on to something
// else: what it asks about tells something, and a number or a few words answer it.
func (q *question) stays(k answer.Kinds) bool {
	if q.Saved || strings.HasPrefix(q.Why, nothingSaved) {
		return false
	}
	tells := func(c grammar.Choice) bool { return len(c.Lines) == 0 || !k.Asks(c.Lines[0].Entry) }
	return q.Base != "" && strings.Contains(q.Why, "?") || slices.ContainsFunc(q.Choices, tells)
}

// without is the pile of questions from q down, but for one of them.
func (q *question) without(gone func(*question) bool) *question {
	switch {
	case q == nil:
		return nil
	case gone(q):
		return q.Under.without(gone)
	}
	under := q.Under.without(gone)
	if under == q.Under {
		return q
	}
	left := *q
	left.Under = under
	return &left
}

// open is the question that the message may answer, and whether it may: in a thread
// that thread's, else the newest.
func (t *turn) open() (q *question, mine bool) {
	top := t.d.pending[t.who()]
	if t.in.Thread != "" {
		for q := top; q != nil; q = q.Under {
			if q.ID == t.in.Thread {
				return q, true
			}
		}
	}
	return top, top != nil && (t.in.Thread == "" || top.ID == "")
}

// pile makes q, and what lies under it, the open questions of a sender.
func (d *desk) pile(who string, q *question) (err error) {
	delete(d.stale, who)
	if q == nil {
		delete(d.pending, who)
		d.batch.Pending[who] = nil
		return nil
	}
	d.pending[who] = q
	d.batch.Pending[who], err = json.Marshal(q)
	return err
}

// close forgets an open question of the sender.
func (t *turn) close(q *question) {
	top := t.d.pending[t.who()]
	left := top.without(func(o *question) bool { return o == q })
	if left == top {
		return
	}
	if err := t.d.pile(t.who(), left); err != nil {
		t.err = err
	}
}

// keep lays q on the sender's open questions: it takes the place of one about the same
// message or room.
func (t *turn) keep(q *question) {
	q.Under = t.d.pending[t.who()].without(func(o *question) bool {
		return !o.stays(t.d.opt.Kinds) || o.Said == q.Said || o.From != "" && o.From == q.From && o.Edit == q.Edit && o.Why == q.Why || q.room() != "" && o.room() == q.room()
	})
	n := 1
	for o := q.Under; o != nil; o = o.Under {
		if n++; n > mostOpen {
			t.giveUp(o)
			last := o
			q.Under = q.Under.without(func(o *question) bool { return o == last })
			break
		}
	}
	if err := t.d.pile(t.who(), q); err != nil {
		t.err = err
	}
	if all := t.d.pictures[t.who()]; len(all) > 0 { // an older log keeps them in that row
		t.err = t.d.mark(pictureMark+t.who(), all)
	}
}

// room is the room whose sides a question asks for, "" when it asks for none.
func (q *question) room() string {
	name, ok := strings.CutPrefix(strings.TrimSuffix(q.Base, ","), "room ")
	if !ok {
		return ""
	}
	return name
}

// drop gives the open question up because the sender went on to something else.
func (t *turn) drop(open *question) {
	t.close(open)
	t.giveUp(open)
}

// giveUp says what is given up with a question, or keeps it as a note.
func (t *turn) giveUp(open *question) {
	lost := open.lost()
	if open.Keep {
		b := site.Note{Text: strings.Join(append([]string{open.Said}, grammar.Split(open.Rest)...), "; ")}
		if r := t.d.state.RoomOf(t.in.Who); r != nil {
			b.Room = r.Name
		}
		e, err := t.d.save(site.Event{Who: t.in.Who, Sent: open.Sent, ID: open.From, Text: open.Said, Body: b})
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

const lostLead = "dropped, not saved: "

// lost says what is given up with the question, "" when nothing is.
func (q *question) lost() string {
	if (q.Saved || strings.HasPrefix(q.Why, nothingSaved)) && q.Rest == "" {
		return ""
	}
	return lostLead + strings.Join(append([]string{say.FirstLine(q.Said)}, grammar.Split(q.Rest)...), "; ")
}

// remind puts the question that is still open behind the last answer of a message that
// went by it, once; from then on a digit is not taken for its answer before it is shown again.
func (d *desk) remind(in In, out *Out) {
	who := strings.ToLower(in.Who)
	q, n := d.pending[who], len(out.Answers)
	if q == nil || q.Saved || n == 0 || out.Answers[n-1].Ask != nil || out.Answers[n-1].Who != in.Who {
		return
	}
	key := fmt.Sprint(q.Sent, q.Said, q.Why)
	if d.reminded[who] == key {
		d.stale[who] = true
		return
	}
	delete(d.stale, who)
	d.reminded[who] = key
	said, _, _ := strings.Cut(q.Said, answerSign)
	if said = firstWords(said) + ": "; strings.HasPrefix(q.Why, said) {
		said = ""
	}
	out.Answers[n-1].Reply += "\nstill open: " + said + answer.Shown(q.Why, q.Choices)
}
