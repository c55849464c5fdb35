package job_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/calc/event"
	"strapline/grammar/sentences"
)

// free are sentences as a crew types them, most of which no rule reads.
var free = []string{
	"dining is open to it", "rows are 3 ft off the long walls", "first can 3 ft from the fireplace wall then every 6'3", "call it 19' 3/4\"", "no strapping up yet",
	"test passed tues", "dont close till like 2pm", "i got one more line to the tub coming across, 1/2 in, 19 off the back wall", "switch is 48 up", "one of the long ones has a corner gone",
	"its an elbow weeping", "elbow fixed, swapped the 3/4 for a new one", "fine leave it", "log it", "morning all", "lol", "coffee is on the landing", "had to reroute around the tub drain",
	"dont squash it and no long screws there pls", "2 inch gap between em max", "4 sjeets in here", "somewhere around 2 ft in from the door i think", "others are right", "whats left", "can we close it?",
	"bed strapped all but the last 2 rows", "hot so watch your router", "7 sheets hung 1 wasted", "is there a pipe above there?", "the tape is buried", "wire is 3 in to the left of the hole",
	"fan box wants a brace before we cover it", "no wait the other side", "sparky says hed rather move it", "make that 27 off the west", "i meant row 3", "scrap that", "it was 14 not 12", "thats the cold one",
	"had it backwards its 41 off the west and 26 off the north", "5 sheets short for tomorrow", "the 47 goes by the window", "first piece cracked", "how many left", "is that wall straight?", "what about the hall", "yeah", "2", "nope",
	"box is proud 1/4", "same on the other side", "off by 2", "duct has a hanger every 4 ft", "hold 6 off the chimney", "we ran out of inch and 5/8s", "left a gap for the crown", "can 2 got moved 8 in east", "ok so", "fyi",
}

// TestEveryWord: whatever a message is made of, what is stored of it, asked, answered or refused aloud, taken together, has
// every word of it, if any of it is.
func TestEveryWord(t *testing.T) {
	jobs, err := bot.New(bot.Options{Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	defer jobs.Close()
	n := 0
	ours := []string{"light 26 off west 41 off north", "room hall 12' x 8'", "row 2 is up", "straps ns 16 oc first 12 off west", "d1 is open", "note mind the step", "gap 84 2", "stock 9 x 12'", "den is 10 x 12",
		"hung 96 + 47 row 1", "where is d1",
		"light 26 off wset 20 off north", "row 4 on"}
	rapid.Check(t, func(rt *rapid.T) {
		n++
		j, err := jobs.Job(fmt.Sprint("flat-", n))
		if err != nil {
			rt.Fatal(err)
		}
		alone := j.Alone()
		handle := func(text string) message.Out {
			out, err := alone(message.In{Who: "lead", Text: text})
			if err != nil {
				rt.Fatal(err)
			}
			return out
		}
		for _, said := range []string{"room kitchen 12' x 14'", "straps ew 16 oc first 16 off north", "duct d1 60 off west 50 off north"} {
			handle(said)
		}
		text := ""
		for range rapid.IntRange(1, 5).Draw(rt, "sentences") {
			if text != "" {
				text += rapid.SampledFrom([]string{". ", ". ", ". ", ", ", " and ", "; ", "\n", "? "}).Draw(rt, "sign")
			}
			text += rapid.SampledFrom(append(ours, free...)).Draw(rt, "sentence")
		}
		from := len(j.State().Entries)
		out := handle(text)
		there := wordsOf(j, out, from)
		if strings.Contains(out.Text(), "note it there, or only look") { // whether the measure is told or asked is open; the questions behind it are answered
			return
		}
		if len(there) == 0 || strings.Contains(out.Text(), "not saved") || strings.Contains(out.Text(), "no answer") { // a part that is refused aloud is sent again
			return
		}
		for _, w := range strings.FieldsFunc(text, apart) {
			if !strings.Contains(there, " "+w+" ") && w != "and" && w != "then" { // which may only join two entries
				rt.Fatalf("%q: %q is lost, of it there is\n%s\nit was answered\n%s", text, w, there, out.Text())
			}
		}
		if strings.Contains(out.Text(), "kept as note") && !wholeNote(j, text, from) {
			rt.Fatalf("%q: no note holds all of it\n%s", text, out.Text())
		}
	})
}

func apart(r rune) bool { return strings.ContainsRune(" .,;?!\n", r) }

// wordsOf are the words that are left of a message: in the log, in an open question, and in what was answered or refused.
func wordsOf(j *job.Job, out message.Out, from int) string {
	var all []string
	for _, e := range j.State().Entries[from:] {
		if _, told := e.Body.(event.Told); !told { // that a question was answered
			all = append(all, e.Text)
		}
		if n, ok := e.Body.(event.Note); ok {
			all = append(all, n.Text)
		}
	}
	all = append(all, j.Waits("lead")...)
	if strings.TrimSpace(strings.Join(all, "")) == "" { // nothing is stored of it
		return ""
	}
	for _, a := range out.Answers {
		if !a.Saved {
			all = append(all, a.Said)
		}
	}
	return " " + strings.Join(strings.FieldsFunc(strings.Join(all, " "), apart), " ") + " "
}

func wholeNote(j *job.Job, text string, from int) bool {
	for _, e := range j.State().Entries[from:] {
		if n, ok := e.Body.(event.Note); ok && n.Text == strings.Join(sentences.Split(text), "; ") {
			return true
		}
	}
	return false
}
