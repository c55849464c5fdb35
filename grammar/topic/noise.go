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
	words := func(i, k int, of map[string]bool) bool {
		all := make([]string, 0, k-i)
		for _, p := range at[i:k] {
			all = append(all, p.Low)
		}
		return of[strings.Join(all, " ")]
	}
	sign := func(i int, of string) bool { return strings.Contains(of, at[i].Low) }
	from, to = trimmed(len(at), 2, func(i, k int) bool {
		return words(i, k, greets) || words(i, k, people) && (i > 0 || at[k].Low == ",") || i > 0 && k == i+1 && at[i].Kind == '.' && sign(i, ",.!:-–—")
	}, func(i, k int) bool {
		return words(i, k, courts) || words(i, k, people) && (k < len(at) || at[i-1].Low == ",") || k < len(at) && k == i+1 && sign(i, ",-–—")
	})
	if from == 0 && to == len(at) {
		return 0, len(text)
	}
	return at[from].Start, at[to-1].End
}

// trimmed returns what is left of n words without the phrases at their beginning and end, the longest first: at most
// longest words each. A word is left.
func trimmed(n, longest int, front, back func(from, to int) bool) (from, to int) {
	to = n
	for k := longest; k > 0; k-- {
		switch {
		case from+k < to && front(from, from+k):
			from, k = from+k, longest+1
		case to-k > from && back(to-k, to):
			to, k = to-k, longest+1
		}
	}
	return from, to
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
	from, to := trimmed(len(said), mostNoise, func(i, k int) bool {
		return is(i, k, noise, before, people) || i > 0 && k == i+1 && bare[i] == "" // also a dash behind them
	}, func(i, k int) bool {
		return is(i, k, noise, after, people) && !lex.Numeral(strings.TrimRight(bare[i-1], "s")) && !digit(bare[i-1]) // "5 guys"
	})
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
