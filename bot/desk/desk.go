package desk

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"maps"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/wording"
	"strapline/store"
)

// Options of a Desk. All must be set.
type Options struct {
	Name    string       // of the job
	Kinds   answer.Kinds // the handlers
	Now     func() time.Time
	Loc     *time.Location
	Kept    *inforce.Kept                                // layouts that were planned
	Receipt func(id string) (store.Receipt, bool, error) // of messages committed before
}

// Desk is where messages are answered. A job has one. A message whose answer needs planning is first answered
// on a copy of it.
type Desk struct {
	State *site.State // of the job
	Batch store.Batch // what the messages answered since Begin commit
	Memory

	opt     Options
	work    *inforce.Work            // planning budget of the current message
	wait    bool                     // the current message needs planning first
	from    int                      // number of entries when the current message came in; -1 if nothing was planned for it
	written []func()                 // undo what the current message wrote to memory by message
	replies map[string]store.Receipt // receipts of the batch, by message id
}

// New returns the desk of a job as its log left it: its state, its open questions and its marks.
func New(opt Options, st *site.State, pending, marks map[string]json.RawMessage) (*Desk, error) {
	m, err := Remember(pending, marks)
	if err != nil {
		return nil, err
	}
	for who, q := range m.Pending { // a question is the sender's last message unless they noted something since
		last := st.LastOf(who)
		m.unsaved[who] = !q.Saved && (last == nil || last.Sent <= q.Sent)
	}
	d := &Desk{State: st, Memory: m, opt: opt}
	d.Begin()
	return d, nil
}

// Memory is what the desk keeps besides the state. All but the last five fields are loaded from the log's
// rows.
type Memory struct {
	Pending  map[string]*pending.Question // by sender, lower case: the newest open question
	Pictures map[string][]Waiting         // by sender: pictures waiting for their note
	Edits    map[string][]string          // by message id: ids of its later versions
	Asked    map[string][]Asked           // by message id: the questions it led to, in order
	Answers  map[string]string            // by id of an answer: the message whose question it answered
	early    map[string][]early           // by room: notes that came before the room
	hinted   map[string]bool              // senders who have had their one hint for a near miss
	stale    map[string]bool              // senders who have said something since their question was shown
	reminded map[string]bool              // open questions that were repeated
	unsaved  map[string]bool              // senders whose last entry was not saved
	follows  int                          // how many of the next messages may refer to one that was answered
}

// The names of the desk's own marks, each before an id or a sender.
const (
	editMark    = "edits of "
	askedMark   = "questions of "
	pictureMark = "pictures of "
)

// Own reports whether a mark of that name is the desk's own, not a door's.
func Own(name string) bool {
	return slices.ContainsFunc([]string{editMark, askedMark, pictureMark, heldMark}, func(own string) bool { return strings.HasPrefix(name, own) })
}

func newBatch() store.Batch {
	return store.Batch{Pending: map[string]json.RawMessage{}, Outbox: map[string]json.RawMessage{}, Marks: map[string]json.RawMessage{}}
}

// Begin starts a new batch.
func (d *Desk) Begin() { d.Batch, d.replies = newBatch(), map[string]store.Receipt{} }

// clone copies the memory. Its questions and lists may be shared, because they are only ever replaced.
func (m Memory) clone() Memory {
	m = m.bySender()
	m.Edits, m.Asked, m.Answers = maps.Clone(m.Edits), maps.Clone(m.Asked), maps.Clone(m.Answers)
	return m
}

// bySender copies only what is kept by sender and by room, which is little. What is kept by message is
// shared, and [write] can undo changes to it.
func (m Memory) bySender() Memory {
	return Memory{maps.Clone(m.Pending), maps.Clone(m.Pictures), m.Edits, m.Asked, m.Answers, maps.Clone(m.early), maps.Clone(m.hinted), maps.Clone(m.stale), maps.Clone(m.reminded), maps.Clone(m.unsaved), m.follows}
}

