package job_test

import (
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/calc/event"
	"strapline/store"
)

// manyNotes writes a job of n notes, so many that they are read in parts; change
// may change one as it is written.
func manyNotes(t *testing.T, path string, n int, change func(*store.Record)) {
	t.Helper()
	log, err := store.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	var b store.Batch
	for seq := 1; seq <= n; seq++ {
		text := fmt.Sprintf("note %d", seq)
		body, err := json.Marshal(event.Note{Text: text})
		if err != nil {
			t.Fatal(err)
		}
		r := store.Record{Seq: uint64(seq), Kind: "note", V: event.Version, Who: "lead", Sent: int64(seq), Got: int64(seq), Text: text, Body: body}
		change(&r)
		b.Records = append(b.Records, r)
	}
	if err := log.Commit(b); err != nil {
		t.Fatal(err)
	}
}

// Entries are read beside the fold and folded in their order.
func TestReplayInOrder(t *testing.T) {
	dir := t.TempDir()
	const n = 4321
	manyNotes(t, filepath.Join(dir, "flat.job"), n, func(*store.Record) {})
	j := openJob(t, dir)
	for _, upTo := range []uint64{0, 1, 999, 1000, 1001, n} {
		st, _, err := j.At(upTo)
		want := int(upTo)
		if upTo == 0 {
			want = n
		}
		if err != nil || len(st.Entries) != want {
			t.Fatalf("as of %d: %d entries, %v", upTo, len(st.Entries), err)
		}
		for i, e := range st.Entries {
			if e.Text != fmt.Sprintf("note %d", i+1) || e.Who != "lead" || e.Sent != int64(i+1) {
				t.Fatalf("entry %d is %+v", i+1, e.Event)
			}
		}
	}
}

func openJob(t *testing.T, dir string) *job.Job {
	t.Helper()
	b, err := bot.New(bot.Options{Dir: dir, Loc: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	j, err := b.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// The first entry that cannot be folded is the one that is named.
func TestReplayStops(t *testing.T) {
	for _, tt := range []struct {
		change func(*store.Record)
		want   string
		is     error
	}{
		{func(r *store.Record) { r.Kind = "paper" }, "entry 2500", store.ErrNewer},
		{func(r *store.Record) { r.V++ }, "entry 2500", store.ErrNewer},
		{func(r *store.Record) { r.Body = json.RawMessage(`[]`) }, "entry 2500", store.ErrDamaged},
		{func(r *store.Record) { r.Body = json.RawMessage(`{"text":1}`) }, "entry 2500", store.ErrDamaged},
		{func(r *store.Record) { r.Kind, r.Body = "open", json.RawMessage(`{"room":"attic","names":["d1"]}`) }, "entry 2500", store.ErrDamaged},
	} {
		dir := t.TempDir()
		manyNotes(t, filepath.Join(dir, "flat.job"), 4000, func(r *store.Record) {
			if r.Seq == 2500 || r.Seq == 3700 {
				tt.change(r)
			}
		})
		b, err := bot.New(bot.Options{Dir: dir})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := b.Job("flat"); !errors.Is(err, tt.is) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("got %v, want %s, %v", err, tt.want, tt.is)
		}
		b.Close()
	}
}

// A job that was written when records were JSON whole opens and goes on.
func TestOldJob(t *testing.T) {
	f, err := os.Open("../../store/testdata/layout1.job.gz")
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
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "flat.job"), data, 0o600); err != nil {
		t.Fatal(err)
	}
	j := openJob(t, dir)
	if n := j.Figures().Last; n != 56 {
		t.Errorf("%d entries", n)
	}
	out, err := j.Handle(t.Context(), message.In{Who: "lead", Text: "kitchen: note the old log goes on"})
	if err != nil || len(out.Answers) != 1 || out.Answers[0].Seq != 57 {
		t.Errorf("%+v, %v", out, err)
	}
}
