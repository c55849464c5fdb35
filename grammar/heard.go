package grammar

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"strapline/grammar/lex"
)

// A line that says or asks something about the job gets an answer even if no rule reads it. This file
// looks for other words that a rule does read, for what has to be asked first, and for what cannot be
// noted yet. Anything else about the job is kept as a note in its own words. Talk gets no answer.

type restated struct {
	said  *pattern
	means []string // the question first, if there is one
}

// table parses rows, one a line: a pattern, an arrow, what it means.
func table(rows string) (all []restated) {
	for row := range strings.Lines(strings.TrimSpace(rows)) {
		said, means, _ := strings.Cut(strings.TrimSpace(row), " => ")
		all = append(all, restated{compile(said), strings.Split(means, "|")})
	}
	return all
}

// asSaid returns the line after its frame as it was said, in lower case with single spaces.
func (l *line) asSaid() string {
	if l.begin >= len(l.Pieces) {
		return ""
	}
	said := strings.TrimRight(strings.Join(strings.Fields(lex.Lower(l.Read[l.Pieces[l.begin].Start:])), " "), " .!?,")
	said = strings.ReplaceAll(said, " , ", " ")
	said = begun.ReplaceAllString(ended.ReplaceAllString(said, ""), "")
	return strings.Replace(strings.Replace(said, "half inch", "1/2", 1), "rough in ", "rough-in ", 1)
}

// begun are words that may precede the statement.
var begun = regexp.MustCompile(`^(?:(?:now|so|then|and|also|ok|okay|alright|next:),? )+|^(?:(?:we're|were|we are|i'm) )?using (?:the )?|^(?:theres|there's|there is|we have|we've got|weve got|another) (?:an? )?`)

// ended are words that may follow it.
var ended = regexp.MustCompile(`(?:,? (?:for real|again|btw|fyi|thanks|boss|now|sorry|pls|please|exactly|then|tho|though|so far))+$`)

// heard reads a line that no rule reads. It returns err if it finds nothing better.
func (l *line) heard(err error) (Line, error) {
	if _, asks := errors.AsType[*Ask](err); asks {
		return l.Line, err
	}
	said := l.asSaid()
	if got, gerr, ok := l.byLandmark(); ok {
		return got, gerr
	}
	if said == "" || len(said) > longestHeard || l.Asked && strings.HasPrefix(said, "first ") { // the answer to "where is the first one?"
		return l.Line, err
	}
	if plain := l.kinds(said); !l.Question && plain != lex.Lower(strings.TrimSpace(l.Text)) {
		if got, gerr := l.again(plain); gerr == nil {
			return got, nil
		}
	}
	if !l.Question {
		switch texts := l.framing(); len(texts) {
		case 1:
			if got, gerr := l.again(texts[0]); gerr == nil {
				return got, nil
			}
		case 2:
			ask := l.asks("which is its thickness, flat or on edge?")
			ask.Choices = []Choice{reads("flat", texts[0]), reads("on edge", texts[1])}
			return l.Line, l.choices(ask)
		}
	}
	if !l.Question {
		if got, gerr := l.again(l.opening(said)); gerr == nil {
			return got, nil
		} else if ask, ok := errors.AsType[*Ask](gerr); ok {
			return l.Line, ask
		}
		if ask := l.crooked(said); ask != nil {
			return l.Line, ask
		}
	}
	if asks := l.question(said); asks != "" {
		if got, gerr := l.again(asks); gerr == nil && words.rows[got.Entry.Kind()].asks || gerr == nil && got.Entry.Kind() == "gap" {
			return got, nil
		}
	}
	names := !l.Question && (l.has(lex.Thing, "") || l.has(lex.Name, "") || l.has(lex.Support, "") || l.has(lex.Service, ""))
	if names {
		if got, gerr, ok := l.heldTo(said); ok {
			return got, gerr
		}
	}
	if sized := l.sizesOf(said); sized != "" && !l.Question {
		if got, gerr := l.again(sized); gerr == nil {
			return got, nil
		}
	}
	right, sure := "", false
	if names {
		if ask := l.comesOff(said); ask != nil {
			return l.Line, ask
		}
		right, sure = l.rightedBy(said)
	}
	if right != "" {
		got, gerr := l.again(right)
		if ask, ok := errors.AsType[*Ask](gerr); ok {
			return l.Line, l.choices(ask)
		}
		if gerr == nil && !sure {
			ask := l.asks("did you mean this?")
			ask.Choices = []Choice{{Label: right, Text: got.String()}}
			return l.Line, ask
		}
		if gerr == nil {
			return got, nil
		}
	}
	if names {
		if name, to, ok := l.subject(said); ok && to == "wrong" && l.Context.named(name) {
			r := l.refuse(l.Tokens[0].Pos, fmt.Sprintf("where it should be: `fix %s` and its distances", name))
			r.Hint = l.finding(name)
			return l.Line, l.hinted(r)
		}
	}
	for _, r := range otherwise {
		if m := r.said.FindStringSubmatchIndex(said); m != nil && l.ofRoomSaid(r.means[0], said, m) &&
			!(r.means[0] == "order" && elsewhere.MatchString(said)) && !(l.cmd != nil && l.cmd.Kind == "room" && strings.HasPrefix(r.means[0], "gap")) {
			got, gerr := l.again(string(r.said.ExpandString(nil, r.means[0], said, m)))
			if of, ok := got.Entry.(Log); ok && of.Of != "" && !l.noun(of.Of) { // "who has the keys"
				continue
			}
			if gerr == nil {
				return got, nil
			}
			if ask, ok := errors.AsType[*Ask](gerr); ok {
				return l.Line, l.choices(ask)
			}
		}
	}
	for _, r := range asking {
		m := r.said.FindStringSubmatchIndex(said)
		if m == nil || !l.ofRoomSaid(r.means[1], said, m) || strings.HasPrefix(r.means[1], "room ") && (l.cmd != nil || !strings.ContainsAny(said, "'’m") && !strings.Contains(said, "f") && roomNamedIn(said) == "") || l.first && l.Tokens[0].Type == lex.Number {
			continue
		}
		ask := l.asks(string(r.said.ExpandString(nil, r.means[0], said, m)))
		for _, means := range r.means[1:] {
			text := plainSpaces(string(r.said.ExpandString(nil, means, said, m)))
			got, gerr := l.again(text)
			if inner, ok := errors.AsType[*Ask](gerr); ok && len(inner.Choices) > 0 {
				return l.Line, l.choices(inner)
			}
			if gerr == nil {
				ask.Choices = append(ask.Choices, Choice{Label: text, Text: got.String()})
			}
		}
		if len(ask.Choices) > 0 {
			ask.Why = said + ": " + ask.Why
			return l.Line, ask
		}
	}
	return l.Line, err
}

