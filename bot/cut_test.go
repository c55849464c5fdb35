package bot_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
)

// TestCutsSaid tells of several rows and of what is cut in them and what is not, in any of a crew's words. Nothing may be
// saved as cut that was not said to be, and no cut that was said may be lost without a question.
func TestCutsSaid(t *testing.T) {
	c := &cuts{Rand: rand.New(rand.NewPCG(3, 4))}
	now := time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC)
	jobs := open(t, bot.Options{Now: func() time.Time { return now }, Loc: time.UTC})
	read := 0
	for n := range 5 * *phrases {
		j := openJob(t, jobs, fmt.Sprintf("flat %d", n))
		say := func(text string) string {
			now = now.Add(time.Second)
			return handled(t, j, now, text)
		}
		say("room study 12' x 13' high 8'")
		say("straps ns 16 oc first 16 off west")
		say("light l1 30 off west 20 off north")
		say("light l2 80 off west 70 off north")
		say("fan 110 off west 120 off north")
		say("smoke alarm 80 off west 150 off north")
		taken := c.IntN(3) == 0
		if taken {
			say("layout")
		}
		text, up, cut := c.message()
		reply := say(text)
		asks := strings.Contains(reply, "1: ")
		if strings.Contains(reply, "did you mean this?  1:") {
			reply += "\n->\n" + say("1")
			asks = false
		}
		good := true
		for thing, row := range cutRows {
			isCut, isCovered := cutIn(reply, thing)
			want := cut[thing] && slices.Contains(up, row)
			switch {
			case isCut && !want, isCovered && !isCut && want && !asks:
				t.Errorf("%s (layout %t): %s wrong\n%s", text, taken, thing, reply)
				good = false
			case want && !isCut:
				good = false
			}
		}
		if good {
			read++
		} else {
			t.Logf("not read: %s\n%s", text, reply)
		}
	}
	if share := 100 * read / (5 * *phrases); share < 85 {
		t.Errorf("%d %% read, want %d", share, 85)
	} else {
		t.Logf("%d %% read", share)
	}
}

// cutRows are the things over the ceiling, by the row that hides each.
var cutRows = map[string]int{"l1": 1, "l2": 2, "fan 1": 3, "smoke alarm 1": 4}

var (
	coveredLine = regexp.MustCompile(`(?m)covers, not cut: ([^\n]*)`)
)

// cutIn reports whether a reply says that a thing was saved as cut, or as covered.
func cutIn(reply, thing string) (isCut, isCovered bool) {
	for _, m := range regexp.MustCompile(`(?m)^(?:noted \d+: study (.*) open(?:;.*|$)|.*; cut: (.*))$`).FindAllStringSubmatch(reply, -1) {
		isCut = isCut || slices.Contains(strings.Split(m[1]+m[2], ", "), thing)
	}
	for _, m := range coveredLine.FindAllStringSubmatch(reply, -1) {
		isCovered = isCovered || slices.Contains(strings.Split(m[1], ", "), thing)
	}
	return isCut, isCovered
}

type cuts struct{ *rand.Rand }

func (c *cuts) of(all ...string) string { return all[c.IntN(len(all))] }

