package desk

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/bot/turn"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/sentences"
)

// Desk is where messages are answered. A job has one. A message whose answer needs planning is first answered
// on a copy of it.
type Desk struct {
	*ledger.Ledger
	from int // number of entries when the current message came in; -1 if nothing was planned for it
}

// New returns the desk of a job.
func New(l *ledger.Ledger) *Desk { return &Desk{Ledger: l} }

// Answer answers one message, and may spend work on planning. wait reports that the message has to be planned
// first; then everything is left as it was. from is the number of entries when a message that was planned
// came in, else -1. After any error but [message.ErrOtherText] the state may be half changed, and nothing may
// be committed.
func (d *Desk) Answer(in message.In, work *inforce.Work, from int) (out message.Out, wait bool, err error) {
	back := d.Open(work)
	d.from = from
	if out, err = d.reply(in); err != nil || !d.Wait {
		return out, false, err
	}
	err = back()
	return message.Out{}, err == nil, err
}

// Copy returns a desk to plan at beside d, with work to spend. It shares the layouts.
func (d *Desk) Copy(work *inforce.Work) *Desk { return &Desk{d.Ledger.Copy(work), -1} }

// Rehearse answers a message on a copy of the desk, after those entries, only for the layouts that are kept.
// Everything else is done again at the desk itself.
func (d *Desk) Rehearse(in message.In, entries []*site.Entry) {
	var err error
	if d.State, err = ledger.Fold(entries); err != nil {
		return
	}
	d.Begin()
	_, _ = d.reply(in)
}

// Asks reports whether everything in a message is a question.
func (d *Desk) Asks(in message.In) bool {
	for _, text := range sentences.Split(in.Text) {
		line, err := d.Ctx(in, text, in.Sent).Parse(text, false)
		if err != nil || !d.Opt.Kinds.Asks(line.Entry) {
			return false
		}
	}
	return len(in.Photos) == 0
}

// reply answers one message, or repeats the reply if its id was answered before.
func (d *Desk) reply(in message.In) (out message.Out, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("answering %q: %v\n%s", in.Text, p, debug.Stack())
		}
	}()
	d.Wait = false
	hash := ledger.Hash(in)
	if in.ID != "" {
		r, ok, err := d.Receipt(in.ID)
		if err != nil {
			return out, err
		}
		if ok && r.Hash != hash {
			return out, message.ErrOtherText
		}
		if ok {
			err = json.Unmarshal(r.Reply, &out)
			return out, err
		}
	}
	from, last := len(d.Batch.Records), len(d.State.Entries)
	if out, err = d.handle(in); err != nil || d.Wait {
		return out, err
	}
	if d.Follows = max(d.Follows-1, 0); len(out.Answers) > 0 {
		d.Follows = grammar.Right
	}
	if d.from >= 0 {
		d.asOf(&out, last)
	}
	return out, d.Seal(in, out, from)
}

// Again answers a question that its sender repeated before it was answered.
func (d *Desk) Again(in message.In) (message.Out, error) {
	if in.Sent.IsZero() {
		in.Sent = d.Opt.Now()
	}
	t := turn.New(d.Ledger, in, in.Text, "")
	t.Show(answer.Tell("dropped", nil, "asked again since: see the answer there"))
	out := message.Out{Answers: []message.Answer{t.Ans}}
	return out, d.Seal(in, out, len(d.Batch.Records))
}

// asOf adds the last entry that a planned answer is based on, if others went on meanwhile.
func (d *Desk) asOf(out *message.Out, last int) {
	if len(out.Answers) == 0 {
		return
	}
	for i := range out.Answers {
		out.Answers[i].From = uint64(last)
	}
	if last > d.from {
		a := &out.Answers[len(out.Answers)-1]
		a.Reply += fmt.Sprintf("\nas of entry %d", last)
	}
}

