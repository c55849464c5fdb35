package bot

import (
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"
	"runtime/debug"
	"strings"
	"sync/atomic"

	"strapline/calc/site"
	"strapline/store"
)

// Job is one job: its log, its state, and the one goroutine that changes them.
type Job struct {
	name    string
	opt     Options
	log     atomic.Pointer[store.Log] // replaced when a commit failed
	state   *site.State
	pending map[string]*pending // by sender, lower case
	hinted  map[string]bool     // senders who had their one hint for a near miss
	stale   map[string]bool     // senders whose question is no longer the last thing said
	batch   store.Batch         // what the messages in hand will commit
	replies map[string]store.Receipt
	edits   map[string][]string // by message id: the ids of its later versions
	plans   map[string]planned  // by room, not state: only saves planning the same twice

	commits atomic.Int64 // transactions made

	watchers watchers

	queue chan request
	stop  chan struct{}
	done  chan struct{}
}

// request is a message to answer or, with do, something a door wants stored.
type request struct {
	in  In
	do  func(*store.Batch)
	out chan result
}

type result struct {
	out Out
	err error
}

// maxBatch is the most messages one commit takes.
const maxBatch = 256

// run is the writer loop: it takes whatever waits, answers each on the state,
// commits all of it at once, and only then lets the answers go.
func (j *Job) run() {
	defer close(j.done)
	for {
		select {
		case first := <-j.queue:
			j.round(first)
		case <-j.stop:
			for { // what had come in before the stop is still answered
				select {
				case first := <-j.queue:
					j.round(first)
				default:
					return
				}
			}
		}
	}
}

func (j *Job) round(first request) {
	reqs := []request{first}
	for len(reqs) < maxBatch && len(j.queue) > 0 {
		reqs = append(reqs, <-j.queue)
	}
	j.answer(reqs)
}

func (j *Job) answer(reqs []request) {
	results := make([]result, len(reqs))
	j.batch = store.Batch{
		Pending: map[string]json.RawMessage{}, Outbox: map[string]json.RawMessage{}, Marks: map[string]json.RawMessage{},
	}
	j.replies = map[string]store.Receipt{}
	for i, req := range reqs {
		if req.do != nil {
			req.do(&j.batch)
			continue
		}
		var err error
		if results[i], err = j.one(req.in); err == nil {
			continue
		}
		// One message cannot be answered: it alone fails, the others go one by one.
		req.out <- result{out: j.failed(err)(req.in)}
		for k, other := range reqs {
			if k != i {
				j.answer([]request{other})
			}
		}
		return
	}
	if err := j.commit(); err != nil {
		out := j.failed(err)
		for i, req := range reqs {
			if results[i].out = out(req.in); req.do != nil {
				results[i] = result{err: err}
			}
		}
	}
	for i, req := range reqs {
		req.out <- results[i]
	}
}

func (j *Job) commit() error {
	b := j.batch
	if len(b.Records)+len(b.Receipts)+len(b.Pending)+len(b.Outbox)+len(b.Marks) == 0 {
		return nil
	}
	j.commits.Add(1)
	if err := j.log.Load().Commit(b); err != nil {
		return err
	}
	j.publish(b.Records)
	return nil
}

// one answers one message on the state. An error means that the state may be
// half changed and nothing may be committed.
func (j *Job) one(in In) (res result, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("answering %q: %v\n%s", in.Text, p, debug.Stack())
		}
	}()
	in.Text, in.Who = strings.ToValidUTF8(in.Text, "\uFFFD"), strings.ToValidUTF8(in.Who, "\uFFFD")
	hash := hashOf(in)
	if in.ID != "" {
		r, ok := j.replies[in.ID]
		if !ok {
			if r, ok, err = j.log.Load().Receipt(in.ID); err != nil {
				return res, err
			}
		}
		if ok && r.Hash != hash {
			return result{err: ErrOtherText}, nil
		}
		if ok {
			err = json.Unmarshal(r.Reply, &res.out)
			return res, err
		}
	}
	from := len(j.batch.Records)
	if res.out, err = j.handle(in); err != nil {
		return res, err
	}
	if in.ID == "" || len(res.out.Answers) == 0 {
		return res, nil
	}
	r := store.Receipt{ID: in.ID, Hash: hash}
	if r.Reply, err = json.Marshal(res.out); err != nil {
		return res, err
	}
	for _, rec := range j.batch.Records[from:] {
		r.Seqs = append(r.Seqs, rec.Seq)
	}
	j.batch.Receipts = append(j.batch.Receipts, r)
	j.replies[in.ID] = r
	if in.Row != nil {
		if j.batch.Outbox[in.ID], err = json.Marshal(Parcel{in.Row, res.out}); err != nil {
			return res, err
		}
	}
	return res, nil
}

