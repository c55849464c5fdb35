package job

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"strings"
	"sync/atomic"

	"strapline/bot/desk"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/store"
	"strapline/store/durable"
)

// Job is one job: its log, and its desk, where one goroutine works at a time.
type Job struct {
	name   string
	opt    Options
	leases int                       // holders of a lease; guarded by the mutex of Jobs
	stays  bool                      // open until Jobs is closed; guarded likewise
	log    atomic.Pointer[store.Log] // replaced after a failed commit
	desk   *desk.Desk
	broken error // why the job could not be read again after a failed commit; nil if it works
	aside  aside // messages whose answers are being planned

	layouts *inforce.Kept // the desk's cache, for drawing beside the writer

	commits  atomic.Int64 // transactions so far
	watchers watchers

	queue  chan request
	writer chan struct{} // full while somebody works at the desk
	stop   chan struct{}
	done   chan struct{}
}

// request is a message to answer or, if do is set, something that a door wants stored.
type request struct {
	in      message.In
	do      func(*store.Batch)
	planned *planned // set once it has been planned beside the writer
	out     chan result
}

type result struct {
	out message.Out
	err error
}

// maxBatch is the most messages taken into one commit.
const maxBatch = 256

// start reads a job and makes it ready for messages.
func start(name string, opt Options, log *store.Log) (*Job, error) {
	j := &Job{name: name, opt: opt, layouts: new(inforce.Kept), queue: make(chan request, 4*maxBatch), writer: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{})}
	j.log.Store(log)
	if err := j.load(); err != nil {
		return nil, err
	}
	j.aside = newAside()
	return j, nil
}

// Name returns the job's name as used for files and addresses.
func (j *Job) Name() string { return j.name }

// ErrClosed is returned for a message that came when the job was closing.
var ErrClosed = errors.New("the job is closed")

// Handle answers one message. When it returns without error, everything that the answer says is noted is
// on disk. The messages of a job are answered one after another, and those that wait while a commit runs
// share the next one. Planning runs beside them, so that other senders need not wait for it.
func (j *Job) Handle(ctx context.Context, in message.In) (message.Out, error) {
	in.Text, in.Who = message.Clean(in.Text), strings.ReplaceAll(message.Clean(in.Who), "\n", " ")
	res, err := j.ask(ctx, request{in: in})
	if err != nil {
		return message.Out{}, err
	}
	return res.out, res.err
}

// ask queues a request and waits for its answer. If nobody works at the desk, the sender does, for all who
// wait; so with one sender no goroutine waits for another.
func (j *Job) ask(ctx context.Context, req request) (result, error) {
	req.out = make(chan result, 1)
	select {
	case j.queue <- req:
	case <-j.stop:
		return result{}, ErrClosed
	case <-ctx.Done():
		return result{}, ctx.Err()
	}
	for writer := j.writer; ; writer = nil { // what its own round left unanswered is being planned
		select {
		case res := <-req.out:
			return res, nil
		case writer <- struct{}{}:
			j.atDesk(j.round)
		case <-j.done:
			select { // answered at the last moment
			case res := <-req.out:
				return res, nil
			default:
				return result{}, ErrClosed
			}
		case <-ctx.Done():
			return result{}, ctx.Err()
		}
	}
}

// atDesk does work at the desk and then frees it; the caller has taken it. After a panic the state will be
// read again.
func (j *Job) atDesk(do func()) {
	whole := false
	defer func() {
		if !whole {
			j.broken = errHalf
		}
		<-j.writer
	}()
	do()
	whole = true
}

var errHalf = errors.New("a message was only half answered")

// round answers all waiting requests in as few commits as possible. Answers go out only once what they say
// is on disk.
func (j *Job) round() {
	for left := len(j.queue); left > 0; {
		reqs := make([]request, min(left, maxBatch))
		for i := range reqs {
			reqs[i] = <-j.queue
		}
		left -= len(reqs)
		j.answer(reqs)
	}
}

// end answers what has come in, and closes the job to anything later.
func (j *Job) end() {
	close(j.stop)
	j.writer <- struct{}{}
	j.round()
	j.aside.end()
	close(j.done)
}

// answered is a request and its result, held back until that is on disk.
type answered struct {
	req request
	res result
}

// answer answers requests and commits the results. It puts aside those that need planning, and the later
// ones of their senders.
func (j *Job) answer(reqs []request) {
	if j.broken != nil {
		j.mend()
	}
	if j.broken != nil {
		refuse := j.refused(j.broken)
		for _, req := range reqs {
			req.out <- result{out: refuse(req.in), err: ifStored(req, j.broken)}
		}
		return
	}
	j.desk.Begin()
	var all []answered
	for i, req := range reqs {
		if req.do != nil {
			req.do(&j.desk.Batch)
			all = append(all, answered{req: req})
			continue
		}
		if older, holds := j.aside.hold(req, j.desk.Asks); holds {
			if older != nil {
				res, err := j.desk.Again(older.in)
				all = append(all, answered{*older, result{res, err}})
			}
			continue
		}
		out, wait, err := j.desk.Answer(req.in, req.planned.work(), req.planned.since())
		switch {
		case errors.Is(err, message.ErrOtherText):
			all = append(all, answered{req, result{err: err}})
		case err != nil:
			// A message cannot be answered: it alone fails, and the others are answered one by one.
			req.out <- result{out: j.failed(err)(req.in)}
			for _, a := range all {
				j.answer([]request{a.req})
			}
			for _, later := range reqs[i+1:] {
				j.answer([]request{later})
			}
			return
		case wait:
			j.put(req)
		default:
			all = append(all, answered{req, result{out: out}})
		}
	}
	if err := j.commit(); err != nil {
		refuse := j.failed(err)
		for i, a := range all {
			all[i].res = result{out: refuse(a.req.in), err: ifStored(a.req, err)}
		}
	}
	for _, a := range all {
		a.req.out <- a.res
	}
}

