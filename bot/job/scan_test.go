package job_test

import (
	"fmt"
	"runtime"
	"testing"

	"strapline/bot/job"
	"strapline/bot/message"
)

// crowded is a job whose kitchen holds n lights more, and what answers a message at its desk.
func crowded(t *testing.T, n int) (*job.Job, func(text string)) {
	j := benchJob(t, t.TempDir())
	alone := j.Alone()
	say := func(text string) {
		t.Helper()
		if out, err := alone(message.In{Who: "hanger", Text: text}); err != nil || len(out.Answers) != 1 || out.Answers[0].Error != nil || out.Asks() {
			t.Fatal(text, err, out.Text())
		}
	}
	for _, text := range kitchenSetup {
		say(text)
	}
	for i := range n {
		say(fmt.Sprintf(`light 6" c%d %d off west %d 3/8 off north`, i, 10+i%130, 10+i%100))
	}
	return j, say
}

// A note takes as much memory in a room of 5,000 things as in one of 100, and looks at none of them but those
// it names: the others are taken away, so a look at one panics.
func TestNoteLooksAtFewThings(t *testing.T) {
	_, few := crowded(t, 100)
	j, many := crowded(t, 5000)
	things := j.State().Room("kitchen").Things
	clear(things[1:]) // all but d1
	for _, text := range []string{
		`light 6" l1 30 off west 20 3/8 off north`, "light l2 7 south of strap 3 30 off west", "duct 4\" v1 44 3/8 along strap 3 from east, 7 south of strap 4",
		"light l3 9 south of l1 30 off west", "gap 60 3/8 60 5/8", "note the long level is in the hall", "snag tape lifts", "board 5/8",
	} {
		if least, most := allocated(few, text), allocated(many, text); most > least*5/4+slack {
			t.Errorf("%s: %d bytes among 100 things, %d among 5,000", text, least, most)
		}
	}
	// A question about a thing compares it with what is around, but builds nothing of that.
	_, many = crowded(t, 5000)
	for _, text := range []string{"find d1", "vent 31 off west 22 off north"} {
		if least, most := allocated(few, text), allocated(many, text); most > least*5/4+slack {
			t.Errorf("%s: %d bytes among 100 things, %d among 5,000", text, least, most)
		}
	}
}

// slack is less than a list of 5,000 takes, and more than what else goes on in the process while a message is
// answered.
const slack = 32 << 10

// allocated is the memory, in bytes, taken to say text.
func allocated(say func(string), text string) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	say(text)
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}
