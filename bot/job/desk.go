package job

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

// desk is where messages are answered: the state of the job, the open questions, and what the current
// messages will commit. A job has one. A message whose answer needs planning is first answered on a copy
// of it.
type desk struct {
	name    string
	opt     Options
	kept    *inforce.Kept
	work    *inforce.Work // planning budget of the current message
	wait    bool          // the current message needs planning first
	planned *planned      // planning done for the current message
	written []func()      // undo what the current message wrote to memory by message

	state *site.State
	memory
	batch   store.Batch
	replies map[string]store.Receipt // receipts of the batch, by message id
	receipt func(id string) (store.Receipt, bool, error)
}

// memory is what the desk keeps besides the state. All but the last five fields are loaded from the log's
// rows.
type memory struct {
	pending  map[string]*question // by sender, lower case: the newest open question
	pictures map[string][]picture // by sender: pictures waiting for their note
	edits    map[string][]string  // by message id: ids of its later versions
	asked    map[string][]asked   // by message id: the questions it led to, in order
	answers  map[string]string    // by id of an answer: the message whose question it answered
	early    map[string][]early   // by room: notes that came before the room
	hinted   map[string]bool      // senders who have had their one hint for a near miss
	stale    map[string]bool      // senders who have said something since their question was shown
	reminded map[string]string    // by sender: the open question that was last repeated
	unsaved  map[string]bool      // senders whose last entry was not saved
	follows  int                  // how many of the next messages may refer to one that was answered
}

// The names of the desk's own marks, each before an id or a sender.
const (
	editMark    = "edits of "
	askedMark   = "questions of "
	pictureMark = "pictures of "
)

var ownMarks = []string{editMark, askedMark, pictureMark, heldMark}

func newBatch() store.Batch {
	return store.Batch{Pending: map[string]json.RawMessage{}, Outbox: map[string]json.RawMessage{}, Marks: map[string]json.RawMessage{}}
}

// begin clears the batch.
func (d *desk) begin() { d.batch, d.replies = newBatch(), map[string]store.Receipt{} }

// clone copies the memory. Its questions and lists may be shared, because they are only ever replaced.
func (m memory) clone() memory {
	m = m.bySender()
	m.edits, m.asked, m.answers = maps.Clone(m.edits), maps.Clone(m.asked), maps.Clone(m.answers)
	return m
}

// bySender copies only what is kept by sender and by room, which is little. What is kept by message is
// shared, and [write] can undo changes to it.
func (m memory) bySender() memory {
	return memory{maps.Clone(m.pending), maps.Clone(m.pictures), m.edits, m.asked, m.answers, maps.Clone(m.early), maps.Clone(m.hinted), maps.Clone(m.stale), maps.Clone(m.reminded), maps.Clone(m.unsaved), m.follows}
}

// load builds state and memory from the log.
func (j *Job) load() error {
	d := &desk{name: j.name, opt: j.opt, kept: new(inforce.Kept), state: site.New()}
	d.receipt = func(id string) (store.Receipt, bool, error) { return j.log.Load().Receipt(id) }
	if j.desk != nil {
		d.kept = j.kept
	}
	if err := replay(d.state, j.log.Load(), 0); err != nil {
		return err
	}
	rows, err := j.log.Load().Pending()
	if err != nil {
		return err
	}
	marks, err := j.log.Load().Marks()
	if err != nil {
		return err
	}
	if d.memory, err = remember(rows, marks); err != nil {
		return fmt.Errorf("%w: %w", store.ErrDamaged, err)
	}
	for who, q := range d.pending { // a question is the sender's last message unless they noted something since
		last := d.state.LastOf(who)
		d.unsaved[who] = !q.Saved && (last == nil || last.Sent <= q.Sent)
	}
	d.begin()
	j.desk = d
	return nil
}

