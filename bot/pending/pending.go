// Package pending is the questions that are left open: what a message may answer, and which answer it is.
package pending

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"unicode"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/sentences"
	"strapline/grammar/things"
)

// Question is an open question of a sender. It is answered by the lines of one of its Choices, or by Base
// with a bare length or the missing words added.
type Question struct {
	Said    string           `json:"said"`              // as typed; in older logs with its answers
	Answers []string         `json:"answers,omitempty"` // to the questions before this one
	Sent    int64            `json:"sent"`
	ID      string           `json:"id,omitempty"`   // thread it is in
	From    string           `json:"from,omitempty"` // message it is about, in its first version
	Why     string           `json:"why"`
	Choices []grammar.Choice `json:"choices,omitempty"`
	Rest    string           `json:"rest,omitempty"`   // what followed it in the message
	Base    string           `json:"base,omitempty"`   // line to be completed by the answer
	Lead    string           `json:"lead,omitempty"`   // word to put before a bare length in the answer
	Kept    bool             `json:"kept,omitempty"`   // what it asks about is a note already
	Saved   bool             `json:"saved,omitempty"`  // the note is saved, and only more about it was asked for
	Edit    string           `json:"edit,omitempty"`   // message whose edit it asks about
	Photos  []string         `json:"photos,omitempty"` // only in older logs: waiting pictures
	Under   *Question        `json:"under,omitempty"`  // next older open question
	Line    *grammar.Line    `json:"line,omitempty"`   // line that led to it; nil if it could not be read alone
}

// NoteBeside returns the note of what is left over that the question offers beside a line, if it does.
func (q *Question) NoteBeside(line grammar.Line) []grammar.Line {
	for _, c := range q.Choices {
		if n := len(c.Lines); n > 1 && c.Lines[0].Entry.String() == line.Entry.String() && c.Lines[n-1].Entry.Kind() == "note" {
			return c.Lines[n-1:]
		}
	}
	return nil
}

// Fuller reports whether a line says in full what the question asks about: a line of one of its choices,
// or its base completed.
func (q *Question) Fuller(c answer.Ctx, line grammar.Line) bool {
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
		if n := len(c.Lines); n > 1 && c.Lines[0].Entry.Kind() != c.Lines[n-1].Entry.Kind() && c.Lines[n-1].Entry.Kind() != "note" {
			continue // a room is not all that its readings tell
		}
		for _, l := range c.Lines {
			if said := l.Entry.String(); said == text || named(text) && subject(said) == subject(text) {
				return true
			}
		}
	}
	if of := q.Supports(); of != "" && of == framing(line.Entry) {
		return true
	}
	if q.Base == "" || q.Room() != "" {
		return q.Base != "" && q.AsksFor(line.Entry)
	}
	if _, ok := line.Entry.(things.Thing); ok && !named(text) && !sameFigures(q.base(), text) { // another light
		return false
	}
	return subject(q.base()) == subject(text)
}

