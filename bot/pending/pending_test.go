package pending_test

import (
	"testing"

	"strapline/bot/pending"
	"strapline/grammar"
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