// Valid returns the check for items of an import or a check, the same as for opening a job. It also cleans
// them.
func Valid() store.Valid {
	st := site.New()
	return func(it store.Item) error {
		switch {
		case it.Record != nil:
			*it.Record = cleaned(*it.Record)
			ev, err := decoded(*it.Record)
			if err != nil || ev.Seq != uint64(len(st.Entries))+1 { // an earlier record is missing, which is reported already
				return err
			}
			return st.Apply(ev)
		case it.Receipt != nil && len(it.Receipt.Reply) > 0:
			return json.Unmarshal(it.Receipt.Reply, new(message.Out))
		case it.Pending != nil:
			_, err := remember(map[string]json.RawMessage{it.Pending.Key: it.Pending.Value}, nil)
			return err
		case it.Outbox != nil:
			return json.Unmarshal(it.Outbox.Value, new(message.Parcel))
		case it.Mark != nil:
			_, err := remember(nil, map[string]json.RawMessage{it.Mark.Key: it.Mark.Value})
			return err
		}
		return nil
	}
}

// remember builds the memory from the log's rows.
func remember(rows, marks map[string]json.RawMessage) (memory, error) {
	m := memory{
		pending: map[string]*question{}, pictures: map[string][]picture{}, edits: map[string][]string{}, asked: map[string][]asked{}, answers: map[string]string{}, early: map[string][]early{},
		hinted: map[string]bool{}, stale: map[string]bool{}, reminded: map[string]string{}, unsaved: map[string]bool{},
	}
	for who, row := range rows {
		q := new(question)
		if err := json.Unmarshal(row, q); err != nil {
			return m, fmt.Errorf("open question of %s: %w", who, err)
		}
		if len(q.Photos) > 0 {
			m.pictures[who] = append(m.pictures[who], picture{ID: q.ID, Post: q.ID, Sent: q.Sent, Links: q.Photos})
			continue
		}
		m.pending[who] = q
	}
	for name, row := range marks {
		var err error
		if of, ok := strings.CutPrefix(name, editMark); ok {
			m.edits[of], err = into[[]string](row)
		} else if of, ok := strings.CutPrefix(name, askedMark); ok {
			m.asked[of], err = into[[]asked](row)
			for _, a := range m.asked[of] {
				if a.By != "" {
					m.answers[a.By] = of
				}
			}
		} else if of, ok := strings.CutPrefix(name, heldMark); ok {
			var list []early
			if list, err = into[[]early](row); len(list) > 0 {
				m.early[of] = list
			}
		} else if of, ok := strings.CutPrefix(name, pictureMark); ok {
			var list []picture
			if list, err = into[[]picture](row); len(list) > 0 {
				m.pictures[of] = append(m.pictures[of], list...)
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
func (d *desk) mark(name string, v any) error {
	row, err := json.Marshal(v)
	if err != nil {
		return err
	}
	d.batch.Marks[name] = row
	return nil
}

// answerOne answers one request at the desk, or reports that it has to wait for planning; then it leaves
// everything as it was. After an error the state may be half changed, and nothing may be committed.
func (j *Job) answerOne(req request) (res result, wait bool, err error) {
	from, mem, batch, replies := len(j.state.Entries), j.memory.bySender(), cloneBatch(j.batch), maps.Clone(j.replies)
	j.written = nil
	j.work = req.planned.work()
	j.planned = req.planned
	res, err = j.reply(req.in)
	if err != nil || !j.wait {
		return res, false, err
	}
	if len(j.state.Entries) > from { // something was saved before planning was found necessary
		if j.state, err = fold(j.state.Entries[:from]); err != nil {
			return res, false, err
		}
	}
	for _, back := range slices.Backward(j.written) {
		back()
	}
	j.memory, j.batch, j.replies = mem, batch, replies
	return result{}, true, nil
}

// write sets m[key], one of the memories by message. It can be undone until the current message is
// answered.
func write[V any](d *desk, m map[string]V, key string, v V) {
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
func (d *desk) reply(in message.In) (res result, err error) {
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
			return res, err
		}
		if ok && r.Hash != hash {
			return result{err: ErrOtherText}, nil
		}
		if ok {
			err = json.Unmarshal(r.Reply, &res.out)
			return res, err
		}
	}
	from, last := len(d.batch.Records), len(d.state.Entries)
	if res.out, err = d.handle(in); err != nil || d.wait {
		return res, err
	}
	if d.follows = max(d.follows-1, 0); len(res.out.Answers) > 0 {
		d.follows = grammar.Right
	}
	if d.planned != nil {
		d.asOf(&res.out, d.planned, last)
	}
	return res, d.seal(in, res.out, from)
}

// seal stores the reply under the message's id, and in the outbox if the door wants that.
func (d *desk) seal(in message.In, out message.Out, from int) (err error) {
	if in.ID == "" || len(out.Answers) == 0 {
		return nil
	}
	r := store.Receipt{ID: in.ID, Hash: hashOf(in)}
	if r.Reply, err = json.Marshal(out); err != nil {
		return err
	}
	for _, rec := range d.batch.Records[from:] {
		if held := rec.ID != in.ID && in.Of == ""; !held {
			r.Seqs = append(r.Seqs, rec.Seq)
		}
	}
	d.batch.Receipts = append(d.batch.Receipts, r)
	d.replies[in.ID] = r
	if in.Row != nil {
		d.batch.Outbox[in.ID], err = json.Marshal(message.Parcel{Row: in.Row, Out: out})
	}
	return err
}

// again answers a question that its sender repeated before it was answered.
func (d *desk) again(in message.In) (message.Out, error) {
	if in.Sent.IsZero() {
		in.Sent = d.opt.Now()
	}
	t := d.turn(in, in.Text, "")
	t.show(answer.Tell("dropped", nil, "asked again since: see the answer there"))
	out := message.Out{Answers: []message.Answer{t.ans}}
	return out, d.seal(in, out, len(d.batch.Records))
}

// asOf adds the last entry that a planned answer is based on, if others went on meanwhile.
func (d *desk) asOf(out *message.Out, p *planned, last int) {
	if len(out.Answers) == 0 {
		return
	}
	for i := range out.Answers {
		out.Answers[i].From = uint64(last)
	}
	if last > p.from {
		a := &out.Answers[len(out.Answers)-1]
		a.Reply += fmt.Sprintf("\nas of entry %d", last)
	}
}

// receiptOf returns the receipt of a message, from this batch or from disk.
func (d *desk) receiptOf(id string) (store.Receipt, bool, error) {
	if r, ok := d.replies[id]; ok {
		return r, true, nil
	}
	return d.receipt(id)
}

func hashOf(in message.In) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\x00%s", strings.ToLower(in.Who), in.Text)
	return h.Sum64()
}

// handle answers one message.
func (d *desk) handle(in message.In) (message.Out, error) {
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
func (d *desk) entries(in message.In, entries []string) (message.Out, error) {
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
func (d *desk) parts(in message.In, w *whole, entries []string, out *message.Out) error {
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
func (d *desk) metric(in message.In, text string) (lead []string, err error) {
	if len(d.state.Rooms) > 0 || d.state.UnitsSaid() || !wording.OpensInMetric(text) {
		return nil, nil
	}
	e, err := d.save(in.ID, event.Event{Who: in.Who, Sent: in.Sent.UnixMilli(), Text: text, Body: event.UnitsSet{Units: length.Metric}})
	if err != nil {
		return nil, err
	}
	return []string{fmt.Sprintf("noted %d: units metric, as you measure; `units imperial` if that is not so", e.Seq)}, nil
}

// save applies an event of message id to the state and adds it to the batch.
func (d *desk) save(id string, ev event.Event) (*site.Entry, error) {
	ev.Seq = uint64(len(d.state.Entries)) + 1
	body, err := json.Marshal(ev.Body)
	if err != nil {
		return nil, err
	}
	if err := d.state.Apply(ev); err != nil {
		return nil, err
	}
	d.batch.Records = append(d.batch.Records, store.Record{
		Seq: ev.Seq, Kind: ev.Body.Kind(), V: event.Version, Who: ev.Who, Sent: ev.Sent, Got: d.opt.Now().UnixMilli(),
		ID: id, Text: ev.Text, Body: body,
	})
	return d.state.Entry(ev.Seq), nil
}

// ctx returns the job as handlers see it.
func (d *desk) ctx(in message.In, words string, sent time.Time) answer.Ctx {
	return answer.Ctx{
		Speech: say.Speech{Units: d.state.Units(), Loc: d.opt.Loc, Now: in.Sent},
		State:  d.state, Kinds: d.opt.Kinds, Plans: &inforce.Plans{State: d.state, Kept: d.kept, Work: d.work},
		Who: in.Who, Sent: sent, Arrived: in.Arrived, Words: words, Follows: d.follows,
		Opening: d.openings(), Entered: d.opening(strings.ToLower(in.Who)),
	}
}
