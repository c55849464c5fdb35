package job_test

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/store"
)

func TestClean(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"gap 98 3/8\nnote a\tb", "gap 98 3/8\nnote a\tb"},
		{"116⅝ über 👷🏽\u200d♀️", "116⅝ über 👷🏽\u200d♀️"},
		{"a\r\nb\rc", "a\nb c"},
		{"esc\x1b[2J bel\a nul\x00 c1\u0085", "esc [2J bel  nul  c1 "},
		{"\u202e26\u202c off\u2066 west\ufeff", "26 off west"},
		{"26\u200boff\u2028west", "26 off west"},
		{"half \xc3", "half \uFFFD"},
	} {
		if got := job.Clean(tt.in); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.in, got, tt.want)
		}
	}
}

// What an older log holds is shown as it would be taken now.
func TestOldLogIsCleaned(t *testing.T) {
	dir := t.TempDir()
	log, err := store.Create(filepath.Join(dir, "flat.job"))
	if err != nil {
		t.Fatal(err)
	}
	rec := store.Record{Seq: 1, Kind: "note", V: 1, Who: "le\x1bad", Text: "note mind\u202e the\x1b step", Body: json.RawMessage(`{"text":"mind\u202e the\u001b step"}`)}
	if err := log.Commit(store.Batch{Records: []store.Record{rec}}); err != nil {
		t.Fatal(err)
	}
	if err := log.Close(); err != nil {
		t.Fatal(err)
	}
	jobs, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	defer jobs.Close()
	j, err := jobs.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	if got := say(t, j, "lead", "log").Text(); strings.ContainsFunc(got, job.Hostile) || !strings.Contains(got, "mind the  step") {
		t.Errorf("got %q", got)
	}
}
