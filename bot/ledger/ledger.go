package ledger

import (
	"cmp"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"maps"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/store"
)

// Options of a ledger. All must be set.
type Options struct {
	Name    string       // of the job
	Kinds   answer.Kinds // the handlers
	Now     func() time.Time
	Loc     *time.Location
	Kept    *inforce.Kept                                // layouts that were planned
	Receipt func(id string) (store.Receipt, bool, error) // of messages committed before
}

// Ledger is a job as its messages find it, and what they change.
type Ledger struct {
	State *site.State // of the job
	Batch store.Batch // what the messages answered since Begin commit
	Memory
	Opt  Options
	Wait bool // the current message needs planning first

	work    *inforce.Work            // planning budget of the current message
	written []func()                 // undo what the current message wrote to memory
	replies map[string]store.Receipt // receipts of the batch, by message id
}

// New returns the ledger of a job as its log left it: its state, its open questions and its marks.
func New(opt Options, st *site.State, pending, marks map[string]json.RawMessage) (*Ledger, error) {
	m, err := Remember(pending, marks)
	if err != nil {
		return nil, err
	}
	for who, q := range m.Pending { // a question is the sender's last message unless they noted something since
		last := st.LastOf(who)
		m.Unsaved[who] = !q.Saved && (last == nil || last.Sent <= q.Sent)
	}
	l := &Ledger{State: st, Memory: m, Opt: opt}
	l.Begin()
	return l, nil
}

// Begin starts a new batch.
func (l *Ledger) Begin() {
	l.Batch = store.Batch{Pending: map[string]json.RawMessage{}, Outbox: map[string]json.RawMessage{}, Marks: map[string]json.RawMessage{}}
	l.replies = map[string]store.Receipt{}
}

// Open begins a message, with work to spend on planning. back leaves everything as it was before it.
func (l *Ledger) Open(work *inforce.Work) (back func() error) {
	last, follows, records, receipts := len(l.State.Entries), l.Follows, len(l.Batch.Records), len(l.Batch.Receipts)
	l.work, l.written = work, nil
	return func() (err error) {
		if len(l.State.Entries) > last {
			if l.State, err = Fold(l.State.Entries[:last]); err != nil {
				return err
			}
		}
		for _, undo := range slices.Backward(l.written) {
			undo()
		}
		l.Follows, l.Batch.Records, l.Batch.Receipts = follows, l.Batch.Records[:records], l.Batch.Receipts[:receipts]
		return nil
	}
}

// Copy returns a ledger to plan with beside l, after those entries, with work to spend. It shares the layouts.
func (l *Ledger) Copy(work *inforce.Work) *Ledger {
	return &Ledger{Memory: l.Memory.clone(), Opt: l.Opt, work: work}
}

// Seqs are the numbers of the records of the batch from one index to another.
func (l *Ledger) Seqs(from, to int) []uint64 {
	return say.Each(l.Batch.Records[from:to], func(rec store.Record) uint64 { return rec.Seq })
}

// Seal stores a reply under the id of its message, and in the outbox if its door wants that. from is the index of
// the first record that the message made.
func (l *Ledger) Seal(in message.In, out message.Out, from int) (err error) {
	if in.ID == "" || len(out.Answers) == 0 {
		return nil
	}
	r := store.Receipt{ID: in.ID, Hash: Hash(in)}
	if r.Reply, err = json.Marshal(out); err != nil {
		return err
	}
	for _, rec := range l.Batch.Records[from:] {
		if held := rec.ID != in.ID && in.Of == ""; !held {
			r.Seqs = append(r.Seqs, rec.Seq)
		}
	}
	l.Batch.Receipts = append(l.Batch.Receipts, r)
	Set(l, l.replies, in.ID, r)
	if in.Row != nil {
		row, err := json.Marshal(message.Parcel{Row: in.Row, Out: out})
		Set(l, l.Batch.Outbox, in.ID, json.RawMessage(row))
		return err
	}
	return nil
}

// Fold builds a state from entries. It reads only what never changes in them, so it may run beside the
// writer.
func Fold(entries []*site.Entry) (*site.State, error) {
	st := site.New()
	for _, e := range entries {
		if err := st.Apply(e.Event); err != nil {
			return nil, err
		}
	}
	return st, nil
}

// Receipt returns the receipt of a message, from this batch or from disk.
func (l *Ledger) Receipt(id string) (store.Receipt, bool, error) {
	if r, ok := l.replies[id]; ok {
		return r, true, nil
	}
	return l.Opt.Receipt(id)
}

// Hash tells a message from another of the same id.
func Hash(in message.In) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\x00%s", strings.ToLower(in.Who), in.Text)
	return h.Sum64()
}

// Save applies an event of message id to the state and adds it to the batch.
func (l *Ledger) Save(id string, ev event.Event) (*site.Entry, error) {
	ev.Seq = uint64(len(l.State.Entries)) + 1
	body, err := json.Marshal(ev.Body)
	if err != nil {
		return nil, err
	}
	if err := l.State.Apply(ev); err != nil {
		return nil, err
	}
	l.Batch.Records = append(l.Batch.Records, store.Record{
		Seq: ev.Seq, Kind: ev.Body.Kind(), V: event.Version, Who: ev.Who, Sent: ev.Sent, Got: l.Opt.Now().UnixMilli(),
		ID: id, Text: ev.Text, Body: body,
	})
	return l.State.Entry(ev.Seq), nil
}

// Ctx returns the job as handlers see it.
func (l *Ledger) Ctx(in message.In, words string, sent time.Time) answer.Ctx {
	return answer.Ctx{
		Speech: say.Speech{Units: l.State.Units(), Loc: l.Opt.Loc, Now: in.Sent},
		State:  l.State, Kinds: l.Opt.Kinds, Plans: &inforce.Plans{State: l.State, Kept: l.Opt.Kept, Work: l.work},
		Who: in.Who, Sent: sent, Arrived: in.Arrived, Words: words, Message: in.Text, Follows: l.Follows,
		Opening: l.Openings(), Entered: l.Opening(strings.ToLower(in.Who)), Waiting: l.waiting,
	}
}

// waiting is what the crew told that is still asked about, or held for its room: it must be found as well as what is noted.
func (l *Ledger) waiting() (all []*site.Entry) {
	add := func(who string, sent int64, room, text string) {
		all = append(all, &site.Entry{Event: event.Event{Who: who, Sent: sent, Text: text, Body: event.Note{Room: room, Text: text}}, Room: room})
	}
	for _, who := range slices.Sorted(maps.Keys(l.Pending)) {
		for q := l.Pending[who]; q != nil; q = q.Under {
			if q.Informs(l.Opt.Kinds) {
				add(who, q.Sent, "", say.Answered(q.Said, q.Answers))
			}
		}
	}
	for _, room := range slices.Sorted(maps.Keys(l.Held)) {
		for _, h := range l.Held[room] {
			add(h.Who, h.Sent, room, h.Said)
		}
	}
	slices.SortStableFunc(all, func(a, b *site.Entry) int { return cmp.Compare(a.Sent, b.Sent) })
	return all
}

// Reword sets the text of an entry that is not committed yet.
func (l *Ledger) Reword(e *site.Entry, text string) {
	for i, rec := range slices.Backward(l.Batch.Records) {
		if rec.Seq == e.Seq {
			e.Text, l.Batch.Records[i].Text = text, text
			return
		}
	}
}
