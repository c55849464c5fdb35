package bot_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot"
	"strapline/bot/answer"
	"strapline/bot/console"
	"strapline/bot/doortest"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar/record"
)

// What is read back of a note can be typed, and is understood the same. Each conversation is had with three jobs: as it
// stands, with each line in canonical form, which has to make the same entries, and with each note as it was read back,
// which has to get the same replies to the end.
func TestReadBackIsTypedBack(t *testing.T) {
	doortest.Each(t, "../testdata", func(t *testing.T, _ string, steps []console.Step) {
		clock := new(console.Clock)
		b := open(t, bot.Options{Now: clock.Now, Loc: time.UTC})
		said, canon, back := openJob(t, b, "said"), openJob(t, b, "canonical"), openJob(t, b, "read-back")
		for i, s := range steps {
			if s.Who == "" {
				continue
			}
			clock.Set(s.Sent)
			handle := func(j *job.Job, in message.In) message.Out {
				out, err := j.Handle(t.Context(), in)
				if err != nil {
					t.Fatal(err)
				}
				return out
			}
			in := message.In{Who: s.Who, Sent: s.Sent, Text: s.Text, ID: fmt.Sprint(i)}
			plain := in
			ctx := answer.Ctx{State: stateOf(t, canon), Who: s.Who}
			_, rest, _ := ctx.Cut(s.Text)
			note := true
			if line, err := ctx.Parse(s.Text, false); err == nil && rest == "" { // one line, not several
				plain.Text = line.String()
				_, note = line.Entry.(record.Note)
			}
			from := len(stateOf(t, said).Entries)
			out := handle(said, in)
			made := stateOf(t, said).Entries[from:]
			typed := readBack(t, in, out, made)
			rights := note && (out.Asks() || slices.ContainsFunc(made, func(e *site.Entry) bool { return e.Body.Kind() != "note" }))  // a correction in words
			if rights || slices.ContainsFunc(out.Answers, func(a message.Answer) bool { return !strings.Contains(s.Text, a.Said) }) { // it answers a question, or what was held is noted
				plain, typed = in, in
			}
			handle(canon, plain)
			if diff := cmp.Diff(bodies(t, inOurWords(made, s.Sent, note)), bodies(t, inOurWords(stateOf(t, canon).Entries[from:], s.Sent, note))); diff != "" {
				t.Fatalf("line %d: %s\ncanonical: %s\n%s", s.Line, s.Text, plain.Text, diff)
			}
			if diff := cmp.Diff(understood(out), understood(handle(back, typed))); diff != "" {
				t.Fatalf("line %d: %s\nread back: %s\n%s", s.Line, s.Text, typed.Text, diff)
			}
		}
	})
}

// inOurWords leaves out the notes that quote another message, or one of our lines that is refused: those that
// forgotten questions became, and what was kept of a line that is none.
func inOurWords(made []*site.Entry, sent time.Time, note bool) []*site.Entry {
	return slices.DeleteFunc(slices.Clone(made), func(e *site.Entry) bool {
		_, is := e.Body.(event.Note)
		return is && (!note || e.Sent != sent.UnixMilli())
	})
}

// quotes are lines that quote what was typed, or say what was not read of it.
var quotes = regexp.MustCompile(`^(kept as you said it|dropped, not saved|still open|(?:noted|kept as note) \d+, not on the plan|in place of \d+|struck \d+|brought back \d+|not under these pieces, .*): |your last note is \d+: `)

// understood is a reply without what it quotes.
func understood(out message.Out) (lines []string) {
	for _, a := range out.Answers {
		if slices.Contains([]string{"log", "notes", "who", "strike", "undo"}, a.Kind) {
			continue
		}
		for _, l := range strings.Split(a.Reply, "\n") {
			if !quotes.MatchString(l) {
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// told is what a read-back tells its reader besides what was noted, or in other words: what it comes to, what it was
// before, what is assumed.
var told = []struct {
	said   *regexp.Regexp
	stands string
}{
	{regexp.MustCompile(`^(.*), as of (\d\d:\d\d)$`), "at $2 $1"},
	{regexp.MustCompile(`^board \S+ x \S+ \(assumed\),`), "board"},
	{regexp.MustCompile(`^(.+) up on ([^,;]+), rows not told`), "$2: so far $1"},
	{regexp.MustCompile(` \(was ([^()]|\([^)]*\))*\)`), ""},
	{regexp.MustCompile(` ?\([^)]*\)`), ""},
	{regexp.MustCompile(`^(snag \d+ fixed|.*coat \d.*?|code \w+): .*`), "$1"},
	{regexp.MustCompile(` up: [^,]*, as planned`), " up"},
	{regexp.MustCompile(`( up: .*?), [^,]* to [^,]* off \w+`), "$1"},
	{regexp.MustCompile(`, boards (north-south|east-west|level|standing)`), ""},
	{regexp.MustCompile(`; cut: `), ", cut "},
	{regexp.MustCompile(`; .*| = .*|, long side .*|, in line .*|, so .*|, but .*|, [^,]* thick assumed`), ""},
	{regexp.MustCompile(`^you are | taken$| screws a box$`), ""},
}

var offWall = regexp.MustCompile(`off (north|east|south|west)`)

// readBack is the message that says what was read back of the entries it made; in itself where that is not all it did.
func readBack(t *testing.T, in message.In, out message.Out, made []*site.Entry) message.In {
	var all []string
	sent := in.Sent
	for _, a := range out.Answers {
		text, _, _ := strings.Cut(a.Reply, "\n")
		text, noted := strings.CutPrefix(text, fmt.Sprintf("noted %d: ", a.Seq))
		if !noted || a.Kind == "square" || a.Kind == "missed" { // what is worked out stands in place of what was said
			return in
		}
		if strings.Contains(text, " (studs)") { // of a run, all of it
			text = offWall.ReplaceAllString(text, "$0 studs")
		}
		for _, r := range told {
			text = r.said.ReplaceAllString(text, r.stands)
		}
		if a.Kind == "note" || a.Kind == "room" && strings.Contains(text, " x ") { // their word is not said again
			text = a.Kind + " " + text
		}
		all = append(all, text)
		var err error
		if sent, err = time.Parse(time.RFC3339, a.When); err != nil {
			t.Fatal(err)
		}
	}
	text := strings.Join(all, "\n")
	for _, e := range made {
		switch b := e.Body.(type) {
		case event.Strike, event.Measured: // a correction; a colleague's second measurement, which is answered by what stands
			return in
		case event.Hung:
			if len(b.Sizes) == 0 { // the row from wall to wall is told, not a piece
				return in
			}
		case event.Thing:
			if !b.New { // without "fix" it would be a second measurement
				return in
			}
			if n, numbered := strings.CutPrefix(b.Name, b.What+" "); numbered && strings.Trim(n, "0123456789") == "" { // a number that was given
				text = strings.Replace(text, b.Name, b.What, 1)
			}
		}
	}
	if text != "" {
		in.Text, in.Sent = text, sent
	}
	return in
}

// bodies are those of the entries, as they are kept.
func bodies(t *testing.T, made []*site.Entry) (all []string) {
	t.Helper()
	for _, e := range made {
		body, err := json.Marshal(e.Body)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, e.Body.Kind()+" "+string(body))
	}
	return all
}
