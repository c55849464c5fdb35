package spots_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The second reader knows nothing of the first: it takes each part of a line for what it says by itself, in whatever
// order the parts stand. What is read of a line may leave a part to be asked for, and may read nothing; it may not say
// a length, a wall or a number of things that the line does not.

// part is a piece of a line, of words that keep their order.
type part struct{ said string }

var (
	kindWords  = map[string]string{"pot": "light", "can light": "light", "recep": "outlet", "plug": "outlet", "switch": "switch", "boot": "duct", "register": "vent", "box": "box", "speaker": "speaker", "hook": "hook", "shutoff": "valve", "smoke": "smoke alarm"}
	wallWords  = map[string]string{"north wall": "north", "the north": "north", "n wall": "north", "east wall": "east", "the east side": "east", "the e wall": "east", "south wall": "south", "the south end": "south", "west wall": "west", "the west corner": "west"}
	offWords   = []string{"off", "from", "off of", "in from", "away from", "out from"}
	upWords    = []string{"up", "high", "hi", "off the floor", "aff"}
	oddWords   = []string{"there", "ok so", "got", "it goes", "just", "by the tub", "for the fridge", "near the stairs", "please", "about there", "behind the couch", "leftish", "and", "the", "in the lid", "to centre", "all", "both", "each", "one"}
	countWords = map[string]int{"two": 2, "2": 2, "a pair of": 2, "three": 3, "3": 3, "four": 4}
	figure     = regexp.MustCompile(`\d+`)
	anOff      = regexp.MustCompile(`(\d+)(?: in)?"? off (north|east|south|west)`)
	anUp       = regexp.MustCompile(`(\d+) up`)
	onWall     = regexp.MustCompile(`on (north|east|south|west) wall`)
)

func oneOf[T any](r *rand.Rand, all []T) T { return all[r.IntN(len(all))] }

func keyOf[V any](r *rand.Rand, all map[string]V) string {
	return oneOf(r, slices.Sorted(maps.Keys(all)))
}

// saidOf is what the second reader gets of the parts: the distances off each wall, the heights, the wall that things
// are in, their kind, how many, and the spacing.
type saidOf struct {
	off   map[string]bool // "30 off west"
	up    map[string]bool
	walls map[string]bool // that may be the one that they are in
	kinds map[string]bool
	count int
	every map[string]bool // off each corner
	step  int
}

func second(parts []part) saidOf {
	s := saidOf{off: map[string]bool{}, up: map[string]bool{}, walls: map[string]bool{}, kinds: map[string]bool{}, every: map[string]bool{}}
	for _, p := range parts {
		nums := figure.FindAllString(p.said, -1)
		word := ""
		for w, is := range wallWords {
			if strings.HasSuffix(p.said, " "+w) && len(w) > len(word) {
				word = w
				_ = is
			}
		}
		switch {
		case strings.HasPrefix(p.said, "on "):
			s.walls[wallWords[word]] = true
		case strings.HasSuffix(p.said, "apart"):
			s.step, _ = strconv.Atoi(nums[0])
		case strings.HasSuffix(p.said, "corner") && strings.Contains(p.said, "every"):
			s.every[nums[0]] = true
		case len(nums) > 0 && word != "":
			for _, n := range nums {
				s.off[n+" off "+wallWords[word]] = true
			}
		case len(nums) > 0 && slices.ContainsFunc(upWords, func(w string) bool { return strings.HasSuffix(p.said, " "+w) }):
			s.up[nums[0]] = true
		}
		for w, is := range kindWords {
			if one, plural := p.said == w || strings.HasSuffix(p.said, " "+w) || strings.HasSuffix(p.said, " "+w+","), strings.HasSuffix(p.said, " "+w+"s") || p.said == w+"s" || strings.HasSuffix(p.said, w+"es"); one || plural {
				s.kinds[is] = true
				for c, n := range countWords {
					if strings.HasPrefix(p.said, c+" ") {
						s.count = n
					}
				}
			}
		}
	}
	return s
}

// reaches reports whether a distance is that of the first of a row, and so many steps more.
func (s saidOf) reaches(n int, wall string) bool {
	if s.off[fmt.Sprintf("%d off %s", n, wall)] {
		return true
	}
	for k := 1; s.step > 0 && k < 4; k++ {
		if s.off[fmt.Sprintf("%d off %s", n-k*s.step, wall)] {
			return true
		}
	}
	return false
}

