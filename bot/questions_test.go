package bot_test

import (
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/message"
)

// question is one that is asked: what leads to it, how it begins, and answers to it in
// the words of three people. Each must be taken: saved, or led on from.
type question struct {
	before []string
	ask    string // the message that is asked about, said by sparks
	why    string // what the question says
	say    []string
}

var questions = []question{
	{nil, "light l9 26 off 41 off north", "off which wall?", []string{"1", "west", "the west wall"}},
	{nil, "light l9 26 off west", "how far off", []string{"41 off north", "41 from the north wall", "and 41 off the north", "41 north", "north 41", "its 41 n", "centred", "in the middle of the room"}},
	{nil, "box on north wall 52 off west", "how far up?", []string{"16 up", "16 off the floor", "its 16 up"}},
	{nil, "box 2x4 52 off west 16 up", "on which wall?", []string{"1", "north wall", "on the north"}},
	{nil, "light l9 700 off west 41 off north", "outside", []string{"90 off west 41 off north", "90 off the west wall and 41 off north", "90 off the w, 41 off the n"}},
	{nil, "straps ew 16 oc", "where is the first one?", []string{"first 14 3/8 off north", "first strap is 14 3/8 off the north wall", "14 3/8 off north"}},
	{[]string{"in attic"}, "straps 16 oc", "which way do the straps run?", []string{"1", "east-west", "they run east west", "straps run the long way", "the long way", "ew", "e-w", "short way", "n to s", "first 14 off north"}},
	{nil, "light l9 20 off window wall 30 off west", "which wall is the window wall?", []string{"1", "north", "the north one", "window wall is the north one btw", "n wall", "thats the north", "n"}},
	{nil, "2\" vent comes down thru the lid back of the stove, 7 1/2 off the south wall", "did you mean this?", []string{"1", "vent 2\", 7 1/2 off south", "yes"}},
	{nil, "room pantry 9 x 8", "feet or inches?", []string{"1", "feet", "ft", "its feet", "scratch that 9'6 x 8"}},
	{nil, "straps ew 16 oc first 14 3/8", "measured off which wall?", []string{"1", "north", "off the north wall"}},
	{nil, "light l9 84 2 off west 41 off north", "84 2", []string{"1", "84 1/2", "84-1/2"}},
	{nil, "gap 84 2", "84 2", []string{"1", "84 1/2", "gap 84 1/2"}},
	{nil, "gap 12.6", "12.6", []string{"1", "2", "gap 12 5/8"}},
	{[]string{"kitchen: duct d1 20 off west 20 off north"}, "open d1", "which d1?", []string{"1", "2", "den: open d1"}},
	{[]string{"hanger> den: duct d9 6\" 20 off west 20 off north"}, `duct d9 6" 60 off west 40 off north`, "The same one?", []string{"1", "2", "same, moved"}},
	{[]string{"hanger> den: mark b 20 off west 20 off north"}, "mark b 60 off west 40 off north", "The same one?", []string{"1", "2", "same, moved"}},
	{[]string{"in attic"}, "hung row 1", "which way do the boards run?", []string{"1", "east-west", "north south", "the short way", "long way", "boards run ew"}},
	{[]string{"in attic"}, "row 1 up on the north wall", "how high is the ceiling", []string{"8'", "9 ft", "its 9", "96", "nine foot", "ceilings are 9'"}},
	{nil, "pipe 12 off west", "does it cross the ceiling", []string{"1", "across", "it crosses", "up the north wall", "from north to south", "n to s"}},
	{nil, "pipe p9 40 off west from strap 2 to strap 5", "how deep", []string{"3/4", "depth 3/4", "on top of the straps"}},
	{[]string{"in notched"}, "light l9 30 off west 8 off north", "which walls?", []string{"1", "2", "light l9 30 off west main 8 off north notch"}},
	{[]string{"hung row 1"}, "hung 12 row 2", "12", []string{"1", "2", "hung 144 row 2"}},
	{nil, "light l9 26 off west 30 off east 41 off north", "which counts?", []string{"1", "2", "26 off west"}},
	{[]string{"gap 98 3/8 98 1/4"}, "*97", "which length?", []string{"1", "2", "gap 97 98 1/4"}},
	{nil, "2 rows of 3 lights", "which way do the rows run?", []string{"1", "east-west", "north south"}},
	{nil, "i hit something", "What was it?", []string{"1", "water", "its a cable"}},
	{nil, "next one 24 over", "which way", []string{"2", "east", "to the east"}},
}

// crewRoom is where all of them are asked.
var crewRoom = []string{
	"room kitchen 13' x 11' 9", "room attic 20' x 12'", "room notched 13' x 11' less 4' x 3' nw", "room den 12' x 10' high 8'",
	"lead> straps ew 16 oc first 14 3/8 off north", "duct d1 30 off west 40 off north", "sparks> in den", `sparks> light 4" l1 40 off west 30 off north`,
}

func TestEachQuestionTakesItsAnswer(t *testing.T) {
	for _, q := range questions {
		t.Run(q.ask, func(t *testing.T) {
			t.Parallel()
			for _, words := range q.say {
				q.takes(t, words)
			}
		})
	}
}

// takes asks the question and answers it with words.
func (q question) takes(t *testing.T, words string) {
	j := openJob(t, open(t, bot.Options{Dir: t.TempDir(), Loc: time.UTC}), "flat")
	tell := func(who, text string) message.Out {
		if name, said, ok := strings.Cut(text, "> "); ok {
			who, text = name, said
		}
		out, err := j.Handle(t.Context(), message.In{Who: who, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for _, text := range crewRoom {
		tell("lead", text)
	}
	for _, text := range q.before {
		tell("sparks", text)
	}
	asked := tell("sparks", q.ask)
	if text := asked.Text(); !strings.Contains(text, q.why) {
		t.Fatalf("%q is answered %q, not asked about with %q", q.ask, text, q.why)
	}
	out := tell("sparks", words)
	text := out.Text()
	taken := len(out.Answers) > 0 && out.Answers[len(out.Answers)-1].Error == nil && (out.Answers[0].Saved || out.Asks() || out.Answers[0].Kind == "hit")
	if !taken || strings.Contains(text, "still open") || strings.Contains(text, "dropped") {
		t.Errorf("%q asks %q; %q is answered:\n%s", q.ask, q.why, words, text)
	}
}
