// Package answer is what an answer is made from and made of. A handler takes the
// job as it stands and one entry, and gives a Reply: what to save, what to say,
// what to ask. It changes nothing itself; whoever called it saves, and asks the
// reply to say what was saved.
package answer

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/calc/site"
	"strapline/grammar"
)

// Reply is what is answered to one entry.
type Reply struct {
	Kind  string
	Room  string // the room it speaks of, when that is not the entry's
	Facts any
	Text  string
	Notes []Note
	Tell  []string // people who were given a value that this corrects
	// Pictures go with it: the receipt keeps what they are drawn from, not the pictures.
	Pictures []Picture
	Lead     []string // lines that come before it all

	Ask    *Question // the entry is not taken until this is answered
	More   *Question // the entry is taken; a bare answer to this would add to it
	Refuse *Refusal  // the entry is not taken

	// Save goes into the log before anything is said; Then is called with the entries
	// made, when the job stands with them, and gives the reply.
	Save []site.Body
	Then func([]*site.Entry) Reply

	Sent time.Time // when the entry was so; set by [Ctx.AnswerLine]
	Here string    // the room at hand; set by [Ctx.AnswerLine]

	// Over: it is refused because the message has had all the planning that one gets.
	Over bool
	// Work: something has to be planned before this can be answered at all. Nothing
	// else of the reply counts.
	Work bool
	// Err is a failure on our side. Nothing else of the reply counts.
	Err error
}

// Note is a warning or a remark beside the answer, on a line of its own below it.
// One without a kind is a further line of the answer itself.
type Note struct {
	Kind string `json:"kind"` // clash, covered, late, caution, moved, told, check, assumed
	Text string `json:"text"`
	Said bool   `json:"-"` // the answer says it already
}

// Question waits for the sender's answer: one of the Choices, or words that are
// put behind Base.
type Question struct {
	Why     string
	Choices []grammar.Choice
	Base    string
	Lead    string // goes before the words, when they are only a length
	Keep    bool   // what it asks about is kept as a note when nobody answers
}

// Shown is a question as shown: its choices numbered.
func Shown(why string, choices []grammar.Choice) string {
	var b strings.Builder
	b.WriteString(why)
	for i, c := range choices {
		fmt.Fprintf(&b, "  %d: %s", i+1, c.Label)
	}
	return b.String()
}

// Refusal says what could not be taken and what to type instead.
type Refusal struct {
	Col  int    // of Word, from 1; 0: no one word is at fault
	Word string // as typed
	Want string // what would fit
	Hint string // what to type
	Say  string // the reply, when it is not made from these
}

// Text is what a refusal says.
func (r *Refusal) Text() string {
	if r.Say != "" {
		return r.Say
	}
	at := "at the end"
	if r.Word != "" {
		at = fmt.Sprintf("at %q (column %d)", r.Word, r.Col)
	}
	return "not saved: " + at + " I expected " + tried(r.Want, r.Hint)
}

func tried(want, hint string) string {
	if hint != "" {
		return want + ". Try: " + hint
	}
	return want
}

// Refused is a refusal of the grammar.
func Refused(r *grammar.Refusal) Reply {
	if r.Plain {
		return Nothing(r.Want, r.Hint)
	}
	return Reply{Kind: "error", Refuse: &Refusal{Col: r.Col, Word: r.Word, Want: r.Want, Hint: r.Hint}}
}

// No refuses an entry by what the job says: want is what would fit, hint what to type.
func No(want, hint string) Reply {
	return Reply{Kind: "error", Refuse: &Refusal{Want: want, Hint: hint, Say: "not saved: " + tried(want, hint)}}
}

// Nothing answers a question that there is no answer to.
func Nothing(want, hint string) Reply {
	return Reply{Kind: "error", Refuse: &Refusal{Want: want, Hint: hint, Say: tried(want, hint)}}
}

// Ask asks. base, when given, is a line that the answer is added to.
func Ask(why, base string, choices ...grammar.Choice) Reply {
	return Reply{Kind: "ask", Ask: &Question{Why: why, Base: base, Choices: choices}}
}

// Asks asks what the grammar asks.
func Asks(a *grammar.Ask, base string) Reply {
	r := Ask(a.Why, base, a.Choices...)
	r.Ask.Keep = a.Keep
	return r
}

// Tell answers a question.
func Tell(kind string, facts any, text string) Reply {
	return Reply{Kind: kind, Facts: facts, Text: text}
}

// Save saves b; then says what was saved.
func Save(b site.Body, then func(*site.Entry) Reply) Reply {
	return Reply{Save: []site.Body{b}, Then: func(es []*site.Entry) Reply { return then(es[0]) }}
}

// Noted says that an entry is saved: its number, then what was understood.
func (c Ctx) Noted(e *site.Entry, kind string, facts any, text string) Reply {
	text = fmt.Sprintf("noted %d: %s", e.Seq, text)
	if c.Line.At != "" {
		text += ", as of " + c.Clock(c.Sent.UnixMilli())
	}
	return Reply{Kind: kind, Facts: facts, Text: text}
}

// Keep saves b and says text of it, when nothing has to be looked up afterwards.
func (c Ctx) Keep(b site.Body, kind, text string) Reply {
	return Save(b, func(e *site.Entry) Reply { return c.Noted(e, kind, nil, text) })
}

// Note puts a remark beside the reply.
func (r *Reply) Note(kind, text string) { r.Notes = append(r.Notes, Note{Kind: kind, Text: text}) }

// Line adds a line to the answer, where it stands among the notes.
func (r *Reply) Line(text string) { r.Note("", text) }

// Join puts replies below one another; what they are about is the last one's.
func Join(all []Reply) Reply {
	r, before := all[len(all)-1], all[:len(all)-1]
	var text []Note
	var pictures []Picture
	for _, b := range before {
		text = append(append(text, Note{Text: b.Text}), b.Notes...)
		pictures = append(pictures, b.Pictures...)
	}
	r.Pictures = append(pictures, r.Pictures...)
	switch {
	case len(before) == 0:
	case r.Taken():
		r.Notes = slices.Concat(text[1:], []Note{{Text: r.Text}}, r.Notes)
		r.Text = before[0].Text
	default: // a question or a refusal stays by itself
		for _, n := range text {
			r.Lead = append(r.Lead, n.Text)
		}
	}
	return r
}

// Taken reports whether the entry is not refused and not asked about.
func (r Reply) Taken() bool { return r.Ask == nil && r.Refuse == nil && !r.Work && r.Err == nil }

// After puts f behind r: it gets the reply as it is once all is saved.
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
