package desk

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
)

// turn is the answering of one entry.
type turn struct {
	d       *Desk
	in      message.In
	of      string // message it belongs to: its questions are kept under that id
	step    int    // index of the question it answers among those; -1 if none
	edit    string // message whose edit it asks about
	said    string // the entry as typed
	rest    string // what follows it in the message
	sent    time.Time
	ans     message.Answer
	lead    []string      // lines to show before the answer: "question dropped"
	strikes string        // the text of a strike that this entry makes
	part    *whole        // the message that it is a part of, nil for what waited
	prose   bool          // it is only a sentence of a line
	beside  bool          // it stands behind a question of its own message, which stays open
	asking  *grammar.Line // the line whose answer may be a question
	err     error         // our own failure
}

func (d *Desk) turn(in message.In, said, rest string) *turn {
	return &turn{d: d, in: in, of: d.origin(in), step: -1, said: said, rest: rest, sent: in.Sent, ans: message.Answer{
		Who: in.Who, When: in.Sent.In(d.opt.Loc).Format(time.RFC3339), Job: d.opt.Name, Said: said,
	}}
}

// who returns the sender as a key.
func (t *turn) who() string { return strings.ToLower(t.in.Who) }

func (t *turn) ctx() answer.Ctx { return t.d.ctx(t.in, t.said, t.sent) }

// run answers one entry. whole is the result of parsing it, or nil.
func (t *turn) run(text string, whole *parse.Heard) {
	open, mine := t.open()
	if n := open.Choice(text); mine && n > 0 && !(t.d.stale[t.who()] && pending.Yes(text)) {
		delete(t.d.stale, t.who())
		t.pick(open, n)
		return
	}
	if open != nil && !open.Saved && strings.EqualFold(strings.Trim(text, " ?.!"), "open") {
		t.again(open, "still open: ")
		return
	}
	lost := t.lost(mine)
	if whole == nil || mine || lost != nil { // an open question may make it an answer
		line, err := t.ctx().Parse(text, mine || lost != nil)
		whole = &parse.Heard{Line: line, Err: err}
	}
	t.read(text, open, mine, lost, whole.Line, whole.Err)
}

// read answers a parsed entry.
func (t *turn) read(text string, open *pending.Question, mine bool, lost *Asked, line grammar.Line, err error) {
	if t.corrects(text, open, mine) {
		return
	}
	said := !errors.Is(err, grammar.ErrChatter) || strings.ContainsAny(text, "0123456789") || strings.HasPrefix(text, "on top")
	_, bare := line.Entry.(record.Bare)
	note, kept := line.Entry.(record.Note)
	kept = kept && note.Kept // kept in the sender's words: it does not replace a question
	if (err != nil || bare || kept) && mine && open.Base != "" && said && !(open.Room() != "" && t.d.stale[t.who()]) {
		for _, lead := range []string{"", open.Lead + " "} {
			whole, werr := t.ctx().Parse(open.Base+" "+lead+relate.Opened(text), false)
			if werr == nil && open.AsksFor(whole.Entry) {
				t.answered(open, whole)
				return
			}
			if ask, ok := errors.AsType[*grammar.Ask](werr); ok && open.Led(ask, err) {
				t.answering(open)
				t.rest = strings.TrimSpace(open.Rest + "\n" + t.rest)
				t.take(answer.Ask(ask.Why, "", ask.Choices...))
				return
			}
		}
	}
	if mine && open.Base != "" && (err != nil || kept) { // it does not answer the question: parse it without
		if l, lerr := t.ctx().Parse(text, false); !errors.Is(lerr, grammar.ErrChatter) {
			line, err = l, lerr
			note, kept = line.Entry.(record.Note)
			kept = kept && err == nil && note.Kept
		}
	}
	if _, asks := errors.AsType[*grammar.Ask](err); kept || err != nil && !asks {
		if t.labelled(text) {
			return
		}
		if t.captions(text) {
			line, err = t.ctx().Parse("note "+text, false)
		}
	}
	switch p := line.Entry.(type) {
	case record.Pick:
		if mine || lost == nil {
			t.pick(open, p.N)
			return
		}
		t.gone(text, lost)
		return
	case record.Bare: // a bare value for an open question, but it did not fit
		if mine {
			t.again(open, "still open: ")
			return
		}
		t.gone(text, lost)
		return
	}
	if errors.Is(err, grammar.ErrChatter) {
		if open != nil {
			t.d.stale[t.who()] = true
		}
		return
	}
	if r, ok := errors.AsType[*grammar.Refusal](err); ok {
		if t.prose && t.part != nil && !r.Plain {
			if !r.Once {
				t.part.keep(t, grammar.Line{Room: line.Room, Entry: record.Note{Kept: true, Hint: parse.Own(r)}})
			}
			return
		}
		if r.Once && !t.in.Direct {
			if t.d.hinted[t.who()] {
				return
			}
			t.d.hinted[t.who()] = true
		}
		t.show(answer.Refused(r))
		return
	}
	for q := open; mine && q != nil; q = q.Under {
		if n := q.Begun(line, err); n > 0 {
			t.pick(q, n)
			return
		}
		if err == nil && q.Fuller(t.ctx(), line) {
			t.close(q)
			t.choose(grammar.Choice{Lines: []grammar.Line{line}}, q.Rest)
			return
		}
	}
	_, _, holds := t.lastHeld()
	if _, undo := line.Entry.(record.Undo); undo && err == nil && !holds && t.undoesNothing(open) {
		return
	}
	if open != nil && !kept && !t.beside && !open.Stays(t.d.opt.Kinds) {
		t.drop(open)
	}
	switch e := err.(type) {
	case nil:
		t.line(line)
	case *grammar.Ask:
		t.take(answer.Asks(e, roomBase(e)))
	default:
		t.err = err
	}
}

