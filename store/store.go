package store

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"os"
	"sync"
	"sync/atomic"
	"time"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Record is one entry of a job's log. Its strings must be valid UTF-8, and Kind must not be empty. Body is
// stored without space between its tokens.
type Record struct {
	Seq  uint64          `json:"seq"`  // from 1, no gaps
	Kind string          `json:"kind"` // kind of Body
	V    int             `json:"v"`    // version of Body
	Who  string          `json:"who"`
	Sent int64           `json:"sent"`         // Unix milliseconds, by the sender's clock
	Got  int64           `json:"got"`          // Unix milliseconds, by ours
	ID   string          `json:"id,omitempty"` // the door's message id; the records of one message share it
	Text string          `json:"text"`         // as sent
	Body json.RawMessage `json:"body,omitempty"`
}

// Receipt records how a message was answered, so that the same message gets the same answer again.
type Receipt struct {
	ID    string          `json:"id"`
	Hash  uint64          `json:"hash,string"`    // of the message text, by a function of the caller's choice
	Seqs  []uint64        `json:"seqs,omitempty"` // the records it made, if any
	Reply json.RawMessage `json:"reply,omitempty"`
}

// Batch is what one commit writes. Its receipts may name its records. In the maps, a nil value deletes its
// key; keys must be valid UTF-8 and not empty.
type Batch struct {
	Records  []Record
	Receipts []Receipt
	Pending  map[string]json.RawMessage // open questions, such as one for each sender
	Outbox   map[string]json.RawMessage // replies not sent yet
	Marks    map[string]json.RawMessage // small named values of a door, such as a watermark
}

// Log is the open log of one job.
type Log struct {
	path string
	file *os.File                // the handle that bbolt uses and closes
	db   atomic.Pointer[bolt.DB] // nil until the file is made

	mu     sync.Mutex // one Commit at a time
	totals totals     // guarded by mu
	closed bool       // guarded by mu
	last   atomic.Uint64
	failed atomic.Pointer[error] // what made the log unusable
}

// Open opens the job at path for reading and writing. It reads the whole file once and refuses it if
// anything in it is damaged.
func Open(path string) (*Log, error) { return open(path, false) }

// Await returns the log of a job that does not exist yet. The first commit makes the file at path and
// opens it.
func Await(path string) *Log { return &Log{path: path} }

// Made reports whether the file exists yet.
func (l *Log) Made() bool { return l.db.Load() != nil }

func open(path string, readOnly bool) (*Log, error) {
	f, err := lockedFile(path, readOnly)
	if err != nil {
		return nil, err
	}
	l := &Log{path: path, file: f}
	if l.totals, err = verify(f); err == nil {
		err = guard(func() error {
			db, err := bolt.Open(path, 0o600, &bolt.Options{
				OpenFile:     func(string, int, os.FileMode) (*os.File, error) { return f, nil },
				ReadOnly:     readOnly,
				Timeout:      time.Second,
				NoStatistics: true,
			})
			l.db.Store(db)
			return err
		})
	}
	if err != nil {
		f.Close()
		return nil, classify(path, err)
	}
	l.last.Store(l.totals.Last)
	return l, nil
}

// Path returns the path that the log was opened with.
func (l *Log) Path() string { return l.path }

// LastSeq returns the seq of the last record, 0 for an empty log.
func (l *Log) LastSeq() uint64 { return l.last.Load() }

// Close closes the file and lets others open it. It waits for reads in progress.
func (l *Log) Close() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.closed {
		return nil
	}
	l.closed = true
	if !l.Made() {
		return nil
	}
	if failed := l.failed.Load(); failed != nil && errors.Is(*failed, ErrDamaged) {
		// bbolt panicked and may hold its own locks for good, so close the file without it.
		return classify(l.path, cmp.Or(unlock(l.file), l.file.Close()))
	}
	return classify(l.path, l.db.Load().Close())
}

// usable returns the reason why the log cannot be used any more, or nil.
func (l *Log) usable() error {
	if failed := l.failed.Load(); failed != nil {
		return fmt.Errorf("the log must be opened again after a failed commit: %w", *failed)
	}
	return nil
}