// Remember builds the memory from the log's rows.
func Remember(rows, marks map[string]json.RawMessage) (Memory, error) {
	m := Memory{
		Pending: map[string]*pending.Question{}, Pictures: map[string][]Waiting{}, Edits: map[string][]string{}, Asked: map[string][]Asked{}, Answers: map[string]string{}, early: map[string][]early{},
		hinted: map[string]bool{}, stale: map[string]bool{}, reminded: map[string]bool{}, unsaved: map[string]bool{},
	}
	for who, row := range rows {
		q := new(pending.Question)
		if err := json.Unmarshal(row, q); err != nil {
			return m, fmt.Errorf("open question of %s: %w", who, err)
		}
		if len(q.Photos) > 0 {
			m.Pictures[who] = append(m.Pictures[who], Waiting{ID: q.ID, Post: q.ID, Sent: q.Sent, Links: q.Photos})
			continue
		}
		m.Pending[who] = q
	}
	for name, row := range marks {
		var err error
		if of, ok := strings.CutPrefix(name, editMark); ok {
			m.Edits[of], err = into[[]string](row)
		} else if of, ok := strings.CutPrefix(name, askedMark); ok {
			m.Asked[of], err = into[[]Asked](row)
			for _, a := range m.Asked[of] {
				if a.By != "" {
					m.Answers[a.By] = of
				}
			}
		} else if of, ok := strings.CutPrefix(name, heldMark); ok {
			var list []early
			if list, err = into[[]early](row); len(list) > 0 {
				m.early[of] = list
			}
		} else if of, ok := strings.CutPrefix(name, pictureMark); ok {
			var list []Waiting
			if list, err = into[[]Waiting](row); len(list) > 0 {
				m.Pictures[of] = append(m.Pictures[of], list...)
			}
		}
		if err != nil {
			return m, fmt.Errorf("%s: %w", name, err)
		}
	}
	return m, nil
}

func into[T any](row json.RawMessage) (v T, err error) {
	err = json.Unmarshal(row, &v)
	return v, err
}

// mark stores v under one of the desk's own names.
func (d *Desk) mark(name string, v any) error {
	row, err := json.Marshal(v)
	if err != nil {
		return err
	}
	d.Batch.Marks[name] = row
	return nil
}

// Answer answers one message, and may spend work on planning. wait reports that the message has to be planned
// first; then everything is left as it was. from is the number of entries when a message that was planned
// came in, else -1. After any error but [message.ErrOtherText] the state may be half changed, and nothing may
// be committed.
func (d *Desk) Answer(in message.In, work *inforce.Work, from int) (out message.Out, wait bool, err error) {
	last, mem, batch, replies := len(d.State.Entries), d.Memory.bySender(), cloneBatch(d.Batch), maps.Clone(d.replies)
	d.work, d.from, d.written = work, from, nil
	out, err = d.reply(in)
	if err != nil || !d.wait {
		return out, false, err
	}
	if len(d.State.Entries) > last { // something was saved before planning was found necessary
		if d.State, err = fold(d.State.Entries[:last]); err != nil {
			return out, false, err
		}
	}
	for _, back := range slices.Backward(d.written) {
		back()
	}
	d.Memory, d.Batch, d.replies = mem, batch, replies
	return message.Out{}, true, nil
}

// Copy returns a desk to plan at beside d, with work to spend. It shares the layouts.
func (d *Desk) Copy(work *inforce.Work) *Desk {
	return &Desk{Memory: d.Memory.clone(), opt: d.opt, work: work, from: -1}
}

// Rehearse answers a message on a copy of the desk, after those entries, only for the layouts that are kept.
// Everything else is done again at the desk itself.
func (d *Desk) Rehearse(in message.In, entries []*site.Entry) {
	var err error
	if d.State, err = fold(entries); err != nil {
		return
	}
	d.Begin()
	_, _ = d.reply(in)
}

