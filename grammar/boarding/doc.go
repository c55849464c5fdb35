// Package boarding reads what a crew tells of boards, by the kinds of its words and not by their order:
// boards that came, were used or spoiled, which board goes where, what is up, and what is cut out of it.
//
// It sorts the words of a line (scan.go, words.go) and fills one of the frames with them (stock.go, kind.go,
// up.go). A number without a part in the frame, or a word that denies it, leaves it empty. A line all of
// whose words have a part is read so; else the sender is asked whether that was meant.
package boarding

import (
	"strings"

	"strapline/grammar/read"
	"strapline/grammar/speech"
)

// Of returns what a line may mean, most likely first; nothing if it tells nothing of boards.
func Of(s *read.Source) []speech.Guess {
	l := scan(s)
	if l == nil || l.has("shelf", "shelves", "shelving", "tv", "telly", "picture", "pictures", "mirror", "cabinet", "cabinets", "curtain", "curtains", "hook", "swing", "plant", "rack", "railing") {
		return nil // what somebody hangs on a wall is no board
	}
	for _, fill := range []func(*line) []string{(*line).seams, (*line).shipment, (*line).recount, (*line).arrived, (*line).gone, (*line).up, (*line).kind} {
		l.fresh()
		texts := fill(l)
		if len(texts) == 0 {
			continue
		}
		lost := l.lost()
		var all []speech.Guess
		for _, text := range texts {
			if l.room != "" {
				text = l.room + ": " + strings.ReplaceAll(text, "\n", "\n"+l.room+": ")
			}
			all = append(all, speech.Guess{Text: text, Lost: lost, Sure: lost == 0 && !l.doubt && len(texts) == 1, Asks: l.why, Tied: l.tied})
		}
		return all
	}
	return nil
}