// elsewhere are places for which no order can be worked out.
var elsewhere = regexp.MustCompile(`\b(?:slopes?|walls?|layers?|stairs?|bulkhead)\b`)

// ofRoomSaid reports whether the room $1, about which something is said, is declared.
func (l *line) ofRoomSaid(means, said string, m []int) bool {
	if means == "ceiling up" && l.Room == "" {
		return strings.Contains(said, "lid") || strings.Contains(said, "ceiling")
	}
	return !strings.HasPrefix(means, "$1: ") || l.Rooms[said[m[2]:m[3]]] != ""
}

// longestHeard limits the work for one line, in bytes.
const longestHeard = 200

// again reads the line in other words, within its own frame.
func (l *line) again(text string) (Line, error) {
	got, err := nested(plainSpaces(text), l.Context)
	if got.Room == "" {
		got.Room = l.Room
	}
	if got.At == "" {
		got.At, got.Exact = l.At, l.Exact
	}
	if got.Before+got.After == 0 {
		got.Before, got.After = l.Before, l.After
	}
	if err == nil && (l.room2 != "" || l.before != "" || l.mistimed > 0 || l.Question && !words.rows[got.Entry.Kind()].asks && got.Entry.Kind() != "gap") {
		return got, ErrChatter
	}
	return got, err
}

// plainSpaces puts single spaces where what was not said left more, and the sign of its unit.
func plainSpaces(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, ` " `, " ")), " ")
}

func (l *line) asks(why string) *Ask {
	p := l.Pieces[l.begin]
	return &Ask{Col: p.Col, Word: l.Text[p.Start:p.End], Why: why}
}

// choices puts the frame around the choices of a question about the line in other words.
func (l *line) choices(inner *Ask) *Ask {
	ask := l.asks(inner.Why)
	for _, c := range inner.Choices {
		got, err := l.again(c.String())
		if _, more := errors.AsType[*Ask](err); more {
			ask.Choices = append(ask.Choices, c)
		} else if err == nil {
			ask.Choices = append(ask.Choices, Choice{Label: c.Label, Text: got.String()})
		}
	}
	return ask
}

// kept keeps the line as a note in its own words, with a line that would put it on the plan if there is
// one. A question is told that it has no answer.
func (l *line) kept(hint string) error {
	if l.asksSomething() {
		return l.unanswered("I have no answer to that")
	}
	return &keeps{Note{Text: noteText(l.Text[l.Pieces[l.begin].Start:]), Kept: true, Hint: hint}}
}

// noteText is the text of a note without the signs that may follow "note".
func noteText(said string) string {
	return strings.TrimSpace(strings.TrimLeft(said, " ,:()–—&•!?"))
}

// keeps is the error for a line that is kept as a note.
type keeps struct{ note Note }

func (k *keeps) Error() string { return k.note.String() }

// kinds replaces the kinds of numbered things by ours: "jb 1" becomes "junction box 1".
// "junction box 1".
func (l *line) kinds(said string) string {
	words, named := strings.Fields(said), false
	for i := 1; i < len(words); i++ {
		what := lex.ThingOf[words[i-1]]
		if what != "" && words[i] != "" && strings.Trim(words[i], "0123456789") == "" {
			if short := l.numbered(what + " " + words[i]); !strings.Contains(short, " ") {
				words[i-1], words[i], named = "", short, true
				continue
			}
			words[i-1] = what
		}
	}
	if named {
		return plainSpaces(strings.Join(words, " "))
	}
	return strings.Join(words, " ")
}

