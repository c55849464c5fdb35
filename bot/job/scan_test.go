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
	for _, texts := range [][2]string{
		{`light 6" l1 30 off west 20 3/8 off north`, `light 6" l11 31 off west 21 3/8 off north`},
		{"light l2 7 south of strap 3 30 off west", "light l12 8 south of strap 3 31 off west"},
		{"duct 4\" v1 44 3/8 along strap 3 from east, 7 south of strap 4", "duct 4\" v2 45 3/8 along strap 3 from east, 8 south of strap 4"},
		{"light l3 9 south of l1 30 off west", "light l13 10 south of l1 31 off west"},
		{"gap 60 3/8 60 5/8", "gap 61 3/8 61 5/8"}, {"note the long level is in the hall", "note the short level is in the hall"},
		{"snag tape lifts", "snag bead lifts"}, {"board 5/8", "board 1/2"},
	} {
		if least, most := allocated(few, texts), allocated(many, texts); pooled && most > least*5/4+slack {
			t.Errorf("%s: %d bytes among 100 things, %d among 5,000", texts[0], least, most)
		}
	}
	// A question about a thing compares it with what is around, but builds nothing of that.
	_, many = crowded(t, 5000)
	for _, texts := range [][2]string{{"find d1", "find d1"}, {"vent 31 off west 22 off north", "vent 91 off west 82 off north"}} {
		if least, most := allocated(few, texts), allocated(many, texts); pooled && most > least*5/4+slack {
			t.Errorf("%s: %d bytes among 100 things, %d among 5,000", texts[0], least, most)
		}
	}
}

// slack is less than a list of 5,000 takes, and more than what else goes on in the process while a message is
// answered.
const slack = 32 << 10

// allocated is the memory, in bytes, taken to say one of the texts, the less of two that are alike: what grows by
// doubling, like the log, grows in one of them at most.
func allocated(say func(string), texts [2]string) (least uint64) {
	for i, text := range texts {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		say(text)
		runtime.ReadMemStats(&after)
		if n := after.TotalAlloc - before.TotalAlloc; i == 0 || n < least {
			least = n
		}
	}
	return least
}
