package unread

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/record"
)

// unread answers a line that says or asks something about the job but that nothing reads; nil for talk.
func unread(l *read.Source) error {
	said := l.AsSaid()
	if m := roomSaid.FindStringSubmatch(said); m != nil {
		room := m[1] + m[2] + m[3]
		for _, known := range l.RoomNames() { // "bathroom" for "bath"
			if strings.HasPrefix(room, known) || strings.HasPrefix(known, room) {
				if got, err := l.Again(known + ": " + strings.TrimSpace(strings.Replace(strings.Replace(said, "in the "+room, "", 1), room, "", 1))); err == nil {
					ask := l.Asks(room + ": " + known + "?")
					ask.Choices = []grammar.Choice{grammar.Reads(known, got.String())}
					return ask
				}
			}
		}
		return l.NoRoom(strings.Index(lex.Lower(l.Read), room), room)
	}
	if m := twoSides.FindStringSubmatch(said); m != nil && l.Tokens[0].Type == lex.Number {
		hint := "room bath " + m[1] + " x " + m[2]
		if _, err := l.Again(hint); err == nil {
			r := l.Refuse(l.Tokens[0].Pos, "which room that is, before its sides")
			r.Hint = hint
			return r
		}
	}
	if name := known(l); name != "" && (l.Name != nil && l.Name(name) || l.Noun != nil && l.Noun(name)) && (l.AsksSomething() || lex.Shape(name) || forgotten.MatchString(said)) {
		r := l.Refuse(l.Tokens[0].Pos, `"where is", "open" or "fix" and the thing`)
		r.Hint, r.Once = Finding(l, name), l.Opens("is", "are", "was", "does", "did", "has") && !lex.Shape(name) ||
			!l.AsksSomething() && !l.Has(lex.Number, "") && l.Tokens[0].Type != lex.Name && !forgotten.MatchString(said)
		return r
	}
	if up := asPieces(l); up != "" {
		ask := l.Asks("are they up?")
		ask.Choices = []grammar.Choice{grammar.Reads(up, up)}
		return ask
	}
	if answers(l) || !Tells(l) {
		return nil
	}
	return Kept(l, "")
}

// Kept keeps the line as a note in its own words, with a line that would put it on the plan if there is
// one. A question is looked for in the notes there are.
func Kept(l *read.Source, hint string) error {
	if q := enquires(l); q != nil {
		return q
	}
	return &Keeps{Entry: record.Note{Text: NoteText(l.Text[l.Pieces[l.Begin].Start:]), Kept: true, Hint: hint}}
}

// roomSaid matches a room that the line is about.
var roomSaid = pattern.Compile(`^(` + roomNouns + `) (?:is )?(?:all )?done$|^(` + roomNouns + `) (?:ceiling|lid|up in one) |^(?:what(?:'?s| is) left|(?:whole )?(?:ceiling|lid) (?:is )?up) in (?:the )?(` + roomNouns + `)$`)

// Keeps is the error for a line that no rule reads and that is an entry all the same: a note in its own
// words, or a question that the notes may answer.
type Keeps struct {
	Entry grammar.Entry
	Sure  bool // it has no place: do not look for one by its words
}

// NoteText is the text of a note without the signs that may follow "note".
func NoteText(said string) string {
	return strings.TrimSpace(strings.TrimLeft(said, " ,:()–—&•!?"))
}

var forgotten = pattern.Compile(`^(?:i |we )?(?:forgot|didnt|didn't|did not|couldnt|couldn't|cant|can't)\b`)

// twoSides matches two lengths and nothing else.
var twoSides = pattern.Compile(`^(\d.*?(?:'|ft|foot|feet|m)\S*.*?) (?:by|x) (\d.*)$`)

const roomNouns = `bath|bathroom|kitchen|den|bedroom|hall|hallway|closet|laundry|garage|living room|dining room|basement|office|pantry|stairwell`

func (k *Keeps) Error() string { return k.Entry.String() }
