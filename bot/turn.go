package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// turn is the answering of one entry.
type turn struct {
	j       *Job
	st      *site.State
	in      In
	line    grammar.Line
	said    string // the entry as typed
	rest    string // what stands after it in the message
	room    *site.Room
	sent    time.Time
	ans     Answer
	lead    []string     // shown before the answer: "question dropped"
	strikes string       // the words of a strike that this entry brings with it
	before  []*site.Room // rooms planned before the one at hand, though nobody took their layouts
	fixing  bool         // a colleague's mark is moved on purpose
	err     error        // our own failure
}

// handle answers one message on the state.
func (j *Job) handle(in In) (Out, error) {
	now := j.opt.Now()
	if in.Sent.IsZero() {
		in.Sent = now
	}
	if len(in.Text) > MaxMessage {
		t := j.turn(in, in.Text[:40]+"…", "")
		t.fault(&grammar.Refusal{Col: MaxMessage + 1, Want: fmt.Sprintf("at most %d bytes a message", MaxMessage), Hint: "send it in parts"},
			fmt.Sprintf("not saved: %d bytes, the most is %d; send it in parts", len(in.Text), MaxMessage))
		return Out{Answers: []Answer{t.ans}}, nil
	}
	if in.Of != "" {
		return j.edited(in)
	}
	out, err := j.entries(in, grammar.Split(in.Text))
	if err == nil && len(in.Photos) > 0 {
		err = j.photos(in, &out)
	}
	return out, err
}

// entries answers the entries of one message, up to the first question: what
// stands behind it waits in it.
func (j *Job) entries(in In, entries []string) (Out, error) {
	var out Out
	for i, text := range entries {
		t := j.turn(in, text, strings.Join(entries[i+1:], "\n"))
		t.run(text)
		if t.err != nil {
			return Out{}, t.err
		}
		if t.ans.Kind == "" {
			continue
		}
		if len(t.lead) > 0 {
			t.ans.Reply = strings.Join(append(t.lead, t.ans.Reply), "\n")
		}
		out.Answers = append(out.Answers, t.ans)
		if t.ans.asks() {
			break // the rest waits in the question
		}
	}
	return out, nil
}

func (j *Job) turn(in In, said, rest string) *turn {
	return &turn{j: j, st: j.state, in: in, said: said, rest: rest, sent: in.Sent, ans: Answer{
		Who: in.Who, When: in.Sent.In(j.opt.Loc).Format(time.RFC3339), Job: j.name, Said: said,
	}}
}

// run reads one entry and answers it.
func (t *turn) run(text string) {
	who := strings.ToLower(t.in.Who)
	open := t.j.pending[who]
	mine := open != nil && (t.in.Thread == "" || open.ID == "" || t.in.Thread == open.ID)
	if n := choiceSaid(open, text); mine && n > 0 {
		delete(t.j.stale, who)
		t.pick(open, n)
		return
	}
	line, err := t.parse(text, mine)
	if open != nil && len(open.Photos) > 0 {
		t.photoNote(open, text, err)
		return
	}
	said := !errors.Is(err, grammar.ErrChatter) || strings.ContainsAny(text, "0123456789") || strings.HasPrefix(text, "on top")
	if err != nil && mine && open.Base != "" && said {
		if whole, werr := t.parse(open.Base+" "+text, false); werr == nil {
			t.answered(open, whole)
			return
		}
	}
	switch p := line.Entry.(type) {
	case grammar.Pick:
		t.pick(open, p.N)
		return
	case grammar.Bare:
		if open != nil && open.Base != "" {
			if whole, werr := t.parse(open.Base+" "+text, false); werr == nil {
				t.answered(open, whole)
				return
			}
		}
		if open != nil {
			t.again(open, "")
		}
		return
	}
	if errors.Is(err, grammar.ErrChatter) {
		if open != nil {
			t.j.stale[who] = true
		}
		return
	}
	if r, ok := errors.AsType[*grammar.Refusal](err); ok && r.Once && !t.in.Direct {
		if t.j.hinted[who] {
			return
		}
		t.j.hinted[who] = true
	}
	if r, ok := errors.AsType[*grammar.Refusal](err); ok {
		t.fault(r, "")
		if open != nil && !open.Saved { // nothing was said that could take its place
			delete(t.j.stale, who)
			t.ans.Reply += "\nstill open: " + question(open.Why, open.Choices)
		}
		return
	}
	if open != nil {
		t.drop(open)
	}
	switch e := err.(type) {
	case nil:
		t.entry(line)
	case *grammar.Ask:
		t.ask(e.Why, "", e.Choices...)
	default:
		t.err = err
	}
}