// Commit writes the batch as one transaction, all of it or nothing.
//
// A batch refused for its content (a seq that is not the next one, an id that already has a receipt, text
// that is not UTF-8, invalid JSON) writes nothing, and the log stays usable. After any other error the log
// refuses everything but Close: open it again to see what it holds. A full disk leaves nothing of the
// batch. If the disk failed in the very last step, the whole batch may have been written.
func (l *Log) Commit(b Batch) error {
	if err := l.make(&b); err != nil {
		return err
	}
	return classify(l.path, l.commit(&b))
}

// make makes the file, unless it exists or there is nothing to put into it.
func (l *Log) make(b *Batch) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.Made() || b.empty() {
		return nil
	}
	if l.closed {
		return classify(l.path, os.ErrClosed)
	}
	made, err := Create(l.path)
	if err != nil {
		return err
	}
	l.file = made.file
	l.db.Store(made.db.Load())
	return nil
}

func (l *Log) commit(b *Batch) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.usable(); err != nil || b.empty() {
		return err
	}
	next := l.totals
	err := update(l, b, &next)
	refused, is := errors.AsType[refusal](err)
	switch {
	case err == nil:
		l.totals = next
		l.last.Store(next.Last)
	case is:
		return refused.error
	case !errors.Is(err, berrors.ErrDatabaseNotOpen):
		l.failed.Store(&err)
	}
	return err
}

// refusal is the error of a batch that was refused for its content.
type refusal struct{ error }

// update writes a batch as one transaction and adds it to next. Tests replace it to make it fail.
var update = func(l *Log, b *Batch, next *totals) error {
	return guard(func() error {
		return l.db.Load().Update(func(tx *bolt.Tx) error {
			if err := b.put(tx, next); err != nil {
				return refusal{err}
			}
			return nil
		})
	})
}

func (b *Batch) empty() bool {
	return len(b.Records)+len(b.Receipts)+len(b.Pending)+len(b.Outbox)+len(b.Marks) == 0
}

// put writes the batch into tx and adds it to t.
func (b *Batch) put(tx *bolt.Tx, t *totals) error {
	if err := putRecords(tx.Bucket([]byte(logBucket)), b.Records, t); err != nil {
		return err
	}
	if err := putReceipts(tx.Bucket([]byte(receiptsBucket)), b.Receipts, t); err != nil {
		return err
	}
	for _, s := range []struct {
		bucket string
		rows   map[string]json.RawMessage
		n      *uint64
	}{
		{pendingBucket, b.Pending, &t.Pending},
		{outboxBucket, b.Outbox, &t.Outbox},
		{marksBucket, b.Marks, &t.Marks},
	} {
		if err := putRows(tx.Bucket([]byte(s.bucket)), s.bucket, s.rows, s.n); err != nil {
			return err
		}
	}
	return put(tx.Bucket([]byte(aboutBucket)), aboutBucket, totalsKey, t)
}

func put(b *bolt.Bucket, name string, key []byte, v any) error {
	value, err := encode(name, key, v)
	if err != nil {
		return err
	}
	return b.Put(key, value)
}

func putRecords(b *bolt.Bucket, records []Record, t *totals) error {
	b.FillPercent = 0.9 // keys only grow, so pages before the last never gain any
	for i := range records {
		r := &records[i]
		if r.Seq != t.Last+1 {
			return fmt.Errorf("entry %d cannot follow entry %d", r.Seq, t.Last)
		}
		if err := validText(r.Kind, r.Who, r.ID, r.Text); err != nil {
			return fmt.Errorf("entry %d: %w", r.Seq, err)
		}
		if err := put(b, logBucket, seqKey(r.Seq), r); err != nil {
			return err
		}
		t.Last++
	}
	return nil
}

