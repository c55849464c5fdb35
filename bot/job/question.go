package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/grammar"
)

// question is a sender's open question. Answering it means taking the lines of one
// of the Choices, or Base with the bare length or the missing words put in.
type question struct {
	Said    string           `json:"said"`
	Sent    int64            `json:"sent"`
	ID      string           `json:"id,omitempty"`   // of the thread it stands in
	From    string           `json:"from,omitempty"` // of the message that it asks about
	Why     string           `json:"why"`
	Choices []grammar.Choice `json:"choices,omitempty"`
	Rest    string           `json:"rest,omitempty"`   // what stood behind it in the message
	Base    string           `json:"base,omitempty"`   // a line that wants more words at its end
	Saved   bool             `json:"saved,omitempty"`  // what was said is saved; only more of it was asked for
	Edit    string           `json:"edit,omitempty"`   // it asks whether an edit of this message is meant
	Photos  []string         `json:"photos,omitempty"` // only in older logs: pictures that wait
}

// closed is a question that is no longer open.
type closed struct {
	question
	Who string `json:"who"`
	By  string `json:"by,omitempty"` // the message that answered it; "": it was dropped
}

// pick answers the open question with choice n.
func (t *turn) pick(open *question, n int) {
	if open == nil {
		return
	}
	if n < 1 || n > len(open.Choices) {
		t.again(open, fmt.Sprintf("there is no choice %d. ", n))
		return
	}
	if t.d.stale[t.who()] && t.in.Thread == "" {
		t.again(open, "still open: ")
		return
	}
	t.answering(open)
	t.choose(open.Choices[n-1], open.Rest)
}

// choose takes a choice, and then what waited behind its question.
func (t *turn) choose(c grammar.Choice, rest string) {
	if len(c.Lines) == 0 && c.Text == "" {
		t.show(answer.Tell("kept", nil, "kept as it was"))
		t.following(nil, rest)
		return
	}
	var behind []grammar.Line
	t.rest = strings.TrimSpace(rest + "\n" + t.rest)
	if len(c.Lines) > 0 {
		behind = c.Lines[1:]
		t.line(c.Lines[0])
	} else { // it asks once more, or was kept before choices were lines
		parts := grammar.Split(c.Text)
		rest = strings.TrimSpace(strings.Join(append(parts[1:], rest), "\n"))
		line, err := t.ctx().Parse(parts[0], false)
		switch e := err.(type) {
		case nil:
			t.line(line)
		case *grammar.Ask:
			t.take(answer.Ask(e.Why, "", e.Choices...))
		case *grammar.Refusal:
			t.show(answer.Refused(e))
		default:
			t.err = fmt.Errorf("choice %q cannot be read: %w", parts[0], err)
		}
	}
	if t.ans.asks() || t.err != nil || t.d.wait {
		return
	}
	t.following(behind, rest)
}

// answered takes line as the answer to the open question, and then what waited
// behind it.
func (t *turn) answered(open *question, line grammar.Line) {
	t.answering(open)
	t.rest = strings.TrimSpace(open.Rest + "\n" + t.rest)
	t.line(line)
	if !t.ans.asks() && t.err == nil && !t.d.wait {
		t.following(nil, open.Rest)
	}
}

// following answers what waited behind the question, in the same reply: lines of
// the choice, then text.
func (t *turn) following(lines []grammar.Line, text string) {
	parts := grammar.Split(text)
	for i := range len(lines) + len(parts) {
		var n *turn
		if i < len(lines) {
			n = t.d.turn(t.in, t.said, strings.Join(parts, "\n"))
			n.sent = t.sent
			n.line(lines[i])
		} else {
			part := parts[i-len(lines)]
			n = t.d.turn(t.in, part, strings.Join(parts[i-len(lines)+1:], "\n"))
			n.run(part)
		}
		if n.err != nil || t.d.wait {
			t.err = n.err
			return
		}
		if n.ans.Kind == "" {
			continue
		}
		t.ans.Reply = short(t.ans.Reply + "\n" + n.ans.Reply)
		t.ans.Notes = append(t.ans.Notes, n.ans.Notes...)
		if n.ans.Saved {
			t.ans.Seq, t.ans.Saved = n.ans.Seq, true
		}
		if n.ans.asks() {
			t.ans.Ask = n.ans.Ask
			return // what is left waits in that question
		}
	}
}

