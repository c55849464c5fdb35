package relate

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
)

// A line that says more than a correction is read by its parts wherever they are: the name of something noted, a
// word that something became of it, and the most of the words behind that are a value. What is left over is not
// accounted for, so such a reading is always asked about.

// changed are words that something is to be, or was, changed; dropped that it is there no more.
var (
	changed  = regexp.MustCompile(`\b(?:` + shifts + `|ended up|wound up|landed|came out|came in|turned out|sits|now|should|shld|shud|shoulda|actually|really|wrong|instead|not|remeasured|re-measured|measured|checked|rechecked|redid|fixed|correct|correction|sorry|oops|mistake|off by|out by|needs|supposed|meant)\b`)
	noLonger = regexp.MustCompile(`\b(?:gone|` + dropped + `|(?:not|isnt|isn't|aint|dont|don't|doesnt|doesn't|didnt|wont|won't|no longer|never) (?:be |been |gonna |going to )?(?:want|need|needed|doing|do|using|use|going|happening|having|have|installing|putting|there|in|happen)(?:ing)?|` +
		`(?:took|taking|take|pulled|ripped|tore|yanked|cut) (?:it |that |them )?(?:out|off|down) (?:of )?(?:the )?(?:job|plan|plans|drawings|list)|no more|(?:is|are|was) (?:history|out of (?:the |this )?(?:job|plan|plans)))\b`)
	// fished are words for a wire that is brought through the board.
	fished = regexp.MustCompile(`\b(?:pulled|fished|fed|poked|brought|stuck) (?:it |them )?(?:thru|through|out through|down through)\b`)
	// outOf is what frames a name: "took the sink pot out".
	outOf = regexp.MustCompile(`^(?:.* )?(?:took|taking|pulled|ripped|tore|yanked) (?:the |that )?$`)
)

const (
	mostWords = 16 // limits the work for one line
	mostLost  = 6  // how many words of a line may have no part in what it is asked to mean
)

// nameIn finds the longest name of something noted in a line, and returns what is before and after it.
func nameIn(c *grammar.Context, said string) (name string, before, after string) {
	words := strings.Fields(said)
	if len(words) > mostWords+4 {
		return "", "", ""
	}
	for n := min(len(words), max(c.MaxWords, 2)+1); n > 0; n-- {
		for i := 0; i+n <= len(words); i++ {
			if name := c.NameOf(grammar.WithOrdinals(strings.Trim(strings.Join(words[i:i+n], " "), ":,.!"))); !idle[words[i]] && c.KnowsOf(name) {
				return name, strings.Join(words[:i], " "), strings.Join(words[i+n:], " ")
			}
		}
	}
	return "", "", ""
}

// Loosely reads a correction among other words: a line about something that is gone, or one that is to be asked
// about.
func Loosely(l *read.Source, said string) (gone, right string) {
	if fished.MatchString(said) || !changed.MatchString(said) && !noLonger.MatchString(said) && !strings.Contains(said, " out") {
		return "", ""
	}
	name, before, after := nameIn(l.Context, said)
	if name == "" {
		return "", ""
	}
	around := before + " " + after
	if (noLonger.MatchString(around) || outOf.MatchString(before+" ") && strings.HasPrefix(after+" ", "out ")) && !strings.ContainsAny(around, "0123456789") && len(strings.Fields(around)) < 9 {
		return "gone " + name, ""
	}
	if !changed.MatchString(around) {
		return "", ""
	}
	p := parts{name: name, linked: true, moved: shifted.MatchString(around)}
	value, wrong, not := strings.Cut(after, " not ")
	if !not {
		value, wrong, not = strings.Cut(after, " instead of ")
	}
	if p.wrong = firstNumber(wrong); not && !l.IsLength(p.wrong) {
		return "", ""
	}
	p.not = not
	if offByIn.MatchString(said) {
		return "", ""
	}
	words := strings.Fields(value)
	for n := min(len(words), mostWords); n > 0; n-- {
		for i := 0; i+n <= len(words); i++ {
			if p.right = strings.Trim(strings.Join(words[i:i+n], " "), " ,.:"); !strings.ContainsAny(p.right, "0123456789") || len(p.right) == 0 || p.right[0] < '0' || p.right[0] > '9' {
				continue
			}
			if lost(before, words[:i], words[i+n:]) > mostLost {
				continue
			}
			p.to = i > 0 && (words[i-1] == "to" || words[i-1] == "at")
			if got := p.change(l.Context); strings.HasPrefix(got, "fix ") || p.not && got != "" {
				return "", got
			}
		}
	}
	return "", ""
}

// lost is how many words have no part in a correction.
func lost(before string, words ...[]string) (n int) {
	for _, w := range append(slices.Concat(words...), strings.Fields(before)...) {
		if !idle[strings.Trim(w, ",.:;!")] && !changed.MatchString(w) {
			n++
		}
	}
	return n
}

var (
	offByIn = regexp.MustCompile(`\b(?:off|out) by\b`)
	shifted = regexp.MustCompile(`\b` + shifts + `\b`)
)

// firstNumber returns the words of the number at the start of a text.
func firstNumber(said string) string {
	said = strings.TrimPrefix(said, "at ")
	for i, w := range strings.Fields(said) {
		if lex.ThingOf[w] != "" || w == "" || (w[0] < '0' || w[0] > '9') {
			return strings.Join(strings.Fields(said)[:i], " ")
		}
	}
	return said
}