// unread answers a line that says or asks something about the job but that nothing reads; nil for talk.
func (l *line) unread() error {
	said := l.asSaid()
	if said == "" {
		return nil
	}
	if m := roomSaid.FindStringSubmatch(said); m != nil {
		room := m[1] + m[2] + m[3]
		for _, known := range l.roomNames() { // "bathroom" for "bath"
			if strings.HasPrefix(room, known) || strings.HasPrefix(known, room) {
				if got, err := l.again(known + ": " + strings.TrimSpace(strings.Replace(strings.Replace(said, "in the "+room, "", 1), room, "", 1))); err == nil {
					ask := l.asks(room + ": " + known + "?")
					ask.Choices = []Choice{reads(known, got.String())}
					return ask
				}
			}
		}
		return l.noRoom(strings.Index(lex.Lower(l.Read), room), room)
	}
	if m := twoSides.FindStringSubmatch(said); m != nil && l.Tokens[0].Type == lex.Number {
		hint := "room bath " + m[1] + " x " + m[2]
		if _, err := l.again(hint); err == nil {
			r := l.refuse(l.Tokens[0].Pos, "which room that is, before its sides")
			r.Hint = hint
			return r
		}
	}
	if name := l.known(); name != "" && (l.Name != nil && l.Name(name) || l.Noun != nil && l.Noun(name)) && (l.asksSomething() || lex.Shape(name) || forgotten.MatchString(said)) {
		r := l.refuse(l.Tokens[0].Pos, `"where is", "open" or "fix" and the thing`)
		r.Hint, r.Once = l.finding(name), l.opens("is", "are", "was", "does", "did", "has") && !lex.Shape(name) ||
			!l.asksSomething() && !l.has(lex.Number, "") && l.Tokens[0].Type != lex.Name && !forgotten.MatchString(said)
		return r
	}
	if name := l.known(); name != "" && l.Tokens[0].Type == lex.Name && l.Name != nil && l.Name(name) && l.has(lex.Number, "") && !lex.IsPiece(name) {
		r := l.refuse(l.Tokens[0].Pos, `"fix `+name+`" and its new distances off two walls`)
		r.Hint = l.finding(name)
		return r
	}
	if m := wallSaid.FindStringSubmatch(said); m != nil && l.wall(m[1]) == "" && l.asksSomething() {
		r := l.refuse(l.Tokens[0].Pos, "a wall of this room, or first which one the "+m[1]+" wall is: `north is "+m[1]+" wall`")
		r.Hint = "list everything on north wall"
		return r
	}
	if up := l.asPieces(); up != "" {
		ask := l.asks("are they up?")
		ask.Choices = []Choice{reads(up, up)}
		return ask
	}
	if l.answers() || !l.tells() {
		return nil
	}
	return l.kept("")
}

// roomSaid matches a room that the line is about.
var roomSaid = regexp.MustCompile(`^(` + roomNouns + `) (?:is )?(?:all )?done$|^(` + roomNouns + `) (?:ceiling|lid|up in one) |^(?:what(?:'?s| is) left|(?:whole )?(?:ceiling|lid) (?:is )?up) in (?:the )?(` + roomNouns + `)$`)

const roomNouns = `bath|bathroom|kitchen|den|bedroom|hall|hallway|closet|laundry|garage|living room|dining room|basement|office|pantry|stairwell`

// twoSides matches two lengths and nothing else.
var twoSides = regexp.MustCompile(`^(\d.*?(?:'|ft|foot|feet|m)\S*.*?) (?:by|x) (\d.*)$`)

// wallSaid matches a wall by a name other than its direction.
var wallSaid = regexp.MustCompile(`\b(?:behind|on|in) (?:the )?([a-z]+) wall$`)

var forgotten = regexp.MustCompile(`^(?:i |we )?(?:forgot|didnt|didn't|did not|couldnt|couldn't|cant|can't)\b`)

func (l *line) asksSomething() bool {
	if l.opens("can") && l.Tokens[0].Type == lex.Thing { // "can light dead centre"
		return l.Question
	}
	if l.Question {
		return true
	}
	i := l.begin
	for i < len(l.Pieces)-1 && beforeAsking[l.Pieces[i].Low] {
		i++
	}
	return i < len(l.Pieces) && askingWords[l.Pieces[i].Low] || asksLate.MatchString(l.Read)
}

// asksLate is a question that begins with what it is about: "if i screw a 1 5/8 in there do i hit anything".
var asksLate = regexp.MustCompile(`(?i) (?:do|can|should|will|did) (?:i|we|you) (?:hit|need|have|close|cover|cut|get|use|board|screw|miss)\b[^.,]*$`)

var (
	beforeAsking = lex.Set("also", "so", "and", "ok", "bot", "wait", "hey", "but", "then", "lead", "hi", ",")
	askingWords  = lex.Set("is", "are", "was", "do", "does", "did", "has", "can", "should", "will", "how", "what", "whats", "what's", "which", "when", "who", "whos", "who's", "where", "wheres", "any")
)
