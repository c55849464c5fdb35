package store_test

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"strapline/store"
)

// BenchmarkCommit compares a commit with bbolt putting the same bytes under the
// same keys in one bucket each for records and receipts. The two take turns; the
// medians are reported.
func BenchmarkCommit(b *testing.B) {
	for _, n := range []uint64{1, 64} {
		b.Run(fmt.Sprintf("records=%d", n), func(b *testing.B) {
			l, err := store.Create(filepath.Join(b.TempDir(), "larkspur.job"))
			if err != nil {
				b.Fatal(err)
			}
			defer l.Close()
			db := bareDB(b)
			var ours, bare []time.Duration
			for b.Loop() {
				from := l.LastSeq() + 1
				batch := store.Batch{}
				var values [][]byte
				for seq := from; seq < from+n; seq++ {
					batch.Records = append(batch.Records, note(seq))
					batch.Receipts = append(batch.Receipts, receipt(seq))
					values = append(values, stored(b, note(seq)), stored(b, receipt(seq)))
				}

				start := time.Now()
				err := l.Commit(batch)
				ours = append(ours, time.Since(start))
				if err != nil {
					b.Fatal(err)
				}

				start = time.Now()
				err = db.Update(func(tx *bolt.Tx) error {
					log, receipts := tx.Bucket([]byte("log")), tx.Bucket([]byte("receipts"))
					for i, r := range batch.Records {
						if err := log.Put(binary.BigEndian.AppendUint64(nil, r.Seq), values[2*i]); err != nil {
							return err
						}
						if err := receipts.Put([]byte(r.ID), values[2*i+1]); err != nil {
							return err
						}
					}
					return nil
				})
				bare = append(bare, time.Since(start))
				if err != nil {
					b.Fatal(err)
				}
			}
			report(b, ours, bare)
		})
	}
}

// BenchmarkOpen compares opening a job of 100,000 records, which reads and checks
// the whole file, and reading all records, with decoding the same records from memory.
func BenchmarkOpen(b *testing.B) {
	const records = 100_000
	path := filepath.Join(b.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	var values [][]byte
	for seq := uint64(1); seq <= records; seq += 1000 {
		if err := l.Commit(notes(seq, seq+999)); err != nil {
			b.Fatal(err)
		}
		for i := range uint64(1000) {
			values = append(values, stored(b, note(seq+i)))
		}
	}
	if err := l.Close(); err != nil {
		b.Fatal(err)
	}
	var ours, bare, opened []time.Duration
	var heap uint64
	for b.Loop() {
		runtime.GC()
		start := time.Now()
		l, err := store.Open(path)
		if err != nil {
			b.Fatal(err)
		}
		opened = append(opened, time.Since(start))
		all := make([]store.Record, 0, records)
		for r, err := range l.Records(1) {
			if err != nil {
				b.Fatal(err)
			}
			all = append(all, r)
		}
		ours = append(ours, time.Since(start))
		var mem runtime.MemStats
		runtime.ReadMemStats(&mem)
		heap = max(heap, mem.HeapSys)
		l.Close()

		all = nil
		runtime.GC()
		start = time.Now()
		all = make([]store.Record, 0, records)
		for _, v := range values {
			var r store.Record
			if err := json.Unmarshal(v, &r); err != nil {
				b.Fatal(err)
			}
			all = append(all, r)
		}
		bare = append(bare, time.Since(start))
	}
	report(b, ours, bare)
	b.ReportMetric(median(opened).Seconds()*1e3, "ms-open-alone")
	b.ReportMetric(float64(heap)/(1<<20), "MB-heap")
}

func bareDB(b *testing.B) *bolt.DB {
	b.Helper()
	db, err := bolt.Open(filepath.Join(b.TempDir(), "bare"), 0o600, &bolt.Options{NoStatistics: true})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	err = db.Update(func(tx *bolt.Tx) error {
		for _, name := range []string{"log", "receipts"} {
			if _, err := tx.CreateBucket([]byte(name)); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return db
}

func stored(b *testing.B, v any) []byte {
	b.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		b.Fatal(err)
	}
	return text
}

func report(b *testing.B, ours, bare []time.Duration) {
	us := func(d time.Duration) float64 { return float64(d.Nanoseconds()) / 1e3 }
	b.ReportMetric(0, "ns/op") // the loop holds both
	b.ReportMetric(us(median(ours)), "µs")
	b.ReportMetric(us(median(bare)), "µs-bare")
	b.ReportMetric(us(median(ours)-median(bare)), "µs-more")
	b.ReportMetric(us(median(ours))/us(median(bare)), "ratio")
}

func median(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}
