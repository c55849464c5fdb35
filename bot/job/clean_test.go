package job_test

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"strapline/bot"
	"strapline/bot/message"
	"strapline/store"
)

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
	if got := say(t, j, "lead", "log").Text(); strings.ContainsFunc(got, message.Hostile) || !strings.Contains(got, "mind the  step") {
		t.Errorf("got %q", got)
	}
}