// message is rows that are up, what is cut in them by name.
func (c *cuts) message() (text string, up []int, cut map[string]bool) {
	from := 1 + c.IntN(3)
	to := from + 1 + c.IntN(4-from)
	for r := from; r <= to; r++ {
		up = append(up, r)
	}
	rows := c.of(fmt.Sprintf("rows %d-%d", from, to), fmt.Sprintf("row %d to %d", from, to), fmt.Sprintf("rows %d to %d", from, to))
	if len(up) == 2 {
		rows = c.of(rows, fmt.Sprintf("rows %d and %d", from, to), fmt.Sprintf("%d and %d", from, to), fmt.Sprintf("row %d + %d", from, to))
	}
	rows += c.of(" up", " are up", " on", " hung", " up now")
	cut = map[string]bool{}
	names := map[string][]string{"l1": {"l1"}, "l2": {"l2"}, "fan 1": {"fan", "the fan"}, "smoke alarm 1": {"smoke alarm", "the alarm", "smoke"}}
	under := []string{}
	for _, n := range []string{"l1", "l2", "fan 1", "smoke alarm 1"} {
		if slices.Contains(up, cutRows[n]) {
			under = append(under, n)
		}
	}
	list := func(all []string) string {
		said := []string{}
		for _, n := range all {
			said = append(said, c.of(names[n]...))
		}
		if len(said) == 1 {
			return said[0]
		}
		last := len(said) - 1
		return strings.Join(said[:last], c.of(", ", " ", " and ")) + c.of(" and ", " and ", ", ") + said[last]
	}
	pick := func() (in, out []string) {
		for _, n := range under {
			if c.IntN(2) == 0 {
				in = append(in, n)
			} else {
				out = append(out, n)
			}
		}
		return in, out
	}
	in, out := pick()
	mark := func(all []string) {
		for _, n := range all {
			cut[n] = true
		}
	}
	sep := c.of(", ", ". ", " - ", " ", ", and ")
	switch c.IntN(9) {
	case 0:
		mark(under)
		text = rows + sep + c.of("all cut", "everything cut", "all cut out", "all holes cut", "everything is cut", "cut everything")
	case 1:
		if len(out) != 1 {
			return c.message()
		}
		mark(in)
		text = rows + sep + c.of("all cut", "everything cut") + c.of(" but ", " except ", " bar ") + list(out)
	case 2:
		if len(in) == 0 {
			return c.message()
		}
		mark(in)
		text = rows + sep + list(in) + c.of(" cut", " are cut", " cut out")
	case 3:
		if len(in) == 0 {
			return c.message()
		}
		mark(in)
		text = rows + sep + "cut " + list(in)
	case 4:
		if len(in) == 0 || len(out) == 0 {
			return c.message()
		}
		mark(in)
		text = rows + sep + list(in) + " cut" + c.of(", ", " ", " but ", ". ") + list(out) + c.of(" not", " not cut", " still covered", " isnt cut", " is covered")
	case 5:
		if len(out) == 0 {
			return c.message()
		}
		text = rows + sep + list(out) + c.of(" not cut", " still covered", " not cut yet", " covered")
	case 6:
		if len(in) == 0 {
			return c.message()
		}
		row := cutRows[in[0]]
		mark(in[:1])
		text = rows + sep + c.of(list(in[:1])+fmt.Sprintf(" cut in row %d", row), fmt.Sprintf("all cut in row %d", row), fmt.Sprintf("all cut in %d", row), fmt.Sprintf("cut %s in %d", list(in[:1]), row), fmt.Sprintf("row %d %s cut", row, list(in[:1])))
	case 8:
		text = ""
		for _, n := range under {
			text += sep + fmt.Sprintf("row %d", cutRows[n]) + c.of(" up", " is up", " on", " hung")
			if slices.Contains(in, n) {
				cut[n] = true
				text += c.of(", ", " ") + c.of(c.of(names[n]...)+" cut", "all cut", "cut "+c.of(names[n]...))
			} else {
				text += c.of(", nothing cut", " nothing cut", ", "+c.of(names[n]...)+" not cut", ", "+c.of(names[n]...)+" covered")
			}
		}
		text = strings.TrimPrefix(text, sep)
	case 7:
		if from > 1 || to < 2 {
			return c.message()
		}
		mark([]string{"l1", "l2"})
		text = rows + sep + c.of("lights cut", "both lights cut", "2 lights cut", "cut the lights", "cut both lights")
		if to > 2 {
			if c.IntN(2) == 0 {
				text += c.of(", ", " ") + c.of("fan not", "fan covered", "not the fan", "but not the fan", "fan still to cut", "fan is not")
			} else {
				mark([]string{"fan 1"})
				text += c.of(" and fan", " and the fan", ", fan too", " fan too", " plus the fan")
			}
		}
	}
	return text, up, cut
}

func handled(t *testing.T, j *job.Job, at time.Time, text string) string {
	t.Helper()
	out, err := j.Handle(t.Context(), message.In{Who: "hanger", Sent: at, Text: text})
	if err != nil {
		t.Fatal(err)
	}
	return out.Text()
}
