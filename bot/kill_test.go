package bot_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/message"
	"strapline/store"
)

// senders text at once in the kill test.
const senders = 4

// child is a strapline that answers messages until it is killed. It prints an
// id once the message was answered "noted". Each sender goes on from the last
// id that stands in the file of ids before it.
func child(dir string) {
	b, err := bot.New(bot.Options{Dir: dir})
	if err != nil {
		fmt.Println("failed:", err)
		os.Exit(1)
	}
	j, err := b.Job("flat")
	if err != nil {
		fmt.Println("failed:", err)
		os.Exit(1)
	}
	round := os.Getenv("STRAPLINE_TEST_ROUND")
	var mu sync.Mutex
	var wg sync.WaitGroup
	for s := range senders {
		wg.Go(func() {
			for n := 0; ; n++ {
				id := fmt.Sprintf("%s-%d-%d", round, s, n)
				in := message.In{ID: id, Who: fmt.Sprintf("hanger%d", s), Text: "note " + id}
				if n%5 == 4 {
					in.Text = "gap 84 2" // leaves a question open, which the next note drops
				}
				out, err := j.Handle(context.Background(), in)
				if err != nil || len(out.Answers) != 1 || out.Answers[0].Kind == "failure" {
					fmt.Println("failed:", err, out)
					os.Exit(1)
				}
				if strings.Contains(out.Text(), "noted ") {
					mu.Lock()
					fmt.Println(id, out.Answers[0].Seq)
					mu.Unlock()
				}
			}
		})
	}
	wg.Wait()
}

// A strapline killed at random moments loses nothing it answered "noted", and
// stores nothing twice. A process's death says nothing of a power cut.
func TestKilled(t *testing.T) {
	kills := 20
	if *long {
		kills = 200
	}
	dir := t.TempDir()
	answered := map[string]uint64{}
	for round := range kills {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "STRAPLINE_TEST_CHILD="+dir, fmt.Sprintf("STRAPLINE_TEST_ROUND=%d", round))
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(out)
		// Kill only after the first answer, so that every round has some.
		var timer *time.Timer
		for lines.Scan() {
			var id string
			var seq uint64
			if n, _ := fmt.Sscan(lines.Text(), &id, &seq); n != 2 {
				t.Fatalf("round %d: %s", round, lines.Text())
			}
			answered[id] = seq
			if timer == nil {
				timer = time.AfterFunc(time.Duration(rand.IntN(60))*time.Millisecond, func() { _ = cmd.Process.Kill() })
			}
		}
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != -1 {
			t.Fatalf("round %d: the child ended by itself: %v", round, err)
		}
	}
	path := filepath.Join(dir, "flat.job")
	rep, err := store.Check(path, nil)
	if err != nil || len(rep.Faults) > 0 {
		t.Fatalf("check: %v %v", rep.Faults, err)
	}
	log, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	times := map[string]int{}
	for r, err := range log.Records(1) {
		if err != nil {
			t.Fatal(err)
		}
		times[r.ID]++
		if seq, ok := answered[r.ID]; ok && seq != r.Seq {
			t.Errorf("%s was answered as %d and stands at %d", r.ID, seq, r.Seq)
		}
	}
	for id := range answered {
		if times[id] != 1 {
			t.Errorf("%s was answered and stands %d times in the log", id, times[id])
		}
	}
	t.Logf("%d kills, %d answered, %d in the log", kills, len(answered), len(times))
}
