package grammar_test

import (
	"errors"
	"testing"

	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
)

// TestAsksNotes: a question about the job that no rule and no sorting answers is looked for in the notes, by
// the words that tell what it is about.
func TestAsksNotes(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"notes on the shutoff above the laundry", "notes on shutoff laundry"},
		{"gotta get at the shutoff above the laundry. didnt somebody write down where it was", "notes on shutoff laundry"},
		{"which one, supply or drain, and does it go toward the powder room or away", "notes on supply drain toward powder"},
		{"did the plumber ever say his test passed", "notes on plumber test passed"},
		{"theres romex in there isnt there", "list wires"},
		{"who signed off the garage ceiling as all cut out? what day was that", "notes on signed garage ceiling cut"},
		{"kitchen: who signed off the lid", "kitchen: notes on signed lid"},
	} {
		line, err := parse.Line(tt.in, flat())
		if got := line.String(); err != nil || got != tt.means {
			t.Errorf("%q: got %q, %v, want %q", tt.in, got, err, tt.means)
		}
	}
}

// TestAsksTopic: what is asked of the job as a whole, of boards, screws or framing, is answered whatever
// else is said with it.
func TestAsksTopic(t *testing.T) {
	for _, tt := range []struct{ in, means string }{
		{"status on everything pls, room by room", "status"},
		{"hows the kitchen looking, strapped or boarded or what", "kitchen: status"},
		{"can we close up the kitchen or is something still waiting", "kitchen: ready"},
		{"any 8 footers still kicking around", "how many 96\" left"},
		{"how many full sheets we got left over", "boards left"},
		{"do we have enough board for the kitchen or am i ordering more", "kitchen: order"},
		{"how many boxes of screws do we need for the kitchen", "kitchen: how many screws"},
		{"what length screws for the 5/8", "how many screws"},
		{"where do the seams land in the kitchen", "kitchen: layout"},
		{"any popped screws or snags i should know about", "snags"},
		{"wheres the strap lines in here so i can cut a patch", "list size"},
		{"are the straps 16 or 24 in here", "list size"},
		{"whats the thickness on this job, half inch or 5/8?", "list board"},
		{"how big is the cook room", "kitchen: list size"},
		{"is the kitchen square or is it out", "kitchen: how square is it"},
		{"could you tell me what is behind the kitchen ceiling?", "kitchen: list everything"},
		{"what did i miss today", "log today"},
		{"who covered the fan in the kitchen, i never cut it", "kitchen: find fan"},
		{"what do i hang first, walls or lid", "what goes up first"},
		{"do we hang walls top sheet first or bottom", "top or bottom first"},
		{"on the walls do we start with the top sheet or the bottom", "top or bottom first"},
		// A place, and a screw there.
		{"if i put a 1 5/8 screw in the kitchen lid 40 off the west wall and 30 off north do i hit anything", `kitchen: reach 1-5/8" at 40" off west, 30" off north`},
		{"do i hit a pipe if i screw at 40 west 50 north", `reach at 40" off west, 50" off north`},
		{"whats above 40 off west and 50 off north in the kitchen", `kitchen: reach at 40" off west, 50" off north`},
		{"is it okay to hang a hook about 3 feet from the west wall and 4 feet from the window wall?", `reach at 36" off west, 48" off north`},
		{"safe to screw 6 inches from the sink light?", "reach"},
		{"where could i safely screw in a hook in the kitchen ceiling?", "kitchen: reach"},
		{"theres a pipe near the sink light isnt there", "any pipe noted"},
		// Of a room that is not noted nothing is worked out.
		{"which way do the straps run in the front bdrm", "notes on straps front bdrm"},
		{"is there a butt joint between the 2nd and 3rd light in the family rm", "notes on butt joint 2nd 3rd light family rm"},
	} {
		line, err := parse.Line(tt.in, flat())
		if got := line.String(); err != nil || got != tt.means {
			t.Errorf("%q: got %q, %v, want %q", tt.in, got, err, tt.means)
		}
	}
	// A question mark within a statement asks nothing, and one behind a measure little.
	for _, in := range []string{"screws 35mm every 20 cm in the field 15 at the edges, right?", `pex go crossways arms length from the window (30"?) between strap and joist, stapled low so use short ones there`} {
		if line, err := parse.Line(in, flat()); err == nil {
			if note, kept := line.Entry.(record.Note); !kept || !note.Kept {
				t.Errorf("%q was read as %s", in, line)
			}
		}
	}
}

// TestNeverDeaf: a question about the job gets an answer, or is asked back, in whatever words; it never gets
// a column number and never silence.
func TestNeverDeaf(t *testing.T) {
	for _, in := range lines(t, "asked.txt") {
		line, err := parse.Line(in, flat())
		if r, refused := errors.AsType[*grammar.Refusal](err); refused || errors.Is(err, grammar.ErrChatter) {
			t.Errorf("%q: %v, %v", in, err, r)
		}
		if note, kept := line.Entry.(record.Note); err == nil && kept {
			t.Errorf("%q is kept as a note: %s", in, note.Text)
		}
	}
}