// handle answers one message.
func (d *Desk) handle(in message.In) (message.Out, error) {
	if in.Sent.IsZero() {
		in.Sent = d.Opt.Now()
	}
	if len(in.Text) > message.Longest {
		t := turn.New(d.Ledger, in, in.Text[:40]+"…", "")
		t.Show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
			Col: message.Longest + 1, Want: fmt.Sprintf("at most %d bytes a message", message.Longest), Hint: "send it in parts",
			Say: fmt.Sprintf("not saved: %d bytes, the most is %d; send it in parts", len(in.Text), message.Longest),
		}})
		return message.Out{Answers: []message.Answer{t.Ans}}, nil
	}
	if in.Of != "" {
		return d.edited(in)
	}
	out, err := d.entries(in, sentences.Split(in.Text))
	if err == nil && !d.Wait && len(in.Photos) > 0 {
		err = d.photos(in, &out)
	}
	return out, err
}

// release notes what was held for rooms that now exist, and adds the answers.
func (d *Desk) release(in message.In, out *message.Out) error {
	for _, room := range slices.Sorted(maps.Keys(d.Held)) {
		var stay []ledger.Held
		list := d.Held[room]
		where := make([]*site.Room, len(list))
		for i, h := range list {
			if where[i] = d.State.Room(room); room == "" {
				where[i] = d.State.RoomOf(h.Who)
				where[i] = cmp.Or(where[i], d.State.OnlyRoom())
			}
			if where[i] == nil {
				stay = append(stay, h)
			}
		}
		if len(stay) == len(list) {
			continue
		}
		if err := d.SetHeld(room, stay); err != nil {
			return err
		}
		for i, h := range list {
			if where[i] == nil {
				continue
			}
			from := len(d.Batch.Records)
			n := turn.New(d.Ledger, message.In{ID: h.ID, Who: h.Who, Sent: time.UnixMilli(h.Sent)}, h.Said, "")
			h.Line.Room = where[i].Name
			n.Take(n.Ctx().AnswerLine(h.Line))
			if n.Err != nil || d.Wait {
				return n.Err
			}
			n.Remember(h.ID, append(slices.Clip(d.Asked[h.ID]), ledger.Asked{Question: pending.Question{Said: h.Said, Sent: h.Sent, From: h.ID, Saved: true}, Who: n.Who(), Made: d.Seqs(from, len(d.Batch.Records)), Over: true}))
			if n.Err != nil {
				return n.Err
			}
			if !strings.EqualFold(h.Who, in.Who) {
				n.Ans.Reply = h.Who + ": " + n.Ans.Reply
			}
			out.Answers = append(out.Answers, n.Ans)
		}
	}
	return nil
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
	if d.Reminded[key] {
		ledger.Set(d.Ledger, d.Stale, who, true)
		return
	}
	ledger.Set(d.Ledger, d.Stale, who, false)
	ledger.Set(d.Ledger, d.Reminded, key, true)
	said := ""
	if !strings.HasPrefix(q.Why, q.Said) {
		said = say.FirstWords(q.Said) + ": "
	}
	out.Answers[n-1].Reply += "\nstill open: " + said + answer.Shown(q.Why, q.Choices)
}

// photos attaches the pictures of a message to the note they came with. Without a note they wait for one,
// and the sender is asked for it or told.
func (d *Desk) photos(in message.In, out *message.Out) error {
	for i, a := range out.Answers {
		if t := turn.New(d.Ledger, in, in.Text, ""); t.TakesPhotos(a) {
			out.Answers[i].Reply += "\nphoto kept with it"
			t.Save(event.Photo{Of: a.Seq, Links: in.Photos, Post: cmp.Or(in.Of, in.ID)})
			return t.Err
		}
	}
	t := turn.New(d.Ledger, in, strings.TrimSpace("(photo) "+in.Text), "")
	t.Await(t.Who(), append(slices.Clip(d.Pictures[t.Who()]), ledger.Waiting{ID: t.ThreadID(), Post: in.ID, Sent: in.Sent.UnixMilli(), Links: in.Photos}))
	if n := len(out.Answers); n > 0 {
		out.Answers[n-1].Reply += "\nphoto waits for its note"
		return t.Err
	}
	t.Ans.Kind, t.Ans.Ask = message.KindAsk, []string{}
	t.Ans.Reply = fmt.Sprintf("photo %s: which room and wall, and what gets covered? Send the note it belongs to", t.Clock(in.Sent.UnixMilli()))
	if n := len(d.Pictures[t.Who()]); n > 1 {
		t.Ans.Reply += fmt.Sprintf(" (%d photos wait)", n)
	}
	out.Answers = append(out.Answers, t.Ans)
	return t.Err
}
