package store

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// layout1 is a copy of a job of a program that wrote whole records as JSON: a day's
// conversation of the folder testdata above.
func layout1(t *testing.T) string {
	t.Helper()
	f, err := os.Open("testdata/layout1.job.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "upper-flat.job")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func exported(t *testing.T, path string) string {
	t.Helper()
	var out bytes.Buffer
	if err := Export(path, &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// TestLayout1 checks that an old job opens, goes on, and exports exactly as the program of its time
// exported it, and so do the same records in the new layout.
func TestLayout1(t *testing.T) {
	want, err := os.ReadFile("testdata/layout1.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	path := layout1(t)
	if got := exported(t, path); got != string(want) {
		t.Errorf("an old job's export is not what it was:\n%s", got)
	}
	if r, err := Check(path, nil); err != nil || len(r.Faults) > 0 {
		t.Errorf("check: %v, %v", r.Faults, err)
	}
	anew := filepath.Join(t.TempDir(), "anew.job")
	if err := Import(bytes.NewReader(want), anew, nil); err != nil {
		t.Fatal(err)
	}
	if got := exported(t, anew); got != string(want) {
		t.Errorf("the export of its records laid out anew differs:\n%s", got)
	}

	old, fresh := opened(t, path), opened(t, anew)
	for seq := uint64(1); seq <= old.LastSeq(); seq++ {
		a, err := old.read(seq, seq, make([]Record, 0, 1))
		b, err2 := fresh.read(seq, seq, make([]Record, 0, 1))
		if err != nil || err2 != nil || len(a) != 1 || !reflect.DeepEqual(a, b) {
			t.Fatalf("entry %d: %+v %v\n%+v %v", seq, a, err, b, err2)
		}
	}
	more := Record{Seq: old.LastSeq() + 1, Kind: "note", V: 1, Who: "lead", Text: "note both", Body: json.RawMessage(`{"text":"both"}`)}
	if err := old.Commit(Batch{Records: []Record{more}}); err != nil {
		t.Fatal(err)
	}
	old.Close()
	if r, err := Check(path, nil); err != nil || len(r.Faults) > 0 || r.LastSeq != more.Seq {
		t.Errorf("both layouts in one file: %+v, %v", r, err)
	}
	if got := exported(t, path); !strings.Contains(got, `"text":"note both","body":{"text":"both"}}`) {
		t.Errorf("no new entry in\n%s", got)
	}
}

func opened(t *testing.T, path string) *Log {
	t.Helper()
	l, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

// TestRecordCut checks that a record comes back unchanged, and that no part of its head is accepted as a
// whole one.
func TestRecordCut(t *testing.T) {
	r := Record{Seq: 1 << 40, Kind: "note", V: -1, Who: "lead", Sent: math.MinInt64, Got: math.MaxInt64, ID: "m1", Text: "ünten"}
	var buf bytes.Buffer
	if err := r.layOut(&buf); err != nil {
		t.Fatal(err)
	}
	head := buf.Bytes()
	var got Record
	if err := got.read(head); err != nil || !reflect.DeepEqual(got, r) {
		t.Errorf("got %+v, %v", got, err)
	}
	for n := range head {
		if err := got.read(head[:n]); err == nil {
			t.Errorf("%d bytes of %d were read as %+v", n, len(head), got)
		}
	}
	long := append(bytes.Clone(head[:6]), bytes.Repeat([]byte{0xff}, 9)...) // a text of 2^63 bytes
	if err := got.read(append(long, 1)); err == nil {
		t.Errorf("read as %+v", got)
	}
	bad := Record{Seq: 1, Kind: "note", Body: json.RawMessage(`{"a":`)}
	if err := bad.layOut(new(bytes.Buffer)); err == nil {
		t.Error("a body that is no JSON was laid out")
	}
}

// TestCheckBody holds that Check finds a body that is no JSON though its sum is right.
func TestCheckBody(t *testing.T) {
	value, err := encode(logBucket, seqKey(3), &Record{Seq: 3, Kind: "note", Body: json.RawMessage(`{}`)})
	if err != nil {
		t.Fatal(err)
	}
	value = value[:len(value)-1]
	resum(logBucket, seqKey(3), value)
	if _, err := asJSON(logBucket, seqKey(3), value); err == nil {
		t.Error("a body that is no JSON passed")
	}
	value[4] = 0
	resum(logBucket, seqKey(3), value)
	if _, err := payload(logBucket, seqKey(3), value); err == nil {
		t.Error("layout 0 passed")
	}
	value[4] = recordLayout
	resum(receiptsBucket, []byte("m1"), value)
	if _, err := payload(receiptsBucket, []byte("m1"), value); err == nil {
		t.Error("a receipt laid out as a record passed")
	}
}
