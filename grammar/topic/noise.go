package topic

import (
	"strings"

	"strapline/grammar/lex"
)

// Words and phrases that carry nothing: wherever they stand in a line, only before all others, only after them, before or
// after them. None sounds like a number, a side or what has been done.
var (
	noise = phrases(`um umm uh uhh uhm er erm hmm hm lol haha hahaha btw fyi tbh fwiw please pls plz thanks thx ty cheers
		by-the-way you-know just-so-you-know so-you-know heads-up no-worries for-the-record like-we-said like-i-said like-you-said as-i-said as-we-said as-discussed as-agreed as-usual per-the-drawing per-the-drawings
		per-the-plan per-plan as-per-plan as-per-drawing as-planned already finally basically today this-morning this-afternoon this-arvo tonight just-now right-now for-now for-the-moment thank-you
		hopefully luckily obviously honestly anyway anyways anyhow as-well`)
	before = phrases(`ok okay so alright well now hey hi hiya hello yo morning good-morning gm afternoon evening hi-all hey-all morning-all hello-all
		update quick-update quick-one quick-question question another-one one-more next-one and then but plus new new-one here-goes here-we-go yes yep yeah yup oh ah`)
	after  = phrases(`again now then tho though for-real for-you all-good`)
	people = phrases(`guys boss mate buddy folks fellas lads dude bro man chief team everyone everybody`)
	// turning are words that carry nothing, or put right what was said before.
	turning = phrases(`actually now really`)
)

// greets are words with which people begin a message, courts those with which they end it, whatever it says.
var (
	greets = phrases(`hey hi hiya hello yo morning good-morning afternoon good-afternoon evening hi-all hey-all morning-all hello-all btw fyi`)
	courts = phrases(`thanks thx ty cheers thank-you btw fyi`)
)

// Said returns where the text that says something begins and ends, in bytes: without a greeting, whom it is for, and
// thanks.
func Said(text string) (from, to int) {
	if first, _, _ := strings.Cut(text, " "); !atEnds[bareWord(first)] && !atEnds[bareWord(text[strings.LastIndexByte(text, ' ')+1:])] {
		return 0, len(text)
	}
	at := lex.Pieces(text)
	words := func(i, n int, of map[string]bool) bool {
		all := make([]string, 0, n)
		for _, p := range at[i : i+n] {
			all = append(all, p.Low)
		}
		return of[strings.Join(all, " ")]
	}
	i, k := 0, len(at)
	for n := 2; n > 0; n-- {
		switch {
		case i+n < k && (words(i, n, greets) || words(i, n, people) && (i > 0 || at[i+n].Low == ",")), i > 0 && i+1 < k && n == 1 && at[i].Kind == '.' && strings.Contains(",.!:-–—", at[i].Low):
			i, n = i+n, 3
		case k-n > i && (words(k-n, n, courts) || words(k-n, n, people) && (k < len(at) || at[k-n-1].Low == ",")), k < len(at) && n == 1 && k-1 > i && strings.Contains(",-–—", at[k-1].Low):
			k, n = k-n, 3
		}
	}
	if i == 0 && k == len(at) {
		return 0, len(text)
	}
	return at[i].Start, at[k-1].End
}

// atEnds are the first and the last words of all of these: a line without one is not cut into words for them.
var atEnds = func() map[string]bool {
	all := map[string]bool{}
	for _, of := range []map[string]bool{greets, courts, people} {
		for words := range of {
			said := strings.Fields(words)
			all[said[0]], all[said[len(said)-1]] = true, true
		}
	}
	return all
}()

func bareWord(w string) string { return strings.Trim(lex.Lower(w), ",.:;!?-–—") }

func phrases(words string) map[string]bool {
	all := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		all[strings.ReplaceAll(w, "-", " ")] = true
	}
	return all
}

// mostNoise is the longest phrase of noise, in words.
const mostNoise = 5

// Noise reports whether a word carries nothing, so that it is in no name.
func Noise(w string) bool { return noise[w] || turning[w] || people[w] }

// WithoutNoise returns a text without the words that carry nothing. turns says that one of them may have put something
// right.
func WithoutNoise(text string) (plain string, turns bool) {
	said := strings.Fields(text)
	bare := make([]string, len(said))
	for i, w := range said {
		bare[i] = strings.Trim(lex.Lower(w), ",.:;!-–—")
	}
	is := func(from, to int, of ...map[string]bool) bool {
		words := strings.Join(bare[from:to], " ")
		for _, all := range of {
			if all[words] {
				return true
			}
		}
		return false
	}
	from, to := 0, len(said)
	for n := mostNoise; n > 0; n-- {
		switch {
		case from+n < to && (is(from, from+n, noise, before, people) || from > 0 && bare[from] == "" && n == 1): // also a dash behind them
			from, n = from+n, mostNoise+1
		case to-n > from && is(to-n, to, noise, after, people) && !lex.Numeral(strings.TrimRight(bare[to-n-1], "s")) && !digit(bare[to-n-1]): // "5 guys"
			to, n = to-n, mostNoise+1
		}
	}
	var kept []string
words:
	for i := from; i < to; i++ {
		for n := min(mostNoise, to-i); n > 0; n-- {
			if is(i, i+n, noise) {
				if i += n - 1; strings.HasSuffix(said[i], ".") && len(kept) > 0 {
					kept[len(kept)-1] += "."
				}
				continue words
			}
		}
		if turning[bare[i]] {
			turns = true
			continue
		}
		kept = append(kept, said[i])
	}
	return strings.TrimRight(strings.Join(kept, " "), ",;-–—"), turns
}

func digit(w string) bool { return w != "" && '0' <= w[len(w)-1] && w[len(w)-1] <= '9' }
