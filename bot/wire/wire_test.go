package wire_test

import (
	"context"
	"fmt"
	"net"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/doortest"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/bot/wire"
	"strapline/bot/wire/wiretest"
)

// Over the wire, each message of the conversations gets its expected reply, and everybody
// else sees the entries that were saved.
func TestConversations(t *testing.T) { doortest.Each(t, "../../testdata", converse) }

func converse(t *testing.T, _ string, steps []console.Step) {
	clock := new(console.Clock)
	b := open(t, bot.Options{Now: clock.Now, Loc: time.UTC})
	// The conversations play much faster than a crew texts.
	addr, _, _ := tcp(t, wire.Config{Bot: b, Now: clock.Now, Loc: time.UTC, Limits: wire.Limits{Rate: 100_000}})
	onlooker := join(t, addr, "onlooker")
	peers := map[string]*wiretest.Peer{}
	doortest.Have(t, steps, clock, nil, func(n int, s console.Step) []string {
		if peers[s.Who] == nil {
			peers[s.Who] = join(t, addr, s.Who)
		}
		return say(t, peers[s.Who], fmt.Sprintf("#%d @%s %s", n, s.Sent.Format("2006-01-02T15:04"), s.Text)).Lines
	})
	j, err := b.Job(flat)
	if err != nil {
		t.Fatal(err)
	}
	entries, err := j.Entries(t.Context(), 1, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		want := fmt.Sprintf("+ %d %s %s", e.Seq, e.Who, e.Text)
		if got, err := onlooker.Next(); err != nil || got != want {
			t.Fatalf("the onlooker saw %q (%v), want %q", got, err, want)
		}
	}
}

func TestHello(t *testing.T) {
	const pass = "three-planks-and-a-jack"
	long := strings.Repeat("x", 65)
	for line, want := range map[string]string{
		"hello lead larkspur-upper-flat " + pass:        "ok 0",
		"hello Søren larkspur-upper-flat " + pass:       "ok 0",
		"hello lead larkspur-upper-flat":                "no 0",
		"hello lead larkspur-upper-flat " + pass[1:]:    "no 0",
		"hello lead larkspur-upper-flat " + pass + "x":  "no 0",
		"hello lead larkspur-upper-flat " + pass + " x": "no 1",
		"hello lead":                            "no 1",
		"covered":                               "no 1",
		"GET / HTTP/1.1":                        "no 1",
		"":                                      "no 1",
		"hello le+ad larkspur-upper-flat":       "no 7",
		"hello " + long + " flat":               "no 7",
		"hello lead Larkspur":                   "no 12",
		"hello lead ../../flat":                 "no 12",
		"hello lead " + strings.Repeat("x", 81): "no 12",
		"hello le\x00ad flat":                   "no 9",
		"hello \xff\xfb flat":                   "no 7",
	} {
		t.Run("", func(t *testing.T) {
			t.Parallel() // a wrong pass word costs a second
			addr, _, _ := tcp(t, wire.Config{Pass: pass})
			p := dial(t, addr)
			r := say(t, p, line)
			if r.Status != want {
				t.Fatalf("%q was answered %q %q, want %q", line, r.Status, r.Lines, want)
			}
			if !strings.HasPrefix(want, "ok") {
				ended(t, p)
			}
			if strings.Contains(strings.Join(r.Lines, "\n"), pass) {
				t.Error("the reply tells the pass word")
			}
		})
	}
}

