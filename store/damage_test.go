package store_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strapline/store"
)

// sample makes a small job with something in every bucket, a tree of several
// pages, and free pages, and returns its path and bytes.
func sample(t *testing.T) (string, []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "larkspur.job")
	l, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for seq := uint64(1); seq <= sampleNotes; seq += 20 {
		b := notes(seq, seq+19)
		if seq == 21 {
			b.Records[3].Text = strings.Repeat("long ", 1000) // over several pages
		}
		b.Pending = map[string]json.RawMessage{"lead": json.RawMessage(`{"ask":"61 off which wall?"}`)}
		b.Marks = map[string]json.RawMessage{"chat": json.RawMessage(fmt.Sprint(seq))}
		mustCommit(t, l, b)
	}
	mustClose(t, l)
	mustCheck(t, path)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, data
}

const sampleNotes = 40

// contents is all that an export of the job says.
func contents(t *testing.T, path string) string {
	t.Helper()
	var b bytes.Buffer
	if err := store.Export(path, &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// tryDamaged opens a file that may be damaged. It must be refused with one of
// the errors for that and left as it is, or be whole: all there, and able to take more.
// It reports whether it was refused.
func tryDamaged(t *testing.T, name, path string, data []byte, want string) (refused bool) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	report, err := store.Check(path, nil)
	if err != nil {
		t.Fatalf("%s: check: %v", name, err)
	}
	exportErr := store.Export(path, io.Discard)
	l, err := store.Open(path)
	if refused = err != nil; refused {
		if !errors.Is(err, store.ErrDamaged) && !errors.Is(err, store.ErrCutOff) && !errors.Is(err, store.ErrNewer) {
			t.Errorf("%s: open: %v", name, err)
		}
		if len(report.Faults) == 0 || exportErr == nil {
			t.Errorf("%s: open refused it (%v), check found %q, export %v", name, err, report.Faults, exportErr)
		}
		if after, _ := os.ReadFile(path); !bytes.Equal(after, data) {
			t.Errorf("%s: a refused file was changed", name)
		}
		return
	}
	if len(report.Faults) > 0 || exportErr != nil {
		t.Errorf("%s: open took it, check found %q, export %v", name, report.Faults, exportErr)
	}
	if err := l.Commit(notes(sampleNotes+1, sampleNotes+1)); err != nil {
		t.Errorf("%s: commit: %v", name, err)
	}
	if err := l.Close(); err != nil {
		t.Errorf("%s: close: %v", name, err)
	}
	mustCheck(t, path)
	if got := contents(t, path); got != want {
		t.Errorf("%s: the job holds\n%s\nwant\n%s", name, got, want)
	}
	return
}

// withOneMore is what the sample holds after one more note.
func withOneMore(t *testing.T, path string) string {
	l := mustOpen(t, path)
	mustCommit(t, l, notes(sampleNotes+1, sampleNotes+1))
	mustClose(t, l)
	return contents(t, path)
}

// TestFlippedBits flips one bit at a time, over the whole file.
func TestFlippedBits(t *testing.T) {
	path, data := sample(t)
	want := withOneMore(t, path)
	step := 149
	if *long {
		step = 1
	}
	refused, tried := 0, 0
	used := len(bytes.TrimRight(data, "\x00")) // the file grows ahead of its pages
	for at := 0; at < used; at += step {
		tried++
		data[at] ^= 1 << (at % 8)
		if tryDamaged(t, fmt.Sprintf("bit %d of byte %d", at%8, at), path, data, want) {
			refused++
		}
		data[at] ^= 1 << (at % 8)
		if t.Failed() {
			return
		}
	}
	if refused < tried/10 {
		t.Errorf("%d flips of %d were noticed: the test does not hit the data", refused, tried)
	}
	t.Logf("%d bytes, %d flips, %d noticed, the rest in unused space", used, tried, refused)
}

// TestLostPages fills one page at a time with zeros, with noise, and with the
// page before it, as a disk may do that fails.
func TestLostPages(t *testing.T) {
	path, data := sample(t)
	want := withOneMore(t, path)
	size := os.Getpagesize()
	for at := 0; at < len(data); at += size {
		for name, page := range map[string][]byte{
			"zeros":    make([]byte, size),
			"noise":    bytes.Repeat([]byte{0xA5, 0x01, 0xFF}, size)[:size],
			"neighbor": bytes.Clone(data[max(at-size, 0):][:size]),
		} {
			broken := bytes.Clone(data)
			copy(broken[at:], page)
			tryDamaged(t, fmt.Sprintf("page %d with %s", at/size, name), path, broken, want)
		}
	}
}

// TestCutOff cuts the file off at many lengths.
func TestCutOff(t *testing.T) {
	path, data := sample(t)
	want := withOneMore(t, path)
	step := 1021
	if *long {
		step = 31
	}
	for size := 0; size < len(data); size += step {
		tryDamaged(t, fmt.Sprintf("%d bytes", size), path, data[:size], want)
	}
	cut := data[:len(data)/2]
	if err := os.WriteFile(path, cut, 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := store.Open(path)
	if !errors.Is(err, store.ErrCutOff) || !strings.HasPrefix(err.Error(), fmt.Sprintf("%s: the file is cut off: it has %d bytes of ", path, len(cut))) {
		t.Errorf("got %v", err)
	}
}

func TestNotAJob(t *testing.T) {
	for name, text := range map[string]string{
		"it is empty":               "",
		"it is not a strapline job": "lead> light over sink 26 off west",
	} {
		path := filepath.Join(t.TempDir(), "larkspur.job")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := store.Open(path)
		if !errors.Is(err, store.ErrDamaged) || err.Error() != path+": the file is damaged: "+name {
			t.Errorf("open: %v, want %s", err, name)
		}
		report, err := store.Check(path, nil)
		if err != nil || len(report.Faults) != 1 || report.Faults[0] != name {
			t.Errorf("check: %q, %v, want %s", report.Faults, err, name)
		}
	}
	dir := t.TempDir()
	if _, err := store.Open(dir); err == nil || err.Error() != dir+": the file is damaged: it is not a plain file" {
		t.Errorf("open of a folder: %v", err)
	}
}

// TestFaultNamesTheEntry flips a bit in the text of a note.
func TestFaultNamesTheEntry(t *testing.T) {
	path, data := sample(t)
	at := bytes.LastIndex(data, []byte("& 27 off west"))
	data[at] ^= 1
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	want := "entry 27 does not match its checksum"
	if _, err := store.Open(path); !errors.Is(err, store.ErrDamaged) || err.Error() != path+": the file is damaged: "+want {
		t.Errorf("open: %v", err)
	}
	if report, err := store.Check(path, nil); err != nil || len(report.Faults) != 1 || report.Faults[0] != want {
		t.Errorf("check: %q, %v", report.Faults, err)
	}
	// What can still be read is exported.
	var b bytes.Buffer
	if err := store.Export(path, &b); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("export: %v", err)
	}
	for seq := 1; seq <= sampleNotes; seq++ {
		if has := strings.Contains(b.String(), fmt.Sprintf(`{"record":{"seq":%d,`, seq)); has != (seq != 27) {
			t.Errorf("export has entry %d: %v", seq, has)
		}
	}
	if err := store.Import(&b, path+".new", nil); err == nil || !strings.Contains(err.Error(), "entry 28 cannot follow entry 26") {
		t.Errorf("import: %v", err)
	}
}

// TestChangedWhileOpen cuts the file off under an open log: an error, not the
// end of the process.
func TestChangedWhileOpen(t *testing.T) {
	path, data := sample(t)
	l, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, int64(2*os.Getpagesize())); err != nil {
		t.Fatal(err)
	}
	var last error
	for _, err := range l.Records(1) {
		last = err
	}
	if !errors.Is(last, store.ErrDamaged) {
		t.Errorf("records: %v", last)
	}
	if _, _, err := l.Receipt("post-1"); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("receipt: %v", err)
	}
	if err := l.Commit(notes(sampleNotes+1, sampleNotes+1)); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("commit: %v", err)
	}
	if err := l.Commit(notes(sampleNotes+1, sampleNotes+1)); err == nil || !strings.Contains(err.Error(), "must be opened again after a failed commit") {
		t.Errorf("second commit: %v", err)
	}
	mustClose(t, l)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	mustOpen(t, path) // the lock is free again
}
