package store_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strapline/store"
)

func Example() {
	dir, err := os.MkdirTemp("", "strapline")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	job, err := store.Create(filepath.Join(dir, "larkspur.job"))
	if err != nil {
		panic(err)
	}
	defer job.Close()
	err = job.Commit(store.Batch{
		Records: []store.Record{{
			Seq: job.LastSeq() + 1, Kind: "thing", V: 1, Who: "sparks", ID: "m1",
			Text: "light over sink 26 off west 41 off north",
			Body: json.RawMessage(`{"name":"sink light"}`),
		}},
		Receipts: []store.Receipt{{ID: "m1", Seqs: []uint64{1}, Reply: json.RawMessage(`"noted"`)}},
	})
	if err != nil {
		panic(err)
	}
	for r, err := range job.Records(1) {
		fmt.Println(r.Seq, r.Who, r.Text, err)
	}
	// Output: 1 sparks light over sink 26 off west 41 off north <nil>
}

func TestCommitAndReopen(t *testing.T) {
	l := newJob(t)
	mustHold(t, l, 0)
	mustCommit(t, l, store.Batch{}) // nothing
	mustCommit(t, l, notes(1, 1))
	mustCommit(t, l, notes(2, 700)) // over several chunks and pages
	mustHold(t, l, 700)
	mustClose(t, l)
	l = mustOpen(t, l.Path())
	mustHold(t, l, 700)
	mustCommit(t, l, notes(701, 702))
	mustHold(t, l, 702)

	var got []uint64
	for r, err := range l.Records(699) {
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, r.Seq)
		if r.Seq == 702 {
			mustCommit(t, l, notes(703, 703)) // from inside the loop
		}
	}
	if !slices.Equal(got, []uint64{699, 700, 701, 702}) {
		t.Errorf("records from 699: %v", got)
	}
	for r, err := range l.Records(704) {
		t.Errorf("a record past the last: %v, %v", r, err)
	}
	if _, ok, err := l.Receipt("post-0"); ok || err != nil {
		t.Errorf("unknown receipt: %v, %v", ok, err)
	}
	mustClose(t, l)
	mustClose(t, l) // twice
	if err := l.Commit(notes(704, 704)); !errors.Is(err, os.ErrClosed) {
		t.Errorf("commit after close: %v", err)
	}
	for _, err := range l.Records(1) {
		if !errors.Is(err, os.ErrClosed) {
			t.Errorf("read after close: %v", err)
		}
	}
}

// TestRefused shows that a batch refused for what it holds writes nothing.
func TestRefused(t *testing.T) {
	rec := func(change func(*store.Record)) store.Batch {
		b := notes(3, 4)
		change(&b.Records[1])
		return b
	}
	for _, tt := range []struct {
		name  string
		batch store.Batch
		want  string
	}{
		{"gap", notes(4, 5), "entry 4 cannot follow entry 2"},
		{"again", notes(2, 3), "entry 2 cannot follow entry 2"},
		{"gap inside", rec(func(r *store.Record) { r.Seq = 5 }), "entry 5 cannot follow entry 3"},
		{"not UTF-8", rec(func(r *store.Record) { r.Text = "a\xff" }), "entry 4: text is not valid UTF-8"},
		{"no kind", rec(func(r *store.Record) { r.Kind = "" }), "entry 4: a name is empty"},
		{"no JSON", rec(func(r *store.Record) { r.Body = json.RawMessage(`{"a":`) }), "entry 4: json: "},
		{"duplicate", store.Batch{Records: notes(3, 3).Records, Receipts: []store.Receipt{receipt(2)}},
			`this message id was answered before: "post-2"`},
		{"duplicate inside", store.Batch{Receipts: []store.Receipt{{ID: "x"}, {ID: "x"}}},
			`this message id was answered before: "x"`},
		{"missing entry", store.Batch{Receipts: []store.Receipt{{ID: "x", Seqs: []uint64{3}}}},
			`the receipt of message "x" names entry 3, the last one is 2`},
		{"no id", store.Batch{Receipts: []store.Receipt{{}}}, `the receipt of message "": a name is empty`},
		{"no key", store.Batch{Pending: map[string]json.RawMessage{"": nil}}, `open question "": a name is empty`},
		{"long key", store.Batch{Marks: map[string]json.RawMessage{strings.Repeat("k", 1<<16): json.RawMessage(`1`)}},
			"key too large"},
		{"row is no JSON", store.Batch{Outbox: map[string]json.RawMessage{"a": json.RawMessage(`{`)}}, `outbox row "a": json: `},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := newJob(t)
			mustCommit(t, l, notes(1, 2))
			err := l.Commit(tt.batch)
			if err == nil || !strings.HasPrefix(err.Error(), l.Path()+": "+tt.want) {
				t.Errorf("got  %v\nwant %s: %s", err, l.Path(), tt.want)
			}
			if strings.HasPrefix(tt.name, "duplicate") != errors.Is(err, store.ErrDuplicate) {
				t.Errorf("ErrDuplicate for %v", err)
			}
			mustHold(t, l, 2)
			if rows, err := l.Outbox(); len(rows) != 2 || err != nil {
				t.Errorf("outbox: %v, %v", rows, err)
			}
			mustCommit(t, l, notes(3, 4)) // still usable
			mustHold(t, l, 4)
		})
	}
}

