package turn

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/sentences"
	"strapline/grammar/topic"
	"strapline/grammar/unread"
)

// Turn is the answering of one entry.
type Turn struct {
	Said    string // the entry as typed; in its answer, the message that was asked about
	Rest    string // what follows it in the message
	Ans     message.Answer
	Lead    []string      // lines to show before the answer: "question dropped"
	Strikes string        // the text of a strike that this entry makes
	Of      string        // message it belongs to: its questions are kept under that id
	Part    bool          // it is a part of a message, not what waited
	Prose   bool          // it is only a sentence of a line
	Beside  bool          // it stands behind a question of its own message, which stays open
	Unread  *grammar.Line // of a part that was not read: a note, with the room that was named and what would put it on the plan
	Err     error         // our own failure

	l       *ledger.Ledger
	in      message.In
	answers []string // to what was asked about Said, this one last
	step    int      // index of the question it answers among those of its message; -1 if none
	edit    string   // message whose edit it asks about
	sent    time.Time
	asking  *grammar.Line // the line whose answer may be a question
}

// New returns the turn of an entry of a message. rest is what follows it there.
func New(l *ledger.Ledger, in message.In, said, rest string) *Turn {
	return &Turn{l: l, in: in, Of: l.Origin(in), step: -1, Said: said, Rest: rest, sent: in.Sent, Ans: message.Answer{
		Who: in.Who, When: in.Sent.In(l.Opt.Loc).Format(time.RFC3339), Job: l.Opt.Name, Said: said,
	}}
}

func (t *Turn) Who() string { return strings.ToLower(t.in.Who) }

func (t *Turn) Ctx() answer.Ctx { return t.l.Ctx(t.in, t.text(), t.sent) }

// Run answers one entry. whole is the result of parsing it, or nil.
func (t *Turn) Run(text string, whole *sentences.Heard) {
	open, mine := t.open()
	if mine {
		from, to := topic.Said(text)
		text = text[from:to]
	}
	if n := open.Choice(text); mine && n > 0 && !(t.l.Stale[t.Who()] && pending.Yes(text)) {
		ledger.Set(t.l, t.l.Stale, t.Who(), false)
		t.pick(open, n)
		return
	}
	if open != nil && !open.Saved && strings.EqualFold(strings.Trim(text, " ?.!"), "open") {
		t.again(open, "still open: ")
		return
	}
	lost := t.lost(mine)
	if whole == nil || mine || lost != nil { // an open question may make it an answer
		line, err := t.Ctx().Parse(text, mine || lost != nil)
		whole = &sentences.Heard{Line: line, Err: err}
	}
	t.read(text, open, mine, lost, whole.Line, whole.Err)
}

// read answers a parsed entry: as a correction or an answer if it is one, else by itself.
func (t *Turn) read(text string, open *pending.Question, mine bool, lost *ledger.Asked, line grammar.Line, err error) {
	if t.corrects(text, open, mine) || t.answersOpen(text, open, mine, line, err) {
		return
	}
	if mine && open.Base != "" && (err != nil || isKept(line)) { // it does not answer the question: parse it without
		if l, lerr := t.Ctx().Parse(text, false); !errors.Is(lerr, grammar.ErrChatter) {
			line, err = l, lerr
		}
	}
	_, asks := errors.AsType[*grammar.Ask](err)
	kept := err == nil && isKept(line) // in the sender's words: it does not replace a question
	if kept || err != nil && !asks {
		if t.labelled(text) {
			return
		}
		if t.captions(text) {
			line, err = t.Ctx().Parse("note "+text, false)
		}
	}
	switch pick, picks := line.Entry.(record.Pick); {
	case picks && (mine || lost == nil):
		t.pick(open, pick.N)
		return
	case (picks || isBare(line)) && mine:
		t.again(open, "still open: ")
		return
	case picks || isBare(line):
		t.gone(text, lost)
		return
	}
	if refused, is := errors.AsType[*grammar.Refusal](err); is {
		t.refuse(text, line.Room, refused)
		return
	}
	switch {
	case errors.Is(err, grammar.ErrChatter):
		t.talk(text, open, mine)
		return
	case mine && t.replaces(open, line, err):
		return
	}
	_, _, holds := t.lastHeld()
	if _, undo := line.Entry.(record.Undo); undo && err == nil && !holds && t.undoesNothing(open) {
		return
	}
	if open != nil && !kept && !t.Beside && !open.Stays(t.l.Opt.Kinds) {
		t.Close(t.Who(), open)
		t.giveUp(open, open.Free(line.Entry))
	}
	switch e := err.(type) {
	case nil:
		t.line(line)
	case *grammar.Ask:
		t.Take(answer.Asks(e, pending.RoomBase(e)))
	default:
		t.Err = err
	}
}

