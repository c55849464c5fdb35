package speech_test

import (
	"testing"

	"strapline/grammar/speech"
)

// What a note in the crew's own words says of a run makes answers about screws hedge.
func TestTellsOfRun(t *testing.T) {
	for said, want := range map[string]bool{
		"theres an old drain somewhere in the east wall": true, "knob and tube up in the attic": true, "main stack behind the tub": true,
		"put the waste in the bin": false, "duct boot needs a collar": false, "2 coffees for the plumber": false, "stack the boards by the door": false,
	} {
		if got := speech.TellsOfRun(said); got != want {
			t.Errorf("%q: %v", said, got)
		}
	}
}