func TestInUse(t *testing.T) {
	l := newJob(t)
	mustCommit(t, l, notes(1, 1))
	for name, open := range map[string]func() error{
		"open":   func() error { _, err := store.Open(l.Path()); return err },
		"check":  func() error { _, err := store.Check(l.Path(), nil); return err },
		"export": func() error { return store.Export(l.Path(), &strings.Builder{}) },
		"backup": func() error { return store.Backup(l.Path(), l.Path()+".bak") },
	} {
		err := open()
		if want := l.Path() + ": another strapline is using this file"; !errors.Is(err, store.ErrInUse) || err.Error() != want {
			t.Errorf("%s: got %v, want %s", name, err, want)
		}
	}
	mustHold(t, l, 1)
}

func TestCreate(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "strapline", "jobs")
	path := filepath.Join(dir, "larkspur.job")
	if _, err := store.Open(path); !errors.Is(err, fs.ErrNotExist) || err.Error() != path+": file does not exist" {
		t.Errorf("open of no file: %v", err)
	}
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	mustClose(t, l)
	for path, want := range map[string]fs.FileMode{filepath.Dir(dir): 0o700, dir: 0o700, path: 0o600} {
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, want %v", path, info.Mode().Perm(), want)
		}
	}
	if _, err := store.Create(path); !errors.Is(err, fs.ErrExist) || err.Error() != path+": file already exists" {
		t.Errorf("create again: %v", err)
	}
	if files, err := os.ReadDir(dir); len(files) != 1 || err != nil {
		t.Errorf("left over: %v, %v", files, err)
	}
	mustCheck(t, path)
}

