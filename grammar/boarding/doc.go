// Package boarding reads what a crew tells of boards, by the kinds of its words and not by their order:
// which board goes where, what is up, what is cut out of it; boards that came or were used are read by deliveries.
//
// It fills one of its frames with the words of a line: a board for a surface (kind.go), board that is up (up.go). A number without a part in the frame, or a word that denies it, leaves it empty. A line all of
// whose words have a part is read so; else the sender is asked whether that was meant.
package boarding

import (
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/deliveries"
	"strapline/grammar/read"
	"strapline/grammar/said"
	"strapline/grammar/speech"
)

// line is a line with its words sorted.
type line struct {
	*said.Line
	wall string // what a wall is called, if it is asked which one that is
	of   *line  // the whole line, if this is a part of it
}

// Of returns what a line may mean, most likely first; nothing if it tells nothing of boards.
func Of(s *read.Source) []speech.Guess {
	l := &line{Line: said.Scan(s)}
	if l.Line == nil || !l.Any(said.CutOut|said.Row|said.Noun) && l.Has("shelf", "shelves", "shelving", "tv", "telly", "picture", "pictures", "mirror", "cabinet", "cabinets", "curtain", "curtains", "hook", "swing", "plant", "rack", "railing", "keep", "batts", "batt", "insulation", "poly", "vapour", "vapor", "wool") {
		return nil // what somebody hangs on a wall is no board, nor is what lies behind it
	}
	texts := l.read()
	lost := l.Lost()
	whole := l.guesses(texts, lost, false)
	if texts == nil || lost > 0 && l.Any(said.Later|said.Due|said.Another) { // what is to come is kept beside it
		if parts := l.parts(); texts == nil || len(parts) > 0 && parts[0].Text == whole[0].Text {
			return parts
		}
	}
	return whole
}

// frames are what a line may tell, in the order they are tried: each returns what it may mean in canonical words.
var frames = []func(*line) []string{(*line).seams, (*line).stock, (*line).up, (*line).kind}

// stock is boards that came, that were used or spoiled, and what is left.
func (l *line) stock() []string {
	if l.of == nil {
		return deliveries.Of(l.Line, nil)
	}
	return deliveries.Of(l.Line, l.of.Line)
}

// read fills the first frame that fits.
func (l *line) read() []string {
	for _, fill := range frames {
		l.Fresh()
		l.wall = ""
		if texts := fill(l); len(texts) > 0 {
			return texts
		}
	}
	return nil
}

func (l *line) guesses(texts []string, lost int, rest bool) (all []speech.Guess) {
	for i, text := range texts {
		label := ""
		if l.Why != "" {
			label = string(place.Walls[i])
		}
		text = grammar.InRoom(l.Room, text)
		all = append(all, speech.Guess{Text: text, Lost: lost, Note: rest, Sure: lost == 0 && !l.Doubt && !rest && len(texts) == 1, Asks: l.Why, Tied: l.Tied, Label: label})
	}
	return all
}
