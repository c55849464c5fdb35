package bot_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/message"
)

// flat is what is noted of the flat that everybody asks about.
var larkspur = []string{
	"lead> job larkspur upper flat", "lead> room kitchen 13' x 11' 6", "lead> kitchen: straps ew 16 oc first 16 off north",
	"electrician> kitchen: light over sink 26 off west 41 off north", "electrician> kitchen: light over island 78 off west 41 off north",
	"electrician> kitchen: smoke alarm 78 off west 100 off north", "electrician> kitchen: junction box 110 off west 30 off north",
	"plumber> kitchen: pipe p1 from 40 off west 12 off north to 40 off west 100 off north depth 3/4",
	"lead> room bath 8' x 6'", "lead> bath: straps ew 16 oc first 16 off north", "electrician> bath: fan 40 off west 30 off north", "plumber> bath: valve 20 off west 10 off north",
	"hanger> board 1/2 x 48 lengths 8 12", "hanger> stock 9 x 12' 4 x 8'", "hanger> bath: ceiling up", "hanger> kitchen: hung row 1", "lead> bath: check insulation ok",
	"plumber> note cleanout behind the bath wall by the tub, keep it open", "lead> in kitchen",
}

// asked returns what is answered about the flat, to each question by itself.
func asked(t *testing.T, who string, texts ...string) []string {
	j := openJob(t, open(t, bot.Options{Dir: t.TempDir(), Loc: time.UTC}), "flat")
	tell := func(who, text string) string {
		out, err := j.Handle(t.Context(), message.In{Who: who, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return out.Text()
	}
	for _, line := range larkspur {
		who, text, _ := strings.Cut(line, "> ")
		tell(who, text)
	}
	var all []string
	for _, text := range texts {
		all = append(all, tell(who, text))
	}
	return all
}

// TestNoQuestionIsDenied asks about every noun in every form: no question is met with silence, kept as a note or
// refused, and none is told that nothing is noted of what is.
func TestNoQuestionIsDenied(t *testing.T) {
	nouns := []struct {
		said, place string // a noun, and what the answer has of it
		several     bool
	}{
		{"light over the sink", "light over sink", false}, {"island light", "light over island", false}, {"junction box", "junction box 1", false}, {"jbox", "junction box 1", false},
		{"smoke", "smoke alarm 1", false}, {"bath fan", "fan 1", false}, {"valve in the bath", "valve 1", false}, {"lights in the kitchen", "light over sink", true}, {"smoke alarms", "smoke alarm 1", true},
	}
	forms := []string{
		"where %[2]s the %[1]s", "wheres the %[1]s at", "whers the %[1]s", "cant find the %[1]s", "cant see where the %[1]s was anymore", "lost the %[1]s", "any idea where the %[1]s is",
		"%[2]s the %[1]s clear of the straps", "will the %[1]s hit a strap", "do we know if the %[1]s lands on a joist", "so %[2]s the %[1]s covered or what", "can the %[1]s be buried",
		"does the %[1]s have to stay reachable", "may the %[1]s be covered", "do we need a panel for the %[1]s", "who put in the %[1]s", "when was the %[1]s noted", "how far off the north wall %[2]s the %[1]s",
		"did anybody cut the %[1]s yet", "what size is the %[1]s", "%[2]s the %[1]s live", "hey %[2]s the %[1]s still open", "remind me where the %[1]s went",
	}
	var texts, places []string
	for _, n := range nouns {
		for _, f := range forms {
			is := map[bool]string{true: "are", false: "is"}[n.several]
			texts, places = append(texts, fmt.Sprintf(f, n.said, is)), append(places, n.place)
		}
	}
	for i, got := range asked(t, "lead", texts...) {
		switch text := strings.ToLower(got); {
		case got == "":
			t.Errorf("%q: silence", texts[i])
		case strings.Contains(text, "kept as note"), strings.Contains(text, "i expected"), strings.Contains(text, "not saved"):
			t.Errorf("%q is no question here: %s", texts[i], got)
		case !strings.Contains(text, places[i]) && !strings.Contains(strings.ReplaceAll(text, "junction box", "junction box 1"), places[i]) && !strings.Contains(text, strings.TrimSuffix(places[i], " 1")):
			t.Errorf("%q: nothing of %s in %s", texts[i], places[i], got)
		case strings.HasPrefix(text, "nothing noted"), strings.HasPrefix(text, "no "):
			t.Errorf("%q is denied: %s", texts[i], got)
		}
	}
}

// TestTopics: a topic in other words each has one answer, by its first line.
func TestTopics(t *testing.T) {
	for begins, texts := range map[string][]string{
		"kitchen, next:": {"whats next", "so whats next", "what do we do next", "what should i be doing", "whats left to do in here", "now what", "ok done with that, what do you want us on now", "kitchen: what still has to happen before the tapers"},
		"kitchen: not ready for the painter: ceiling: nobody reported rows 2, 3, 4 hung": {"is the kitchen ready for paint"},
		"2 noted that have":                {"what has to stay reachable", "anything here we need to leave access to", "is there anything that should not be covered up", "do we need any access panels"},
		"kitchen: not ready":               {"closing the ceiling today, anything missing", "are we good to lid the kitchen", "is the kitchen ready", "any reason not to board the kitchen", "is everything in place to lid the kitchen tomorrow morning"},
		"2 covered, not open":              {"what's not cut out yet in the bath", "what didn't get cut in the bath"},
		"1 piece of board":                 {"how many sheets are up", "how many boards did we hang", "how many boards have we hung so far", "has anything gone up in the kitchen yet"},
		"bath: hanger":                     {"when was the bath closed", "who closed the bath", "when did the bath ceiling go up"},
		"bath: insulation ok":              {"is the insulation done in the bath", "was the bath insulation inspected"},
		"kitchen, 1/2\" board":             {"do we have enough to finish", "order for this room", "can you send me the order for the kitchen"},
		"kitchen cut list":                 {"give me the cut list", "pls send the cut list"},
		"larkspur upper flat":              {"how far did we get", "how's it going", "where are we at", "give me a rundown", "which rooms are closed up"},
		"and how far off":                  {"can I screw at 40 off west"},
		"kitchen: nobody reported":         {"how many rows to go in the kitchen", "when do we finish the kitchen at this rate"},
		"kitchen: 2 lights":                {"how far apart are the two lights"},
		"kitchen junction box 1: clear":    {"whats the distance from the jbox to p1", "anything between p1 and the jbox"},
		"kitchen light over island: clear": {"did the island light end up on a strap"},
		"kitchen: 1-5/8\" screw":           {"will a 1 5/8 hit p1", "can a 1 5/8 go in over p1"},
		"kitchen smoke alarm 1: 78\"":      {"gimme the smoke alarm off the east wall"},
		"bath fan 1":                       {"i need the fan location in the bath quick", "where did the old fan in the bath sit"},
		"kitchen 40\" off west,":           {"whats behind here, 40 off west and 50 off north", "can i put a screw at 40 off west 50 off north", "anything above 40 off west 50 off north", "I'd like to hang a plant 40 off the west wall and 50 off the north wall in the kitchen, is that ok?"},
		"kitchen between light":            {"whats between the sink light and the island light", "anything between the light over the sink and the light over the island"},
		"light over sink to":               {"how far is the sink light from the island light", "distance from the sink light to the island light"},
		"12 earlier:":                      {"who did what today", "whats new", "anything new since this morning", "what changed since yesterday"},
		"19 ":                              {"what did i send last", "did you get my last one", "was my message saved"},
		"board 1/2\"":                      {"is the kitchen ceiling fire rated", "what kind of drywall is it", "how thick is the board in the kitchen"},
	} {
		for i, got := range asked(t, "lead", texts...) {
			if !strings.HasPrefix(got, begins) {
				t.Errorf("%q: want %s..., got %q", texts[i], begins, got)
			}
		}
	}
}

// TestFactAndQuestion: what is told is noted, and what is asked behind it is answered about it.
func TestFactAndQuestion(t *testing.T) {
	for _, tt := range []struct{ said, noted, answer string }{
		{"light 60 off west 60 off north, is that clear of the strap?", "noted 20: kitchen light", "kitchen light 3: clear of the framing"},
		{"light 50 off west 80 off north will that hit a strap", "noted 20: kitchen light", "kitchen light 3: on strap 5"},
		{"bath: light 60 off west 40 off north - does it land on a strap?", "noted 20: bath light", "bath light 1:"},
		{"vent 20 off east 30 off south, any issue?", "noted 20: kitchen vent", "kitchen vent 1:"},
		{"pipe from 100 off west 20 off north to 100 off west 80 off north on top of the straps, will screws hit it", "noted 20: kitchen pipe", "HIT pipe p1"},
		{"used 1 x 12, how many 12s left", "noted 20: on hand 8 x 12'", "8 x 12' left"},
		{"got 4 more 12s, is that enough for the kitchen", "noted 20: on hand 13 x 12'", "13 on hand"},
		{"used one 12 for row 2, do we have enough to finish", "kept as note 20", "9 on hand"},
		{"give me the cut list, and do i need to notch anything", "kitchen cut list", "nothing noted on notch"},
	} {
		got := asked(t, "lead", tt.said)[0]
		if !strings.Contains(got, tt.noted) || !strings.Contains(got, tt.answer) {
			t.Errorf("%q: want %q and %q, got:\n%s", tt.said, tt.noted, tt.answer, got)
		}
	}
}

// TestScrewIsAskedOfItsRun: a screw over a run is looked for in the room of the run, whatever room its sender is in.
func TestScrewIsAskedOfItsRun(t *testing.T) {
	if got := asked(t, "hanger", "bath: who hung ceiling", "will a 1 5/8 hit p1")[1]; !strings.HasPrefix(got, "kitchen: 1-5/8") || !strings.Contains(got, "HIT pipe p1") {
		t.Error(got)
	}
}