// parse reads text against the job; the walls' aliases are those of the room
// it speaks of.
func (t *turn) parse(text string, asked bool) (grammar.Line, error) {
	ctx := t.j.context(t.st.RoomOf(t.in.Who))
	ctx.Asked = asked
	line, err := grammar.Parse(text, ctx)
	if line.Room != "" {
		if r := t.st.Room(line.Room); r != nil && r != t.st.RoomOf(t.in.Who) {
			ctx = t.j.context(r)
			ctx.Asked = asked
			return grammar.Parse(text, ctx)
		}
	}
	return line, err
}

// context is what grammar must know of the job.
func (j *Job) context(here *site.Room) *grammar.Context {
	c := &grammar.Context{
		Units: j.state.Units(), Rooms: map[string]string{}, Walls: map[string]place.Wall{},
		Name: j.state.HasName, MaxWords: j.state.LongestName(), Noun: j.state.HasWord,
	}
	for _, r := range j.state.Rooms {
		if j.state.Room(r.Name) == nil {
			continue
		}
		c.Rooms[r.Name] = r.Name
		r.Aliases(func(alias string, w place.Wall) {
			if w == "" {
				c.Rooms[alias] = r.Name
			} else if _, taken := c.Walls[alias]; r == here || !taken {
				c.Walls[alias] = w
			}
		})
	}
	return c
}

// fault refuses the entry. say replaces the text that is made from r.
func (t *turn) fault(r *grammar.Refusal, say string) {
	if say == "" {
		say = refusalText(r)
	}
	t.ans.Kind, t.ans.Reply = kindError, say
	t.ans.Error = &Fault{Col: r.Col, Word: r.Word, Want: r.Want, Hint: r.Hint}
}

func refusalText(r *grammar.Refusal) string {
	at := "at the end"
	if r.Word != "" {
		at = fmt.Sprintf("at %q (column %d)", r.Word, r.Col)
	}
	s := fmt.Sprintf("not saved: %s I expected %s", at, r.Want)
	if r.Hint != "" {
		s += ". Try: " + r.Hint
	}
	return s
}

// no refuses with what the state says: want is what would fit, hint what to type.
func (t *turn) no(want, hint string) {
	s := "not saved: " + want
	if hint != "" {
		s += ". Try: " + hint
	}
	t.fault(&grammar.Refusal{Want: want, Hint: hint}, s)
}

// entry answers a line that was read.
func (t *turn) entry(line grammar.Line) {
	t.line = line
	if line.Room != "" {
		if t.room = t.st.Room(line.Room); t.room == nil {
			t.noRoom(line.Room)
			return
		}
	} else if t.room = t.st.RoomOf(t.in.Who); t.room == nil {
		t.room = t.st.OnlyRoom()
	}
	if !t.timed() {
		return
	}
	t.answer(line.Entry)
	if t.room != nil && t.ans.Room == "" && t.ans.Kind != kindError {
		t.ans.Room = t.room.Name
	}
}

