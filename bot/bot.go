// Package bot turns one message into one answer: parse, resolve against the
// job, fold the event into the state, compute, render, commit. Doors hand it
// messages and carry its answers; it knows none of them.
package bot

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"strapline/store"
)

// MaxMessage is the longest message taken, in bytes.
const MaxMessage = 4096

// Options of a Bot. The zero value of each but Dir is usable.
type Options struct {
	Dir string           // the data folder: one file a job
	Now func() time.Time // the clock; time.Now
	Loc *time.Location   // for the times people see; time.Local
	Log *slog.Logger     // our own failures; discarded
}

// Bot holds the jobs of one data folder.
type Bot struct {
	opt  Options
	mu   sync.Mutex
	jobs map[string]*Job
}

// New makes the data folder if it is not there.
func New(opt Options) (*Bot, error) {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Loc == nil {
		opt.Loc = time.Local
	}
	if opt.Log == nil {
		opt.Log = slog.New(slog.DiscardHandler)
	}
	if err := os.MkdirAll(opt.Dir, 0o700); err != nil {
		return nil, fmt.Errorf("cannot make the data folder: %w", err)
	}
	return &Bot{opt: opt, jobs: map[string]*Job{}}, nil
}

// Job opens the job of that name, or starts it.
func (b *Bot) Job(name string) (*Job, error) {
	slug := Slug(name)
	if slug == "" {
		return nil, fmt.Errorf("a job needs a name of letters or digits, not %q", name)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if j := b.jobs[slug]; j != nil {
		return j, nil
	}
	path := b.Path(slug)
	log, err := store.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		log, err = store.Create(path)
	}
	if err != nil {
		return nil, err
	}
	j := &Job{
		name: slug, opt: b.opt, hinted: map[string]bool{}, stale: map[string]bool{}, plans: map[string]planned{},
		queue: make(chan request, 4*maxBatch), stop: make(chan struct{}), done: make(chan struct{}),
	}
	j.log.Store(log)
	if err := j.load(); err != nil {
		return nil, errors.Join(err, log.Close())
	}
	go j.run()
	b.jobs[slug] = j
	return j, nil
}

// Path is the file of a job.
func (b *Bot) Path(job string) string { return filepath.Join(b.opt.Dir, Slug(job)+".job") }

// Close finishes what is being answered and closes all jobs.
func (b *Bot) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	var errs []error
	for slug, j := range b.jobs {
		close(j.stop)
		<-j.done
		errs = append(errs, j.log.Load().Close())
		delete(b.jobs, slug)
	}
	return errors.Join(errs...)
}

// Slug is a job's name as a file and an address: lower case, words joined by hyphens.
func Slug(name string) string {
	fields := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	slug := strings.Join(fields, "-")
	return slug[:min(len(slug), 80)]
}

// ErrClosed is returned for a message that came when the job was closing.
var ErrClosed = errors.New("the job is closed")

// Handle answers one message. When it returns without error, everything the
// answer says is noted is on disk. Messages of one job are taken one after
// another; those that wait while a commit runs share the next one.
func (j *Job) Handle(ctx context.Context, in In) (Out, error) {
	res, err := j.ask(ctx, request{in: in})
	if err != nil {
		return Out{}, err
	}
	return res.out, res.err
}

func (j *Job) ask(ctx context.Context, req request) (result, error) {
	req.out = make(chan result, 1)
	select {
	case j.queue <- req:
	case <-j.stop:
		return result{}, ErrClosed
	case <-ctx.Done():
		return result{}, ctx.Err()
	}
	select {
	case res := <-req.out:
		return res, nil
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
	maps.DeleteFunc(all, func(name string, _ json.RawMessage) bool { return strings.HasPrefix(name, editMark) })
	return all, err
}

// Backup writes a copy of the job as it is now, while it goes on.
func (j *Job) Backup(w io.Writer) error { return j.log.Load().BackupTo(w) }