func dial(t *testing.T, addr string) *wiretest.Peer {
	t.Helper()
	conn, err := new(net.Dialer).DialContext(t.Context(), "tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	return wiretest.New(conn)
}

// One line of every kind, and the status of its reply.
func TestReplies(t *testing.T) {
	now := time.Date(2026, 5, 4, 9, 30, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	b := open(t, bot.Options{Now: clock, Loc: time.UTC})
	addr, _, _ := tcp(t, wire.Config{Bot: b, Now: clock, Loc: time.UTC})
	p := join(t, addr, "lead")
	for _, c := range []struct{ line, status, first string }{
		{"room kitchen 13' 4 1/2 x 11' 9", "ok 1", "noted 1: "},
		{"\tstraps ew 16 oc first 14 3/8 off north \r", "ok 2", "noted 2: "},
		{"coffee is on the landing", "ok 0", ""},
		{"@sparks coffee?", "ok 0", ""},
		{"gap 84 2", "ask", "84 2: "},
		{"1", "ok 3", "cut 84-1/4\""},
		{"light l1 200 off west 41 off north", "ask", "that is outside kitchen"},
		{"light l1 26 off west 41 off north; gap nonsense", "no 5", "noted 4: kitchen light l1: 26\" off west"},
		{"#17", "no 1", "not saved: after # "},
		{"# 17 covered", "no 1", "not saved: after # "},
		{"#" + strings.Repeat("x", 65) + " covered", "no 1", "not saved: after # "},
		{"#17 @2026-05-04T09:12 note first", "ok 5", "noted 5: "},
		{"@2026-05-04T11:12:00+02:00 note second", "ok 6", "noted 6: "},
		{"@2026-05-04 note third", "no 1", "not saved: after @ "},
		{"#18 @9:12 note third", "no 5", "not saved: after @ "},
		{"@2026-05-04T10:31 note third", "no 1", "not saved: 2026-05-04T10:31 is still to come"},
		{"note \x1b[31mred", "no 6", "not saved: character 6 "},
		{"note æ\xff", "no 7", "not saved: character 7 "},
		{"note " + strings.Repeat("x", wire.MaxLine), "no 4097", "not saved: a line has at most 4096 bytes"},
		{"note " + strings.Repeat("x", wire.MaxLine-5), "ok 7", "noted 7: "},
		{"since", "ok 0", ""},
		{"since 99", "ok 0", ""},
		{"backup", "no 1", "no backups over this wire"},
	} {
		r := say(t, p, c.line)
		first := strings.Join(r.Lines, "\n")
		if !strings.HasPrefix(r.Status, c.status) || !strings.HasPrefix(first, c.first) || c.first == "" && first != "" {
			t.Errorf("%.60q was answered %q %.200q, want %q %q", c.line, r.Status, first, c.status, c.first)
		}
	}
	if diff := cmp.Diff([]int64{now.Unix() - 18*60, now.Unix() - 18*60}, sentOf(t, b, 5, 6)); diff != "" {
		t.Errorf("times sent (-want +got):\n%s", diff)
	}
}

func sentOf(t *testing.T, b *job.Jobs, seqs ...uint64) (at []int64) {
	t.Helper()
	for _, e := range entries(t, b) {
		for _, seq := range seqs {
			if e.Seq == seq {
				at = append(at, e.Sent.Unix())
			}
		}
	}
	return at
}

func entries(t *testing.T, b *job.Jobs) []job.Entry {
	t.Helper()
	j, err := b.Job(flat)
	if err != nil {
		t.Fatal(err)
	}
	list, err := j.Entries(context.Background(), 1, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// A repeated ID of the same NAME is the same message, over another connection or after a
// restart too.
func TestOnce(t *testing.T) {
	dir := t.TempDir()
	var first, question wiretest.Reply
	for round := range 3 {
		b := open(t, bot.Options{Dir: dir})
		addr, _, stop := tcp(t, wire.Config{Bot: b})
		p, other := join(t, addr, "lead"), join(t, addr, "hanger")
		if round == 0 {
			first, question = say(t, p, "#1 note the hatch stays"), say(t, p, "#2 gap 84 2")
			if first.Status != "ok 1" || question.Status != "ask" {
				t.Fatal(first, question)
			}
		}
		if diff := cmp.Diff(first, say(t, join(t, addr, "Lead"), "#1 note the hatch stays")); diff != "" {
			t.Errorf("round %d: the reply changed (-first +again):\n%s", round, diff)
		}
		if diff := cmp.Diff(question, say(t, p, "#2 gap 84 2")); diff != "" {
			t.Errorf("round %d: the question changed (-first +again):\n%s", round, diff)
		}
		if r := say(t, p, "#1 note the hatch goes"); r.Status != "no 0" || !strings.Contains(r.Lines[0], "#1 was another message") {
			t.Errorf("an id with another text was answered %q %q", r.Status, r.Lines)
		}
		if r := say(t, other, "#1 note the hatch is open"); r.Status != "ok 2" {
			t.Errorf("an id of another name was answered %q %q", r.Status, r.Lines)
		}
		stop()
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// Others see an entry once it is saved. A peer that reconnects can ask for what it missed.
func TestOthers(t *testing.T) {
	addr, _, _ := tcp(t, wire.Config{})
	lead, hanger, twin := join(t, addr, "lead"), join(t, addr, "hanger"), join(t, addr, "Lead")
	say(t, lead, "note one")
	say(t, lead, "covered")
	say(t, hanger, "note two")
	say(t, lead, "note three")
	for _, want := range []string{"+ 1 lead note one", "+ 3 lead note three"} {
		if len(hanger.Seen) > 0 {
			if hanger.Seen[0] != want {
				t.Errorf("hanger saw %q, want %q", hanger.Seen[0], want)
			}
			hanger.Seen = hanger.Seen[1:]
			continue
		}
		if got, err := hanger.Next(); err != nil || got != want {
			t.Errorf("hanger saw %q (%v), want %q", got, err, want)
		}
	}
	if got, err := twin.Next(); err != nil || got != "+ 2 hanger note two" {
		t.Errorf("lead's other phone saw %q (%v)", got, err)
	}
	late := join(t, addr, "taper")
	r := say(t, late, "since 2")
	want := []string{"+ 2 hanger note two", "+ 3 lead note three"}
	if diff := cmp.Diff(want, late.Seen); diff != "" || r.Status != "ok 3" || r.Lines != nil {
		t.Errorf("since was answered %q %q (-want +got):\n%s", r.Status, r.Lines, diff)
	}
	p := dial(t, addr)
	if r := say(t, p, "hello taper "+flat); r.Status != "ok 3" {
		t.Errorf("hello was answered %q", r.Status)
	}
}

// A replay of many pages is complete and in order.
func TestSinceManyPages(t *testing.T) {
	const n = 1000
	addr, _, _ := tcp(t, wire.Config{Limits: wire.Limits{Burst: 2 * n}})
	p := join(t, addr, "lead")
	for i := range n {
		if _, err := fmt.Fprintf(p.Conn, "note %d\n", i+1); err != nil {
			t.Fatal(err)
		}
		if i%100 == 99 { // a peer may pipeline, but has to read the replies as well
			for range 100 {
				if _, err := p.Reply(); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	if r := say(t, p, "since 1"); r.Seq() != n || len(p.Seen) != n {
		t.Fatalf("%d entries and %q, want %d", len(p.Seen), r.Status, n)
	}
	for i, line := range p.Seen {
		if want := fmt.Sprintf("+ %d lead note %d", i+1, i+1); line != want {
			t.Fatalf("line %d is %q, want %q", i, line, want)
		}
	}
}

// Entries are shown without the line ends and control characters they were sent with.
func TestClean(t *testing.T) {
	b := open(t, bot.Options{})
	j, err := b.Job(flat)
	if err != nil {
		t.Fatal(err)
	}
	// Other doors accept several lines and any character.
	_, err = j.Handle(t.Context(), message.In{Who: "evil\n+ 9 lead", Text: "note all \u202eclear\x1b[2J\r\u2028ok 7\x00 \u0085"})
	if err != nil {
		t.Fatal(err)
	}
	addr, _, _ := tcp(t, wire.Config{Bot: b})
	p := join(t, addr, "lead")
	say(t, p, "since 1")
	say(t, p, "log")
	bad := regexp.MustCompile(`[\pC\p{Zl}\p{Zp}]`)
	for _, line := range append(p.Seen, say(t, p, "log").Lines...) {
		if bad.MatchString(line) || line == "." {
			t.Errorf("shown as it came: %q", line)
		}
	}
	if len(p.Seen) != 1 {
		t.Errorf("%d entries were replayed: %q", len(p.Seen), p.Seen)
	}
}

func TestBackup(t *testing.T) {
	now := time.Date(2026, 5, 4, 9, 30, 0, 0, time.UTC)
	copies := 0
	addr, _, _ := tcp(t, wire.Config{
		Now: func() time.Time { return now },
		Backup: func(_ context.Context, job string) (string, error) {
			copies++
			return "backups/" + job, nil
		},
	})
	p := join(t, addr, "lead")
	if r := say(t, p, "backup"); r.Status != "ok 0" || r.Lines[0] != "copied to backups/"+flat {
		t.Errorf("backup was answered %q %q", r.Status, r.Lines)
	}
	if r := say(t, p, "backup"); r.Status != "no 1" || copies != 1 {
		t.Errorf("a second backup was answered %q %q", r.Status, r.Lines)
	}
	now = now.Add(time.Minute)
	if r := say(t, p, "backup"); r.Status != "ok 0" || copies != 2 {
		t.Errorf("a backup a minute later was answered %q %q", r.Status, r.Lines)
	}
}

func TestListen(t *testing.T) {
	const good = "three-planks-and-a-jack"
	for _, c := range []struct{ ip, pass, fault string }{
		{"127.0.0.1", "", ""},
		{"0.0.0.0", good, ""},
		{"0.0.0.0", "", "set a pass word"},
		{"192.0.2.1", "", "set a pass word"},
		{"0.0.0.0", "short", "at least 12 bytes"},
		{"127.0.0.1", "two words are none", "one word"},
	} {
		ln, err := wire.Listen(t.Context(), &net.TCPAddr{IP: net.ParseIP(c.ip)}, c.pass)
		if err == nil {
			ln.Close()
		}
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%q with pass word %q: %v", c.ip, c.pass, err)
		}
	}
}
