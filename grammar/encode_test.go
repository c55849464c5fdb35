package grammar_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"strapline/grammar"
)

// What is kept with an open question is the line itself: each example of the
// language comes back from its JSON as it was.
func TestLinesAreKept(t *testing.T) {
	for _, c := range grammar.Commands() {
		line, err := grammar.Parse(c.Example, onSite("imperial"))
		if err != nil {
			t.Errorf("%q: %v", c.Example, err)
			continue
		}
		line.Room, line.Before = "kitchen", 2
		data, err := json.Marshal(line)
		if err != nil {
			t.Fatal(err)
		}
		var got grammar.Line
		if err := json.Unmarshal(data, &got); err != nil || !reflect.DeepEqual(got, line) {
			t.Errorf("%q: got %#v, %v\nwant %#v", c.Example, got, err, line)
		}
	}
}

func TestChoicesAreLines(t *testing.T) {
	_, err := grammar.Parse("gap 84 2", onSite("imperial"))
	ask, ok := err.(*grammar.Ask)
	if !ok || len(ask.Choices) != 4 {
		t.Fatalf("got %v", err)
	}
	for _, c := range ask.Choices {
		if len(c.Lines) != 1 || c.Text != "" {
			t.Errorf("choice %q is %+v", c.Label, c)
		}
	}
}
