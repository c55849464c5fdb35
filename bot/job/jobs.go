// Package job keeps the jobs of one data folder. It takes messages one after another, has each answered at the
// job's desk, writes what they say to the log, and lets an answer go only once that is on disk. It plans beside
// the desk, keeps the outbox, and shows doors what they ask for.
package job

import (
	"cmp"
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
	"unicode"

	"strapline/bot/answer"
	"strapline/store"
	"strapline/store/durable"
)

// Options of Jobs. Only Dir and Kinds must be set.
type Options struct {
	Dir   string           // data folder, one file per job
	Kinds answer.Kinds     // the handlers
	Draw  Draw             // draws the pictures that go with answers
	Now   func() time.Time // clock; default time.Now
	Loc   *time.Location   // time zone of displayed times; default time.Local
	Log   *slog.Logger     // for our own failures; default discards them
}

// Jobs holds the jobs of one data folder.
type Jobs struct {
	opt  Options
	mu   sync.Mutex
	open map[string]*Job
	past map[string]int64 // commits of jobs that were open before
}

// New returns the jobs of the data folder, which it makes if it does not exist.
func New(opt Options) (*Jobs, error) {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	opt.Loc = cmp.Or(opt.Loc, time.Local)
	opt.Log = cmp.Or(opt.Log, slog.New(slog.DiscardHandler))
	if err := durable.MakeDir(opt.Dir); err != nil {
		return nil, fmt.Errorf("cannot make the data folder: %w", err)
	}
	return &Jobs{opt: opt, open: map[string]*Job{}, past: map[string]int64{}}, nil
}

// Job opens the job of that name until Close. The file of a new job is made with its first entry.
func (js *Jobs) Job(name string) (*Job, error) {
	return js.lease(name, true)
}

// Lease opens the job of that name until done is called. done closes it, unless somebody else has it open.
func (js *Jobs) Lease(name string) (j *Job, done func() error, err error) {
	if j, err = js.lease(name, false); err != nil {
		return nil, nil, err
	}
	return j, func() error {
		js.mu.Lock()
		defer js.mu.Unlock()
		if j.leases--; j.leases > 0 || j.stays || js.open[j.name] != j {
			return nil
		}
		return js.close(j)
	}, nil
}

func (js *Jobs) lease(name string, stays bool) (*Job, error) {
	slug, err := Named(name)
	if err != nil {
		return nil, err
	}
	js.mu.Lock()
	defer js.mu.Unlock()
	j := js.open[slug]
	if j == nil {
		log, err := openLog(js.Path(slug))
		if err != nil {
			return nil, err
		}
		if j, err = start(slug, js.opt, log); err != nil {
			return nil, errors.Join(err, log.Close())
		}
		j.commits.Store(js.past[slug])
		js.open[slug] = j
	}
	j.leases++
	j.stays = j.stays || stays
	return j, nil
}

func openLog(path string) (*store.Log, error) {
	log, err := store.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return store.Await(path), nil
	}
	return log, err
}

// close ends a job and closes its log.
func (js *Jobs) close(j *Job) error {
	j.end()
	delete(js.open, j.name)
	js.past[j.name] = j.commits.Load()
	return j.log.Load().Close()
}

// All returns the open jobs that have a file, sorted by name.
func (js *Jobs) All() []*Job {
	js.mu.Lock()
	defer js.mu.Unlock()
	var all []*Job
	for _, name := range slices.Sorted(maps.Keys(js.open)) {
		if j := js.open[name]; j.log.Load().Made() {
			all = append(all, j)
		}
	}
	return all
}

// Path returns the file of a job.
func (js *Jobs) Path(job string) string { return filepath.Join(js.opt.Dir, Slug(job)+".job") }

// Close finishes what is being answered and closes all jobs. Planning is cancelled: those senders get no
// answer, and nothing of their messages is saved.
func (js *Jobs) Close() error {
	js.mu.Lock()
	defer js.mu.Unlock()
	var errs []error
	for _, j := range js.open {
		errs = append(errs, js.close(j))
	}
	return errors.Join(errs...)
}

// longestName is the maximum length of a job's name as a file, in bytes.
const longestName = 80

// Named returns the [Slug] of a job's name. It refuses names whose slug another name could share although
// people tell them apart: those too long, and those with letters or digits other than a to z and 0 to 9.
func Named(name string) (slug string, err error) {
	slug = Slug(name)
	switch other := strings.ContainsFunc(name, func(r rune) bool { return r > unicode.MaxASCII && unicode.In(r, unicode.L, unicode.M, unicode.N) }); {
	case slug == "":
		return "", fmt.Errorf("a job needs a name of letters or digits, not %q", name)
	case other:
		return "", fmt.Errorf("a job's name has the letters a to z and digits only, not %q; try %q", name, slug)
	case len(slugOf(name)) > longestName:
		return "", fmt.Errorf("a job's name has at most %d characters, not %q", longestName, name)
	}
	return slug, nil
}

// Slug returns a job's name as used for files and addresses: lower case, words joined by hyphens.
func Slug(name string) string {
	slug := slugOf(name)
	return slug[:min(len(slug), longestName)]
}

func slugOf(name string) string {
	fields := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	return strings.Join(fields, "-")
}
