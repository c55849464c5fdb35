package speech

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/topic"
)

// Guess is what a line may mean, in canonical words, one entry a line.
type Guess struct {
	Text   string
	Lost   int  // words that have no part in it
	Sure   bool // every word has its part, and nothing else fits
	Note   bool // some of the line is in none of it: the line is kept beside it
	Keep   bool // it has no place: the line is kept as a note
	Either bool // one of the guesses is meant, no doubt
	Tied   bool // its sentences belong together
	Worked bool // some of its numbers are worked out of those that were said
	// Asks is the question, and Label the choice, if it is not whether that was meant.
	Asks, Label string
	Then        string // what is said after it, as typed: a line that leaves something out
	Base        string // what the answer is added to, if there is no Text
}

// Guesses returns a guess for each text.
func (l *Line) Guesses(texts []string) []Guess {
	if l.Of == "several" && l.Named == nil {
		return nil
	}
	all := make([]Guess, len(texts))
	for i, text := range texts {
		if in := l.rooms(); in != nil && !strings.HasPrefix(text, "room ") {
			var each []string
			for _, room := range in {
				each = append(each, grammar.InRoom(room, text))
			}
			text = strings.Join(each, "\n")
		}
		all[i] = Guess{Text: text, Lost: l.Lost(), Note: l.Rest, Tied: l.Of == "several", Sure: len(texts) == 1 && l.Lost() == 0 && !l.Doubt && !l.Rest && !strings.Contains(text, "\n")}
	}
	return all
}

// rooms are the rooms that a guess is of, none if the one at hand.
func (l *Line) rooms() []string {
	switch l.Of {
	case "":
		return nil
	case "several":
		return l.Named
	}
	return []string{l.Of}
}

// Elsewhere reports whether the line is of a room that is not declared: "pipe in the hall".
func (l *Line) Elsewhere() bool {
	for i, p := range l.Pieces[l.Begin:] {
		if i > 0 && topic.RoomNoun[p.Low] && l.Walls[p.Low] == "" && !p.Gone && (l.Pieces[l.Begin+i-1].Low == "in" || i > 1 && l.Pieces[l.Begin+i-1].Low == "the" && l.Pieces[l.Begin+i-2].Low == "in") {
			return true
		}
	}
	return false
}
