package store_test

import (
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/store"
)

func TestExportFormat(t *testing.T) {
	l := newJob(t)
	r := note(1)
	r.Text = "light <6> & \"sink\"\u2028\x00"
	mustCommit(t, l, store.Batch{
		Records:  []store.Record{r},
		Receipts: []store.Receipt{{ID: "post-1", Hash: 1<<64 - 1, Seqs: []uint64{1}, Reply: json.RawMessage(`"noted"`)}, {ID: "post-2"}},
		Pending:  map[string]json.RawMessage{"lead": json.RawMessage(`{ "ask": "which wall?" }`), "taper": json.RawMessage(`null`)},
		Outbox:   map[string]json.RawMessage{"0001": json.RawMessage(`[1]`)},
		Marks:    map[string]json.RawMessage{"chat": json.RawMessage(`1777888000000`)},
	})
	mustClose(t, l)
	want := `{"strapline":{"export":1}}
{"record":{"seq":1,"kind":"thing","v":1,"who":"lead","sent":1777888060000,"got":1777888060400,"id":"post-1","text":"light <6> & \"sink\"\u2028\u0000","body":{"name":"light 1","x":396875,"y":1057275000}}}
{"mark":{"key":"chat","value":1777888000000}}
{"outbox":{"key":"0001","value":[1]}}
{"pending":{"key":"lead","value":{"ask":"which wall?"}}}
{"pending":{"key":"taper","value":null}}
{"receipt":{"id":"post-1","hash":"18446744073709551615","seqs":[1],"reply":"noted"}}
{"receipt":{"id":"post-2","hash":"0"}}
{"end":{"last":1,"receipts":2,"pending":2,"outbox":1,"marks":1}}
`
	if diff := cmp.Diff(contents(t, l.Path()), want); diff != "" {
		t.Errorf("export (-got +want):\n%s", diff)
	}
	path := l.Path() + ".new"
	if err := store.Import(strings.NewReader(want), path, nil); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(contents(t, path), want); diff != "" {
		t.Errorf("export of the import (-got +want):\n%s", diff)
	}
	l = mustOpen(t, path)
	for got, err := range l.Records(1) {
		if diff := cmp.Diff(got, r); err != nil || diff != "" {
			t.Errorf("record: %v (-got +want):\n%s", err, diff)
		}
	}
}

func TestExportImportLarge(t *testing.T) {
	l := newJob(t)
	for seq := uint64(1); seq <= 2500; seq += 500 { // more than Import commits at once
		mustCommit(t, l, notes(seq, seq+499))
	}
	mustClose(t, l)
	want := contents(t, l.Path())
	path := filepath.Join(t.TempDir(), "data", "new.job")
	if err := store.Import(strings.NewReader(want), path, nil); err != nil {
		t.Fatal(err)
	}
	mustCheck(t, path)
	if contents(t, path) != want {
		t.Error("the imported job differs")
	}
	n := mustOpen(t, path)
	mustHold(t, n, 2500)
	mustCommit(t, n, notes(2501, 2501))
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode: %v, %v", info.Mode(), err)
	}
	if err := store.Import(strings.NewReader(want), path, nil); !errors.Is(err, fs.ErrExist) {
		t.Errorf("import over a job: %v", err)
	}
	// A writer that fails.
	if err := store.Export(l.Path(), failingWriter{}); !errors.Is(err, io.ErrShortBuffer) {
		t.Errorf("export to a failing writer: %v", err)
	}
}

type failingWriter struct{}

func (failingWriter) Write([]byte) (int, error) { return 0, io.ErrShortBuffer }