func putReceipts(b *bolt.Bucket, receipts []Receipt, t *totals) error {
	for i := range receipts {
		r := &receipts[i]
		key := []byte(r.ID)
		if err := validText(r.ID); err != nil {
			return fmt.Errorf("%s: %w", describe(receiptsBucket, key), err)
		}
		if b.Get(key) != nil {
			return fmt.Errorf("%w: %q", ErrDuplicate, r.ID)
		}
		for _, seq := range r.Seqs {
			if seq == 0 || seq > t.Last {
				return fmt.Errorf("%s names entry %d, the last one is %d", describe(receiptsBucket, key), seq, t.Last)
			}
		}
		if err := put(b, receiptsBucket, key, r); err != nil {
			return err
		}
		t.Receipts++
	}
	return nil
}

// putRows puts rows into b, deletes those with a nil value, and keeps n, the number of rows in b, up to
// date.
func putRows(b *bolt.Bucket, name string, rows map[string]json.RawMessage, n *uint64) error {
	for k, row := range rows {
		key := []byte(k)
		if err := validText(k); err != nil {
			return fmt.Errorf("%s: %w", describe(name, key), err)
		}
		had := b.Get(key) != nil
		switch {
		case row == nil && had:
			*n--
			if err := b.Delete(key); err != nil {
				return err
			}
		case row != nil:
			if !had {
				*n++
			}
			if err := put(b, name, key, row); err != nil {
				return err
			}
		}
	}
	return nil
}

// chunk is the number of records read in one transaction: few enough that a slow reader delays no commit,
// many enough that the transaction costs next to nothing.
const chunk = 256

// Records yields the records from seq on, in order, up to the one that was last when the loop began. An
// error ends it and names the record. The loop body may commit.
func (l *Log) Records(from uint64) iter.Seq2[Record, error] {
	return func(yield func(Record, error) bool) {
		records := make([]Record, 0, chunk)
		next, last := max(from, 1), l.LastSeq()
		for next <= last {
			var err error
			records, err = l.read(next, last, records[:0])
			for _, r := range records {
				if !yield(r, nil) {
					return
				}
			}
			if err != nil {
				yield(Record{}, err)
				return
			}
			next += uint64(len(records))
		}
	}
}

// read appends the records next to last, up to the capacity of records.
func (l *Log) read(next, last uint64, records []Record) ([]Record, error) {
	err := l.view(func(tx *bolt.Tx) error {
		c := tx.Bucket([]byte(logBucket)).Cursor()
		k, v := c.Seek(seqKey(next))
		for ; next <= last && len(records) < cap(records); next++ {
			if !bytes.Equal(k, seqKey(next)) {
				return fmt.Errorf("%w: entry %d is missing", ErrDamaged, next)
			}
			var r Record
			if err := decode(logBucket, k, v, &r); err != nil {
				return err
			}
			records = append(records, r)
			k, v = c.Next()
		}
		return nil
	})
	return records, err
}

// Receipt returns the receipt of a message id, and whether there is one.
func (l *Log) Receipt(id string) (r Receipt, ok bool, err error) {
	err = l.view(func(tx *bolt.Tx) error {
		key := []byte(id)
		v := tx.Bucket([]byte(receiptsBucket)).Get(key)
		if ok = v != nil; !ok {
			return nil
		}
		return decode(receiptsBucket, key, v, &r)
	})
	return r, ok && err == nil, err
}

// Pending returns the open questions.
func (l *Log) Pending() (map[string]json.RawMessage, error) { return l.rows(pendingBucket) }

// Outbox returns the replies not sent yet.
func (l *Log) Outbox() (map[string]json.RawMessage, error) { return l.rows(outboxBucket) }

// Marks returns the named values of the doors.
func (l *Log) Marks() (map[string]json.RawMessage, error) { return l.rows(marksBucket) }

func (l *Log) rows(bucket string) (map[string]json.RawMessage, error) {
	rows := map[string]json.RawMessage{}
	err := l.view(func(tx *bolt.Tx) error {
		return tx.Bucket([]byte(bucket)).ForEach(func(k, v []byte) error {
			var row json.RawMessage
			if err := decode(bucket, k, v, &row); err != nil {
				return err
			}
			rows[string(k)] = row
			return nil
		})
	})
	return rows, err
}
