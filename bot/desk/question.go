package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/grammar"
	"strapline/grammar/parse"
)

// pick answers the open question with choice n.
func (t *turn) pick(open *pending.Question, n int) {
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

// choose takes a choice as the answer, and then what waited for the question.
func (t *turn) choose(c grammar.Choice, rest string) {
	from, mid := len(t.d.Batch.Records), -1 // mid is where the records of what waited begin
	i := t.step
	defer func() {
		if mid < 0 {
			mid = len(t.d.Batch.Records)
		}
		t.settle(i, from, mid)
	}()
	if len(c.Lines) == 0 && c.Text == "" {
		t.show(answer.Tell("kept", nil, "kept as it was"))
		mid = from
		t.following(nil, rest, "")
		return
	}
	var behind []grammar.Line
	parts := parse.Split(c.Text)
	own := t.rest
	if len(c.Lines) > 0 {
		behind, parts = c.Lines[1:], nil
		t.rest = joined(append(texts(behind), rest, own)...)
		t.line(c.Lines[0])
	} else { // it leads to another question, or was stored before choices had lines
		first := parts[0]
		parts = parts[1:]
		t.rest = joined(append(slices.Clip(parts), rest, own)...)
		line, err := t.ctx().Parse(first, false)
		switch e := err.(type) {
		case nil:
			t.line(line)
		case *grammar.Ask:
			t.take(answer.Ask(e.Why, "", e.Choices...))
		case *grammar.Refusal:
			t.show(answer.Refused(e))
		default:
			t.err = fmt.Errorf("choice %q cannot be read: %w", first, err)
		}
	}
	if t.ans.Asks() || t.err != nil || t.d.wait {
		return
	}
	if t.following(behind, joined(parts...), rest) {
		mid = len(t.d.Batch.Records)
		t.following(nil, rest, "")
	}
}

// texts returns lines as they would be typed.
func texts(lines []grammar.Line) (all []string) {
	for _, l := range lines {
		all = append(all, l.String())
	}
	return all
}

func joined(texts ...string) string { return strings.TrimSpace(strings.Join(texts, "\n")) }

// answered takes line as the answer to the open question, and then what waited for it.
func (t *turn) answered(open *pending.Question, line grammar.Line) {
	t.answering(open)
	line.Sure = line.Sure || open.Room() != "" // its name was looked at before its size was asked for
	t.choose(grammar.Choice{Lines: []grammar.Line{line}}, open.Rest)
}

// following answers more in the same reply: lines of the choice, then text. after is what comes after
// both. It returns false if one of them leads to a question or fails.
func (t *turn) following(lines []grammar.Line, text, after string) bool {
	parts := parse.Split(text)
	for i := range len(lines) + len(parts) {
		var n *turn
		if i < len(lines) {
			n = t.d.turn(t.in, t.said, joined(append(append(texts(lines[i+1:]), parts...), after)...))
			n.of, n.sent = t.of, t.sent
			n.line(lines[i])
		} else {
			part := parts[i-len(lines)]
			n = t.d.turn(t.in, part, joined(append(slices.Clip(parts[i-len(lines)+1:]), after)...))
			n.of = t.of
			n.run(part, nil)
		}
		if n.err != nil || t.d.wait {
			t.err = n.err
			return false
		}
		if n.ans.Kind == "" {
			continue
		}
		t.ans.Reply = short(t.ans.Reply + "\n" + n.ans.Reply)
		t.ans.Notes = append(t.ans.Notes, n.ans.Notes...)
		if n.ans.Saved {
			t.ans.Seq, t.ans.Saved, t.ans.Kind, t.ans.Facts = n.ans.Seq, true, n.ans.Kind, n.ans.Facts
		}
		if n.ans.Asks() {
			t.ans.Ask = n.ans.Ask
			return false // what is left waits for that question
		}
	}
	return true
}

// answerSign separates the original words from the answer in the text of an entry.
const answerSign = " > "

// answering makes this turn the answer to an open question: the entry counts as sent when the original
// note was.
func (t *turn) answering(open *pending.Question) {
	t.close(open)
	t.of, t.step = open.From, len(t.d.Asked[open.From])-1
	t.said = open.Said + answerSign + t.said
	t.sent = time.UnixMilli(open.Sent)
	t.ans.Said, t.ans.When = t.said, t.sent.In(t.d.opt.Loc).Format(time.RFC3339)
}

// again repeats an open question.
func (t *turn) again(open *pending.Question, lead string) {
	t.ans.Said = t.said
	delete(t.d.stale, t.who())
	t.ans.Kind = message.KindAsk
	t.ans.Reply, t.ans.Ask = lead+answer.Shown(open.Why, open.Choices), []string{}
	for _, c := range open.Choices {
		t.ans.Ask = append(t.ans.Ask, c.Label)
	}
}

// ask keeps a question open. saved: the entry is taken, and the question is not asked aloud.
func (t *turn) ask(q *answer.Question, saved bool) {
	open := &pending.Question{
		Said: t.said, Sent: t.sent.UnixMilli(), ID: t.threadID(), From: t.of, Edit: t.edit, Why: q.Why, Base: q.Base, Lead: q.Lead, Keep: q.Keep, Choices: slices.Clone(q.Choices),
		Saved: saved, Line: t.asking,
	}
	if !saved {
		open.Rest = t.rest
	}
	t.keep(open)
	t.remember(t.of, append(slices.Clip(t.d.Asked[t.of]), Asked{Question: *open, Who: t.who()}))
	if !saved {
		t.again(open, "")
	}
}

func (t *turn) threadID() string {
	if t.in.Thread != "" {
		return t.in.Thread
	}
	return t.in.ID
}
