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

// Entry is a log entry as doors show it.
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

// Entries returns at most most entries, from seq from on.
func (j *Job) Entries(ctx context.Context, from uint64, most int) ([]Entry, error) {
	var out []Entry
	err := j.write(ctx, func(*store.Batch) {
		for i := max(from, 1); i <= uint64(len(j.desk.State.Entries)) && len(out) < most; i++ {
			if e := j.desk.State.Entry(i); !answer.Hidden(e.Body) {
				out = append(out, entry(e))
			}
		}
	})
	return out, err
}

// Figures are the figures of a job for monitoring.
type Figures struct {
	Last    uint64 // seq of the last entry
	Commits int64  // transactions since the program began
}

// Figures returns the job's figures.
func (j *Job) Figures() Figures {
	return Figures{Last: j.log.Load().LastSeq(), Commits: j.commits.Load()}
}

// watchers receive entries as they are committed.
type watchers struct {
	mu   sync.Mutex
	next int
	all  map[int]chan Entry
}

// Watch returns a channel that receives each new entry once it is on disk, and a function that ends it. If
// a reader falls buf entries behind, its channel is closed so that it never holds up the job; it catches
// up with Entries.
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

// publish sends the entries of a committed batch to the watchers.
func (j *Job) publish(records []store.Record) {
	w := &j.watchers
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.all) == 0 {
		return
	}
	for _, r := range records {
		e := j.desk.State.Entry(r.Seq)
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

// Look calls read with the state of the job, between two messages. read must not keep or change the state,
// and holds up the job while it runs. A panic in read is returned as an error.
func (j *Job) Look(ctx context.Context, read func(*site.State)) error {
	faults := make(chan error, 1)
	err := j.write(ctx, func(*store.Batch) {
		defer func() {
			if p := recover(); p != nil {
				faults <- fmt.Errorf("looking at the job: %v\n%s", p, debug.Stack())
			}
		}()
		read(j.desk.State)
	})
	select {
	case fault := <-faults:
		return fault
	default:
		return err
	}
}

// RoomOf returns the room of a sender's next note, "" if it would have to be asked for.
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
