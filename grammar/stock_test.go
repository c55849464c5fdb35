package grammar_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/grammar/parse"
)

func init() {
	accepted = append(accepted, acceptedStock...)
	chatter = append(chatter, chatterStock...)
}

// acceptedStock is accepted for the boards on hand.
var acceptedStock = []struct{ in, canon string }{
	{"stock 9 x 12", `stock 9 x 144"`},
	{"stock 9 12 4 8", `stock 9 x 144", 4 x 96"`},
	{"stock 12' x 2 8' x 4", `stock 2 x 144", 4 x 96"`},
	{"stock 12ft x 2", `stock 2 x 144"`},
	{"stock 10 sheets of 12", `stock 10 x 144"`},
	{"stock a dozen 12s", `stock 12 x 144"`},
	{"we have 10 sheets of 12", `stock 10 x 144"`},
	{"we've got 9 12s on hand", `stock 9 x 144"`},
	{"i have 9 12s and 4 8s", `stock 9 x 144", 4 x 96"`},
	{"9 12s on hand", `stock 9 x 144"`},
	{"9 12s came", `delivered 9 x 144"`},
	{"only 8 12s came", `delivery was 8 x 144"`},
	{"9 12s and 4 8s arrived", `delivered 9 x 144", 4 x 96"`},
	{"delivered 5 12s and 1 8", `delivered 5 x 144", 1 x 96"`},
	{"used 2 8", `used 2 x 96"`},
	{"used a 12", `used 1 x 144"`},
	{"used one 12 and an 8", `used 1 x 144", 1 x 96"`},
	{"used a couple of 12s", `used 2 x 144"`},
	{"spoiled a 12", `used 1 x 144"`},
	{"broke a 12", `used 1 x 144"`},
	{"cracked 2 12s", `used 2 x 144"`},
	{"ruined a 12", `used 1 x 144"`},
	{"how many sheets left?", "boards left"},
	{"2 12s broken", `used 2 x 144"`},
	{"12s left?", `how many 144" left`},
	{"12' boards left?", `how many 144" left`},
	{"any 12s left", `how many 144" left`},
	{"any 12 footers on hand?", `how many 144" left`},
	{"how many 12s have we got", `how many 144" left`},
	{"how many 12s on hand", `how many 144" left`},
	{"boards on hand", "boards left"},
	{"whats on hand", "boards left"},
	{"board lengths 8s 10s 12s", `board lengths 96", 120", 144"`},
	{"longest in 10", `longest in 120"`},
	{"longest that fits is 10", `longest in 120"`},
	{"longest board that fits is 10'", `longest in 120"`},
	{"only 10s fit up the stairs", `longest in 120"`},
	{"only 10' boards get in", `longest in 120"`},
	{"nothing over 10 fits", `longest in 120"`},
	{"nothing longer than 10 gets in the door", `longest in 120"`},
}

func TestMetricStock(t *testing.T) {
	for _, tt := range []struct{ in, canon string }{
		{"3.6s left?", "how many 3600 mm left"},
		{"used a 3.6", "used 1 x 3600 mm"},
		{"stock 9 x 3.6 4 x 2400", "stock 9 x 3600 mm, 4 x 2400 mm"},
		{"rows 9 and 10 up", "hung r9 r10"},
		{"hung row 9 and 12", "hung r9 r12"},
	} {
		line, err := parse.Line(tt.in, onSite(length.Metric))
		if err != nil {
			t.Errorf("%q: %v", tt.in, err)
		} else if got := line.String(); got != tt.canon {
			t.Errorf("%q\n got %q\nwant %q", tt.in, got, tt.canon)
		}
	}
}

// chatterStock is talk of other counts than those of boards.
var chatterStock = []string{
	"got 5 guys coming", "got 2 coffees", "got a 10 minute break", "got 12 screws", "got it", "we have 2 guys", "we have 10 minutes left", "we have a problem",
	"we came at 5", "have a good one", "we have 2 10 footers", "i got 2 kids", "broke my tape", "broke for lunch", "broke 2 nails", "cracked up", "wasted my morning", "ruined my shirt", "have 9 12s delivered", "max board thickness", "sheets of rain", "only 2 of us", "only 10 left",
	"only 10 minutes left", "only 5 guys came", "nothing over 10 bucks", "nothing fits", "only 2 fit in the van", "only 10s fit in my truck", "5 left", "12 left?",
	"5 guys came", "5 10 came", "a 12 broke the window", "9 12s left behind", "any 5 of you around", "10' max", "10 people max", "on hand if you need me",
	"sheets are in the van", "12s are nice",
}
