package bot_test

import (
	"flag"
	"os"
	"testing"

	"strapline/bot"
	"strapline/bot/job"
)

var (
	long   = flag.Bool("long", false, "run the long versions of tests")
	update = flag.Bool("update", false, "rewrite the replies in testdata")
)

// TestMain lets the test binary play the part of a strapline that gets killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("STRAPLINE_TEST_CHILD"); dir != "" {
		child(dir)
		return
	}
	os.Exit(m.Run())
}

func open(t testing.TB, opt bot.Options) *job.Jobs {
	t.Helper()
	if opt.Dir == "" {
		opt.Dir = t.TempDir()
	}
	b, err := bot.New(opt)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

func openJob(t testing.TB, b *job.Jobs, name string) *job.Job {
	t.Helper()
	j, err := b.Job(name)
	if err != nil {
		t.Fatal(err)
	}
	return j
}
