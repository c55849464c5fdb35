package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// FuzzWalk writes random bytes at two places after the head pages. The walk must end without a panic, and
// bbolt's own check must find nothing wrong with what the walk accepts.
func FuzzWalk(f *testing.F) {
	path := filepath.Join(f.TempDir(), "larkspur.job")
	l, err := Create(path)
	if err != nil {
		f.Fatal(err)
	}
	for seq := range uint64(3) {
		if err := l.Commit(Batch{Records: []Record{{Seq: seq + 1, Kind: "note", Text: strings.Repeat("x", 1000)}}}); err != nil {
			f.Fatal(err)
		}
	}
	if err := l.Close(); err != nil {
		f.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	page := os.Getpagesize()
	f.Add(uint16(2*page+10), []byte{1}, uint16(3*page+10), []byte{2, 0}) // counts of entries
	f.Fuzz(func(t *testing.T, at uint16, with []byte, at2 uint16, with2 []byte) {
		data := bytes.Clone(data)
		copy(data[max(2*page, int(at)%len(data)):], with)
		copy(data[max(2*page, int(at2)%len(data)):], with2)
		if len(examine(bytes.NewReader(data), int64(len(data)), nil).faults) > 0 {
			return
		}
		path := filepath.Join(t.TempDir(), "larkspur.job")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		report, err := Check(path, nil)
		if err != nil || len(report.Faults) > 0 {
			t.Errorf("check: %q, %v", report.Faults, err)
		}
	})
}

// TestWalkFaults breaks the links between pages, which no checksum protects.
func TestWalkFaults(t *testing.T) {
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for seq := uint64(1); seq <= 60; seq++ {
		err := l.Commit(Batch{
			Records:  []Record{{Seq: seq, Kind: "note", Text: strings.Repeat("x", 200)}},
			Receipts: []Receipt{{ID: fmt.Sprint(seq), Reply: json.RawMessage(`"` + strings.Repeat("y", 200) + `"`)}},
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	w := &walker{r: bytes.NewReader(sound), size: int64(len(sound)), visit: func(string, []byte, []byte) {}}
	w.run()
	if len(w.faults) > 0 {
		t.Fatal(w.faults)
	}
	// roots are where the buckets' elements name their root pages.
	page := func(data []byte, id uint64) []byte { return data[id*w.pageSize : (id+1)*w.pageSize] }
	root := func(data []byte, name string) []byte {
		p := page(data, w.root)
		for i := range int(native.Uint16(p[10:])) {
			at := pageHeader + i*elementSize
			item := p[at+int(native.Uint32(p[at+4:])):]
			if n := int(native.Uint32(p[at+8:])); string(item[:n]) == name {
				return item[n:]
			}
		}
		t.Fatalf("no bucket %s", name)
		return nil
	}
	for _, tt := range []struct {
		name string
		edit func(data []byte)
		want string
	}{
		{"bucket shared", func(d []byte) { copy(root(d, receiptsBucket)[:8], root(d, logBucket)[:8]) }, " is used twice"},
		{"bucket lost", func(d []byte) { native.PutUint64(root(d, logBucket), w.freelist) }, " has an unknown type"},
		{"bucket outside", func(d []byte) { native.PutUint64(root(d, logBucket), w.pages) }, " is out of place"},
		{"bucket is the root", func(d []byte) { native.PutUint64(root(d, logBucket), w.root) }, " is used twice"},
		{"bucket is a head", func(d []byte) { native.PutUint64(root(d, logBucket), 1) }, " is out of place"},
		{"bucket without a page", func(d []byte) { native.PutUint64(root(d, logBucket), 0) }, " has a bucket without a page"},
		{"branch loops", func(d []byte) {
			p := page(d, native.Uint64(root(d, logBucket)))
			native.PutUint64(p[pageHeader+8:], native.Uint64(p))
		}, " is used twice"},
		{"branch is empty", func(d []byte) { native.PutUint16(page(d, native.Uint64(root(d, logBucket)))[10:], 0) }, " has a wrong count"},
		{"branch is shorter", func(d []byte) {
			p := page(d, native.Uint64(root(d, logBucket)))
			native.PutUint16(p[10:], native.Uint16(p[10:])-1)
		}, " is neither in use nor free"},
		{"page too long", func(d []byte) { native.PutUint32(page(d, w.root)[12:], 1<<31) }, " is mislabelled"},
		{"free list too long", func(d []byte) { native.PutUint16(page(d, w.freelist)[10:], 0xFFFE) }, "the list of free pages cannot be read"},
		{"free list far too long", func(d []byte) {
			native.PutUint16(page(d, w.freelist)[10:], 0xFFFF)
			native.PutUint64(page(d, w.freelist)[pageHeader:], 1<<62)
		}, "the list of free pages cannot be read"},
		{"free list shorter", func(d []byte) { native.PutUint16(page(d, w.freelist)[10:], 1) }, " is neither in use nor free"},
		{"free page in use", func(d []byte) { native.PutUint64(page(d, w.freelist)[pageHeader:], w.root) }, "which is in use"},
		{"free page outside", func(d []byte) { native.PutUint64(page(d, w.freelist)[pageHeader:], w.pages) }, "which is in use"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			data := bytes.Clone(sound)
			tt.edit(data)
			if err := os.WriteFile(path, data, 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := Open(path); !errors.Is(err, ErrDamaged) {
				t.Errorf("open: %v", err)
			}
			report, err := Check(path, nil)
			if err != nil || !slices.ContainsFunc(report.Faults, func(s string) bool { return strings.HasSuffix(s, tt.want) }) {
				t.Errorf("check: %q, %v, want %q", report.Faults, err, tt.want)
			}
		})
	}
}
