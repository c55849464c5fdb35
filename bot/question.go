package bot

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"strapline/grammar"
)

// pending is a sender's open question. Answering it means handling one of the
// Choices, or Base with the bare length or the missing words put in.
type pending struct {
	Said    string   `json:"said"`
	Sent    int64    `json:"sent"`
	ID      string   `json:"id,omitempty"`
	Why     string   `json:"why"`
	Choices []choice `json:"choices,omitempty"`
	Rest    string   `json:"rest,omitempty"`   // what stood behind it in the message
	Base    string   `json:"base,omitempty"`   // a line that wants more words at its end
	Saved   bool     `json:"saved,omitempty"`  // what was said is saved; only more of it was asked for
	Photos  []string `json:"photos,omitempty"` // pictures that wait for the note they belong to
}

// pick answers the open question with choice n.
func (t *turn) pick(open *pending, n int) {
	who := strings.ToLower(t.in.Who)
	if open == nil {
		return
	}
	if n < 1 || n > len(open.Choices) {
		t.again(open, fmt.Sprintf("there is no choice %d. ", n))
		return
	}
	if t.j.stale[who] && t.in.Thread == "" {
		t.again(open, "still open: ")
		return
	}
	t.answering(open)
	parts := grammar.Split(open.Choices[n-1].String())
	if open.Choices[n-1].String() == "" {
		t.tell("kept", nil, "kept as it was")
		t.following(open.Rest)
		return
	}
	behind := strings.TrimSpace(strings.Join(append(parts[1:], open.Rest), "\n"))
	t.rest = strings.TrimSpace(behind + "\n" + t.rest)
	line, err := t.parse(parts[0], false)
	switch e := err.(type) {
	case nil:
		t.entry(line)
	case *grammar.Ask:
		t.ask(e.Why, "", e.Choices...)
	case *grammar.Refusal:
		t.fault(e, "")
	default:
		t.err = fmt.Errorf("choice %q cannot be read: %w", parts[0], err)
	}
	if t.ans.asks() || t.err != nil {
		return
	}
	t.following(behind)
}

// answered takes line as the answer to the open question, and then what waited
// behind it.
func (t *turn) answered(open *pending, line grammar.Line) {
	t.answering(open)
	own := t.rest
	t.rest = strings.TrimSpace(open.Rest + "\n" + own)
	t.entry(line)
	if !t.ans.asks() && t.err == nil {
		t.following(open.Rest)
	}
}

// following answers what waited behind the question, in the same reply.
func (t *turn) following(text string) {
	parts := grammar.Split(text)
	for i, part := range parts {
		n := t.j.turn(t.in, part, strings.Join(parts[i+1:], "\n"))
		n.run(part)
		if n.err != nil {
			t.err = n.err
			return
		}
		if n.ans.Kind != "" {
			t.ans.Reply += "\n" + n.ans.Reply
			t.ans.Notes = append(t.ans.Notes, n.ans.Notes...)
		}
		if n.ans.asks() {
			t.ans.Ask = n.ans.Ask
			return // what is left waits in that question
		}
	}
}

// answering makes this turn the answer to an open question: the note is the
// one that was sent first, at the time it was sent.
func (t *turn) answering(open *pending) {
	t.close()
	t.said = open.Said + " > " + t.said
	t.sent = time.UnixMilli(open.Sent)
	t.ans.Said, t.ans.When = t.said, t.sent.In(t.j.opt.Loc).Format(time.RFC3339)
}

// close forgets the sender's open question.
func (t *turn) close() {
	who := strings.ToLower(t.in.Who)
	delete(t.j.pending, who)
	delete(t.j.stale, who)
	t.j.batch.Pending[who] = nil
}

// drop gives the open question up because the sender went on to something else.
func (t *turn) drop(open *pending) {
	t.close()
	if open.Saved && open.Rest == "" {
		return
	}
	lost := append([]string{firstLine(open.Said)}, grammar.Split(open.Rest)...)
	t.lead = append(t.lead, "dropped, not saved: "+strings.Join(lost, "; "))
}

// again repeats an open question.
func (t *turn) again(open *pending, lead string) {
	t.ans.Said = t.said
	delete(t.j.stale, strings.ToLower(t.in.Who))
	t.ans.Kind = kindAsk
	t.ans.Reply, t.ans.Ask = lead+question(open.Why, open.Choices), []string{}
	for _, c := range open.Choices {
		t.ans.Ask = append(t.ans.Ask, c.Label)
	}
}

// ask keeps the entry as an open question. base, when given, is a line that
// the answer is added to.
func (t *turn) ask(why, base string, choices ...choice) {
	who := strings.ToLower(t.in.Who)
	p := &pending{Said: t.said, Sent: t.sent.UnixMilli(), ID: t.threadID(), Why: why, Base: base, Choices: choices, Rest: t.rest}
	t.j.pending[who] = p
	delete(t.j.stale, who)
	t.keep(p)
	t.again(p, "")
}

// keep puts the sender's open question with what is to be committed.
func (t *turn) keep(p *pending) {
	row, err := json.Marshal(p)
	if err != nil {
		t.err = err
		return
	}
	t.j.batch.Pending[strings.ToLower(t.in.Who)] = row
}

func (t *turn) threadID() string {
	if t.in.Thread != "" {
		return t.in.Thread
	}
	return t.in.ID
}

// question is a question as shown: its choices numbered.
func question(why string, choices []choice) string {
	var b strings.Builder
	b.WriteString(why)
	for i, c := range choices {
		fmt.Fprintf(&b, "  %d: %s", i+1, c.Label)
	}
	return b.String()
}

// choiceSaid is the number of the choice that text says in words: "west",
// "off west", "12 5/8". 0 when it says none, or could be two.
func choiceSaid(open *pending, text string) int {
	if open == nil {
		return 0
	}
	said := plainWords(text)
	found := 0
	for i, c := range open.Choices {
		if said != "" && plainWords(c.Label) == said {
			if found > 0 {
				return 0
			}
			found = i + 1
		}
	}
	return found
}

// plainWords is a short answer without what people put around it.
func plainWords(s string) string {
	s = strings.NewReplacer("\"", "", "-", " ", ",", " ", ".", " ", "!", " ").Replace(strings.ToLower(s))
	var out []string
	for w := range strings.FieldsSeq(s) {
		switch w {
		case "off", "the", "wall", "please", "pls", "in", "on", "from":
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}
