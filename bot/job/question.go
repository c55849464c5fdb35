package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// question is an open question of a sender. It is answered by the lines of one of its Choices, or by Base
// with a bare length or the missing words added.
type question struct {
	Said    string           `json:"said"`
	Sent    int64            `json:"sent"`
	ID      string           `json:"id,omitempty"`   // thread it is in
	From    string           `json:"from,omitempty"` // message it is about, in its first version
	Why     string           `json:"why"`
	Choices []grammar.Choice `json:"choices,omitempty"`
	Rest    string           `json:"rest,omitempty"`   // what followed it in the message
	Base    string           `json:"base,omitempty"`   // line to be completed by the answer
	Lead    string           `json:"lead,omitempty"`   // word to put before a bare length in the answer
	Keep    bool             `json:"keep,omitempty"`   // becomes a note if it is given up
	Saved   bool             `json:"saved,omitempty"`  // the note is saved, and only more about it was asked for
	Edit    string           `json:"edit,omitempty"`   // message whose edit it asks about
	Photos  []string         `json:"photos,omitempty"` // only in older logs: waiting pictures
	Under   *question        `json:"under,omitempty"`  // next older open question
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

// choose takes a choice as the answer, and then what waited for the question.
func (t *turn) choose(c grammar.Choice, rest string) {
	from, mid := len(t.d.batch.Records), -1 // mid is where the records of what waited begin
	i := t.step
	defer func() {
		if mid < 0 {
			mid = len(t.d.batch.Records)
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
		mid = len(t.d.batch.Records)
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
func (t *turn) answered(open *question, line grammar.Line) {
	t.answering(open)
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
			t.ans.Seq, t.ans.Saved = n.ans.Seq, true
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
func (t *turn) answering(open *question) {
	t.close(open)
	delete(t.d.reminded, t.who())
	t.of, t.step = open.From, len(t.d.asked[open.From])-1
	t.said = open.Said + answerSign + t.said
	t.sent = time.UnixMilli(open.Sent)
	t.ans.Said, t.ans.When = t.said, t.sent.In(t.d.opt.Loc).Format(time.RFC3339)
}

// fuller reports whether a line says in full what the question asks about: a line of one of its choices,
// or its base completed.
func (q *question) fuller(c answer.Ctx, line grammar.Line) bool {
	if q.Saved {
		return false
	}
	text := line.Entry.String()
	if e, ok := line.Entry.(things.Opened); ok && len(e.Names) == 1 { // "opened the first pot" names one of those in question
		c.Room = cmp.Or(c.State.Room(line.Room), c.State.RoomOf(c.Who), c.State.OnlyRoom())
		if all := c.Named(e.Names[0]); len(all) == 1 {
			text = things.Opened{Names: []string{all[0].Name}}.String()
		}
	}
	for _, c := range q.Choices {
		for _, l := range c.Lines {
			if said := l.Entry.String(); said == text || named(text) && subject(said) == subject(text) {
				return true
			}
		}
	}
	if of := q.supports(); of != "" && of == framing(line.Entry) {
		return true
	}
	if q.Base == "" || q.room() != "" {
		return q.Base != "" && q.asksFor(line.Entry)
	}
	if _, ok := line.Entry.(things.Thing); ok && !named(text) && !sameFigures(q.base(), text) { // another light
		return false
	}
	return subject(q.base()) == subject(text)
}

// supports returns the supports that a question is about, such as the straps of a surface; "" if it is not
// about framing.
func (q *question) supports() string {
	for _, c := range q.Choices {
		for _, l := range c.Lines[:min(len(c.Lines), 1)] {
			return framing(l.Entry)
		}
	}
	if word, _, _ := strings.Cut(q.base(), " "); framings[word] {
		return word
	}
	return ""
}

func framing(e grammar.Entry) string {
	if set, ok := e.(rooms.SupportSet); ok {
		return strings.TrimSpace(string(set.What) + " " + string(set.Surface))
	}
	return ""
}

var framings = map[string]bool{"straps": true, "joists": true, "studs": true, "channels": true}

// sameFigures reports whether whole contains all the numbers in part.
func sameFigures(part, whole string) bool {
	figures := func(s string) []string { return strings.FieldsFunc(s, func(r rune) bool { return r < '0' || r > '9' }) }
	all := figures(whole)
	return !slices.ContainsFunc(figures(part), func(n string) bool { return !slices.Contains(all, n) })
}

// base returns the line to be completed, without its room.
func (q *question) base() string {
	if _, base, roomed := strings.Cut(q.Base, ": "); roomed {
		return base
	}
	return q.Base
}

// asksFor reports whether an entry is of the kind that the question asks about. Words that complete the
// base to any other entry are no answer.
func (q *question) asksFor(e grammar.Entry) bool {
	if room := q.room(); room != "" {
		r, ok := e.(rooms.Room)
		return ok && r.Name == room
	}
	said := strings.Fields(e.String())
	return len(said) > 0 && said[0] == strings.Fields(q.base())[0]
}

// led reports whether a question that the completed base led to is still about the same kind of entry.
func (q *question) led(ask *grammar.Ask) bool {
	for _, c := range ask.Choices {
		for _, l := range c.Lines[:min(len(c.Lines), 1)] {
			if !q.asksFor(l.Entry) {
				return false
			}
		}
	}
	return true
}

// begun returns the number of the choice whose first line was said, such as "north is window wall"; 0 if
// none was.
func (q *question) begun(line grammar.Line, err error) int {
	if q == nil || err != nil {
		return 0
	}
	way, run := line.Entry.(rooms.SupportSet)
	return 1 + slices.IndexFunc(q.Choices, func(c grammar.Choice) bool {
		if run && len(c.Lines) == 1 { // "they run the short way"
			set, ok := c.Lines[0].Entry.(rooms.SupportSet)
			if way.What = set.What; ok && way.Run == set.Run && way.String() == (rooms.SupportSet{What: set.What, Run: set.Run}).String() {
				return true
			}
		}
		return strings.HasPrefix(c.Text, line.Entry.String()+"\n")
	})
}

// subject returns what a line is about: its kind, and its name if it has one.
func subject(text string) string {
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	if named(text) {
		return words[0] + " " + words[1]
	}
	return words[0]
}

// named reports whether a line's second word is a name, such as d1.
func named(text string) bool {
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	return len(words) > 1 && unicode.IsLetter(rune(words[1][0])) && strings.ContainsAny(words[1], "0123456789")
}

// again repeats an open question.
func (t *turn) again(open *question, lead string) {
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
	open := &question{
		Said: t.said, Sent: t.sent.UnixMilli(), ID: t.threadID(), From: t.of, Edit: t.edit, Why: q.Why, Base: q.Base, Lead: q.Lead, Keep: q.Keep, Choices: slices.Clone(q.Choices),
		Saved: saved,
	}
	if !saved {
		open.Rest = t.rest
	}
	t.keep(open)
	t.remember(t.of, append(slices.Clip(t.d.asked[t.of]), asked{question: *open, Who: t.who()}))
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

// choiceSaid returns the number of the choice that text names: "west", "off west", "12 5/8". It returns 0
// if it names none or several.
func choiceSaid(open *question, text string) int {
	if open == nil {
		return 0
	}
	said := plainWords(text)
	if said == "" {
		return 0
	}
	offered := len(open.Choices)
	if offered > 0 && strings.HasPrefix(open.Choices[offered-1].Label, "no: ") {
		if said == "no" {
			return offered
		}
		offered--
	}
	if offered == 1 && yes[said] {
		return 1
	}
	spelled := plainWords(strings.ReplaceAll(text, "\"", " inches"))
	var whole, head []int // choices whose label it is, or whose label it begins: "another one" for "another one, call it d2"
	for i, c := range open.Choices {
		begin, _, _ := strings.Cut(c.Label, ",")
		if label := plainWords(c.Label); label == said || label == spelled {
			whole = append(whole, i+1)
		}
		if plainWords(begin) == said {
			head = append(head, i+1)
		}
	}
	if len(whole) == 0 {
		whole = head
	}
	if len(whole) == 1 {
		return whole[0]
	}
	return 0
}

// yes are the words that take the only choice.
var yes = map[string]bool{"yes": true, "yep": true, "yeah": true, "yup": true, "y": true, "right": true, "correct": true, "ok": true}

// plainWords reduces a short answer to the words that matter.
func plainWords(s string) string {
	s = strings.NewReplacer("\"", "", "-", " ", ",", " ", ".", " ", "!", " ").Replace(strings.ToLower(s))
	var out []string
	for w := range strings.FieldsSeq(s) {
		switch w {
		case "inch":
			w = "inches"
		case "off", "a", "the", "wall", "please", "pls", "in", "on", "from", "to", "it", "its", "it's", "is", "they", "run", "runs", "going", "that", "thats", "that's", "one", "hit":
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}
