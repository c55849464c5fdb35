package desk_test

import (
	"strings"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/desk"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/calc/work"
	"strapline/store"
)

// at is a desk whose messages come in a minute apart.
type at struct {
	*desk.Desk
	t    *testing.T
	sent time.Time
}

// newDesk returns a desk after those messages.
func newDesk(t *testing.T, said ...string) *at {
	t.Helper()
	l, err := ledger.New(ledger.Options{
		Name: "flat", Kinds: bot.Kinds(), Now: time.Now, Loc: time.UTC, Kept: new(inforce.Kept),
		Receipt: func(string) (store.Receipt, bool, error) { return store.Receipt{}, false, nil },
	}, site.New(), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	a := &at{desk.New(l), t, time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)}
	for _, s := range said {
		a.say(s)
	}
	return a
}

// say answers a message such as "sparks> light 26 off west", and returns the reply.
func (a *at) say(line string) string {
	a.t.Helper()
	who, text, _ := strings.Cut(line, "> ")
	a.sent = a.sent.Add(time.Minute)
	out, _, err := a.Answer(message.In{Who: who, Text: text, Sent: a.sent}, &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}, Here: true}, -1)
	if err != nil {
		a.t.Fatal(err)
	}
	return out.Text()
}