// roomBase returns the start of a line that gives a room's sides again, if the question is about them.
func roomBase(a *grammar.Ask) string {
	for _, c := range a.Choices {
		for _, l := range c.Lines {
			if r, ok := l.Entry.(rooms.Room); ok {
				return "room " + r.Name + ","
			}
		}
	}
	return ""
}

// gone refuses an answer to a question that was dropped.
func (t *turn) gone(text string, lost *Asked) {
	t.show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
		Col: 1, Word: text, Want: "an open question", Hint: say.FirstLine(lost.Said), Say: "that question was dropped; send it again: " + say.FirstWords(lost.Said),
	}})
}

// line answers a parsed line, or holds it until its room exists.
func (t *turn) line(line grammar.Line) {
	if note, ok := line.Entry.(record.Note); ok && note.Kept && t.part != nil {
		t.part.keep(t, line)
		return
	}
	if room, waits := t.waitsFor(line); waits {
		t.hold(room, line)
		return
	}
	if t.unholds(line.Entry) {
		return
	}
	if t.asking = nil; !t.d.opt.Kinds.Asks(line.Entry) {
		t.asking = &line
	}
	t.take(t.ctx().AnswerLine(line))
}

// take does what a reply says: it saves, asks, and shows.
func (t *turn) take(r answer.Reply) {
	sent, here := r.Sent, r.Here
	if !sent.IsZero() && r.Kind != "error" {
		t.sent = sent
		t.ans.When = sent.In(t.d.opt.Loc).Format(time.RFC3339)
	}
	for r.Then != nil && r.Err == nil && !r.Work {
		t.lead = append(t.lead, r.Lead...)
		made := make([]*site.Entry, len(r.Save))
		for i, b := range r.Save {
			if made[i] = t.save(b); t.err != nil {
				return
			}
		}
		r = r.Then(made)
	}
	switch {
	case r.Err != nil:
		t.err = r.Err
		return
	case r.Work:
		t.d.wait = true
		return
	}
	t.show(r)
	if t.ans.Room == "" && r.Kind != "error" {
		t.ans.Room = here
	}
}

// save appends one event to the log.
func (t *turn) save(b event.Body) *site.Entry {
	text := t.said
	if _, ok := b.(event.Strike); ok && t.strikes != "" {
		text = t.strikes
	}
	e, err := t.d.save(t.in.ID, event.Event{Who: t.in.Who, Sent: t.sent.UnixMilli(), Text: text, Body: b})
	if err != nil {
		t.err = err
		return nil
	}
	if size, ok := b.(event.RoomSize); ok {
		t.err = t.d.sized(size.Room)
	}
	if !answer.Hidden(b) {
		t.ans.Seq, t.ans.Saved, t.ans.Room = e.Seq, true, e.Room
	}
	return e
}

// show puts a reply into the answer.
func (t *turn) show(r answer.Reply) {
	t.lead = append(t.lead, r.Lead...)
	t.ans.Kind, t.ans.Facts, t.ans.Reply = r.Kind, r.Facts, r.Text
	t.ans.Room = cmp.Or(r.Room, t.ans.Room)
	t.ans.Tell = append(t.ans.Tell, r.Tell...)
	t.ans.Pictures = append(t.ans.Pictures, r.Pictures...)
	switch {
	case r.Refuse != nil:
		t.ans.Kind, t.ans.Reply = message.KindError, r.Refuse.Text()
		t.ans.Error = &message.Fault{Col: r.Refuse.Col, Word: r.Refuse.Word, Want: r.Refuse.Want, Hint: r.Refuse.Hint}
	case r.Ask != nil:
		t.ask(r.Ask, false)
	}
	for i, n := range r.Notes {
		if n.Kind != "" && slices.Contains(r.Notes[:i], n) {
			continue
		}
		if n.Kind != "" {
			t.ans.Notes = append(t.ans.Notes, n)
		}
		if !n.Said {
			t.ans.Reply += "\n" + n.Text
		}
	}
	if r.More != nil {
		t.ask(r.More, true)
	}
	t.ans.Reply = strings.Join(append(t.lead, t.ans.Reply), "\n")
	t.lead = nil
	t.ans.Reply = short(t.ans.Reply)
}

func short(s string) string {
	lines := strings.Split(s, "\n")
	if len(lines) <= message.MostLines {
		return s
	}
	left := len(lines) - (message.MostLines - 1)
	return strings.Join(append(lines[:message.MostLines-1:message.MostLines-1], fmt.Sprintf("%d more lines; name a room, a row or a thing to see them", left)), "\n")
}
