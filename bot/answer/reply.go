// Package answer defines the input and the output of the handlers. A handler takes the job as it stands
// and one entry, and returns a Reply: what to save, say and ask. It changes nothing itself. The caller
// saves, and then has the reply word what was saved.
package answer

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/message"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
)

// Reply is the reply to one entry.
type Reply struct {
	Kind  string
	Room  string // room it is about, if not that of the entry
	Facts any
	Text  string
	Notes []message.Note
	Tell  []string // people who were given a value that this corrects
	// Pictures to go with it. The receipt stores what they are drawn from, not the images.
	Pictures []message.Picture
	Lead     []string // lines to put before all others

	Ask    *Question // the entry is not taken until this is answered
	More   *Question // the entry is taken; a bare answer would add to it
	Refuse *Refusal  // the entry is not taken

	// Save is logged before anything is said. Then is called with the new entries, when the state includes
	// them, and returns the reply.
	Save []event.Body
	Then func([]*site.Entry) Reply

	Sent time.Time // when what the entry says was so; set by [Ctx.AnswerLine]
	Here string    // room at hand; set by [Ctx.AnswerLine]

	// Over: refused because the message has used up its planning budget.
	Over bool
	// Work: something has to be planned before this can be answered. Ignore the rest of the reply.
	Work bool
	// Err is a failure of our own. Ignore the rest of the reply.
	Err error
}

// Question is waiting for the sender's answer: one of the Choices, or words to be added to Base.
type Question struct {
	Why     string
	Choices []grammar.Choice
	Base    string
	Lead    string // put before the words if they are only a length
	Before  bool   // the entry that led to it is taken after its answer
}

// Shown words a question, with its choices numbered.
func Shown(why string, choices []grammar.Choice) string {
	var b strings.Builder
	b.WriteString(why)
	for i, c := range choices {
		fmt.Fprintf(&b, "  %d: %s", i+1, c.Label)
	}
	return b.String()
}

// Refusal says what was not taken and what to type instead.
type Refusal struct {
	Col  int    // of Word, from 1; 0 if no single word is at fault
	Word string // as typed
	Want string // what would fit
	Hint string // what to type
	Say  string // replaces the reply made from the other fields
	// Lacks: something has to be noted before it, so the entry is kept as a note.
	Lacks bool
	// Asks is what is asked instead if the entry tells something; nil for most.
	Asks *Question
}

// Text words a refusal.
func (r *Refusal) Text() string {
	if r.Say != "" {
		return r.Say
	}
	return NotSaved + tried(r.Wrong(), r.Hint)
}

// NotSaved begins the reply to an entry that is refused.
const NotSaved = "not saved: "

// Wrong says which word is at fault, and what would fit there.
func (r *Refusal) Wrong() string {
	at := "at the end"
	if r.Word != "" {
		at = fmt.Sprintf("at %q (column %d)", r.Word, r.Col)
	}
	return at + " I expected " + r.Want
}

func tried(want, hint string) string {
	if hint != "" {
		return want + ". Try: " + hint
	}
	return want
}

// Refused is a refusal by the grammar.
func Refused(r *grammar.Refusal) Reply {
	if r.Plain {
		return Nothing(r.Want, r.Hint)
	}
	return Reply{Kind: "error", Refuse: &Refusal{Col: r.Col, Word: r.Word, Want: r.Want, Hint: r.Hint}}
}

// No refuses an entry because of the state of the job. want is what would fit, hint what to type.
func No(want, hint string) Reply {
	return Reply{Kind: "error", Refuse: &Refusal{Want: want, Hint: hint, Say: NotSaved + tried(want, hint)}}
}

// Nothing answers a question that has no answer.
func Nothing(want, hint string) Reply {
	return Reply{Kind: "error", Refuse: &Refusal{Want: want, Hint: hint, Say: tried(want, hint)}}
}

// Ask asks. base, if not "", is a line to which the answer is added.
func Ask(why, base string, choices ...grammar.Choice) Reply {
	return Reply{Kind: "ask", Ask: &Question{Why: why, Base: base, Choices: choices}}
}

// Asks asks a question of the grammar.
func Asks(a *grammar.Ask, base string) Reply {
	return Ask(a.Why, cmp.Or(base, a.Base), a.Choices...)
}

// Tell answers a question.
func Tell(kind string, facts any, text string) Reply {
	return Reply{Kind: kind, Facts: facts, Text: text}
}

// Save saves b, then words what was saved.
func Save(b event.Body, then func(*site.Entry) Reply) Reply {
	return Reply{Save: []event.Body{b}, Then: func(es []*site.Entry) Reply { return then(es[0]) }}
}

// Noted confirms an entry: its number, then what was understood.
func (c Ctx) Noted(e *site.Entry, kind string, facts any, text string) Reply {
	text = fmt.Sprintf("noted %d: %s", e.Seq, text)
	if c.Line.At != "" {
		text += ", as of " + c.Clock(c.Sent.UnixMilli())
	}
	return Reply{Kind: kind, Facts: facts, Text: text}
}

// Keep saves b and confirms it with text, if nothing has to be looked up afterwards.
func (c Ctx) Keep(b event.Body, kind, text string) Reply {
	return Save(b, func(e *site.Entry) Reply { return c.Noted(e, kind, nil, text) })
}

// Note adds a remark to the reply.
func (r *Reply) Note(kind, text string) {
	r.Notes = append(r.Notes, message.Note{Kind: kind, Text: text})
}

// Line adds a line to the answer, in order with the notes.
func (r *Reply) Line(text string) { r.Note("", text) }

// Join puts replies below one another; kind, facts and the like are those of the last.
func Join(all []Reply) Reply {
	r, before := all[len(all)-1], all[:len(all)-1]
	var text []message.Note
	var pictures []message.Picture
	for _, b := range before {
		text = append(append(text, message.Note{Text: b.Text}), b.Notes...)
		pictures = append(pictures, b.Pictures...)
	}
	r.Pictures = append(pictures, r.Pictures...)
	switch {
	case len(before) == 0:
	case r.Taken():
		r.Notes = slices.Concat(text[1:], []message.Note{{Text: r.Text}}, r.Notes)
		r.Text = before[0].Text
	default: // keep a question or a refusal by itself
		for _, n := range text {
			r.Lead = append(r.Lead, n.Text)
		}
	}
	return r
}

// Taken reports whether the entry was taken, neither refused nor asked about.
func (r Reply) Taken() bool { return r.Ask == nil && r.Refuse == nil && !r.Work && r.Err == nil }

// After applies f to the reply as it is once everything is saved.
func (r Reply) After(f func(Reply) Reply) Reply {
	if r.Work || r.Err != nil {
		return r
	}
	if r.Then == nil {
		return f(r)
	}
	then := r.Then
	r.Then = func(es []*site.Entry) Reply { return then(es).After(f) }
	return r
}