// ifStored returns err for a request that a door wants stored; messages are answered in words instead.
func ifStored(req request, err error) error {
	if req.do == nil {
		return nil
	}
	return err
}

func (j *Job) commit() error {
	b := j.desk.Batch
	all := len(b.Records) + len(b.Receipts) + len(b.Pending) + len(b.Outbox) + len(b.Marks)
	if all == 0 || !j.log.Load().Made() && !worthAFile(b) {
		return nil
	}
	j.commits.Add(1)
	if err := j.log.Load().Commit(b); err != nil {
		return err
	}
	j.publish(b.Records)
	return nil
}

// worthAFile reports whether a batch is reason to make the job's file: an entry, an open question, or
// something a door wants kept, but not a refusal and its receipt.
func worthAFile(b store.Batch) bool {
	for _, rows := range []map[string]json.RawMessage{b.Pending, b.Outbox, b.Marks} {
		for _, row := range rows {
			if row != nil {
				return true
			}
		}
	}
	return len(b.Records) > 0
}

// load makes the desk from the log.
func (j *Job) load() error {
	st, log := site.New(), j.log.Load()
	if err := replay(st, log, 0); err != nil {
		return err
	}
	rows, err := log.Pending()
	if err != nil {
		return err
	}
	marks, err := log.Marks()
	if err != nil {
		return err
	}
	opt := ledger.Options{Name: j.name, Kinds: j.opt.Kinds, Now: j.opt.Now, Loc: j.opt.Loc, Kept: j.layouts, Receipt: log.Receipt}
	l, err := ledger.New(opt, st, rows, marks)
	if err != nil {
		return fmt.Errorf("%w: %w", store.ErrDamaged, err)
	}
	j.desk = desk.New(l)
	return nil
}

// failed drops the state, opens the log again, and returns an answer that says so in plain words.
func (j *Job) failed(err error) func(message.In) message.Out {
	j.opt.Log.Error("a batch was not saved", "job", j.name, "err", err)
	_ = j.log.Load().Close()
	j.mend()
	return j.refused(err)
}

// mend opens the log again and reads it. Until that works the job refuses everything, since what is in
// memory may never have been saved.
func (j *Job) mend() {
	reopen := store.Open
	if !j.log.Load().Made() {
		reopen = openLog
	}
	log, err := reopen(j.log.Load().Path())
	if err == nil {
		j.log.Store(log)
		err = j.load()
	}
	if err != nil {
		j.opt.Log.Error("the job cannot be read again", "job", j.name, "err", err)
		if log != nil {
			_ = log.Close()
		}
		j.broken = err
		return
	}
	j.broken = nil
}

func (j *Job) refused(err error) func(message.In) message.Out {
	plain := Plain(err)
	return func(in message.In) message.Out {
		return message.Out{Answers: []message.Answer{{
			Who: in.Who, Job: j.name, Said: in.Text, Kind: message.KindFailure,
			Reply: "NOT confirmed as saved: " + plain + ". Send it again.",
		}}}
	}
}

// Plain words one of our own failures for the crew, without the error's text.
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
		{store.ErrTorn, "a power cut tore the job's file; `strapline recover` puts it right"},
		{store.ErrDamaged, "the job's file is damaged; run check on it, and restore it from a backup"},
	} {
		if errors.Is(err, p.is) {
			return p.say
		}
	}
	return "something went wrong on this side"
}

// write stores something for a door, together with whatever is being committed.
func (j *Job) write(ctx context.Context, do func(*store.Batch)) error {
	res, err := j.ask(ctx, request{do: do})
	return errors.Join(err, res.err)
}

// Outbox returns the replies not sent yet, by message id.
func (j *Job) Outbox() (map[string]message.Parcel, error) {
	rows, err := j.log.Load().Outbox()
	if err != nil {
		return nil, err
	}
	out := map[string]message.Parcel{}
	for id, row := range rows {
		var p message.Parcel
		if err := json.Unmarshal(row, &p); err != nil {
			return nil, fmt.Errorf("outbox row %s: %w", id, err)
		}
		out[id] = p
	}
	return out, nil
}

// Sent removes replies from the outbox: they were delivered, or never can be.
func (j *Job) Sent(ctx context.Context, ids ...string) error {
	return j.write(ctx, func(b *store.Batch) {
		for _, id := range ids {
			b.Outbox[id] = nil
		}
	})
}

// Mark stores a small value for a door, such as how far it has read.
func (j *Job) Mark(ctx context.Context, name string, value json.RawMessage) error {
	return j.write(ctx, func(b *store.Batch) { b.Marks[name] = value })
}

// Marks returns the values stored for doors.
func (j *Job) Marks() (map[string]json.RawMessage, error) {
	all, err := j.log.Load().Marks()
	maps.DeleteFunc(all, func(name string, _ json.RawMessage) bool { return ledger.Own(name) })
	return all, err
}

// Backup copies the job as it is now to path, which must not exist, without stopping it. It makes a
// missing folder.
func (j *Job) Backup(path string) error {
	if err := durable.MakeDir(filepath.Dir(path)); err != nil {
		return fmt.Errorf("cannot make the folder of backups: %w", err)
	}
	return j.log.Load().Backup(path)
}
