package record

import (
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Notes: `notes on shutoff laundry`: what the crew noted about something. About has the words that tell.
// A question about the job that nothing else answers is one.
type Notes struct{ About string }

func (e Notes) String() string   { return "notes on " + e.About }
func (Notes) Kind() grammar.Kind { return "notes" }

// OnWords asks what the notes have on a text; ok is false if no word of it tells.
func OnWords(text string) (e Notes, ok bool) {
	e.About = strings.Join(topic.Telling(text), " ")
	return e, e.About != ""
}

// Subject reports whether it says what it is about: "how far off the dryer wall" does not.
func (e Notes) Subject() bool {
	return slices.ContainsFunc(strings.Fields(e.About), func(w string) bool { return topic.Subject(w) || topic.NamesRoom(w) })
}

func (s *notesSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e, ok := OnWords(s.About)
	if !ok {
		return nil, l.RefuseEnd(read.Words.Rows["notes"].Fits)
	}
	return e, nil
}

type notesSyntax struct {
	About string `parser:"'notes' @Text"`
}

var NotesKinds = []read.Row{
	{Command: read.Command{Kind: "notes", Words: []string{"notes on", "notes about"}, About: "what the crew noted about something, in their own words",
		Example: "notes on shutoff", Fits: "what it is about: a thing, a place, who said it"},
		Rule: read.Rule[notesSyntax](), Makes: []grammar.Entry{Notes{}}, Asks: true, Text: true},
}
