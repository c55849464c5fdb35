package read_test

import (
	"testing"

	"strapline/grammar/read"
)

// TestAsked: a word that asks is spelt as it sounds only where it cannot be another word.
func TestAsked(t *testing.T) {
	for said, want := range map[string]string{
		"wear is the fan":         "where is the fan",
		"ok so wat size is it":    "ok so what size is it",
		"need howmany for it":     "need how many for it",
		"wear the mask up there":  "wear the mask up there",
		"were the lights cut":     "were the lights cut",
		"the fan, wear is it":     "the fan, wear is it",
		"witch board goes first?": "which board goes first?",
	} {
		if got := read.Asked(said); got != want {
			t.Errorf("%q: got %q, want %q", said, got, want)
		}
	}
}

// TestToldFirst: a line that begins with its verb tells if it has a number and nothing of a question.
func TestToldFirst(t *testing.T) {
	for said, want := range map[string]string{
		"is strapping 16 centre, across":   "strapping 16 centre, across",
		"was 12 boards 4x12 come today":    "12 boards 4x12 come today",
		"is the light 26 off west":         "",
		"is light 26 off west 41 off n ok": "",
		"are straps 16 or 24 in here":      "",
		"is strapping 16 centre, across?":  "",
		"is kitchen ready for the tape":    "",
		"is light 2 covered":               "",
	} {
		if got := read.ToldFirst(said); got != want {
			t.Errorf("%q: got %q, want %q", said, got, want)
		}
	}
}

// TestRoomsInFull: a noted room in short is written in full, unless two have it or the word says something else.
func TestRoomsInFull(t *testing.T) {
	rooms := map[string]string{"back bedroom": "back bedroom", "kitchen": "kitchen", "front hall": "front hall", "first hole": "first hole"}
	for said, want := range map[string]string{
		"where is the fan in bk bedrm?": "where is the fan in back bedroom?",
		"how high is the kitch":         "how high is the kitchen",
		"whats in the kit":              "whats in the kit",
		"what is in ft hl":              "what is in ft hl",
		"where is the fan in kitchen":   "where is the fan in kitchen",
	} {
		if got := read.RoomsInFull(said, rooms); got != want {
			t.Errorf("%q: got %q, want %q", said, got, want)
		}
	}
}