// Supports returns the supports that a question is about, such as the straps of a surface; "" if it is not
// about framing.
func (q *Question) Supports() string {
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
func (q *Question) base() string {
	if _, base, roomed := strings.Cut(q.Base, ": "); roomed {
		return base
	}
	return q.Base
}

// OfAnother reports whether a text is of another kind of thing than the line to be completed.
func (q *Question) OfAnother(text string) bool {
	base := " " + strings.ReplaceAll(q.base(), ",", " ")
	return slices.ContainsFunc(strings.Fields(strings.ToLower(text)), func(w string) bool {
		kind := lex.ThingOf[strings.Trim(w, ",.;")]
		return kind != "" && lex.ThingOf[strings.Fields(base)[0]] != "" && !strings.Contains(base, " "+kind+" ")
	})
}

// AsksFor reports whether an entry is of the kind that the question asks about. Words that complete the
// base to any other entry are no answer.
func (q *Question) AsksFor(e grammar.Entry) bool {
	if room := q.Room(); room != "" {
		r, ok := e.(rooms.Room)
		return ok && r.Name == room
	}
	head, _, _ := strings.Cut(q.base(), ",")
	if th, ok := e.(things.Thing); ok && strings.Contains(" "+head+" ", " "+th.What+" ") {
		return true
	}
	said := strings.Fields(e.String())
	return len(said) > 0 && said[0] == strings.Trim(strings.Fields(q.base())[0], ",")
}

// Led reports whether a question that the completed base led to is still about the same kind of entry. With words
// that lead to a question by themselves, it is not if it may stay a note.
func (q *Question) Led(ask *grammar.Ask, alone error) bool {
	_, own := errors.AsType[*grammar.Ask](alone)
	for _, c := range ask.Choices {
		for _, l := range c.Lines[:min(len(c.Lines), 1)] {
			if note, ok := l.Entry.(record.Note); ok && !note.Kept && !own { // the choice that it stays a note
				continue
			}
			if !q.AsksFor(l.Entry) {
				return false
			}
		}
	}
	return true
}

// Begun returns the number of the choice that begins with what was said: "north is window wall"; 0 if none does.
func (q *Question) Begun(line grammar.Line, err error) int {
	if q == nil || err != nil {
		return 0
	}
	way, run := line.Entry.(rooms.SupportSet)
	rows, ways := line.Entry.(boards.BoardsRun)
	return 1 + slices.IndexFunc(q.Choices, func(c grammar.Choice) bool {
		if run && len(c.Lines) == 1 { // "they run the short way"
			set, ok := c.Lines[0].Entry.(rooms.SupportSet)
			if way.What = set.What; ok && way.Run == set.Run && way.String() == (rooms.SupportSet{What: set.What, Run: set.Run}).String() {
				return true
			}
		}
		if ways && len(c.Lines) == 1 {
			if row, ok := c.Lines[0].Entry.(hanging.Hung); ok && string(row.Run) == rows.Dir {
				return true
			}
		}
		return len(c.Lines) > 1 && line.Entry.Kind() == "alias" && c.Lines[0].Entry == line.Entry
	})
}

// Free reports whether it asks about words of the crew's own, or offers to keep them, and they are not sent again.
func (q *Question) Free(next grammar.Entry) bool {
	first, _, _ := strings.Cut(strings.ToLower(q.Said), " ")
	return (q.Line == nil && read.Words.Rows[grammar.Kind(first)] == nil || slices.ContainsFunc(q.Choices, grammar.Choice.KeepsNote)) &&
		(next == nil || next.Kind() != "undo" && !strings.HasPrefix(next.String(), first))
}

// subject returns what a line is about: its kind, and its name if it has one.
func subject(text string) string {
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	if named(text) {
		return words[0] + " " + words[1]
	}
	if words[0] == "down" { // "down to 3 x 12'"
		return "stock"
	}
	return words[0]
}

// named reports whether a line's second word is a name, such as d1.
func named(text string) bool {
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	return len(words) > 1 && unicode.IsLetter(rune(words[1][0])) && strings.ContainsAny(words[1], "0123456789")
}

// Choice returns the number of the choice that text names: "west", "off west", "12 5/8". It returns 0
// if it names none or several.
func (open *Question) Choice(text string) int {
	if open == nil {
		return 0
	}
	said := plainWords(text)
	if said == "" {
		return 0
	}
	offered := len(open.Choices)
	if offered > 0 && strings.HasPrefix(open.Choices[offered-1].Label, "no: ") {
		if only(said, no) && (said != "n" || strings.EqualFold(text, "n") && !isWall(open.Choices[0].Label)) {
			return offered
		}
		offered--
	}
	if offered == 1 && only(said, yes) {
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

// Excludes reports whether text is a wall and no more, and the question is which of some other walls is meant.
func (open *Question) Excludes(text string) bool {
	wall := func(said string) bool { return isWall(plainWords(said)) }
	return wall(text) && slices.ContainsFunc(open.Choices, func(c grammar.Choice) bool { return wall(c.Label) })
}

// yes are the words that take the only choice, no those that decline it.
var (
	yes = lex.Set("yes", "yep", "yeah", "yup", "y", "right", "correct", "ok", "okay", "sure", "exactly", "👍")
	no  = lex.Set("no", "nope", "nah", "n")
)

// only reports whether every word of a short answer is one of a set.
func only(said string, of map[string]bool) bool {
	return said != "" && !slices.ContainsFunc(strings.Fields(said), func(w string) bool { return !of[w] })
}

// plainWords reduces a short answer to the words that matter.
func plainWords(s string) string {
	s = strings.NewReplacer("\"", "", "-", " ", ",", " ", ".", " ", "!", " ").Replace(strings.ToLower(s))
	var out []string
	for w := range strings.FieldsSeq(s) {
		switch w {
		case "inch":
			w = "inches"
		case "off", "a", "the", "wall", "please", "pls", "thanks", "thx", "in", "on", "from", "to", "it", "its", "it's", "is", "they", "run", "runs", "going", "that", "thats", "that's", "one", "hit":
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// Stays reports whether a question stays open when its sender goes on to something else: it does if it is
// about a note, rather than a question, and a number or a few words answer it.
func (q *Question) Stays(k answer.Kinds) bool {
	if q.Saved || strings.HasPrefix(q.Why, NothingSaved) {
		return false
	}
	tells := func(c grammar.Choice) bool { return len(c.Lines) == 0 || !k.Asks(c.Lines[0].Entry) }
	return q.Base != "" && strings.Contains(q.Why, "?") || slices.ContainsFunc(q.Choices, tells)
}

// OnlyAsks reports whether the question is which of several questions is meant.
func (q *Question) OnlyAsks(k answer.Kinds) bool {
	return len(q.Choices) > 0 && !slices.ContainsFunc(q.Choices, func(c grammar.Choice) bool {
		return len(c.Lines) == 0 || slices.ContainsFunc(c.Lines, func(l grammar.Line) bool { return !k.Asks(l.Entry) })
	})
}

// Informs reports whether the message behind the question tells something that is not noted yet.
func (q *Question) Informs(k answer.Kinds) bool {
	return !q.Saved && !q.Kept && !q.OnlyAsks(k) && !read.AsksAtStart(q.Said) && !strings.HasPrefix(q.Why, NothingSaved)
}

// Without returns the stack from q down, without the questions for which gone is true.
func (q *Question) Without(gone func(*Question) bool) *Question {
	switch {
	case q == nil:
		return nil
	case gone(q):
		return q.Under.Without(gone)
	}
	under := q.Under.Without(gone)
	if under == q.Under {
		return q
	}
	left := *q
	left.Under = under
	return &left
}

// Room returns the room whose size a question asks for, "" if it asks for none.
func (q *Question) Room() string {
	name, ok := strings.CutPrefix(strings.TrimSuffix(q.Base, ","), "room ")
	if !ok {
		return ""
	}
	return name
}

// RoomBase returns the start of a line that gives a room's sides again, if the question is about them.
func RoomBase(a *grammar.Ask) string {
	for _, c := range a.Choices {
		for _, l := range c.Lines {
			if r, ok := l.Entry.(rooms.Room); ok {
				return "room " + r.Name + ","
			}
		}
	}
	return ""
}

// Tells reports whether words that would be chatter by themselves may complete a line: a number, or boards by their
// length, "twelves".
func Tells(text string) bool {
	return strings.ContainsAny(text, "0123456789") || strings.HasPrefix(text, "on top") || lex.Numeral(strings.TrimSuffix(lex.Lower(text), "s"))
}

// Lost says what is lost with the question, "" if nothing is.
func (q *Question) Lost() string {
	if (q.Saved || strings.HasPrefix(q.Why, NothingSaved)) && q.Rest == "" {
		return ""
	}
	return LostLead + strings.Join(append([]string{say.FirstLine(q.Said)}, sentences.Split(q.Rest)...), "; ")
}

// LostLead begins the line that says what is lost with a question.
const LostLead = "dropped, not saved: "

// NothingSaved begins a question about an undo that has nothing of its own to undo.
const NothingSaved = "nothing was saved; your last note is "

// Yes reports whether text takes the only choice.
func Yes(text string) bool { return only(plainWords(text), yes) }
