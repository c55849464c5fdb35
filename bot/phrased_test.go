package bot_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
)

var phrases = flag.Int("phrases", 60, "how many messages of each kind TestPhrased makes up")

// TestPhrased puts what is to be noted into words, in any order and with any remarks around it, and looks at what is
// saved: at once, or by the first choice of each question. Nothing may be saved that was not said, and most of what was
// said has to be.
func TestPhrased(t *testing.T) {
	for _, k := range []struct {
		name  string
		say   func(p *phrasing) (string, []fact)
		least int // that has to be read, in percent
	}{
		{"ceiling", (*phrasing).onCeiling, 94}, {"wall", (*phrasing).onWall, 92}, {"room", (*phrasing).room, 94}, {"boards", (*phrasing).boards, 94}, {"fix", (*phrasing).fix, 94},
		{"several", (*phrasing).several, 92}, {"framing", (*phrasing).framing, 94}, {"run", (*phrasing).run, 94},
	} {
		t.Run(k.name, func(t *testing.T) {
			t.Parallel()
			p := &phrasing{Rand: rand.New(rand.NewPCG(1, 2))}
			now := time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC)
			jobs := open(t, bot.Options{Now: func() time.Time { return now }, Loc: time.UTC})
			var j *job.Job
			say := func(text string) (all []savedAs, reply string) {
				now = now.Add(time.Second)
				out, err := j.Handle(t.Context(), message.In{Who: "hanger", Sent: now, Text: text})
				if err != nil {
					t.Fatal(err)
				}
				for _, a := range out.Answers {
					var one savedAs
					raw, err := json.Marshal(a)
					if err != nil {
						t.Fatal(err)
					}
					if err := json.Unmarshal(raw, &one); err != nil {
						t.Fatal(err)
					}
					all = append(all, one)
				}
				return all, out.Text()
			}
			read := 0
			for n := range *phrases {
				j = openJob(t, jobs, fmt.Sprintf("flat %d", n))
				say("room kitchen 14'2 x 11'9 high 8'")
				say("light l9 50 off west 40 off north")
				text, want := k.say(p)
				several := len(want) > 1
				all, last := say(text)
				reply := last
				for range 4 {
					if several { // an answer gives the facts of its last entry alone
						all = places(all, last)
					}
					for _, a := range all {
						i := slices.IndexFunc(want, a.is)
						if i >= 0 {
							want = slices.Delete(want, i, i+1)
						} else if a.Saved && a.places() {
							t.Errorf("%s\n%s", text, reply)
						}
					}
					if !slices.ContainsFunc(all, func(a savedAs) bool { return len(a.Ask) > 0 }) {
						break
					}
					all, last = say("1")
					reply += "\n-> " + last
				}
				if len(want) == 0 {
					read++
				} else {
					t.Logf("not read: %s\n%s", text, reply)
				}
			}
			if share := 100 * read / *phrases; share < k.least {
				t.Errorf("%d %% read, want %d", share, k.least)
			}
		})
	}
}

// coords matches where a thing is that was noted, in inches behind what its feet come to.
var coords = regexp.MustCompile(`(?m)^noted \d+: kitchen \w+ \d+: (?:.* = )?(?:[^,=]*\()?([\d/-]+)"\)? off west, (?:[^,=]*\()?([\d/-]+)"\)? off north`)

// places are the places of all things noted in a reply, beside what else was answered.
func places(all []savedAs, reply string) (each []savedAs) {
	for _, a := range all {
		if !a.Saved {
			each = append(each, a)
		}
	}
	of := func(inches string) any {
		whole, part, _ := strings.Cut(inches, "-")
		n, _ := strconv.ParseFloat(whole, 64)
		if a, b, ok := strings.Cut(part, "/"); ok {
			x, _ := strconv.ParseFloat(a, 64)
			y, _ := strconv.ParseFloat(b, 64)
			n += x / y
		}
		return map[string]any{"mm": n * 25.4}
	}
	for _, m := range coords.FindAllStringSubmatch(reply, -1) {
		each = append(each, savedAs{Saved: true, Facts: map[string]any{"surface": "ceiling", "x": of(m[1]), "y": of(m[2])}})
	}
	return each
}

// savedAs is what an answer says was saved.
type savedAs struct {
	Saved bool
	Facts map[string]any
	Ask   []string
}

// fact is what is to be saved: places off west and north or up, and counts of boards by length, all in millimetres.
type fact struct {
	surface string
	x, y    float64
	sides   [2]float64
	boards  map[int]int // tenths of a millimetre
	run     string      // of framing, which begins at first and is spaced alike
	first   float64
	spacing float64
	from    [2]float64 // of a run, which ends at x and y
	is      string
}

func (t savedAs) mm(key string) float64 {
	m, _ := t.Facts[key].(map[string]any)
	mm, _ := m["mm"].(float64)
	return mm
}

func (t savedAs) places() bool {
	return t.Facts["x"] != nil || t.Facts["ew"] != nil || t.Facts["boards"] != nil || t.Facts["at"] != nil || t.Facts["from"] != nil
}

func (t savedAs) is(f fact) bool {
	same := func(a, b float64) bool { return math.Abs(a-b) < 0.06 }
	switch {
	case !t.Saved:
		return false
	case f.boards != nil:
		list, _ := t.Facts["boards"].([]any)
		got := map[int]int{}
		for _, b := range list {
			of := savedAs{Facts: b.(map[string]any)}
			n, _ := of.Facts["count"].(float64)
			got[int(math.Round(10*of.mm("length")))] += int(n)
		}
		for l, n := range f.boards {
			if got[l] != n {
				return false
			}
		}
		return len(got) == len(f.boards)
	case f.run != "":
		at, _ := t.Facts["at"].([]any)
		if len(at) < 2 || t.Facts["run"] != f.run {
			return false
		}
		mm := func(i int) float64 { return at[i].(map[string]any)["mm"].(float64) }
		return same(mm(0), f.first) && same(math.Abs(mm(1)-mm(0)), f.spacing)
	case f.is == "run":
		point := func(key string, x, y float64) bool {
			at, _ := t.Facts[key].(map[string]any)
			if at == nil {
				return false
			}
			of := savedAs{Facts: at}
			return same(of.mm("x"), x) && same(of.mm("y"), y)
		}
		return point("from", f.from[0], f.from[1]) && point("to", f.x, f.y) || point("to", f.from[0], f.from[1]) && point("from", f.x, f.y)
	case f.sides[0] > 0:
		ew, ns := t.mm("ew"), t.mm("ns")
		return same(ew, f.sides[0]) && same(ns, f.sides[1]) || same(ew, f.sides[1]) && same(ns, f.sides[0])
	}
	on, _ := t.Facts["surface"].(string)
	return strings.TrimSuffix(on, "ceiling") == f.surface && same(t.mm("x"), f.x) && same(t.mm("y"), f.y)
}