// ErrOtherText is returned for a message id that came before with other words.
var ErrOtherText = errors.New("this message id was used for another message")

func hashOf(in In) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\x00%s", strings.ToLower(in.Who), in.Text)
	return h.Sum64()
}

// load makes state and open questions from the log.
func (j *Job) load() error {
	st := site.New()
	for rec, err := range j.log.Load().Records(1) {
		if err != nil {
			return err
		}
		body, err := site.Decode(rec.Kind, rec.V, rec.Body)
		if errors.Is(err, site.ErrNewer) {
			return fmt.Errorf("%w: entry %d: %w", store.ErrNewer, rec.Seq, err)
		}
		if err != nil {
			return fmt.Errorf("%w: entry %d: %w", store.ErrDamaged, rec.Seq, err)
		}
		err = st.Apply(site.Event{Seq: rec.Seq, Who: rec.Who, Sent: rec.Sent, Got: rec.Got, ID: rec.ID, Text: rec.Text, Body: body})
		if err != nil {
			return fmt.Errorf("%w: %w", store.ErrDamaged, err)
		}
	}
	rows, err := j.log.Load().Pending()
	if err != nil {
		return err
	}
	open := map[string]*pending{}
	for who, row := range rows {
		p := new(pending)
		if err := json.Unmarshal(row, p); err != nil {
			return fmt.Errorf("%w: open question of %s: %w", store.ErrDamaged, who, err)
		}
		open[who] = p
	}
	marks, err := j.log.Load().Marks()
	if err != nil {
		return err
	}
	edits := map[string][]string{}
	for name, row := range marks {
		of, ok := strings.CutPrefix(name, editMark)
		if !ok {
			continue
		}
		var ids []string
		if err := json.Unmarshal(row, &ids); err != nil {
			return fmt.Errorf("%w: %s: %w", store.ErrDamaged, name, err)
		}
		edits[of] = ids
	}
	j.state, j.pending, j.edits = st, open, edits
	return nil
}

// failed drops the tried state, opens the log again, and says so in plain words.
func (j *Job) failed(err error) func(In) Out {
	j.opt.Log.Error("a batch was not saved", "job", j.name, "err", err)
	path := j.log.Load().Path()
	_ = j.log.Load().Close()
	if log, oerr := store.Open(path); oerr != nil {
		j.opt.Log.Error("the job cannot be opened again", "job", j.name, "err", oerr)
	} else {
		j.log.Store(log)
		if lerr := j.load(); lerr != nil {
			j.opt.Log.Error("the job cannot be read again", "job", j.name, "err", lerr)
		}
	}
	plain := Plain(err)
	return func(in In) Out {
		return Out{Answers: []Answer{{
			Who: in.Who, Job: j.name, Said: in.Text, Kind: kindFail,
			Reply: "NOT confirmed as saved: " + plain + ". Send it again.",
		}}}
	}
}

// Plain says one of our own failures in words for the crew, without its text.
func Plain(err error) string {
	for _, p := range []struct {
		is  error
		say string
	}{
		{store.ErrFull, "the disk is full"},
		{store.ErrReadOnly, "the data folder cannot be written"},
		{store.ErrInUse, "another strapline has this job open"},
		{store.ErrCutOff, "the job's file is cut off; restore it from a backup"},
		{store.ErrNewer, "a newer strapline wrote this job's file"},
		{store.ErrDamaged, "the job's file is damaged; run check on it, and restore it from a backup"},
	} {
		if errors.Is(err, p.is) {
			return p.say
		}
	}
	return "something went wrong on this side"
}

// save folds an event in and puts it with the others to be committed.
func (j *Job) save(ev site.Event) (*site.Entry, error) {
	ev.Seq = uint64(len(j.state.Entries)) + 1
	body, err := json.Marshal(ev.Body)
	if err != nil {
		return nil, err
	}
	if err := j.state.Apply(ev); err != nil {
		return nil, err
	}
	j.batch.Records = append(j.batch.Records, store.Record{
		Seq: ev.Seq, Kind: ev.Body.Kind(), V: site.Version, Who: ev.Who, Sent: ev.Sent, Got: ev.Got,
		ID: ev.ID, Text: ev.Text, Body: body,
	})
	return j.state.Entry(ev.Seq), nil
}
