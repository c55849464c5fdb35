package turn

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/grammar"
	"strapline/grammar/sentences"
)

// pick answers the open question with choice n.
func (t *Turn) pick(open *pending.Question, n int) {
	if open == nil {
		return
	}
	if n < 1 || n > len(open.Choices) {
		t.again(open, fmt.Sprintf("there is no choice %d. ", n))
		return
	}
	if t.l.Stale[t.Who()] && t.in.Thread == "" {
		t.again(open, "still open: ")
		return
	}
	t.answering(open)
	t.choose(open.Choices[n-1], open.Rest)
	t.keepsAnswered(open)
}

// fewestTelling is how many words a message has, at least, that is kept when nothing comes of it: "wrong room" tells nothing.
const fewestTelling = 4

// keepsRefused keeps a message as a note when what it, or the answer to a question about it, came to is refused.
func (t *Turn) keepsRefused(text string) {
	why, refused := strings.CutPrefix(t.Ans.Reply, answer.NotSaved)
	text = Original(text)
	if t.Err != nil || t.l.Wait || !refused || t.Ans.Saved || len(strings.Fields(text)) < fewestTelling {
		return
	}
	b := event.Note{Text: text}
	if r := t.l.State.RoomOf(t.in.Who); r != nil {
		b.Room = r.Name
	}
	if e := t.Save(b); e != nil {
		t.Ans.Kind, t.Ans.Error, t.Ans.Reply = "note", nil, short(fmt.Sprintf("kept as note %d, not on the plan: %s\n%s", e.Seq, say.FirstWords(text), why))
	}
}

// keepsAnswered keeps the message behind a question if its answer is refused.
func (t *Turn) keepsAnswered(open *pending.Question) {
	if !open.Saved && !open.OnlyAsks(t.l.Opt.Kinds) && !strings.HasPrefix(open.Why, pending.NothingSaved) {
		t.keepsRefused(open.Said)
	}
}

// choose takes a choice as the answer, and then what waited for the question.
func (t *Turn) choose(c grammar.Choice, rest string) {
	from, mid := len(t.l.Batch.Records), -1 // mid is where the records of what waited begin
	i := t.step
	defer func() {
		if mid < 0 {
			mid = len(t.l.Batch.Records)
		}
		t.settle(i, from, mid)
	}()
	if len(c.Lines) == 0 && c.Text == "" {
		t.Show(answer.Tell("kept", nil, "kept as it was"))
		mid = from
		t.following(nil, rest, "")
		return
	}
	var behind []grammar.Line
	parts := sentences.Split(c.Text)
	own := t.Rest
	if len(c.Lines) > 0 {
		behind, parts = c.Lines[1:], nil
		t.Rest = Joined(append(texts(behind), rest, own)...)
		t.line(c.Lines[0])
	} else { // it leads to another question, or was stored before choices had lines
		first := parts[0]
		parts = parts[1:]
		t.Rest = Joined(append(slices.Clip(parts), rest, own)...)
		line, err := t.Ctx().Parse(first, false)
		switch e := err.(type) {
		case nil:
			t.line(line)
		case *grammar.Ask:
			t.Take(answer.Asks(e, ""))
		case *grammar.Refusal:
			if e.Keep {
				t.keeps(Original(t.Said), line.Room, e)
			} else {
				t.Show(answer.Refused(e))
			}
		default:
			t.Err = fmt.Errorf("choice %q cannot be read: %w", first, err)
		}
	}
	if t.Ans.Asks() || t.Err != nil || t.l.Wait {
		return
	}
	if t.following(behind, Joined(parts...), rest) {
		mid = len(t.l.Batch.Records)
		t.following(nil, rest, "")
	}
}

// texts returns lines as they would be typed.
func texts(lines []grammar.Line) []string { return say.Each(lines, grammar.Line.String) }

// Joined puts texts on lines of their own.
func Joined(texts ...string) string { return strings.TrimSpace(strings.Join(texts, "\n")) }

