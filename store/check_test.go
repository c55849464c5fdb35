package store

import (
	"cmp"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"testing"

	bolt "go.etcd.io/bbolt"

	"strapline/store/pages"
)

// edited makes a job of 5 records and 5 receipts, and changes it behind the back of Commit.
func edited(t *testing.T, edit func(*bolt.Tx) error) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := Create(path)
	if err != nil {
		t.Fatal(err)
	}
	var b Batch
	for seq := uint64(1); seq <= 5; seq++ {
		id := fmt.Sprint("m", seq)
		b.Records = append(b.Records, Record{Seq: seq, Kind: "thing", ID: id})
		b.Receipts = append(b.Receipts, Receipt{ID: id, Seqs: []uint64{seq}})
	}
	// One message of two lines, and one that no receipt knows.
	b.Records[1].ID, b.Receipts[0].Seqs, b.Receipts[1].Seqs = "m1", []uint64{1, 2}, nil
	b.Records[4].ID, b.Receipts[4].Seqs = "m9", nil
	b.Pending = map[string]json.RawMessage{"lead": json.RawMessage(`1`)}
	if err := cmp.Or(l.Commit(b), l.Close()); err != nil {
		t.Fatal(err)
	}
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := cmp.Or(db.Update(edit), db.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestCheckFaults writes faults that only a wrong program or a wrong hand can make.
func TestCheckFaults(t *testing.T) {
	many := []string{pages.MaxFaults: "and 50 more"}
	for i := range pages.MaxFaults {
		many[i] = fmt.Sprintf(`open question "%03d" does not match its checksum`, i)
	}
	b := func(tx *bolt.Tx, name string) *bolt.Bucket { return tx.Bucket([]byte(name)) }
	for _, tt := range []struct {
		name string
		edit func(*bolt.Tx) error
		want []string
	}{
		{"none", func(*bolt.Tx) error { return nil }, nil},
		{"gap", func(tx *bolt.Tx) error { return b(tx, logBucket).Delete(seqKey(3)) }, []string{"entry 3 is missing"}},
		{"wide gap", func(tx *bolt.Tx) error {
			return cmp.Or(b(tx, logBucket).Delete(seqKey(3)), b(tx, logBucket).Delete(seqKey(4)))
		}, []string{"entries 3 to 4 are missing"}},
		{"end gone", func(tx *bolt.Tx) error { return b(tx, logBucket).Delete(seqKey(5)) },
			[]string{"it holds 4 entries, 5 receipts, 1 open questions, 0 outbox rows, 0 marks, not 5 entries, 5 receipts, 1 open questions, 0 outbox rows, 0 marks"}},
		{"receipt gone", func(tx *bolt.Tx) error { return b(tx, receiptsBucket).Delete([]byte("m4")) },
			[]string{"it holds 5 entries, 4 receipts, 1 open questions, 0 outbox rows, 0 marks, not 5 entries, 5 receipts, 1 open questions, 0 outbox rows, 0 marks"}},
		{"wrong sum", func(tx *bolt.Tx) error { return b(tx, logBucket).Put(seqKey(2), b(tx, logBucket).Get(seqKey(3))) },
			[]string{"entry 2 does not match its checksum"}},
		{"no sum", func(tx *bolt.Tx) error { return b(tx, pendingBucket).Put([]byte("lead"), []byte("1")) },
			[]string{`open question "lead" does not match its checksum`}},
		{"odd key", func(tx *bolt.Tx) error { return put(b(tx, logBucket), logBucket, []byte("odd"), 1) },
			[]string{"entry 6f6464 has no number", "entry 6f6464 cannot be read: json: cannot unmarshal number into Go value of type store.Record"}},
		{"wrong seq", func(tx *bolt.Tx) error { return put(b(tx, logBucket), logBucket, seqKey(4), Record{Seq: 7}) },
			[]string{"entry 4 calls itself 7"}},
		{"wrong id", func(tx *bolt.Tx) error {
			return put(b(tx, receiptsBucket), receiptsBucket, []byte("m4"), Receipt{ID: "m5"})
		}, []string{`the receipt of message "m4" calls itself "m5"`}},
		{"no such entry", func(tx *bolt.Tx) error {
			return put(b(tx, receiptsBucket), receiptsBucket, []byte("m4"), Receipt{ID: "m4", Seqs: []uint64{4, 6}})
		}, []string{`the receipt of message "m4" names entry 6, which is missing`}},
		{"id again", func(tx *bolt.Tx) error {
			return put(b(tx, logBucket), logBucket, seqKey(4), Record{Seq: 4, ID: "m1"})
		}, []string{`message id "m1" is used again by entry 4`}},
		{"id again, no receipt", func(tx *bolt.Tx) error {
			return put(b(tx, logBucket), logBucket, seqKey(4), Record{Seq: 4, ID: "m9"})
		}, []string{`message id "m9" is used again by entry 4`, `message id "m9" is used again by entry 5`}},
		{"unknown bucket", func(tx *bolt.Tx) error { _, err := tx.CreateBucket([]byte("paint")); return err },
			[]string{`it has the parts ["about" "log" "marks" "outbox" "paint" "pending" "receipts"], not ["about" "log" "marks" "outbox" "pending" "receipts"]`}},
		{"no bucket", func(tx *bolt.Tx) error { return tx.DeleteBucket([]byte(marksBucket)) },
			[]string{`it has the parts ["about" "log" "outbox" "pending" "receipts"], not ["about" "log" "marks" "outbox" "pending" "receipts"]`}},
		{"many", func(tx *bolt.Tx) error {
			for i := range pages.MaxFaults + 50 {
				if err := b(tx, pendingBucket).Put(fmt.Appendf(nil, "%03d", i), nil); err != nil {
					return err
				}
			}
			return nil
		}, many},
		{"no format", func(tx *bolt.Tx) error { return b(tx, aboutBucket).Delete(formatKey) }, []string{"it does not tell its format"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := edited(t, tt.edit)
			report, err := Check(path, nil)
			if err != nil || !slices.Equal(report.Faults, tt.want) {
				t.Errorf("got  %q, %v\nwant %q", report.Faults, err, tt.want)
			}
		})
	}
}

// TestNewer shows that a file of a later version is refused and left alone.
func TestNewer(t *testing.T) {
	for _, tt := range []struct {
		name string
		edit func(*bolt.Tx) error
		want string
	}{
		{"file", func(tx *bolt.Tx) error {
			if _, err := tx.CreateBucket([]byte("paint")); err != nil {
				return err
			}
			return put(tx.Bucket([]byte(aboutBucket)), aboutBucket, formatKey, fileFormat+1)
		}, "it has format 2, this program knows 1"},
		{"value", func(tx *bolt.Tx) error {
			value, err := encode(logBucket, seqKey(3), &Record{Seq: 3})
			if err != nil {
				return err
			}
			value[4]++
			binary.BigEndian.PutUint32(value, sum(logBucket, seqKey(3), value[4:]))
			return tx.Bucket([]byte(logBucket)).Put(seqKey(3), value)
		}, "entry 3 has layout 3, this program knows 2"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := edited(t, tt.edit)
			want := path + ": a newer strapline wrote this file: " + tt.want
			if _, err := Open(path); !errors.Is(err, ErrNewer) || err.Error() != want {
				t.Errorf("open: got %v, want %s", err, want)
			}
			if err := Export(path, failOnWrite{t}); !errors.Is(err, ErrNewer) || err.Error() != want {
				t.Errorf("export: got %v, want %s", err, want)
			}
			report, err := Check(path, nil)
			if err != nil || !slices.Contains(report.Faults, "a newer strapline wrote this file: "+tt.want) {
				t.Errorf("check: %q, %v", report.Faults, err)
			}
		})
	}
}

type failOnWrite struct{ t *testing.T }

func (w failOnWrite) Write(p []byte) (int, error) {
	w.t.Errorf("written: %q", p)
	return len(p), nil
}
