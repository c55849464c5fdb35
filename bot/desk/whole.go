package desk

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/bot/turn"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/sentences"
)

// whole is a message while its parts are answered. What cannot be read of it is kept in one note, which
// contains the whole message: a part by itself may have lost what it is about.
type whole struct {
	text string       // as it was sent
	kept []*turn.Turn // its parts that were not read
	said []said       // its parts in order
	anew bool         // it is a note put right: it puts nothing right itself
}

type said struct {
	text  string
	entry *site.Entry // the last that it made, nil if none
}

// add takes a part that was answered, or left alone, into the message.
func (d *Desk) add(w *whole, t *turn.Turn) {
	if t.Unread != nil {
		w.kept = append(w.kept, t)
	}
	switch {
	case t.Ans.Saved:
		w.said = append(w.said, said{t.Said, d.State.Entry(t.Ans.Seq)})
	case t.Ans.Kind == "":
		w.said = append(w.said, said{t.Said, nil})
	}
}

// last returns the last entry that the message made, nil if none.
func (w *whole) last() *site.Entry {
	for _, s := range slices.Backward(w.said) {
		if s.entry != nil {
			return s.entry
		}
	}
	return nil
}

// rest says something of the job that cannot be read: it is kept as a note. Otherwise words that belong to
// no entry go into the text of the entry before or after them, so that the log contains every word.
func (d *Desk) rest(in message.In, w *whole, out *message.Out) error {
	t := turn.New(d.Ledger, in, w.text, "")
	if len(w.kept) == 1 && !w.anew {
		done, err := d.putRight(in, w.kept[0], out)
		if err != nil {
			return err
		}
		if done { // its own words stay with what it put right
			w.said = slices.DeleteFunc(w.said, func(s said) bool { return s.entry == nil && s.text == w.kept[0].Said })
			w.kept = nil
		}
	}
	if len(w.kept) == 0 {
		if lead := d.trail(w.said); lead != "" && out.Asks() {
			q := d.Pending[t.Who()]
			t.Change(q, func(q *pending.Question) { q.Said = lead + " " + q.Said })
		}
		return t.Err
	}
	line := *w.kept[0].Unread
	if d.State.Room(line.Room) == nil {
		line.Room = ""
	}
	note := record.Note{Text: w.text, Kept: true}
	var unread []string
	for _, k := range w.kept {
		unread = append(unread, k.Said)
		n := k.Unread.Entry.(record.Note)
		note.Hint = cmp.Or(note.Hint, n.Hint)
		if len(w.kept) == 1 {
			note.Wrong = n.Wrong
		}
	}
	c := t.Ctx()
	if part := strings.Join(unread, "; "); len(out.Answers) > 0 {
		c.Unread = say.FirstWords(part)
	}
	line.Entry = note
	t.Take(c.AnswerLine(line))
	if t.Claim(); t.Err != nil {
		return t.Err
	}
	for _, s := range w.said {
		if s.entry == nil && strings.HasSuffix(s.text, "?") {
			t.Ans.Reply += "\nno answer to: " + say.FirstWords(s.text)
		}
	}
	t.Missed()
	at := len(out.Answers)
	if out.Asks() { // the question stays last
		at--
		t.NoMore(d.Pending[t.Who()])
	}
	out.Answers = slices.Insert(out.Answers, at, t.Ans)
	return nil
}

// putRight answers a correction in words of what was said before. What it makes of a note is read as if it came in now.
func (d *Desk) putRight(in message.In, from *turn.Turn, out *message.Out) (done bool, err error) {
	text := from.Said
	t := turn.New(d.Ledger, in, text, "")
	own := t.Who()
	for _, who := range append([]string{own}, slices.Sorted(maps.Keys(d.Pending))...) { // a colleague may know better
		for q := d.Pending[who]; q != nil; q = q.Under {
			if words, ok := revise.OfText(t.Ctx(), text, q.Said, who != own); ok && !q.Saved {
				t.Close(who, q)
				t.Show(answer.Tell("dropped", nil, "put right: "+words))
				out.Answers = append(out.Answers, t.Ans)
				return true, errors.Join(t.Err, d.anew(in, turn.Joined(words, q.Rest), out)) // with what waited for it
			}
		}
	}
	r, of, words := revise.InWords(t.Ctx(), text)
	if r == nil && of == nil {
		if words != "" && from.Unread == nil {
			from.Unread = &grammar.Line{Entry: record.Note{Text: text, Kept: true}}
		}
		return false, nil
	}
	put := func() {
		t.Missed()
		at := len(out.Answers)
		if out.Asks() && !t.Ans.Asks() { // the question stays last
			at--
		}
		out.Answers = slices.Insert(out.Answers, at, t.Ans)
	}
	if r != nil {
		t.Take(*r)
		if t.Claim(); t.Err != nil || d.Wait {
			return true, t.Err
		}
		put()
		return true, nil
	}
	t.Take(revise.Strike(t.Ctx(), of, false, false))
	if t.Err != nil || d.Wait {
		return true, t.Err
	}
	t.Ans.Reply = fmt.Sprintf("note %d put right: %s", of.Seq, words)
	put()
	if here := d.State.RoomOf(in.Who); of.Room != "" && (here == nil || here.Name != of.Room) && !strings.Contains(strings.ToLower(words), of.Room) {
		words = of.Room + ": " + words
	}
	if strings.HasPrefix(strings.ToLower(of.Text), "note ") { // it is to be no more than that
		words = "note " + words
	}
	return true, errors.Join(t.Err, d.anew(in, words, out))
}

// anew reads words that were put right.
func (d *Desk) anew(in message.In, words string, out *message.Out) (err error) {
	entries := sentences.Split(words)
	again, w := message.Out{}, &whole{text: strings.Join(entries, "; "), anew: true}
	if err = d.parts(in, w, entries, &again); err == nil && !d.Wait {
		err = d.rest(in, w, &again)
	}
	out.Answers = append(out.Answers, again.Answers...)
	return err
}

// trail adds parts that made no entry to the text of the entry before them, or else after them. It returns
// them if there is none.
func (d *Desk) trail(parts []said) (lead string) {
	var last *site.Entry
	for _, p := range parts {
		switch {
		case p.entry != nil:
			if last = p.entry; lead != "" {
				d.Reword(last, joinedBy(" ", lead, last.Text))
				lead = ""
			}
		case last != nil:
			d.Reword(last, joinedBy(" ", last.Text, p.text))
		default:
			lead = joinedBy(" ", lead, p.text)
		}
	}
	return lead
}

func joinedBy(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), sep)
}
