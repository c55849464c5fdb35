package said

import (
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
)

// Fate is what a part of the line says of things that board may hide.
type Fate int

const (
	Unsaid Fate = iota
	IsCut
	IsShut  // board is over it, and it is not cut
	IsBare  // no board is over it yet
	Refuted // what was said before is not so of it
	Unclear // it is said both ways
)

// Opposite is the fate of things of which is denied what was said of those before.
var Opposite = map[Fate]Fate{IsCut: IsShut, IsShut: IsBare}

// FateOf returns what the words from one place up to another say of the things among them.
func (l *Line) FateOf(from, to int) Fate {
	cut, due, later, shut, not, still, some := false, false, false, false, false, false, false
	for i := from; i < to; i++ {
		w := l.Words[i]
		some = some || w.Is(Row) && l.At(i+1).Text == "of" && l.At(i+2).Is(Thing) || w.Is(Thing) && w.Many && someOf[l.At(i-1).Text]
		not = not || Negates[w.Text]
		still = still || w.Is(Still) && w.Text != "yet" && !l.MadeGood(i, to)
		cut = cut || l.doneBehind(i)
		shut = shut || w.Is(Shut) && !(l.Part(IsUp, from, i) && Hides[w.Text])
		later = later || w.Is(Later|Planned) || w.Text == "after"
		if w.Is(CutOut | Hole) {
			cut, due = cut || !dueAfter[l.At(i-1).Text], due || dueAfter[l.At(i-1).Text] || strings.HasPrefix(w.Text, "cutting")
		}
	}
	shut = shut && (l.Part(Thing, from, to) || cut || not)
	switch {
	case some, cut && l.Part(But, from, to) && l.Part(Every, from, to): // "front row of lights cut", "all but the fan cut"
		return Unclear
	case (cut || due) && (not || still || due && later || shut && l.Part(Thing, from, to) && l.Has("uncut")):
		return IsShut
	case due && !cut, cut && shut:
		return Unclear
	case shut && not:
		return IsBare
	case shut:
		return IsShut
	case cut:
		return IsCut
	case not || still:
		return Refuted
	}
	return Unsaid
}

// doneBehind reports whether word i says of the thing before it, behind board that is up, that it is cut: "row 3 up, fan
// done".
func (l *Line) doneBehind(i int) bool {
	return l.Words[i].Is(Done) && l.At(i-1).Is(Thing) && l.Part(IsUp, 0, i-1) && l.Part(Row|On, 0, i-1)
}

// MadeGood reports whether word i says that a thing was left out, and what is behind it that it is cut by now: "forgot the
// fan, its cut now".
func (l *Line) MadeGood(i, to int) bool {
	if w := l.Words[i]; w.Text != "missed" && w.Text != "forgot" {
		return false
	}
	is := false
	for _, w := range l.Words[i:to] {
		if is = is || byNow[w.Text]; Negates[w.Text] || w.Is(CutOut) {
			return is && w.Is(CutOut)
		}
	}
	return false
}

var byNow = lex.Set("its", "it's", "it", "is", "now", "thats", "that's")

// someOf are words by which not all of a kind are meant.
var someOf = lex.Set("left", "right", "back", "front", "middle", "other")

// dueAfter are words before a cut that is still to be made: "the fan is to be cut".
var dueAfter = lex.Set("to", "be", "ill", "i'll", "will")

// Negates are words by which a hole is not cut.
var Negates = lex.Set("not", "no", "never", "neither", "nobody", "nothing", "none", "isnt", "isn't", "aint", "ain't", "arent", "aren't", "wasnt", "wasn't", "werent", "weren't", "havent", "haven't", "hasnt", "hasn't",
	"didnt", "didn't", "without")

// Hides are words between board and the thing that it is over.
var Hides = lex.Set("over", "behind", "under", "around", "past", "above")

// side is the wall at i by which things are told apart, "" if it is none.
func (l *Line) side(i int) string {
	if w := l.At(i); w.Is(On) && slices.Contains(place.Walls[:], place.Wall(w.Value)) && !strings.HasSuffix(w.Text, "wall") {
		return w.Value
	}
	return ""
}

// ones are things of the kind said before, or spoken of.
func (l *Line) ones(c *grammar.Context) Word {
	for _, w := range slices.Backward(l.Words) {
		if w.Is(Thing) && w.Many {
			return Word{Class: Thing, Value: w.Value, Many: true}
		}
	}
	if c.Spoken != nil {
		for _, name := range c.Spoken().Names {
			what, _, _ := strings.Cut(name, " ")
			return Word{Class: Thing, Value: lex.ThingOf[what], Many: true}
		}
	}
	return Word{}
}