// isKept reports whether a line is a note in its sender's own words, of which nothing is worked out.
func isKept(line grammar.Line) bool {
	note, is := line.Entry.(record.Note)
	return is && note.Kept
}

// isBare reports whether a line is a value by itself.
func isBare(line grammar.Line) bool {
	_, is := line.Entry.(record.Bare)
	return is
}

// talk leaves alone what needs no answer, unless it may be one to the open question.
func (t *Turn) talk(text string, open *pending.Question, mine bool) {
	if mine && !open.Saved && !t.l.Stale[t.Who()] && open.Near(text) {
		t.again(open, "still open: ")
	} else if open != nil {
		ledger.Set(t.l, t.l.Stale, t.Who(), true)
	}
}

// refuse answers an entry that cannot be taken, or keeps it as a note.
func (t *Turn) refuse(text, room string, r *grammar.Refusal) {
	if t.Prose && t.Part && !r.Plain {
		if !r.Once {
			t.Unread = &grammar.Line{Room: room, Entry: record.Note{Kept: true, Hint: unread.Own(r)}}
		}
		return
	}
	if r.Once && !t.in.Direct {
		if t.l.Hinted[t.Who()] {
			return
		}
		ledger.Set(t.l, t.l.Hinted, t.Who(), true)
	}
	if r.Keep {
		t.keeps(text, room, r)
		return
	}
	t.Show(answer.Refused(r))
}

// mostFaulted is how many words a line has, at most, in which a single one is named as the fault: a longer one is free talk.
const mostFaulted = 8

// keeps keeps a refused line as a note, as it tells something that would be lost.
func (t *Turn) keeps(text, room string, r *grammar.Refusal) {
	note := record.Note{Text: text, Kept: true}
	if len(strings.Fields(text)) <= mostFaulted {
		note.Wrong = answer.Refused(r).Refuse.Wrong()
	}
	line := grammar.Line{Room: room, Entry: note}
	if t.Part {
		t.Unread = &line
		return
	}
	t.Take(t.Ctx().AnswerLine(line))
}

// gone refuses an answer to a question that was dropped.
func (t *Turn) gone(text string, lost *ledger.Asked) {
	t.Show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
		Col: 1, Word: text, Want: "an open question", Hint: say.FirstLine(lost.Said), Say: "that question was dropped; send it again: " + say.FirstWords(lost.Said),
	}})
}

// line answers a parsed line, or holds it until its room exists.
func (t *Turn) line(line grammar.Line) {
	if note, ok := line.Entry.(record.Note); ok && note.Kept && t.Part {
		t.Unread = &line
		return
	}
	if bare, ok := line.Entry.(record.Bare); ok { // nothing is open that it could answer
		t.Show(answer.No("nothing is asked that "+bare.String()+" would answer", "gap "+bare.String()))
		return
	}
	if room, waits := t.waitsFor(line); waits {
		t.hold(room, line)
		return
	}
	if t.unholds(line.Entry) {
		return
	}
	if t.asking = nil; !t.l.Opt.Kinds.Asks(line.Entry) && line.Entry.Kind() != "doubtful" {
		t.asking = &line
	}
	t.Take(t.Ctx().AnswerLine(line))
}

