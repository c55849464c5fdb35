// Package job keeps the jobs of one data folder: it takes messages one after
// another, has each answered, puts what they say into the log, and lets the answers
// go once that is on disk. It knows open questions, receipts, corrections by edit
// and the outbox; what an entry means it does not know.
package job

import (
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"strapline/bot/answer"
	"strapline/store"
)

// MaxMessage is the longest message taken, in bytes.
const MaxMessage = 4096

// Options of Jobs. The zero value of each but Dir and Kinds is usable.
type Options struct {
	Dir   string           // the data folder: one file a job
	Kinds answer.Kinds     // who answers what
	Draw  Draw             // who draws the pictures that go with answers
	Now   func() time.Time // the clock; time.Now
	Loc   *time.Location   // for the times people see; time.Local
	Log   *slog.Logger     // our own failures; discarded
}

// Jobs holds the jobs of one data folder.
type Jobs struct {
	opt  Options
	mu   sync.Mutex
	open map[string]*Job
}

// New makes the data folder if it is not there.
func New(opt Options) (*Jobs, error) {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Loc == nil {
		opt.Loc = time.Local
	}
	if opt.Log == nil {
		opt.Log = slog.New(slog.DiscardHandler)
	}
	if err := store.MakeDir(opt.Dir); err != nil {
		return nil, fmt.Errorf("cannot make the data folder: %w", err)
	}
	return &Jobs{opt: opt, open: map[string]*Job{}}, nil
}

// Job opens the job of that name, or starts it.
func (js *Jobs) Job(name string) (*Job, error) {
	slug := Slug(name)
	if slug == "" {
		return nil, fmt.Errorf("a job needs a name of letters or digits, not %q", name)
	}
	js.mu.Lock()
	defer js.mu.Unlock()
	if j := js.open[slug]; j != nil {
		return j, nil
	}
	path := js.Path(slug)
	log, err := store.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		log, err = store.Create(path)
	}
	if err != nil {
		return nil, err
	}
	j, err := start(slug, js.opt, log)
	if err != nil {
		return nil, errors.Join(err, log.Close())
	}
	js.open[slug] = j
	return j, nil
}

// All lists the jobs that are open, by name.
func (js *Jobs) All() []*Job {
	js.mu.Lock()
	defer js.mu.Unlock()
	var all []*Job
	for _, name := range slices.Sorted(maps.Keys(js.open)) {
		all = append(all, js.open[name])
	}
	return all
}

// Path is the file of a job.
func (js *Jobs) Path(job string) string { return filepath.Join(js.opt.Dir, Slug(job)+".job") }

// Close finishes what is being answered and closes all jobs. What is still being
// planned is given up: its sender gets no answer, and nothing of it is saved.
func (js *Jobs) Close() error {
	js.mu.Lock()
	defer js.mu.Unlock()
	var errs []error
	for slug, j := range js.open {
		close(j.stop)
		<-j.done
		errs = append(errs, j.log.Load().Close())
		delete(js.open, slug)
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