// Asks reports whether everything in a message is a question.
func (d *Desk) Asks(in message.In) bool {
	for _, text := range parse.Split(in.Text) {
		line, err := d.ctx(in, text, in.Sent).Parse(text, false)
		if err != nil || !d.opt.Kinds.Asks(line.Entry) {
			return false
		}
	}
	return len(in.Photos) == 0
}

// write sets m[key], one of the memories by message. It can be undone until the current message is
// answered.
func write[V any](d *Desk, m map[string]V, key string, v V) {
	was, had := m[key]
	d.written = append(d.written, func() {
		if had {
			m[key] = was
		} else {
			delete(m, key)
		}
	})
	m[key] = v
}

func cloneBatch(b store.Batch) store.Batch {
	b.Pending, b.Outbox, b.Marks = maps.Clone(b.Pending), maps.Clone(b.Outbox), maps.Clone(b.Marks)
	return b
}

// fold builds a state from entries. It reads only what never changes in them, so it may run beside the
// writer.
func fold(entries []*site.Entry) (*site.State, error) {
	st := site.New()
	for _, e := range entries {
		if err := st.Apply(e.Event); err != nil {
			return nil, err
		}
	}
	return st, nil
}

// reply answers one message, or repeats the reply if its id was answered before.
func (d *Desk) reply(in message.In) (out message.Out, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("answering %q: %v\n%s", in.Text, p, debug.Stack())
		}
	}()
	d.wait = false
	hash := hashOf(in)
	if in.ID != "" {
		r, ok, err := d.receiptOf(in.ID)
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
	if out, err = d.handle(in); err != nil || d.wait {
		return out, err
	}
	if d.follows = max(d.follows-1, 0); len(out.Answers) > 0 {
		d.follows = grammar.Right
	}
	if d.from >= 0 {
		d.asOf(&out, last)
	}
	return out, d.seal(in, out, from)
}

// seal stores the reply under the message's id, and in the outbox if the door wants that.
func (d *Desk) seal(in message.In, out message.Out, from int) (err error) {
	if in.ID == "" || len(out.Answers) == 0 {
		return nil
	}
	r := store.Receipt{ID: in.ID, Hash: hashOf(in)}
	if r.Reply, err = json.Marshal(out); err != nil {
		return err
	}
	for _, rec := range d.Batch.Records[from:] {
		if held := rec.ID != in.ID && in.Of == ""; !held {
			r.Seqs = append(r.Seqs, rec.Seq)
		}
	}
	d.Batch.Receipts = append(d.Batch.Receipts, r)
	d.replies[in.ID] = r
	if in.Row != nil {
		d.Batch.Outbox[in.ID], err = json.Marshal(message.Parcel{Row: in.Row, Out: out})
	}
	return err
}

// Again answers a question that its sender repeated before it was answered.
func (d *Desk) Again(in message.In) (message.Out, error) {
	if in.Sent.IsZero() {
		in.Sent = d.opt.Now()
	}
	t := d.turn(in, in.Text, "")
	t.show(answer.Tell("dropped", nil, "asked again since: see the answer there"))
	out := message.Out{Answers: []message.Answer{t.ans}}
	return out, d.seal(in, out, len(d.Batch.Records))
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

// receiptOf returns the receipt of a message, from this batch or from disk.
func (d *Desk) receiptOf(id string) (store.Receipt, bool, error) {
	if r, ok := d.replies[id]; ok {
		return r, true, nil
	}
	return d.opt.Receipt(id)
}

func hashOf(in message.In) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\x00%s", strings.ToLower(in.Who), in.Text)
	return h.Sum64()
}

