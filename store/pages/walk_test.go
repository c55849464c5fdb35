package pages_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"strapline/store"
	"strapline/store/pages"
)

// FuzzWalk writes random bytes at two places after the head pages. The walk must end without a panic, and
// bbolt's own check must find nothing wrong with what the walk accepts.
func FuzzWalk(f *testing.F) {
	path := filepath.Join(f.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		f.Fatal(err)
	}
	for seq := range uint64(3) {
		if err := l.Commit(store.Batch{Records: []store.Record{{Seq: seq + 1, Kind: "note", Text: strings.Repeat("x", 1000)}}}); err != nil {
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
		walk := pages.New(bytes.NewReader(data), int64(len(data)), func(string, []byte, []byte) {})
		if walk.Run(); len(walk.Faults) > 0 || walk.Torn != nil {
			return
		}
		path := filepath.Join(t.TempDir(), "larkspur.job")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		db.View(func(tx *bolt.Tx) error {
			for err := range tx.Check() {
				t.Error(err)
			}
			return nil
		})
	})
}

// TestWalkFaults breaks the links between pages, which no checksum protects.
func TestWalkFaults(t *testing.T) {
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for seq := uint64(1); seq <= 60; seq++ {
		err := l.Commit(store.Batch{
			Records:  []store.Record{{Seq: seq, Kind: "note", Text: strings.Repeat("x", 200)}},
			Receipts: []store.Receipt{{ID: fmt.Sprint(seq), Reply: json.RawMessage(`"` + strings.Repeat("y", 200) + `"`)}},
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
	w := pages.New(bytes.NewReader(sound), int64(len(sound)), func(string, []byte, []byte) {})
	if w.Run(); len(w.Faults) > 0 {
		t.Fatal(w.Faults)
	}
	native, pageSize, rootID, freelist, count := binary.NativeEndian, w.PageSize(), w.Root(), w.Freelist(), w.Pages()
	// roots are where the buckets' elements name their root pages.
	page := func(data []byte, id uint64) []byte { return data[id*pageSize : (id+1)*pageSize] }
	root := func(data []byte, name string) []byte {
		p := page(data, rootID)
		for i := range int(native.Uint16(p[10:])) {
			at := 16 + i*16
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
		{"bucket shared", func(d []byte) { copy(root(d, "receipts")[:8], root(d, "log")[:8]) }, " is used twice"},
		{"bucket lost", func(d []byte) { native.PutUint64(root(d, "log"), freelist) }, " has an unknown type"},
		{"bucket outside", func(d []byte) { native.PutUint64(root(d, "log"), count) }, " is out of place"},
		{"bucket is the root", func(d []byte) { native.PutUint64(root(d, "log"), rootID) }, " is used twice"},
		{"bucket is a head", func(d []byte) { native.PutUint64(root(d, "log"), 1) }, " is out of place"},
		{"bucket without a page", func(d []byte) { native.PutUint64(root(d, "log"), 0) }, " has a bucket without a page"},
		{"branch loops", func(d []byte) {
			p := page(d, native.Uint64(root(d, "log")))
			native.PutUint64(p[16+8:], native.Uint64(p))
		}, " is used twice"},
		{"branch is empty", func(d []byte) { native.PutUint16(page(d, native.Uint64(root(d, "log")))[10:], 0) }, " has a wrong count"},
		{"branch is shorter", func(d []byte) {
			p := page(d, native.Uint64(root(d, "log")))
			native.PutUint16(p[10:], native.Uint16(p[10:])-1)
		}, " is neither in use nor free"},
		{"page too long", func(d []byte) { native.PutUint32(page(d, rootID)[12:], 1<<31) }, " is mislabelled"},
		{"free list too long", func(d []byte) { native.PutUint16(page(d, freelist)[10:], 0xFFFE) }, "the list of free pages cannot be read"},
		{"free list far too long", func(d []byte) {
			native.PutUint16(page(d, freelist)[10:], 0xFFFF)
			native.PutUint64(page(d, freelist)[16:], 1<<62)
		}, "the list of free pages cannot be read"},
		{"free list shorter", func(d []byte) { native.PutUint16(page(d, freelist)[10:], 1) }, " is neither in use nor free"},
		{"free page in use", func(d []byte) { native.PutUint64(page(d, freelist)[16:], rootID) }, "which is in use"},
		{"free page outside", func(d []byte) { native.PutUint64(page(d, freelist)[16:], count) }, "which is in use"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			data := bytes.Clone(sound)
			tt.edit(data)
			if err := os.WriteFile(path, data, 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := store.Open(path); !errors.Is(err, store.ErrDamaged) {
				t.Errorf("open: %v", err)
			}
			report, err := store.Check(path, nil)
			if err != nil || !slices.ContainsFunc(report.Faults, func(s string) bool { return strings.HasSuffix(s, tt.want) }) {
				t.Errorf("check: %q, %v, want %q", report.Faults, err, tt.want)
			}
		})
	}
}
