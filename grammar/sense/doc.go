// Package sense works out what a line that no rule reads says of the work beside hanging boards: what is cut out,
// coated, passed, missed or to be mended, and the gap that is left.
//
// It goes by the words of the line (grammar/speech) in any order, and fills a frame only if every number has a
// place in it.
package sense

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// line is a line by its words, in lower case and without its frame.
type line struct {
	*speech.Line
	low []string
}

// frames are what a line may say, in the order they are tried: each returns what it may mean in canonical words.
var frames = []func(*line) []string{(*line).misses, (*line).pieces, (*line).gap, (*line).finish, (*line).checks, (*line).todo, (*line).mended, (*line).flaw}

// Of returns what a line may mean; nothing if that cannot be told.
func Of(said *speech.Line) []speech.Guess {
	l := &line{Line: said}
	for _, p := range said.Pieces[said.Begin:] {
		if low, is := strings.CutSuffix(p.Low, "'s"); is && (low == "coat" || visits[low] || topic.Checks[low] != "") { // "coat's on"
			p.Low = low
		}
		l.low = append(l.low, p.Low)
	}
	for _, frame := range frames {
		l.Line = said.Clone() // a frame marks what it takes
		texts := frame(l)
		if len(texts) == 0 {
			continue
		}
		if said.Of == "several" || l.has("notch", "?") || l.sided() || said.Misheard() || said.Elsewhere() {
			return nil // which wall, number or room? Or it asks
		}
		all := l.Guesses(texts)
		for i := range all {
			all[i].Sure = !l.Rest && OwnWords.MatchString(texts[0]) || !strings.Contains(texts[0], "\n") && (l.any(done) || strings.HasPrefix(texts[0], "coat ") && l.has("on", "done", "in", "up", "humidity", "rh")) && !all[i].Note && !l.Doubt
		}
		return all
	}
	return nil
}

// OwnWords matches what holds the line in its own words.
var OwnWords = regexp.MustCompile(`^(?:note|check add|check [a-z ]+ open|snag fixed:) `)

func (l *line) has(words ...string) bool {
	return slices.ContainsFunc(l.low, func(w string) bool { return slices.Contains(words, w) })
}

func (l *line) any(set map[string]bool) bool {
	return slices.ContainsFunc(l.low, func(w string) bool { return set[w] })
}

// at returns the word at i, "" outside the line.
func (l *line) at(i int) string {
	if i < 0 || i >= len(l.low) {
		return ""
	}
	return l.low[i]
}

// sided reports whether a place is given as left or right.
func (l *line) sided() bool {
	for i, w := range l.low {
		if (w == "left" || w == "right") && (sides[l.at(i-1)] || l.at(i-1) == "the" && sides[l.at(i-2)] || l.at(i+1) == "side") {
			return true
		}
	}
	return false
}

var sides = lex.Set("off", "on", "to", "at", "in", "of", "along", "from")