// TestImportRefused changes one thing in a good export at a time.
func TestImportRefused(t *testing.T) {
	l := newJob(t)
	b := notes(1, 3)
	b.Pending = map[string]json.RawMessage{"lead": json.RawMessage(`1`)}
	mustCommit(t, l, b)
	mustClose(t, l)
	good := contents(t, l.Path())
	lines := strings.SplitAfter(good, "\n")
	without := func(i int) string { return strings.Join(append(append([]string{}, lines[:i]...), lines[i+1:]...), "") }
	twice := func(i int) string { return strings.Join(lines[:i+1], "") + strings.Join(lines[i:], "") }
	end := len(lines) - 2

	for _, tt := range []struct{ name, text, want string }{
		{"empty", "", "the export is cut off: it has no end line"},
		{"no header", without(0), "line 1: an export has one header, in its first line"},
		{"two headers", twice(0), "line 2: an export has one header, in its first line"},
		{"no first entry", without(1), "entry 2 cannot follow entry 0"},
		{"no second entry", without(2), "entry 3 cannot follow entry 1"},
		{"no last entry", without(3), `the receipt of message "post-3" names entry 3, the last one is 2`},
		{"entry twice", twice(2), "entry 2 cannot follow entry 2"},
		{"no outbox row", without(4), "the export is not whole: 3 entries, 3 receipts, 1 open questions, 2 outbox rows, 0 marks of 3 entries, 3 receipts, 1 open questions, 3 outbox rows, 0 marks"},
		{"question twice", twice(7), "a key stands in two lines"},
		{"receipt twice", twice(8), `this message id was answered before: "post-1"`},
		{"no end", without(end), "the export is cut off"},
		{"two ends", twice(end), "an export ends with its end line"},
		{"cut off", good[:len(good)-20], "not a line of an export"},
		{"newer", strings.Replace(good, `{"export":1}`, `{"export":2}`, 1), "line 1: a newer strapline wrote this file: it is an export of version 2, this program knows 1"},
		{"unknown field", strings.Replace(good, `"kind":`, `"color":1,"kind":`, 1), `unknown field "color"`},
		{"unknown line", strings.Replace(good, `{"pending":`, `{"paint":`, 1), `unknown field "paint"`},
		{"not UTF-8", strings.Replace(good, "sink", "s\xffnk", 1), "line 2: not a line of an export: text is not valid UTF-8"},
		{"wrong type", strings.Replace(good, `"who":"lead"`, `"who":7`, 1), "cannot unmarshal number"},
		{"id in two entries", strings.Replace(good, `"id":"post-2","text"`, `"id":"post-1","text"`, 1), `message id "post-1" is used again by entry 2`},
		{"binary", "\x00\x01\x02", "line 1: not a line of an export"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "new.job")
			err := store.Import(strings.NewReader(tt.text), path, nil)
			if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.HasPrefix(err.Error(), path+": ") || strings.Contains(err.Error(), ".part") {
				t.Errorf("got  %v\nwant %s: %s", err, path, tt.want)
			}
			if files, _ := os.ReadDir(dir); len(files) > 0 {
				t.Errorf("left over: %v", files)
			}
		})
	}
	long := io.MultiReader(strings.NewReader(lines[0]), &endless{})
	if err := store.Import(long, filepath.Join(t.TempDir(), "new.job"), nil); err == nil || !strings.Contains(err.Error(), "line 2: ") {
		t.Errorf("endless line: %v", err)
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

func TestBackup(t *testing.T) {
	l := newJob(t)
	mustCommit(t, l, notes(1, 300))
	hot := filepath.Join(t.TempDir(), "hot.job")
	if err := l.Backup(hot); err != nil {
		t.Fatal(err)
	}
	mustCommit(t, l, notes(301, 310))
	mustClose(t, l)
	if err := l.Backup(hot + ".closed"); !errors.Is(err, os.ErrClosed) {
		t.Errorf("backup of a closed log: %v", err)
	}
	cold := filepath.Join(t.TempDir(), "cold.job")
	if err := store.Backup(l.Path(), cold); err != nil {
		t.Fatal(err)
	}
	for path, last := range map[string]uint64{hot: 300, cold: 310} {
		mustCheck(t, path)
		c := mustOpen(t, path)
		mustHold(t, c, last)
		mustCommit(t, c, notes(last+1, last+5))
		mustClose(t, c)
		mustCheck(t, path)
	}
	if err := store.Backup(l.Path(), cold); !errors.Is(err, fs.ErrExist) || err.Error() != cold+": file already exists" {
		t.Errorf("backup over a file: %v", err)
	}
	if err := store.Backup(l.Path()+".no", hot+".2"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("backup of no file: %v", err)
	}
	if info, err := os.Stat(hot); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode: %v, %v", info.Mode(), err)
	}
}
