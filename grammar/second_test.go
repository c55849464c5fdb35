package grammar_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar/parse"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
)

// The second reader knows nothing of the first: it reads one length in inches, in figures or in
// words, in 64ths, the whole text or nothing. What a phone may have written for a number counts as that number.
type second struct {
	words []string
	i     int
}

var (
	secondOnes = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
		"won": 1, "to": 2, "too": 2, "for": 4, "fore": 4, "sicks": 6, "ate": 8, "nein": 9, "tree": 3}
	secondTeens = map[string]int{"ten": 10, "tin": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19}
	secondTens  = map[string]int{"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
	secondParts = map[string]int{"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "ates": 8, "sixteenth": 16, "sixteenths": 16}
)

func (s *second) next() string {
	if s.i < len(s.words) {
		return s.words[s.i]
	}
	return ""
}

// whole reads a whole number, -1 when none stands here.
func (s *second) whole() int {
	w := s.next()
	if n, err := strconv.Atoi(w); err == nil {
		s.i++
		return n
	}
	small := func() int {
		w := s.next()
		if n := secondTeens[w]; n > 0 {
			s.i++
			return n
		}
		if n := secondTens[w]; n > 0 {
			s.i++
			if m := secondOnes[s.next()]; m > 0 && !s.part(1) {
				s.i++
				return n + m
			}
			return n
		}
		return 0
	}
	if n := small(); n > 0 {
		if s.next() == "hundred" { // twelve hundred
			s.i++
			return 100*n + s.rest(small)
		}
		return n
	}
	if w == "hundred" || w == "a" && s.i+1 < len(s.words) && s.words[s.i+1] == "hundred" {
		s.i += 1 + strings.Count(w, "a")*tern(w == "a")
		return 100 + s.rest(small)
	}
	n := secondOnes[w]
	if n == 0 {
		return -1
	}
	s.i++
	switch s.next() {
	case "hundred":
		s.i++
		return 100*n + s.rest(small)
	case "oh", "o":
		if m := secondOnes[s.at(1)]; m > 0 {
			s.i += 2
			return 100*n + m
		}
	}
	from := s.i
	if m := small(); m > 0 && !s.part(0) {
		return 100*n + m
	}
	s.i = from
	return n
}

func tern(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (s *second) at(k int) string {
	if s.i+k < len(s.words) {
		return s.words[s.i+k]
	}
	return ""
}

// rest is what follows a hundred.
func (s *second) rest(small func() int) int {
	from := s.i
	if s.next() == "and" {
		s.i++
	}
	if n := small(); n > 0 {
		return n
	}
	if n := secondOnes[s.next()]; n > 0 && !s.part(1) {
		s.i++
		return n
	}
	s.i = from
	return 0
}

// part reports whether a fraction's word stands k words on.
func (s *second) part(k int) bool { return secondParts[s.at(k)] > 0 }

// fraction reads a fraction in 64ths, 0 when none stands here.
func (s *second) fraction() int64 {
	w := s.next()
	if a, b, ok := strings.Cut(w, "/"); ok {
		n, _ := strconv.Atoi(a)
		d, _ := strconv.Atoi(b)
		if d > 0 && 64%d == 0 && n < d {
			s.i++
			return int64(n) * 64 / int64(d)
		}
		return 0
	}
	n, from := 1, s.i
	if w == "a" || w == "an" {
		s.i++
	} else if m := secondOnes[w] + secondTeens[w]; m > 0 && s.part(1) {
		n = m
		s.i++
	} else if m, err := strconv.Atoi(w); err == nil && s.part(1) {
		n = m
		s.i++
	}
	if d := secondParts[s.next()]; d > 0 && n < d {
		s.i++
		return int64(n) * 64 / int64(d)
	}
	s.i = from
	return 0
}

// read is all of text in 64ths of an inch, -1 when it is no length.
func (s second) read(text string) int64 {
	s.words, s.i = strings.Fields(text), 0
	v := int64(0)
	if f := s.fraction(); f > 0 { // five eighths, half a foot
		if s.next() == "a" && s.i+2 == len(s.words) {
			s.i++
		}
		if s.next() == "foot" || s.next() == "feet" {
			s.i++
			f *= 12
		} else if s.next() == "inches" {
			s.i++
		}
		if s.i == len(s.words) {
			return f
		}
		s.i = 0
	}
	if u := s.at(1); s.next() == "a" && (u == "inch" || u == "inches" || u == "foot" || u == "feet") {
		s.words[s.i] = "1"
	}
	n := s.whole()
	for k := s.i; n > 0 && n < 10 && secondOnes[s.next()] > 0 && k > 0 && secondOnes[s.words[k-1]] > 0 && !s.part(1); k = s.i { // five one: digit by digit
		n = 10*n + secondOnes[s.next()]
		s.i++
	}
	if n >= 0 {
		v = int64(n) * 64
		if f := s.next(); f == "foot" || f == "feet" || f == "ft" || f == "'" {
			v *= 12
			s.i++
			from := s.i
			if s.next() == "oh" { // six foot oh ten
				s.i++
			}
			if s.next() == "and" && secondOnes[s.at(1)]+secondTeens[s.at(1)] > 0 && !(secondOnes[s.at(1)] > 0 && secondParts[s.at(2)] > 0) {
				s.i++
			}
			if m := s.whole(); m >= 0 && !s.part(0) {
				v += int64(m) * 64
			} else {
				s.i = from
			}
		}
	}
	from := s.i
	if s.next() == "and" {
		s.i++
	}
	f := s.fraction()
	if f == 0 {
		s.i = from
	}
	if u := s.next(); f > 0 && (u == "foot" || u == "feet") && v == int64(n)*64 { // sixteen and a half feet
		v, f = 12*v, 12*f
		s.i++
	}
	if u := s.next(); u == "inches" || u == "inch" || u == "in" {
		s.i++
	}
	if s.i < len(s.words) || n < 0 && f == 0 {
		return -1
	}
	return v + f
}

func TestSecondReaderReads(t *testing.T) {
	for said, want := range map[string]int64{
		"26": 26 * 64, "26 1/2": 26*64 + 32, "twenty six and a half": 26*64 + 32, "one sixteen and five eighths": 116*64 + 40, "a hundred and four": 104 * 64,
		"one oh four": 104 * 64, "9 feet 8 5/8": 116*64 + 40, "nine foot eight and five eighths": 116*64 + 40, "three quarters": 48, "for": 256, "forty ate": 48 * 64, "half": 32,
		"four hundred ten": 410 * 64, "and": -1, "26 41": -1, "a": -1,
	} {
		if got := (second{}).read(said); got != want {
			t.Errorf("%q: got %d, want %d", said, got, want)
		}
	}
}

// TestSecondReader: no saved length differs from what a second reader of the same words gets: what is read of
// numbers put together at random, in every slot, is that length and no other, or is asked about.
func TestSecondReader(t *testing.T) {
	said := []string{"one", "two", "three", "four", "five", "six", "eight", "nine", "ten", "eleven", "twelve", "sixteen", "nineteen", "twenty", "thirty", "forty", "ninety", "hundred", "a", "and", "half",
		"quarter", "quarters", "eighths", "sixteenths", "won", "to", "too", "for", "sicks", "ate", "tin", "oh", "foot", "feet", "inches", "1/2", "5/8", "3/16", "7", "12", "26", "48", "90", "104"}
	r := rand.New(rand.NewPCG(1, 2))
	n := 6000
	if *long {
		r, n = rand.New(rand.NewPCG(rand.Uint64(), 3)), 100_000
	}
	read, differs := 0, 0
	for range n {
		slot := inSlots[r.IntN(len(inSlots))]
		var words []string
		for range 1 + r.IntN(5) {
			words = append(words, said[r.IntN(len(said))])
		}
		text := strings.Join(words, " ")
		line := strings.Replace(slot.line, "{}", text, 1)
		got, err := parse.Line(line, onSite(length.Imperial))
		if err != nil {
			continue
		}
		switch got.Entry.(type) {
		case record.Note, rooms.UnitsSet:
			continue
		}
		read++
		if strings.HasPrefix(line, "fix") || strings.HasPrefix(line, "set") { // "set margin to 7"
			for len(words) > 0 && (words[0] == "to" || words[0] == "a" && !(len(words) > 1 && strings.Contains("inches foot feet", words[1])) || words[0] == "and") {
				words = words[1:]
			}
		}
		if strings.HasPrefix(line, "wire") && slices.Contains(words, "to") || strings.HasPrefix(line, "stock") && slices.Contains(words, "a") { // words of theirs
			continue
		}
		control, err := parse.Line(strings.Replace(slot.line, "{}", slot.fits+`"`, 1), onSite(length.Imperial))
		if err != nil {
			t.Fatalf("%s: %v", slot.line, err)
		}
		fits := int64(32)
		if n, err := strconv.Atoi(slot.fits); err == nil {
			fits = int64(n) * 64
		}
		own, _ := take(kept(reflect.ValueOf(control.Entry)), fits)
		rest := kept(reflect.ValueOf(got.Entry))
		for _, n := range own {
			if i := slices.Index(rest, n); i >= 0 {
				rest = slices.Delete(rest, i, i+1)
			} else {
				rest = append(rest, -1)
			}
		}
		if !slices.ContainsFunc((second{}).lists(words), func(list []int64) bool { return same(list, rest) }) {
			if differs++; differs <= 60 {
				t.Errorf("%q was read as %q", line, got)
			}
		}
	}
	t.Logf("%d of %d lines read, %d differ", read, n, differs)
}

// lists are the lengths that words may be, one or some side by side; each word is in one of them, but for "a" and "and"
// at an end. Words that are one length are no list of several, unless they are as many feet and inches.
func (s second) lists(words []string) (all [][]int64) {
	for len(words) > 0 && (words[0] == "and" || words[0] == "a" && !(len(words) > 1 && strings.Contains("inches foot feet", words[1]))) && s.read(strings.Join(words, " ")) < 0 {
		words = words[1:]
	}
	for len(words) > 0 && (words[len(words)-1] == "and" || words[len(words)-1] == "a") {
		words = words[:len(words)-1]
	}
	if len(words) == 0 {
		return [][]int64{{}}
	}
	if v := s.read(strings.Join(words, " ")); v >= 0 {
		all = append(all, []int64{v})
	}
	for i := 1; i < len(words); i++ {
		head := s.read(strings.Join(words[:i], " "))
		if head < 0 {
			continue
		}
		rest := words[i:]
		if rest[0] == "oh" { // sixteen oh five
			rest = rest[1:]
		}
		for _, tail := range s.lists(rest) {
			if len(tail) > 0 && head%64 == 0 && tail[0] < 12*64 { // eight eleven: 8' 11"
				all = append(all, append([]int64{head*12 + tail[0]}, tail[1:]...))
			}
			if len(tail) > 0 {
				all = append(all, append([]int64{head}, tail...))
			}
		}
	}
	return all
}

// same reports whether lengths are those of a list, each in inches or in feet.
func same(list, rest []int64) bool {
	if len(list) != len(rest) {
		return false
	}
	left := slices.Clone(rest)
	for _, v := range list {
		i := slices.IndexFunc(left, func(n int64) bool {
			return n == v*int64(length.SixtyFourth) || n == 12*v*int64(length.SixtyFourth)
		})
		if i < 0 {
			return false
		}
		left = slices.Delete(left, i, i+1)
	}
	return true
}
