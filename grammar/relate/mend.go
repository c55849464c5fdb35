package relate

import (
	"regexp"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
)

// A slip that is put right within the same line: "14' 2, no wait 14' 4 by 12", "22 off the east, i mean west".
// What follows those words stands in place of the last of its sort before them, or of one before that.

// Mended returns the lines that may be meant, the likeliest first.
func Mended(c *grammar.Context, text string) (all []string) {
	if !tells(text, "o") {
		return nil
	}
	words := strings.Fields(text)
	for k := 1; k < len(words)-1; k++ {
		w, ok := phrase(words[k:])
		if signed := strings.ContainsAny(words[k-1][len(words[k-1])-1:], ",.-–—"); !ok || w.tag != 'o' || !signed && w.n == 1 && weakAlone[plainWord(w.said)] {
			continue
		}
		end := k + w.n
		for end < len(words) {
			more, ok := phrase(words[end:])
			if !ok || more.tag != 'o' && more.tag != 'i' && more.tag != 'b' && more.tag != '_' {
				break
			}
			end += more.n
		}
		return mended(tagged(c, strings.Join(words[:k], " ")), tagged(c, strings.Join(words[end:], " ")))
	}
	return nil
}

// weakAlone are words that put right what is before them only behind a comma.
var weakAlone = map[string]bool{"no": true, "wait": true, "actually": true, "wrong": true, "rather": true, "meant": true, "nope": true, "nah": true, "typo": true}

var unitOf, bareNumber = regexp.MustCompile(` ?(?:[a-z]+|'|")$`), regexp.MustCompile(`^[\d.]+,?$`)

func mended(said, anew []word) (all []string) {
	from := slices.IndexFunc(anew, func(w word) bool { return w.tag != 'p' && w.tag != '_' })
	if from < 0 || strings.IndexByte("LWKTRQr", anew[from].tag) < 0 {
		return nil
	}
	n, off := pair(anew[from:])
	for i, w := range slices.Backward(said) {
		as := 1
		switch here, to := pair(said[i:]); {
		case w.tag != anew[from].tag && !(w.tag == 'K' && anew[from].tag == 'T' || w.tag == 'T' && anew[from].tag == 'K'):
			continue
		case n > 1 && (here < 2 || to.Along() != off.Along()):
			continue
		case n > 1:
			as = here
		}
		fresh := slices.Clone(anew[from : from+n])
		if unit := unitOf.FindString(w.said); w.tag == 'L' && bareNumber.MatchString(fresh[0].said) { // "1.2m, sorry 1.3"
			fresh[0].said = strings.TrimRight(fresh[0].said, ",") + unit
		}
		line := spoken(slices.Concat(said[:i], fresh, said[i+as:], anew[from+n:]))
		all = append(all, line)
	}
	return all
}

// pair returns how many words are a distance and its wall, and which: 1 if they are not both there.
func pair(words []word) (n int, w place.Wall) {
	for n < len(words) && (n == 0 && words[n].tag == 'L' || n > 0 && (words[n].tag == 'p' || words[n].tag == '_')) {
		n++
	}
	if n > 0 && n < len(words) && words[n].tag == 'W' {
		return n + 1, place.Wall(words[n].is)
	}
	return 1, ""
}
