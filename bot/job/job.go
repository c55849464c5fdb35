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

	"strapline/calc/inforce"
	"strapline/store"
)

// Job is one job: its log and its desk, at which one goroutine works at a time.
type Job struct {
	name   string
	opt    Options
	leases int                       // how many have it; guarded by the mutex of Jobs
	stays  bool                      // it is open until all are closed; guarded likewise
	log    atomic.Pointer[store.Log] // replaced when a commit failed
	*desk
	broken error // why the job could not be read again after a failed commit; nil: it stands
	aside  aside // messages whose answers are being planned

	layouts *inforce.Kept // the desk's, for those who draw beside the writer

	commits  atomic.Int64 // transactions made
	watchers watchers

	queue  chan request
	writer chan struct{} // holds one while somebody works at the desk
	stop   chan struct{}
	done   chan struct{}
}

// request is a message to answer or, with do, something a door wants stored.
type request struct {
	in      In
	do      func(*store.Batch)
	planned *planned // its planning, once some was done beside the writer
	out     chan result
}

type result struct {
	out Out
	err error
}

// maxBatch is the most messages one commit takes.
const maxBatch = 256

// start reads a job, which takes messages from then on.
func start(name string, opt Options, log *store.Log) (*Job, error) {
	j := &Job{name: name, opt: opt, queue: make(chan request, 4*maxBatch), writer: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{})}
	j.log.Store(log)
	if err := j.load(); err != nil {
		return nil, err
	}
	j.aside, j.layouts = newAside(), j.kept
	return j, nil
}

// Name is the job's name, as a file and an address.
func (j *Job) Name() string { return j.name }

// ErrClosed is returned for a message that came when the job was closing.
var ErrClosed = errors.New("the job is closed")

// ErrOtherText is returned for a message id that came before with other words.
var ErrOtherText = errors.New("this message id was used for another message")

// Handle answers one message. When it returns without error, everything the
// answer says is noted is on disk. Messages of one job are taken one after
// another; those that wait while a commit runs share the next one. What has to be
// planned first is planned beside them: the messages of others go on meanwhile.
func (j *Job) Handle(ctx context.Context, in In) (Out, error) {
	in.Text, in.Who = Clean(in.Text), strings.ReplaceAll(Clean(in.Who), "\n", " ")
	res, err := j.ask(ctx, request{in: in})
	if err != nil {
		return Out{}, err
	}
	return res.out, res.err
}

// ask queues a request and waits until it is answered. Where nobody works at the desk
// the sender does, for all who wait: with one sender no goroutine waits for another.
func (j *Job) ask(ctx context.Context, req request) (result, error) {
	req.out = make(chan result, 1)
	select {
	case j.queue <- req:
	case <-j.stop:
		return result{}, ErrClosed
	case <-ctx.Done():
		return result{}, ctx.Err()
	}
	for writer := j.writer; ; writer = nil { // what is not answered by then is being planned
		select {
		case res := <-req.out:
			return res, nil
		case writer <- struct{}{}:
			j.atDesk(j.round)
		case <-j.done:
			select { // answered in the last moment
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

// atDesk has do work at the desk, which was taken for it. A panic on the way leaves
// the state to be read again.
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

var errHalf = errors.New("a message was answered by half")

// round answers all that waits, in as few commits as may be. Only once what they say is on disk do the answers go.
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

// end answers what has come in, and nothing after it.
func (j *Job) end() {
	close(j.stop)
	j.writer <- struct{}{}
	j.round()
	j.aside.end()
	close(j.done)
}

// answered is a request and what came of it, held back until it is on disk.
type answered struct {
	req request
	res result
}

// answer answers requests and commits what they say. Those that have to be planned
// first, and those of their senders that came after them, are put aside.
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
	j.begin()
	var all []answered
	for i, req := range reqs {
		if req.do != nil {
			req.do(&j.batch)
			all = append(all, answered{req: req})
			continue
		}
		if older, holds := j.aside.hold(req, j.asks); holds {
			if older != nil {
				res, err := j.again(older.in)
				all = append(all, answered{*older, result{res, err}})
			}
			continue
		}
		res, wait, err := j.answerOne(req)
		switch {
		case err != nil:
			// One message cannot be answered: it alone fails, the others go one by one.
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
			all = append(all, answered{req, res})
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

// ifStored is err for a request that a door wants stored; a message is answered in words.
func ifStored(req request, err error) error {
	if req.do == nil {
		return nil
	}
	return err
}

func (j *Job) commit() error {
	b := j.batch
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

// worthAFile reports whether a job that has no file yet is to get one: for an entry, a
// question that is open, or what a door wants kept. A refusal and its receipt are not.
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

// failed drops the tried state, opens the log again, and says so in plain words.
func (j *Job) failed(err error) func(In) Out {
	j.opt.Log.Error("a batch was not saved", "job", j.name, "err", err)
	_ = j.log.Load().Close()
	j.mend()
	return j.refused(err)
}

// mend opens the log again and reads it. Until that works the job refuses
// everything: what is in its memory may never have been saved.
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

// kindFail is the kind of an answer that is ours to excuse.
const kindFail = "failure"

func (j *Job) refused(err error) func(In) Out {
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
		{store.ErrTorn, "a power cut tore the job's file; `strapline recover` puts it right"},
		{store.ErrDamaged, "the job's file is damaged; run check on it, and restore it from a backup"},
	} {
		if errors.Is(err, p.is) {
			return p.say
		}
	}
	return "something went wrong on this side"
}

// write stores something for a door, with whatever else is being committed.
func (j *Job) write(ctx context.Context, do func(*store.Batch)) error {
	res, err := j.ask(ctx, request{do: do})
	return errors.Join(err, res.err)
}

// Outbox lists the replies not yet sent, by message id.
func (j *Job) Outbox() (map[string]Parcel, error) {
	rows, err := j.log.Load().Outbox()
	if err != nil {
		return nil, err
	}
	out := map[string]Parcel{}
	for id, row := range rows {
		var p Parcel
		if err := json.Unmarshal(row, &p); err != nil {
			return nil, fmt.Errorf("outbox row %s: %w", id, err)
		}
		out[id] = p
	}
	return out, nil
}

// Sent takes replies out of the outbox: they were delivered, or never can be.
func (j *Job) Sent(ctx context.Context, ids ...string) error {
	return j.write(ctx, func(b *store.Batch) {
		for _, id := range ids {
			b.Outbox[id] = nil
		}
	})
}

// Mark keeps a small value of a door's, such as how far it has read.
func (j *Job) Mark(ctx context.Context, name string, value json.RawMessage) error {
	return j.write(ctx, func(b *store.Batch) { b.Marks[name] = value })
}

// Marks are the values that doors kept.
func (j *Job) Marks() (map[string]json.RawMessage, error) {
	all, err := j.log.Load().Marks()
	maps.DeleteFunc(all, func(name string, _ json.RawMessage) bool {
		for _, own := range ownMarks {
			if strings.HasPrefix(name, own) {
				return true
			}
		}
		return false
	})
	return all, err
}

// Backup copies the job as it is now, while it goes on, to path, which must not exist. A
// missing folder is made.
func (j *Job) Backup(path string) error {
	if err := store.MakeDir(filepath.Dir(path)); err != nil {
		return fmt.Errorf("cannot make the folder of backups: %w", err)
	}
	return j.log.Load().Backup(path)
}
