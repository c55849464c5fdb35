package pending_test

import (
	"testing"

	"strapline/bot/pending"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

// What a short answer chooses of what was offered: a label, the start of one, or none if it could be several.
func TestChoice(t *testing.T) {
	labels := func(all ...string) *pending.Question {
		q := new(pending.Question)
		for _, l := range all {
			q.Choices = append(q.Choices, grammar.Choice{Label: l})
		}
		return q
	}
	walls := labels("off the west wall", "off the east wall")
	again := labels("another one, call it d2", "moved", "no: keep it as a note")
	sizes := labels("12-5/8\"", "12'")
	for _, c := range []struct {
		q    *pending.Question
		said string
		want int
	}{
		{walls, "west", 1}, {walls, "Off the east wall!", 2}, {walls, "north", 0}, {walls, "wall", 0},
		{again, "another one", 1}, {again, "no", 3}, {again, "yes", 0},
		{labels("d1", "no: keep it as a note"), "yes", 1},
		{sizes, "12 5/8", 1}, {sizes, "12", 0},
		{labels("d1, hall", "d1, bath"), "d1", 0}, {nil, "west", 0},
	} {
		if got := c.q.Choice(c.said); got != c.want {
			t.Errorf("%q: got choice %d, want %d", c.said, got, c.want)
		}
	}
}

// An answer in words of one's own is one choice if all its words are among those of one alone.
func TestMeans(t *testing.T) {
	labels := func(all ...string) *pending.Question {
		q := new(pending.Question)
		for _, l := range all {
			q.Choices = append(q.Choices, grammar.Choice{Label: l})
		}
		return q
	}
	ways := labels("east-west", "north-south")
	runs := labels("across, from north to south", "up the north wall, floor to ceiling", "up the south wall, floor to ceiling", "no: keep it as a note")
	walls := labels("north", "east", "no: keep it as a note")
	for _, c := range []struct {
		q    *pending.Question
		said string
		want int
	}{
		{ways, "ew", 1}, {ways, "n to s", 2}, {ways, "from the north", 0}, {ways, "the long way", 0},
		{runs, "it crosses", 1}, {runs, "up the south wall", 3}, {runs, "up the wall", -1}, {runs, "north wall", 2}, {runs, "not up the north wall", 0}, {runs, "1", 0},
		{walls, "n wall", 1}, {walls, "thats the east side", 2}, {walls, "keep it", 0}, {labels("feet", "inches"), "ft", 1}, {labels("feet", "inches"), "in", 2},
		{labels("light 1", "no: leave it"), "light", 0},
	} {
		if got := c.q.Means(c.said); got != c.want {
			t.Errorf("%q: got choice %d, want %d", c.said, got, c.want)
		}
	}
	if got := walls.Choice("n wall"); got == 3 {
		t.Error("the north wall is taken for a no")
	}
	of := func(oc length.Length, run place.Direction) grammar.Line {
		return grammar.Line{Entry: rooms.SupportSet{What: "strap", Run: run, Spacing: length.Said{L: oc * length.Inch}}}
	}
	ways.Choices[0].Lines = []grammar.Line{of(16, place.EW)}
	if !ways.Completed(of(16, place.EW), "straps 16 oc") || ways.Completed(of(24, place.EW), "straps 16 oc") {
		t.Error("an answer that changes the spacing completes it, or one that does not completes nothing")
	}
}

// A stack without some of its questions keeps the order of the others, and is the same one if none go.
func TestWithout(t *testing.T) {
	q := &pending.Question{Said: "c", Under: &pending.Question{Said: "b", Under: &pending.Question{Said: "a"}}}
	left := q.Without(func(q *pending.Question) bool { return q.Said == "b" })
	if left.Said != "c" || left.Under.Said != "a" || left.Under.Under != nil || q.Under.Said != "b" {
		t.Errorf("left %+v of %+v", left, q)
	}
	if same := q.Without(func(*pending.Question) bool { return false }); same != q {
		t.Error("a copy though nothing is gone")
	}
}