// timed reads "at 9:58" and "before row 2".
func (t *turn) timed() bool {
	if t.line.At != "" {
		clock, err := time.Parse("15:04", t.line.At)
		if err != nil {
			t.no("a time like 9:58", "")
			return false
		}
		day := t.sent.In(t.j.opt.Loc)
		at := time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, t.j.opt.Loc)
		// The last time before the message that the clock showed so, morning or
		// afternoon: nobody on a ladder says which.
		if !t.line.Exact && at.Hour() < 12 && !at.Add(12*time.Hour).After(day) {
			at = at.Add(12 * time.Hour)
		}
		if ahead := at.Sub(day); ahead > 0 && ahead <= 30*time.Minute {
			at = day // a phone's clock that is a little fast
		}
		if at.After(day) {
			at = at.AddDate(0, 0, -1)
			if !t.line.Exact && at.Hour() < 12 {
				at = at.Add(12 * time.Hour)
			}
		}
		t.sent = at
	}
	row := max(t.line.Before, t.line.After)
	if row > 0 {
		if !t.needRoom() {
			return false
		}
		for _, p := range t.room.Pieces(place.Ceiling) {
			if p.Row != row {
				continue
			}
			at := time.UnixMilli(p.Entry.Sent)
			if t.line.Before > 0 {
				t.sent = at.Add(-time.Millisecond)
			} else {
				t.sent = at.Add(time.Millisecond)
			}
			t.ans.When = t.sent.In(t.j.opt.Loc).Format(time.RFC3339)
			return true
		}
		t.no(fmt.Sprintf("row %d has not been reported hung in %s", row, t.room.Name), fmt.Sprintf("hung row %d", row))
		return false
	}
	t.ans.When = t.sent.In(t.j.opt.Loc).Format(time.RFC3339)
	return true
}

// needRoom makes sure that the entry has a room, or asks which.
func (t *turn) needRoom() bool {
	if t.room != nil {
		return true
	}
	var choices []choice
	for _, r := range t.st.Standing() {
		line := t.line
		line.Room = r.Name
		choices = append(choices, choice{Label: r.Name, Text: line.String()})
		if len(choices) == 9 {
			break
		}
	}
	if len(choices) == 0 {
		t.no("no room is noted yet", "room kitchen 13' 4 x 11' 9")
		return false
	}
	t.ask("which room?", "", choices...)
	return false
}

func (t *turn) noRoom(name string) {
	hint := "room " + name + " 13' 4 x 11' 9"
	t.no(fmt.Sprintf("there is no room %q", name), hint)
}

// as is the line with another entry in it, as a choice to be picked.
func (t *turn) as(label string, e grammar.Entry) choice {
	line := t.line
	line.Entry = e
	if line.Room == "" && t.room != nil && len(t.st.Rooms) > 1 {
		line.Room = t.room.Name
	}
	return choice{Label: label, Text: line.String()}
}

// save folds the event in; nil means it failed on our side.
func (t *turn) save(b site.Body) *site.Entry {
	text := t.said
	if _, ok := b.(site.Strike); ok && t.strikes != "" {
		text = t.strikes
	}
	e, err := t.j.save(site.Event{
		Who: t.in.Who, Sent: t.sent.UnixMilli(), Got: t.j.opt.Now().UnixMilli(), ID: t.in.ID, Text: text, Body: b,
	})
	if err != nil {
		t.err = err
		return nil
	}
	if !hidden(b) {
		t.ans.Seq, t.ans.Saved, t.ans.Room = e.Seq, true, e.Room
	}
	return e
}

// noted sets the answer of a saved entry: its number, then what was understood.
func (t *turn) noted(kind string, facts any, text string) {
	t.ans.Kind, t.ans.Facts = kind, facts
	t.ans.Reply = fmt.Sprintf("noted %d: %s", t.ans.Seq, text)
	if t.line.At != "" {
		t.ans.Reply += ", as of " + t.clock(t.sent.UnixMilli())
	}
}

// tell sets the answer to a question.
func (t *turn) tell(kind string, facts any, text string) {
	t.ans.Kind, t.ans.Facts, t.ans.Reply = kind, facts, text
}

// note puts a remark beside the answer and under its text.
func (t *turn) note(kind, text string) {
	if slices.Contains(t.ans.Notes, Note{kind, text}) {
		return
	}
	t.ans.Notes = append(t.ans.Notes, Note{kind, text})
	t.ans.Reply += "\n" + text
}

func (t *turn) units() length.Units { return t.st.Units() }

// f prints a length for people.
func (t *turn) f(l length.Length) string { return length.Format(l, t.st.Units()) }

func firstLine(s string) string {
	line, _, more := strings.Cut(s, "\n")
	if more {
		line += " …"
	}
	return line
}
