package unread

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/topic"
)

// No question about the job is met with silence or with what a rule expected: what has no better answer is
// looked for in what the crew noted.

// Unanswered turns what a question met into a search of the notes. It returns err if the line is no
// question, if it is not about the job, or if one word of it is misspelt.
func Unanswered(l *read.Source, err error) error {
	if !l.AsksSomething() {
		return err
	}
	switch e := err.(type) {
	case *grammar.Ask:
		return err
	case *Keeps:
		if _, note := e.Entry.(record.Note); !note {
			return err
		}
	case *grammar.Refusal:
		if l.Cmd != nil && l.Cmd.Kind == "coat" || e.Near != "" && !topic.Works(lex.Lower(e.Word)) && !topic.NamesRoom(lex.Lower(e.Word)) && !topic.Small[lex.Lower(e.Word)] || e.Want == NoDoubt && !read.AskingWords[l.Pieces[l.Begin].Low] {
			return err
		}
	}
	if !OfJob(l) && !inNotes(l) {
		return err
	}
	if q := enquires(l); q != nil {
		return q
	}
	return err
}

// inNotes reports whether the words of a question are in a note of the crew: "what was the code for the lockbox".
func inNotes(l *read.Source) bool {
	return l.Told != nil && l.Told(slices.DeleteFunc(topic.Telling(l.Text[l.Pieces[l.Begin].Start:]), func(w string) bool {
		return offWork[w] || chatty[w] || became[w]
	}))
}

// NoDoubt is what a note with a question mark is told.
const NoDoubt = `a note without a question mark, or "where is"`

// enquires returns the question as a search of the notes, or as a note if it tells a measure; nil if it is
// none.
func enquires(l *read.Source) *Keeps {
	if !l.AsksSomething() {
		return nil
	}
	said := l.Text[l.Pieces[l.Begin].Start:]
	first := l.Pieces[l.Begin].Low
	if commanded := read.HeadWord(first) && !read.AskingWords[first]; Wants.MatchString(l.AsSaid()) || l.Measure() && Tells(l) && (commanded || !read.AsksAtStart(said)) { // "screws 35mm every 20 cm, right?" tells more than it asks
		return &Keeps{Entry: record.Note{Text: NoteText(said), Kept: true}}
	}
	e, ok := record.OnWords(said)
	if !ok {
		return nil
	}
	return &Keeps{Entry: e}
}

// Wants matches a request to build something, which tells more than it asks.
var Wants = pattern.Compile(`^(?:.*[,.;] )?(?:can|could|would|will) (?:you|u|somebody|someone) (?:guys )?(?:please |pls )?(?:put|add|leave|install|frame|run|move|block)\b`)

// OfJob reports whether what a question is about is the job, by its words: one of the work, or two that may
// be, and none of other talk beside them.
func OfJob(l *read.Source) bool {
	sure := 0
	for _, t := range l.Tokens {
		switch {
		case t.Type == lex.Service, t.Type == lex.Support, t.Type == lex.Name && l.Name != nil && l.Name(t.Value):
			sure += 2
		case t.Type == lex.Thing && !faintThings[l.WordAt(t.Pos.Offset)]:
			sure += 2
		case t.Type == lex.Name && lex.Shape(t.Value) && t.Value[0] == 'r': // "r2 d2"
			sure -= 2
		case t.Type == lex.Room, t.Type == lex.Wall && (l.Walls[lex.Lower(l.WordAt(t.Pos.Offset))] == "" || strings.Contains(l.Read, " wall")): // "can we close the window"
			sure++
		}
	}
	room, sized, works, talks, rooms := false, false, false, false, 0
	for i, p := range l.Pieces[l.Begin:] {
		room, sized = room || topic.RoomNoun[topic.Stem(p.Low)] || l.Rooms[p.Low] != "", sized || ofSize[p.Low]
		works, talks = works || topic.Work[p.Low], talks || talkAt(l, l.Begin+i) || chatty[p.Low] && !ofAsking[p.Low]
		switch w := p.Low; {
		case w == "he", w == "she", w == "his", w == "her":
			sure--
		case topic.Small[w] && !topic.Works(w) || topic.BesideRoom[w]: // "can", "got", "back"
		case stemsOfJob[topic.Stem(w)]:
			sure += 2
		case Trades[w], topic.Outcome[topic.Stem(w)]:
			sure++
		case talkAt(l, l.Begin+i):
			sure -= 2
		case chatty[w] && !ofAsking[w]:
			sure--
		case topic.Work[w] && w != "row", topic.Stem(w) == "photo":
			sure++
		case topic.RoomNoun[topic.Stem(w)]:
			if rooms++; rooms == 1 {
				sure++
			}
		case faintThings[w], became[w] && w != "up" && w != "on" && w != "in" && w != "out" && w != "done":
			sure++
		}
	}
	if room && sized || l.Measure() {
		sure++
	}
	if (l.Room != "" || l.Has(lex.Room, "")) && read.AsksAtStart(l.Read) { // "what did i put in the bedroom"
		sure++
	}
	if BoardsOf.MatchString(BoardsSized(l.Read)) || boardsAsked.MatchString(l.Read) {
		sure += 2
	}
	return (sure >= 2 || sure == 1 && works && !talks && read.AsksAtStart(l.Read)) && len(l.Pieces)-l.Begin > 2
}

// ofAsking are words of talk that a question about the job may have: who it is about, and when.
var ofAsking = lex.Set("i", "behind", "who", "me", "today", "yesterday", "tomorrow", "monday", "friday", "saturday", "sunday", "weekend")

// stemsOfJob are of the job wherever they are asked about.
var stemsOfJob = lex.Set("strap", "coat", "blocking", "offcut")

// boardsAsked matches a question for boards.
var boardsAsked = regexp.MustCompile(`(?i)\b(?:how many|how much|any|enough|which|what|longest)\b.*\b(?:boards?|sheets?|drywall)\b`)

// ofSize are words for the measures of a room.
var ofSize = lex.Set("big", "size", "wide", "long", "square", "high", "tall")

// faintThings are words for things that are used of much else.
var faintThings = lex.Set("spot", "spots", "box", "boxes", "plug", "panel", "fixture", "hook", "camera", "sensor", "stat", "data", "switch", "alarm", "alarms", "can", "cans", "fan", "light", "lights")

// Trades are the trades that note things.
var Trades = lex.Set("plumber", "electrician", "sparky", "sparks", "hvac", "hanger", "lead", "taper", "helper", "framer", "tinner")

// BoardsSized names boards by their length where a text gives their size: "4x12s" are "12s".
func BoardsSized(text string) string { return sized.ReplaceAllString(text, "${1}s") }

var sized = regexp.MustCompile(`(?i)\b(?:4|54) ?(?:x|by) ?(8|9|10|12|14|16)s?\b`)

// BoardsOf matches boards by their length: "12s", "12 footers".
var BoardsOf = regexp.MustCompile(`\b(8|9|10|12|14|16)(?:s\b|'s\b| ?footers?\b| ?foots?\b)`)
