package bot_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/message"
)

// planner texts what a crew that plans may text, at random.
type planner struct {
	*rand.Rand
	rooms []string
}

var roomNames = []string{"kitchen", "den", "bath", "hall", "loft"}

func (p *planner) pick(all ...string) string { return all[p.IntN(len(all))] }

// setup are the messages that a job begins with.
func (p *planner) setup() (texts []string) {
	p.rooms = roomNames[:1+p.IntN(len(roomNames))]
	for _, r := range p.rooms {
		notch := ""
		if p.IntN(3) == 0 {
			notch = fmt.Sprintf(" less %d' x %d' %s", 1+p.IntN(4), 1+p.IntN(4), p.pick("ne", "nw", "se", "sw"))
		}
		texts = append(texts, fmt.Sprintf("room %s %d' %d x %d' %d%s", r, 6+p.IntN(35), p.IntN(12), 6+p.IntN(25), p.IntN(12), notch),
			fmt.Sprintf("straps %s %d oc first %d off %s", p.pick("ew", "ns"), 12+4*p.IntN(4), 4+p.IntN(20), "%WALL"))
	}
	for i, s := range texts {
		wall := "north"
		if strings.Contains(s, "straps ns") {
			wall = "west"
		}
		texts[i] = strings.ReplaceAll(s, "%WALL", wall)
	}
	return append(texts, p.boards("stock"))
}

func (p *planner) boards(how string) string {
	for _, l := range []int{8, 9, 10, 12, 14, 16} {
		if p.IntN(2) == 0 {
			how += fmt.Sprintf(" %d x %d'", 1+p.IntN(60), l)
		}
	}
	return how
}

// message is one after that.
func (p *planner) message() string {
	room := p.rooms[p.IntN(len(p.rooms))]
	n := 1 + p.IntN(5)
	one := func() string {
		switch p.IntN(16) {
		case 0, 1, 2:
			return room + ": layout"
		case 3:
			return fmt.Sprintf("%s: layout %d", room, n)
		case 4:
			return room + ": cuts"
		case 5:
			return p.pick("order", "boards left", "how many screws", "whats left to hang", "bring tomorrow", "status")
		case 6:
			return p.boards(p.pick("stock", "delivered"))
		case 7:
			return fmt.Sprintf("used %d x %d'", n, 8+2*p.IntN(4))
		case 8:
			return fmt.Sprintf("%s: hung r%d", room, n)
		case 9:
			return fmt.Sprintf("%s: hung r%d.%d", room, n, 1+p.IntN(2))
		case 10:
			return fmt.Sprintf("%s: hung %d + %d row %d", room, 48+p.IntN(100), 20+p.IntN(100), n)
		case 11:
			return fmt.Sprintf("%s: strap %d at %d", room, n, 16*n+p.IntN(9)-4)
		case 12:
			return fmt.Sprintf(`%s: light 6" l%d %d off west %d off north`, room, p.IntN(50), 10+p.IntN(60), 10+p.IntN(60))
		case 13:
			return fmt.Sprintf("%s: whats r%d", room, n)
		case 14:
			return p.pick("undo", "1", "longest in 10'", "broke a 12", "set stagger 24", room+": boards along")
		}
		return room + ": " + p.pick("rows from south", "rows from east", "covered", "layout 2")
	}
	text := one()
	for p.IntN(6) == 0 {
		text += ";" + one()
	}
	return text
}

// No message that plans takes long, whatever was noted before it. The time is that of
// the processor, which other work on the machine does not stretch but for what it takes of the caches; so a message that takes long is
// tried again, and counts by the least.
func TestPlanningIsQuick(t *testing.T) {
	jobs, messages := 3, 25
	if *long {
		jobs, messages = 15, 40
	}
	seed := rand.Uint64()
	t.Log("seed", seed)
	p := &planner{Rand: rand.New(rand.NewPCG(seed, 9))}
	const most = 500 * time.Millisecond
	var worst time.Duration
	var what string
	var all []time.Duration
	for range jobs {
		texts := p.setup()
		for range messages {
			texts = append(texts, p.message())
		}
		took, planned := talk(t, texts)
		for n, d := range took {
			for tries := 0; *long && d > most*4/5 && tries < 2; tries++ {
				again, _ := talk(t, texts[:n+1])
				d = min(d, again[n])
			}
			if planned[n] {
				all = append(all, d)
			}
			if d > worst {
				worst, what = d, strings.Join(texts[:n+1], "\n")
			}
		}
	}
	if slices.Sort(all); len(all) < jobs {
		t.Fatalf("only %d messages took planning", len(all))
	}
	t.Logf("%d messages took planning, median %v, 95 in 100 under %v; the worst takes %v:\n%s", len(all), all[len(all)/2], all[len(all)*95/100], worst, what)
	if *long && worst > most { // a short run may be beside others, or with the race detector, which costs five times as much
		t.Errorf("the worst message takes %v of the processor, the most is %v", worst, most)
	}
}

// talk texts to a new job, and says what each message took of the processor, and which took planning.
func talk(t *testing.T, texts []string) (took []time.Duration, planned []bool) {
	t.Helper()
	b, err := bot.New(bot.Options{Dir: t.TempDir(), Loc: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	}()
	j, err := b.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	took, planned = make([]time.Duration, len(texts)), make([]bool, len(texts))
	for i, text := range texts {
		before := processor(t)
		out, err := j.Handle(context.Background(), message.In{Who: "lead", Text: text})
		took[i] = processor(t) - before
		if err != nil || out.Failed() || strings.Count(out.Text(), "\n") >= 30 {
			t.Fatalf("%s\n%v %s", strings.Join(texts[:i+1], "\n"), err, out.Text())
		}
		planned[i] = slices.ContainsFunc(out.Answers, func(a message.Answer) bool { return a.From > 0 })
	}
	return took, planned
}

// processor is what this process has used of the processors.
func processor(t *testing.T) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
