package grammar

import (
	"math/bits"
	"unicode/utf8"
)

// Nearest returns the known word closest to a misspelt one, "" if none is close: one slip away for a short
// word, two for one of six letters or more. Swapping two letters is one slip. Among equals the first known
// word wins.
func Nearest(word string, known []string) string {
	said, most := []rune(word), 1
	if len(said) >= 6 {
		most = 2
	}
	best, has := "", letters(word)
	for _, k := range known {
		if bits.OnesCount64(has^letters(k)) > 2*most { // a slip changes two letters at most
			continue
		}
		longer := utf8.RuneCountInString(k) - len(said)
		if max(longer, -longer) <= most && max(len(word), len(k)) <= LongestWord {
			if d := Slips(said, []rune(k), most); d <= most {
				best, most = k, d-1
			}
		}
	}
	return best
}

// letters is the set of the letters of a word.
func letters(word string) (set uint64) {
	for _, r := range word {
		set |= 1 << (r % 64)
	}
	return set
}

// LongestWord limits the work, in bytes; longer words are close to nothing.
const LongestWord = 32

// Slips counts the letters inserted, left out, changed or swapped between a and b. It stops counting above
// most.
func Slips(a, b []rune, most int) int {
	if d := len(a) - len(b); d > most || -d > most {
		return most + 1
	}
	var rows [3][LongestWord + 1]int
	two, one, row := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		one[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(one[j-1]+change, one[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], two[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > most+1 { // a swap may still reduce it by one
			return least
		}
		two, one, row = one, row, two
	}
	return one[len(b)]
}
