package job_test

import (
	"os"
	"strings"
	"testing"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
)

// Names that people tell apart share no file: what would make one of them is refused.
func TestNamed(t *testing.T) {
	long := strings.Repeat("upper-flat-", 7) // 77 bytes
	for name, want := range map[string]string{
		"larkspur-upper-flat": "larkspur-upper-flat", "Larkspur upper flat": "larkspur-upper-flat", "den #2": "den-2", long + "abc": long + "abc",
		"K\u00fcche": "", "K\u00f6che": "", "Kuche": "kuche", "\u212aitchen": "", "kitchen": "kitchen", "\u5eca\u4e0b": "", "den \u0661": "",
		long + "abcd": "", long + "abce": "", "!!": "", "": "",
	} {
		got, err := job.Named(name)
		if got != want || (err == nil) != (want != "") {
			t.Errorf("%q: got %q, %v, want %q", name, got, err, want)
		}
	}
	if _, err := job.Named("K\u00fcche"); err == nil || !strings.Contains(err.Error(), `try "k-che"`) {
		t.Errorf("got %v", err)
	}
}

// A job that is leased is closed when nobody has it, and has a file from its first entry
// or open question on.
func TestLease(t *testing.T) {
	jobs, err := bot.New(bot.Options{Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	defer jobs.Close()
	there := func(name string) bool { _, err := os.Stat(jobs.Path(name)); return err == nil }
	for _, tt := range []struct {
		text string
		made bool
	}{{"covered", false}, {"gap 9 x", false}, {"lol", false}, {"note one", true}, {"gap 84 2", true}} {
		name := job.Slug(tt.text)
		j, done, err := jobs.Lease(name)
		if err != nil {
			t.Fatal(err)
		}
		if out, err := j.Handle(t.Context(), message.In{ID: "1", Who: "lead", Text: tt.text}); err != nil || out.Failed() {
			t.Errorf("%q: %v %v", tt.text, out, err)
		}
		again, twice, err := jobs.Lease(name)
		if err != nil || again != j {
			t.Fatal("it is not the same", err)
		}
		if err := done(); err != nil {
			t.Fatal(err)
		}
		if jobs.Open() != 1 || len(jobs.All()) == 1 != tt.made {
			t.Errorf("%q: %d open, of them with a file %d", tt.text, jobs.Open(), len(jobs.All()))
		}
		if err := twice(); err != nil || jobs.Open() != 0 || there(name) != tt.made {
			t.Errorf("%q: %v, %d open, file %v", tt.text, err, jobs.Open(), there(name))
		}
	}
	_, done, err := jobs.Lease("flat")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := jobs.Job("flat"); err != nil {
		t.Fatal(err)
	}
	if err := done(); err != nil || jobs.Open() != 1 {
		t.Errorf("what another door has is closed: %v", err)
	}
}