// answered takes line as the answer to the open question, and then what waited for it.
func (t *Turn) answered(open *pending.Question, line grammar.Line) {
	t.answering(open)
	line.Sure = line.Sure || open.Room() != "" // its name was looked at before its size was asked for
	t.choose(grammar.Choice{Lines: []grammar.Line{line}}, open.Rest)
	t.keepsAnswered(open)
}

// following answers more in the same reply: lines of the choice, then text. after is what comes after
// both. It returns false if one of them leads to a question or fails.
func (t *Turn) following(lines []grammar.Line, text, after string) bool {
	parts := sentences.Split(text)
	for i := range len(lines) + len(parts) {
		var n *Turn
		if i < len(lines) {
			n = New(t.l, t.in, t.Said, Joined(append(append(texts(lines[i+1:]), parts...), after)...))
			n.Of, n.sent = t.Of, t.sent
			n.line(lines[i])
		} else {
			part := parts[i-len(lines)]
			n = New(t.l, t.in, part, Joined(append(slices.Clip(parts[i-len(lines)+1:]), after)...))
			n.Of = t.Of
			n.Run(part, nil)
		}
		if n.Err != nil || t.l.Wait {
			t.Err = n.Err
			return false
		}
		if n.Ans.Kind == "" {
			continue
		}
		t.Ans.Reply = short(t.Ans.Reply + "\n" + n.Ans.Reply)
		t.Ans.Notes = append(t.Ans.Notes, n.Ans.Notes...)
		if n.Ans.Saved {
			t.Ans.Seq, t.Ans.Saved, t.Ans.Kind, t.Ans.Facts = n.Ans.Seq, true, n.Ans.Kind, n.Ans.Facts
		}
		if n.Ans.Asks() {
			t.Ans.Ask = n.Ans.Ask
			return false // what is left waits for that question
		}
	}
	return true
}

// AnswerSign separates the original words from the answer in the text of an entry.
const AnswerSign = " > "

// Original is what was sent before the answers in the text of an entry.
func Original(text string) string {
	text, _, _ = strings.Cut(text, AnswerSign)
	return text
}

// answering makes this turn the answer to an open question: the entry counts as sent when the original
// note was.
func (t *Turn) answering(open *pending.Question) {
	t.Close(t.Who(), open)
	t.Part = false // it stands for the message that was asked about
	t.Of, t.step = open.From, len(t.l.Asked[open.From])-1
	t.Said = open.Said + AnswerSign + t.Said
	t.sent = time.UnixMilli(open.Sent)
	t.Ans.Said, t.Ans.When = t.Said, t.sent.In(t.l.Opt.Loc).Format(time.RFC3339)
}

// again repeats an open question.
func (t *Turn) again(open *pending.Question, lead string) {
	t.Ans.Said = t.Said
	ledger.Set(t.l, t.l.Stale, t.Who(), false)
	t.Ans.Kind = message.KindAsk
	t.Ans.Reply, t.Ans.Ask = lead+answer.Shown(open.Why, open.Choices), []string{}
	for _, c := range open.Choices {
		t.Ans.Ask = append(t.Ans.Ask, c.Label)
	}
}

// ask keeps a question open. saved: the entry is taken, and the question is not asked aloud.
func (t *Turn) ask(q *answer.Question, saved bool) {
	open := &pending.Question{
		Said: t.Said, Sent: t.sent.UnixMilli(), ID: t.ThreadID(), From: t.Of, Edit: t.edit, Why: q.Why, Base: q.Base, Lead: q.Lead, Choices: slices.Clone(q.Choices),
		Saved: saved, Line: t.asking,
	}
	if !saved {
		open.Rest = t.Rest
	}
	t.keep(open)
	t.Remember(t.Of, append(slices.Clip(t.l.Asked[t.Of]), ledger.Asked{Question: *open, Who: t.Who()}))
	if !saved {
		t.again(open, "")
	}
}

func (t *Turn) ThreadID() string {
	if t.in.Thread != "" {
		return t.in.Thread
	}
	return t.in.ID
}
