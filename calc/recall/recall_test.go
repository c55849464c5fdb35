package recall_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"strapline/calc/recall"
)

func ExampleBest() {
	notes := []recall.Note{
		{Text: "valve for the tub is above the laundry", Also: "plumber"},
		{Text: "two sheets spoiled in the laundry", Also: "hanger"},
		{Text: "rough-in passed", Also: "plumber"},
	}
	asked := []recall.Word{{Text: "shutoff", Weight: 1}, {Text: "laundry", Weight: 1}}
	synonyms := map[string]string{"valve": "shutoff"}
	fold := func(w string) string {
		if s := synonyms[w]; s != "" {
			return s
		}
		return w
	}
	for _, n := range recall.Best(notes, asked, recall.Words{Fold: fold}, 4) {
		fmt.Println(notes[n].Text)
	}
	// Output:
	// valve for the tub is above the laundry
}

var plain = recall.Words{
	Fold: func(w string) string { return strings.TrimSuffix(w, "s") },
	Alike: func(a, b string) bool { // a letter left out
		return len(a) == len(b)+1 && strings.HasPrefix(a, b[:2]) || len(b) == len(a)+1 && strings.HasPrefix(b, a[:2])
	},
}

func words(s string) (all []recall.Word) {
	for w := range strings.FieldsSeq(s) {
		text, must := strings.CutPrefix(w, "+")
		all = append(all, recall.Word{Text: text, Weight: 1, Must: must})
	}
	return all
}

func TestBest(t *testing.T) {
	notes := []recall.Note{
		{Text: "Shutoff above the laundry", Also: "plumber laundry"}, // 0
		{Text: "pipe over the door", Also: "plumber hall"},           // 1
		{Text: "pipe at strap 3", Also: "plumber bath"},              // 2
		{Text: "Pipes, pipes!", Also: "lead bath"},                   // 3
		{Text: "rough-in isn't passed", Also: "lead bath"},           // 4
	}
	for _, tt := range []struct {
		asked string
		most  int
		want  []int
	}{
		{"pipe", 4, []int{3, 2, 1}},               // the newest first
		{"pipe", 2, []int{3, 2}},                  // no more than asked for
		{"pipe +bath", 4, []int{3, 2}},            // what must be in it
		{"fan +bath", 4, nil},                     // and is not enough
		{"+bath", 4, []int{4, 3, 2}},              // unless nothing else is asked
		{"pipe door", 4, []int{1}},                // the rare word tells more: half of it is not the common one
		{"shutof", 4, []int{0}},                   // a slip that no note has
		{"fan", 4, nil},                           // nothing of it
		{"fan bath", 4, nil},                      // the word that tells most is in none
		{"rough-in", 4, []int{4}},                 // a word with a sign in it
		{"rough", 4, []int{4}},                    // and before the sign
		{"isn't", 4, []int{4}},                    // and with an apostrophe
		{"plumber door", 4, []int{1}},             // who said it counts as a word
		{"", 4, nil},                              // nothing asked
		{"pipe pipe pipe fan", 4, []int{3, 2, 1}}, // said often
	} {
		if got := recall.Best(notes, words(tt.asked), plain, tt.most); !slices.Equal(got, tt.want) {
			t.Errorf("%q: got %v, want %v", tt.asked, got, tt.want)
		}
	}
}

// TestManyWords: words beyond those that are looked at change nothing.
func TestManyWords(t *testing.T) {
	asked := words(strings.Repeat("pipe ", 40))
	if got := recall.Best([]recall.Note{{Text: "pipe"}}, asked, plain, 4); len(got) != 1 {
		t.Errorf("got %v", got)
	}
}

func BenchmarkBest(b *testing.B) {
	var notes []recall.Note
	for i := range 10_000 {
		notes = append(notes, recall.Note{Text: fmt.Sprintf("light l%d over the sink in row %d is %d off west, leave the strap by it alone", i, i%7, i%200), Also: "electrician kitchen"})
	}
	for b.Loop() {
		recall.Best(notes, words("shutoff strap l77"), plain, 4)
	}
}