// TestModel compares random commits and reopens with plain slices and maps.
func TestModel(t *testing.T) {
	dir := t.TempDir()
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		n++
		path := filepath.Join(dir, fmt.Sprint(n))
		l, err := store.Create(path)
		if err != nil {
			rt.Fatal(err)
		}
		defer func() { l.Close() }()
		var records []store.Record
		receipts := map[string]store.Receipt{}
		shelves := [3]map[string]json.RawMessage{{}, {}, {}}

		raw := rapid.Custom(func(rt *rapid.T) json.RawMessage {
			text, _ := json.Marshal(map[string]any{"text": rapid.StringN(0, 40, 200).Draw(rt, "text"), "n": rapid.Int32().Draw(rt, "n")})
			// as Commit writes it, with <, > and & as they are
			return json.RawMessage(strings.NewReplacer(`\u003c`, "<", `\u003e`, ">", `\u0026`, "&").Replace(string(text)))
		})
		rows := rapid.MapOfN(rapid.SampledFrom([]string{"lead", "hanger", "sparks", "taper", "ü"}),
			rapid.OneOf(raw, rapid.Just(json.RawMessage(nil))), 0, 4)

		rt.Repeat(map[string]func(*rapid.T){
			"commit": func(rt *rapid.T) {
				var b store.Batch
				for range rapid.IntRange(0, 5).Draw(rt, "records") {
					r := store.Record{
						Seq: uint64(len(records) + len(b.Records) + 1), Kind: rapid.StringN(1, 8, -1).Draw(rt, "kind"),
						V: rapid.Int().Draw(rt, "v"), Who: rapid.String().Draw(rt, "who"),
						Sent: rapid.Int64().Draw(rt, "sent"), Got: rapid.Int64().Draw(rt, "got"),
						Text: strings.Repeat(rapid.StringN(0, 20, -1).Draw(rt, "text"), rapid.SampledFrom([]int{1, 100}).Draw(rt, "times")), Body: raw.Draw(rt, "body"),
					}
					b.Records = append(b.Records, r)
				}
				id := fmt.Sprint(rapid.IntRange(0, 30).Draw(rt, "id"))
				r := store.Receipt{ID: id, Hash: rapid.Uint64().Draw(rt, "hash"), Reply: raw.Draw(rt, "reply")}
				for _, rec := range b.Records {
					r.Seqs = append(r.Seqs, rec.Seq)
				}
				b.Receipts = []store.Receipt{r}
				b.Pending, b.Outbox, b.Marks = rows.Draw(rt, "pending"), rows.Draw(rt, "outbox"), rows.Draw(rt, "marks")

				err := l.Commit(b)
				if _, answered := receipts[id]; answered {
					if !errors.Is(err, store.ErrDuplicate) {
						rt.Fatalf("id %s again: %v", id, err)
					}
					return
				}
				if err != nil {
					rt.Fatal(err)
				}
				records = append(records, b.Records...)
				receipts[id] = r
				for i, rows := range []map[string]json.RawMessage{b.Pending, b.Outbox, b.Marks} {
					maps.Copy(shelves[i], rows)
					maps.DeleteFunc(shelves[i], func(_ string, v json.RawMessage) bool { return v == nil })
				}
			},
			"reopen": func(rt *rapid.T) {
				if err := l.Close(); err != nil {
					rt.Fatal(err)
				}
				report, err := store.Check(path, nil)
				if err != nil || len(report.Faults) > 0 {
					rt.Fatal(report, err)
				}
				if l, err = store.Open(path); err != nil {
					rt.Fatal(err)
				}
			},
			"": func(rt *rapid.T) {
				if l.LastSeq() != uint64(len(records)) {
					rt.Fatalf("last seq %d, want %d", l.LastSeq(), len(records))
				}
				from := rapid.IntRange(0, len(records)).Draw(rt, "from")
				var got []store.Record
				for r, err := range l.Records(uint64(from + 1)) {
					if err != nil {
						rt.Fatal(err)
					}
					got = append(got, r)
				}
				same := func(what string, got, want any) {
					if !reflect.DeepEqual(got, want) {
						rt.Fatalf("%s (-got +want):\n%s", what, cmp.Diff(got, want))
					}
				}
				same("records", got, append([]store.Record(nil), records[from:]...))
				for id, want := range receipts {
					got, ok, err := l.Receipt(id)
					if !ok || err != nil {
						rt.Fatalf("receipt %s: %v %v", id, ok, err)
					}
					same("receipt "+id, got, want)
				}
				for i, read := range []func() (map[string]json.RawMessage, error){l.Pending, l.Outbox, l.Marks} {
					got, err := read()
					if err != nil {
						rt.Fatal(err)
					}
					same(fmt.Sprint("shelf ", i), got, shelves[i])
				}
			},
		})
	})
}