// Take does what a reply says: it saves, asks, and shows.
func (t *Turn) Take(r answer.Reply) {
	sent, here := r.Sent, r.Here
	if !sent.IsZero() && r.Kind != "error" {
		t.sent = sent
		t.Ans.When = sent.In(t.l.Opt.Loc).Format(time.RFC3339)
	}
	for r.Then != nil && r.Err == nil && !r.Work {
		t.Lead = append(t.Lead, r.Lead...)
		made := make([]*site.Entry, len(r.Save))
		for i, b := range r.Save {
			if made[i] = t.Save(b); t.Err != nil {
				return
			}
		}
		r = r.Then(made)
	}
	switch {
	case r.Err != nil:
		t.Err = r.Err
		return
	case r.Work:
		t.l.Wait = true
		return
	}
	t.Show(r)
	if t.Ans.Room == "" && r.Kind != "error" {
		t.Ans.Room = here
	}
}

// Save appends one event to the log.
func (t *Turn) Save(b event.Body) *site.Entry {
	text := t.text()
	if _, ok := b.(event.Strike); ok && t.Strikes != "" {
		text = t.Strikes
	}
	e, err := t.l.Save(t.in.ID, event.Event{Who: t.in.Who, Sent: t.sent.UnixMilli(), Text: text, Body: b})
	if err != nil {
		t.Err = err
		return nil
	}
	if size, ok := b.(event.RoomSize); ok {
		t.Err = t.l.Sized(size.Room)
	}
	if !answer.Hidden(b) {
		t.Ans.Seq, t.Ans.Saved, t.Ans.Room = e.Seq, true, e.Room
	}
	return e
}

// Show puts a reply into the answer.
func (t *Turn) Show(r answer.Reply) {
	t.Lead = append(t.Lead, r.Lead...)
	t.Ans.Kind, t.Ans.Facts, t.Ans.Reply = r.Kind, r.Facts, r.Text
	t.Ans.Room = cmp.Or(r.Room, t.Ans.Room)
	t.Ans.Tell = append(t.Ans.Tell, r.Tell...)
	t.Ans.Pictures = append(t.Ans.Pictures, r.Pictures...)
	switch {
	case r.Refuse != nil && r.Refuse.Asks != nil && t.asking != nil:
		q := *r.Refuse.Asks
		q.Choices = []grammar.Choice{{Label: "no: keep it as a note", Lines: []grammar.Line{{Entry: record.Note{Text: t.Said}}}}}
		t.ask(&q, false)
	case r.Refuse != nil:
		t.Ans.Kind, t.Ans.Reply = message.KindError, r.Refuse.Text()
		t.Ans.Error = &message.Fault{Col: r.Refuse.Col, Word: r.Refuse.Word, Want: r.Refuse.Want, Hint: r.Refuse.Hint}
		if r.Refuse.Lacks {
			t.keepsRefused(t.Said)
		}
	case r.Ask != nil:
		t.ask(r.Ask, false)
	}
	for i, n := range r.Notes {
		if n.Kind != "" && slices.Contains(r.Notes[:i], n) {
			continue
		}
		if n.Kind != "" {
			t.Ans.Notes = append(t.Ans.Notes, n)
		}
		if !n.Said {
			t.Ans.Reply += "\n" + n.Text
		}
	}
	if r.More != nil {
		t.ask(r.More, true)
	}
	t.Ans.Reply = strings.Join(append(t.Lead, t.Ans.Reply), "\n")
	t.Lead = nil
	t.Ans.Reply = short(t.Ans.Reply)
}

func short(s string) string {
	lines := strings.Split(s, "\n")
	if len(lines) <= message.MostLines {
		return s
	}
	left := len(lines) - (message.MostLines - 1)
	return strings.Join(append(lines[:message.MostLines-1:message.MostLines-1], fmt.Sprintf("%d more lines; name a room, a row or a thing to see them", left)), "\n")
}
