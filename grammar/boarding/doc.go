// Package boarding reads what a crew tells of boards, by the kinds of its words and not by their order:
// boards that came, were used or spoiled, which board goes where, what is up, and what is cut out of it.
//
// It fills one of its frames with the words of a line: deliveries and use (stock.go), a board for a surface (kind.go),
// board that is up (up.go). A number without a part in the frame, or a word that denies it, leaves it empty. A line all of
// whose words have a part is read so; else the sender is asked whether that was meant.
package boarding

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar/read"
	"strapline/grammar/said"
	"strapline/grammar/speech"
)

// line is a line with its words sorted.
type line struct {
	*said.Line
	wall string // what a wall is called, if it is asked which one that is
}

// Of returns what a line may mean, most likely first; nothing if it tells nothing of boards.
func Of(s *read.Source) []speech.Guess {
	l := &line{Line: said.Scan(s)}
	if l.Line == nil || l.Has("shelf", "shelves", "shelving", "tv", "telly", "picture", "pictures", "mirror", "cabinet", "cabinets", "curtain", "curtains", "hook", "swing", "plant", "rack", "railing") {
		return nil // what somebody hangs on a wall is no board
	}
	for _, fill := range []func(*line) []string{(*line).seams, (*line).shipment, (*line).recount, (*line).arrived, (*line).gone, (*line).up, (*line).kind} {
		l.Fresh()
		l.wall = ""
		texts := fill(l)
		if len(texts) == 0 {
			continue
		}
		lost := l.Lost()
		var all []speech.Guess
		for i, text := range texts {
			label := ""
			if l.Why != "" {
				label = string(place.Walls[i])
			}
			if l.Room != "" {
				text = l.Room + ": " + strings.ReplaceAll(text, "\n", "\n"+l.Room+": ")
			}
			all = append(all, speech.Guess{Text: text, Lost: lost, Sure: lost == 0 && !l.Doubt && len(texts) == 1, Asks: l.Why, Tied: l.Tied, Label: label})
		}
		return all
	}
	return nil
}