// TestSecondReader: lines put together from the words of the work in any order.
func TestSecondReader(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	read, sure, asked := 0, 0, 0
	for range 15000 {
		var parts []part
		add := func(format string, args ...any) { parts = append(parts, part{fmt.Sprintf(format, args...)}) }
		length := func() int { return oneOf(r, []int{6, 9, 12, 16, 18, 24, 30, 40, 48, 60, 72, 90, 100}) }
		kind := keyOf(r, kindWords)
		switch r.IntN(4) {
		case 0:
			plural := kind + "s"
			if kind == "switch" || kind == "box" {
				plural = kind + "es"
			}
			add("%s %s", keyOf(r, countWords), plural)
		case 1:
			add("a %s", kind)
		default:
			add("%s", kind)
		}
		if r.IntN(8) == 0 {
			add("and a %s,", keyOf(r, kindWords))
		}
		for range 1 + r.IntN(3) {
			switch r.IntN(8) {
			case 0:
				add("%d, %d and %d %s %s", length(), length()+1, length()+2, oneOf(r, offWords), keyOf(r, wallWords))
			case 1:
				add("%d and %d %s %s", length(), length()+1, oneOf(r, offWords), keyOf(r, wallWords))
			case 2:
				add("on %s", keyOf(r, wallWords))
			case 3:
				add("%d %s", length(), oneOf(r, upWords))
			case 4:
				add("%s", oneOf(r, oddWords))
			case 5:
				if r.IntN(3) == 0 {
					add("%d apart", length())
				} else if r.IntN(3) == 0 {
					add("%d off every corner", length())
				}
			default:
				add("%d %s %s", length(), oneOf(r, offWords), keyOf(r, wallWords))
			}
		}
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		said := ""
		for _, p := range parts {
			said += oneOf(r, []string{" ", ", ", " "}) + p.said
		}
		said = strings.Trim(said, " ,")
		m := of(said)
		if m == nil {
			continue
		}
		if read++; m.Sure {
			sure++
		}
		s := second(parts)
		lines := []string{m.Base}
		if m.Base == "" {
			lines = nil
			asked += len(m.Readings)
		}
		for _, reading := range m.Readings {
			if reading.Then != "" {
				lines = append(lines, reading.Then)
				continue
			}
			if s.count > 0 && len(reading.Lines) != s.count && len(s.kinds) == 1 && !strings.Contains(reading.Lines[0], "even") {
				t.Errorf("%q: %d of them in %q", said, len(reading.Lines), reading.Lines)
			}
			lines = append(lines, reading.Lines...)
		}
		for _, line := range lines {
			if strings.Contains(line, "even") {
				continue
			}
			if what, _, _ := strings.Cut(line, ","); !slices.ContainsFunc(slices.Collect(maps.Keys(s.kinds)), func(k string) bool { return strings.HasPrefix(what, k) }) {
				t.Errorf("%q: what is %q?", said, line)
			}
			for _, off := range anOff.FindAllStringSubmatch(line, -1) {
				n, _ := strconv.Atoi(off[1])
				if !s.reaches(n, off[2]) && !s.every[off[1]] {
					t.Errorf("%q: %q was not said, in %q", said, off[0], line)
				}
			}
			for _, up := range anUp.FindAllStringSubmatch(line, -1) {
				if !s.up[up[1]] {
					t.Errorf("%q: %q was not said, in %q", said, up[0], line)
				}
			}
			if on := onWall.FindStringSubmatch(line); on != nil && !s.walls[on[1]] && m.Why == "" {
				t.Errorf("%q: the wall was not said, in %q", said, line)
			}
		}
		if m.Base == "" {
			for _, reading := range m.Readings {
				all := strings.Join(reading.Lines, "; ") + reading.Then
				for off := range s.off {
					if far, wall, _ := strings.Cut(off, " off "); !regexp.MustCompile(`\b` + far + `(?: in)?"? off ` + wall).MatchString(all) {
						t.Errorf("%q: %q is lost in %q", said, off, all)
					}
				}
				for up := range s.up {
					if !strings.Contains(all, up+" up") {
						t.Errorf("%q: %q up is lost in %q", said, up, all)
					}
				}
			}
		}
		if t.Failed() && read > 400 {
			break
		}
	}
	t.Logf("%d read, %d sure, %d readings", read, sure, asked)
	if read < 3000 || sure < 200 {
		t.Errorf("only %d read, %d sure", read, sure)
	}
}

// TestAnyOrder: the words of rows, extents and sides in any order are read or not, and break nothing.
func TestAnyOrder(t *testing.T) {
	words := strings.Split("3 pots|blocking|a box|six vents|20|36|24 off west|30 off north|40 up|90|to|from|down the middle|centred|first|then|then every|every 48|40 apart|the second|next|row of three|2 rows of 3|2 x 3|each|per row|"+
		"in each|full length|whole|all along|the north wall|on the west wall|on the lid|off the side walls|off the ends|top|bottom at 12|high|2x6|between|after that|other way|and|,|evenly|corners|in every corner|left of|the door|another|same", "|")
	r := rand.New(rand.NewPCG(7, 3))
	for range 8000 {
		var said []string
		for range 2 + r.IntN(9) {
			said = append(said, oneOf(r, words))
		}
		meaning(strings.Join(said, " "))
	}
}
