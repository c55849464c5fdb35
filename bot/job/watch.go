package job

import (
	"context"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"strapline/bot/answer"
	"strapline/calc/site"
	"strapline/store"
)

// Entry is an entry of the log as doors show it.
type Entry struct {
	Seq    uint64
	Who    string
	Sent   time.Time
	Text   string
	Struck bool
}

func entry(e *site.Entry) Entry {
	return Entry{Seq: e.Seq, Who: e.Who, Sent: time.UnixMilli(e.Sent), Text: e.Text, Struck: e.Struck()}
}

// Entries lists the entries from seq on, at most so many.
func (j *Job) Entries(ctx context.Context, from uint64, most int) ([]Entry, error) {
	var out []Entry
	err := j.write(ctx, func(*store.Batch) {
		for i := max(from, 1); i <= uint64(len(j.state.Entries)) && len(out) < most; i++ {
			if e := j.state.Entry(i); !answer.Hidden(e.Body) {
				out = append(out, entry(e))
			}
		}
	})
	return out, err
}

// Figures of a job, for those who watch over it.
type Figures struct {
	Last    uint64 // the seq of the last entry
	Commits int64  // transactions since the program began
}

// Figures reads them.
func (j *Job) Figures() Figures {
	return Figures{Last: j.log.Load().LastSeq(), Commits: j.commits.Load()}
}

// watchers are those who want to see entries as they are committed.
type watchers struct {
	mu   sync.Mutex
	next int
	all  map[int]chan Entry
}

// Watch gives a channel on which each new entry comes once it is on disk, and
// a function that ends it. A reader who falls buf entries behind has its
// channel closed, so that it never holds up the job: it reads on with Entries.
func (j *Job) Watch(buf int) (<-chan Entry, func()) {
	w := &j.watchers
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.all == nil {
		w.all = map[int]chan Entry{}
	}
	id, ch := w.next, make(chan Entry, buf)
	w.next++
	w.all[id] = ch
	return ch, func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		w.drop(id)
	}
}

func (w *watchers) drop(id int) {
	if ch, ok := w.all[id]; ok {
		delete(w.all, id)
		close(ch)
	}
}

// publish hands the entries of a committed batch to whoever watches.
func (j *Job) publish(records []store.Record) {
	w := &j.watchers
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.all) == 0 {
		return
	}
	for _, r := range records {
		e := j.state.Entry(r.Seq)
		if e == nil || answer.Hidden(e.Body) {
			continue
		}
		for id, ch := range w.all {
			select {
			case ch <- entry(e):
			default:
				w.drop(id)
			}
		}
	}
}

// Look shows the job as it stands to read, between two messages. read must not keep
// it, nor change it, and holds up the job as long as it takes. A fault of read ends
// the look and nothing else.
func (j *Job) Look(ctx context.Context, read func(*site.State)) error {
	faults := make(chan error, 1)
	err := j.write(ctx, func(*store.Batch) {
		defer func() {
			if p := recover(); p != nil {
				faults <- fmt.Errorf("looking at the job: %v\n%s", p, debug.Stack())
			}
		}()
		read(j.state)
	})
	select {
	case fault := <-faults:
		return fault
	default:
		return err
	}
}

// RoomOf is the room that a sender's next note is of, "" when it would be asked.
func (j *Job) RoomOf(ctx context.Context, who string) (name string, err error) {
	err = j.Look(ctx, func(st *site.State) {
		if r := st.RoomOf(who); r != nil {
			name = r.Name
		} else if r := st.OnlyRoom(); r != nil {
			name = r.Name
		}
	})
	return name, err
}