// handle answers one message.
func (d *Desk) handle(in message.In) (message.Out, error) {
	if in.Sent.IsZero() {
		in.Sent = d.opt.Now()
	}
	if len(in.Text) > message.Longest {
		t := d.turn(in, in.Text[:40]+"…", "")
		t.show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
			Col: message.Longest + 1, Want: fmt.Sprintf("at most %d bytes a message", message.Longest), Hint: "send it in parts",
			Say: fmt.Sprintf("not saved: %d bytes, the most is %d; send it in parts", len(in.Text), message.Longest),
		}})
		return message.Out{Answers: []message.Answer{t.ans}}, nil
	}
	if in.Of != "" {
		return d.edited(in)
	}
	out, err := d.entries(in, parse.Split(in.Text))
	if err == nil && !d.wait && len(in.Photos) > 0 {
		err = d.photos(in, &out)
	}
	return out, err
}

// entries answers the entries of one message.
func (d *Desk) entries(in message.In, entries []string) (message.Out, error) {
	var out message.Out
	w := &whole{text: strings.Join(entries, "; ")}
	err := d.parts(in, w, entries, &out)
	if err == nil && !d.wait {
		err = d.rest(in, w, &out)
	}
	if err == nil && !d.wait && len(d.early) > 0 {
		err = d.release(in, &out)
	}
	if err != nil || d.wait {
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
		text, rest, read := d.ctx(in, entries[i], in.Sent).Cut(entries[i])
		t := d.turn(in, text, "")
		t.part, t.prose, t.lead = w, rest != "" || i == prose, lead
		if rest != "" {
			entries, prose = slices.Concat(entries[:i:i], []string{text, rest}, entries[i+1:]), i+1
		}
		t.rest = strings.Join(entries[i+1:], "\n")
		t.run(text, read)
		if t.claim(); t.err != nil || d.wait {
			return t.err
		}
		t.missed()
		if en := w.last(); en != nil && t.ans.Kind == "" && takesBack.MatchString(text) {
			t.show(answer.No(fmt.Sprintf("%q is no correction I can read, and %d stands", say.FirstWords(text), en.Seq), "undo"))
		}
		w.add(t)
		if t.ans.Kind == "" {
			t.ans.Kind = message.KindNone
			out.Left = append(out.Left, t.ans)
			continue
		}
		out.Answers = append(out.Answers, t.ans)
		d.follows = grammar.Right
		if t.ans.Asks() {
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
	e, err := d.save(in.ID, event.Event{Who: in.Who, Sent: in.Sent.UnixMilli(), Text: text, Body: event.UnitsSet{Units: length.Metric}})
	if err != nil {
		return nil, err
	}
	return []string{fmt.Sprintf("noted %d: units metric, as you measure; `units imperial` if that is not so", e.Seq)}, nil
}

// save applies an event of message id to the state and adds it to the batch.
func (d *Desk) save(id string, ev event.Event) (*site.Entry, error) {
	ev.Seq = uint64(len(d.State.Entries)) + 1
	body, err := json.Marshal(ev.Body)
	if err != nil {
		return nil, err
	}
	if err := d.State.Apply(ev); err != nil {
		return nil, err
	}
	d.Batch.Records = append(d.Batch.Records, store.Record{
		Seq: ev.Seq, Kind: ev.Body.Kind(), V: event.Version, Who: ev.Who, Sent: ev.Sent, Got: d.opt.Now().UnixMilli(),
		ID: id, Text: ev.Text, Body: body,
	})
	return d.State.Entry(ev.Seq), nil
}

// ctx returns the job as handlers see it.
func (d *Desk) ctx(in message.In, words string, sent time.Time) answer.Ctx {
	return answer.Ctx{
		Speech: say.Speech{Units: d.State.Units(), Loc: d.opt.Loc, Now: in.Sent},
		State:  d.State, Kinds: d.opt.Kinds, Plans: &inforce.Plans{State: d.State, Kept: d.opt.Kept, Work: d.work},
		Who: in.Who, Sent: sent, Arrived: in.Arrived, Words: words, Follows: d.follows,
		Opening: d.openings(), Entered: d.opening(strings.ToLower(in.Who)),
	}
}
