package desk

import (
	"regexp"
	"slices"
	"strings"

	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
)

// whole is a message while its parts are answered. What cannot be read of it is kept in one note, which
// contains the whole message: a part by itself may have lost what it is about.
type whole struct {
	text string // as it was sent
	kept []kept
	// said are its parts in order, with the last entry that each made.
	said []said
}

// kept is a part that was not read.
type kept struct {
	turn *turn
	line grammar.Line // a note, with the room that was named and what would put it on the plan
}

type said struct {
	text  string
	entry *site.Entry // nil if it made none
}

// add takes a part that was answered, or left alone, into the message.
func (w *whole) add(t *turn) {
	switch {
	case t.ans.Saved:
		w.said = append(w.said, said{t.said, t.d.State.Entry(t.ans.Seq)})
	case t.ans.Kind == "":
		w.said = append(w.said, said{t.said, nil})
	}
}

// takesBack matches words that take back what was said right before them.
var takesBack = regexp.MustCompile(`(?i)^(?:no,? wait|wait,? no|no,? sorry|no,? i mean|i mean|i meant|scratch that|sorry,? (?:i mean|no|the|its|it's)|oops,? (?:no|i mean|the)|wait,? i mean)\b.`)

// last returns the last entry that the message made, nil if none.
func (w *whole) last() *site.Entry {
	for _, s := range slices.Backward(w.said) {
		if s.entry != nil {
			return s.entry
		}
	}
	return nil
}

// keep keeps a part for the note about the message.
func (w *whole) keep(t *turn, line grammar.Line) { w.kept = append(w.kept, kept{t, line}) }

// rest says something of the job that cannot be read: it is kept as a note. Otherwise words that belong to
// no entry go into the text of the entry before or after them, so that the log contains every word.
func (d *Desk) rest(in message.In, w *whole, out *message.Out) error {
	t := d.turn(in, w.text, "")
	if len(w.kept) == 0 {
		if lead := d.trail(w.said); lead != "" && out.Asks() {
			q := d.Pending[t.who()]
			t.change(q, func(q *pending.Question) { q.Said = lead + " " + q.Said })
		}
		return t.err
	}
	line := w.kept[0].line
	if d.State.Room(line.Room) == nil {
		line.Room = ""
	}
	note := record.Note{Text: w.text, Kept: true}
	var unread []string
	for _, k := range w.kept {
		unread = append(unread, k.turn.said)
		if n := k.line.Entry.(record.Note); note.Hint == "" {
			note.Hint = n.Hint
		}
	}
	c := t.ctx()
	if part := strings.Join(unread, "; "); len(out.Answers) > 0 {
		c.Unread = say.FirstWords(part)
	}
	line.Entry = note
	t.take(c.AnswerLine(line))
	if t.claim(); t.err != nil {
		return t.err
	}
	for _, s := range w.said {
		if s.entry == nil && strings.HasSuffix(s.text, "?") {
			t.ans.Reply += "\nno answer to: " + say.FirstWords(s.text)
		}
	}
	t.missed()
	at := len(out.Answers)
	if out.Asks() { // the question stays last
		at--
		t.noMore(d.Pending[t.who()])
	}
	out.Answers = slices.Insert(out.Answers, at, t.ans)
	return nil
}

// noMore takes from a question that offers to keep its message as a note what is kept already.
func (t *turn) noMore(q *pending.Question) {
	if q == nil {
		return
	}
	t.change(q, func(q *pending.Question) {
		q.Keep = false
		q.Choices = slices.Clone(q.Choices)
		for i, c := range q.Choices {
			if keepsNote(c) {
				q.Choices[i] = grammar.Choice{Label: c.Label}
			}
		}
	})
}

// keepsNote reports whether a choice is to keep the message as a note and no more.
func keepsNote(c grammar.Choice) bool {
	if len(c.Lines) != 1 || !strings.HasPrefix(c.Label, "no: ") {
		return false
	}
	_, ok := c.Lines[0].Entry.(record.Note)
	return ok
}

// trail adds parts that made no entry to the text of the entry before them, or else after them. It returns
// them if there is none.
func (d *Desk) trail(parts []said) (lead string) {
	var last *site.Entry
	for _, p := range parts {
		switch {
		case p.entry != nil:
			if last = p.entry; lead != "" {
				d.reword(last, joinedBy(" ", lead, last.Text))
				lead = ""
			}
		case last != nil:
			d.reword(last, joinedBy(" ", last.Text, p.text))
		default:
			lead = joinedBy(" ", lead, p.text)
		}
	}
	return lead
}

// reword sets the text of an entry that is not committed yet.
func (d *Desk) reword(e *site.Entry, text string) {
	for i, rec := range slices.Backward(d.Batch.Records) {
		if rec.Seq == e.Seq {
			e.Text, d.Batch.Records[i].Text = text, text
			return
		}
	}
}

func joinedBy(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), sep)
}