// answering makes this turn the answer to an open question: the note is the
// one that was sent first, at the time it was sent.
func (t *turn) answering(open *question) {
	t.close(open, t.in.ID)
	t.said = open.Said + " > " + t.said
	t.sent = time.UnixMilli(open.Sent)
	t.ans.Said, t.ans.When = t.said, t.sent.In(t.d.opt.Loc).Format(time.RFC3339)
}

// close forgets the sender's open question, and remembers what came of it where its
// message has an id: it may be edited or deleted later.
func (t *turn) close(open *question, by string) {
	delete(t.d.pending, t.who())
	delete(t.d.stale, t.who())
	t.d.batch.Pending[t.who()] = nil
	if open.From == "" || open.Saved {
		return
	}
	c := closed{*open, t.who(), by}
	t.d.closed[open.From] = c
	t.err = t.d.mark(closedMark+open.From, c)
}

// drop gives the open question up because the sender went on to something else.
func (t *turn) drop(open *question) {
	t.close(open, "")
	if open.Saved && open.Rest == "" {
		return
	}
	lost := append([]string{say.FirstLine(open.Said)}, grammar.Split(open.Rest)...)
	t.lead = append(t.lead, "dropped, not saved: "+strings.Join(lost, "; "))
}

// lost is the newest dropped question of the sender in the thread that the message
// stands in, where none is open there.
func (t *turn) lost(mine bool) *closed {
	if mine || t.in.Thread == "" {
		return nil
	}
	var found *closed
	for _, c := range t.d.closed {
		if c.By == "" && c.Who == t.who() && c.ID == t.in.Thread && (found == nil || c.Sent > found.Sent) {
			found = &c
		}
	}
	return found
}

// again repeats an open question.
func (t *turn) again(open *question, lead string) {
	t.ans.Said = t.said
	delete(t.d.stale, t.who())
	t.ans.Kind = kindAsk
	t.ans.Reply, t.ans.Ask = lead+shown(open.Why, open.Choices), []string{}
	for _, c := range open.Choices {
		t.ans.Ask = append(t.ans.Ask, c.Label)
	}
}

// ask keeps a question open. saved: the entry is taken, and the question is not asked aloud.
func (t *turn) ask(q *answer.Question, saved bool) {
	open := &question{
		Said: t.said, Sent: t.sent.UnixMilli(), ID: t.threadID(), From: t.in.ID, Why: q.Why, Base: q.Base, Choices: slices.Clone(q.Choices),
		Saved: saved,
	}
	if !saved {
		open.Rest = t.rest
	}
	t.keep(open)
	if !saved {
		t.again(open, "")
	}
}

// keep makes q the sender's open question.
func (t *turn) keep(q *question) {
	row, err := json.Marshal(q)
	if err != nil {
		t.err = err
		return
	}
	t.d.pending[t.who()] = q
	delete(t.d.stale, t.who())
	t.d.batch.Pending[t.who()] = row
}

func (t *turn) threadID() string {
	if t.in.Thread != "" {
		return t.in.Thread
	}
	return t.in.ID
}

// shown is a question as shown: its choices numbered.
func shown(why string, choices []grammar.Choice) string {
	var b strings.Builder
	b.WriteString(why)
	for i, c := range choices {
		fmt.Fprintf(&b, "  %d: %s", i+1, c.Label)
	}
	return b.String()
}

// choiceSaid is the number of the choice that text says in words: "west",
// "off west", "12 5/8". 0 when it says none, or could be two.
func choiceSaid(open *question, text string) int {
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
