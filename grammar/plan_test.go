package grammar_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/parse"
	"strapline/grammar/sentences"
	"strapline/grammar/things"
)

func init() {
	accepted = append(accepted, acceptedPlan...)
	chatter = append(chatter, chatterPlan...)
}

// acceptedPlan is accepted for what is said of the plan and before closing.
var acceptedPlan = []struct{ in, canon string }{
	// Runs.
	{"pipe p1 40 off west from strap 2 to strap 7 depth 3/4", `pipe p1 40" off west from strap 2 to strap 7, depth 3/4"`},
	{`pipe p1 1/2" 40 off west from strap 2 to strap 6 on top of the straps`, `pipe p1 1/2", 40" off west from strap 2 to strap 6, on top of the straps`},
	{"wire w1 from 20 off west 34 off north to 100 off west 34 off north depth 1/2",
		`wire w1 from 20" off west, 34" off north to 100" off west, 34" off north, depth 1/2"`},
	{"gas g1 from 30 off west 20 off north through 30 off west 80 off north to 90 off west 80 off north depth 1",
		`gas g1 from 30" off west, 20" off north through 30" off west, 80" off north to 90" off west, 80" off north, depth 1"`},
	{"gas g1 from 30 off west 20 off north to 30 off west 80 off north to 90 off west 80 off north",
		`gas g1 from 30" off west, 20" off north through 30" off west, 80" off north to 90" off west, 80" off north`},
	{"wire w1 30 off north from strap 1 to strap 4 depth 3/4", `wire w1 30" off north from strap 1 to strap 4, depth 3/4"`},
	{"Pex p2, 40 off the west wall, from the north wall to the south wall, on top of straps", `pipe p2 40" off west from 0" off north to 0" off south, on top of the straps`},
	{"pex p2 from north wall to south wall 40 off west on top of straps", `pipe p2 40" off west from 0" off north to 0" off south, on top of the straps`},
	{"pipe p1 from strap 2, 40 off west, to strap 7", `pipe p1 40" off west from strap 2 to strap 7`},
	{"wire w2 from strap 2 to strap 5 depth 1/2 22 off west", `wire w2 22" off west from strap 2 to strap 5, depth 1/2"`},
	{"wire w2 from 20 off west 34 off north to 90 off west", `wire w2 34" off north from 20" off west to 90" off west`},
	{"water line p3 40 off west from strap 2 to 7, 3/4 deep", `pipe p3 40" off west from strap 2 to strap 7, depth 3/4"`},
	{"pipe p1 40 off west straps 2 to 7", `pipe p1 40" off west from strap 2 to strap 7`},
	{"pipe p1 40 off west strap 2 to strap 7", `pipe p1 40" off west from strap 2 to strap 7`},
	{"wire w1 20 off west 34 off north to 100 off west 34 off north", `wire w1 from 20" off west, 34" off north to 100" off west, 34" off north`},
	{"cable w4 34 off north from 20 to 96 off west in conduit", `wire w4 34" off north from 20" off west to 96" off west, in conduit`},
	{"conduit c1 40 off west from strap 2 to strap 7", `wire c1 40" off west from strap 2 to strap 7, in conduit`},
	{"duct run dr1 8 from 30 off west 20 off north to 30 off east 20 off north", `duct run dr1 8" from 30" off west, 20" off north to 30" off east, 20" off north`},
	{"heat tube h1 40 off west strap 2 to strap 7 notched 1/4 deep", `heat tube h1 40" off west from strap 2 to strap 7, notched depth 1/4"`},
	{"pipe p1 notched depth 1/4 40 off west from strap 2 to strap 7", `pipe p1 40" off west from strap 2 to strap 7, notched depth 1/4"`},
	{"copper p4 1/2in 40 off west from strap 2 to strap 3 notched into the straps", `pipe p4 1/2", 40" off west from strap 2 to strap 3, notched`},
	{"pipe p1 60 off west from strap 2 to strap 5 on top of the straps, notched into strap 4, 1/4 deep", `pipe p1 60" off west from strap 2 to strap 5, on top of the straps, notched into strap 4, depth 1/4"`},
	{"pipe p2 60 off west from strap 2 to strap 5 notched into strap 3 depth 1/4", `pipe p2 60" off west from strap 2 to strap 5, notched into strap 3 depth 1/4"`},
	{"copper 1/2 in p4 40 off west from strap 2 to strap 3", `pipe p4 1/2", 40" off west from strap 2 to strap 3`},
	{`1/2" pex p5 40 off west from strap 2 to strap 3`, `pipe p5 1/2", 40" off west from strap 2 to strap 3`},
	{"gas line 30 off west from strap 2 to strap 7 3/4 behind the board", `gas 30" off west from strap 2 to strap 7, depth 3/4"`},
	{"wire w2 on north wall from 52 off west 16 up to 52 off west 60 up depth 1 1/4", `wire w2 on north wall from 52" off west, 16" up to 52" off west, 60" up, depth 1-1/4"`},
	{"wire w1 along strap 3 from 20 to 90 off west", `wire w1 on strap 3 from 20" off west to 90" off west`},
	{"pipe p1 runs 40 off west from strap 2 to strap 7", `pipe p1 40" off west from strap 2 to strap 7`},
	{"wire w1 from light l1 to box d2", `wire w1 from 0" north of l1 to 0" north of d2`},
	{"wire from d1 to the sink light", `wire from 0" north of d1 to 0" north of sink light`},
	{"kitchen pipe p1 40 off west from strap 2 to strap 7", `kitchen: pipe p1 40" off west from strap 2 to strap 7`},
	{"pipe p1 7 south of strap 3 from the west wall to 40 off east", `pipe p1 7" south of strap 3 from 0" off west to 40" off east`},
	{"any duct run over row 2", "any duct run over row 2"},
	{"pipe over row 3?", "any pipe over row 3"},
	{"is there pipe over row 3", "any pipe over row 3"},
	{"lights in row 2?", "any light over row 2"},
	{"any pipe over row 3 on north wall", "any pipe over row 3 on north wall"},
	{"any wire behind row 2 of the east wall?", "any wire over row 2 on east wall"},
	{"any gas in the north wall row 2", "any gas over row 2 on north wall"},
	{"any pipe over row 1 on the north slope", "any pipe over row 1 on north slope"},
	{"whats behind row 2 on the west wall", "anything over row 2 on west wall"},
	{"is it square", "how square is it"},
	{"kitchen: is it out of square?", "kitchen: how square is it"},
	{"is the kitchen square", "kitchen: how square is it"},
	{"diag nw-se", "how square is it"},
	{"nw to se 213 3/4", `square diag nw-se 213-3/4"`},
	{"ne-sw is 213 7/8", `square diag ne-sw 213-7/8"`},
	{"pipe p3 20 off west, 20 up the slope to 20 off west, 60 up the north slope", `pipe p3 on north slope from 20" off west, 20" up to 20" off west, 60" up`},
	{"any copper over row 2", "any pipe over row 2"},
	{"hit the water line", "hit water"},

	{"plate p1 strap 3", "plate p1 strap 3"},
	{"plate p1 straps 3 5 7", "plate p1 straps 3 5 7"},
	{"plates on p1 at straps 3, 5", "plate p1 straps 3 5"},
	{"plate strap 3 on p1", "plate p1 strap 3"},
	{"plated p1 straps 5 and 3", "plate p1 straps 3 5"},
	{"nail plates on w1 joists 2 to 4", "plate w1 joists 2 3 4"},
	{"plates in at straps 3 5 on p1", "plate p1 straps 3 5"},
	{"plate p1 strap 5, strap3", "plate p1 straps 3 5"},
	{"p1 plated at strap 3", "plate p1 strap 3"},
	{"code us", "code us"},
	{"code Canada", "code canada"},
	{"code USA", "code us"},

	// The lead's own numbers.
	{"set margin 3/8", `set margin 3/8"`},
	{"set waste 10", "set waste 10%"},
	{"set rated 60", "set rated 60"},
	{"set rated to 60 minutes", "set rated 60"},
	{"set waste to 12.5 percent", "set waste 12.5%"},
	{"set compound 9 per 1000", "set compound 9 per 1000"},
	{"set mud 9 gal per 1000 sq ft", "set compound 9 per 1000"},
	{"set compound 9", "set compound 9"},
	{"set box 500", "set box 500"},
	{"set box of 1000", "set box 1000"},
	{"set stagger 24", `set stagger 24"`},
	{"set sliver 8", `set sliver 8"`},
	{"set short to 20", `set short 20"`},
	{"set rip 3/8", `set rip 3/8"`},
	{"set set 1/16", `set set 1/16"`},
	{"set screw depth 1/16", `set set 1/16"`},

	{"set clearance 1/4", `clearance 1/4"`},
	{"set screw 1 5/8", `screw 1-5/8"`},

	// Reach and screws.
	{"reach", "reach"},
	{"reach den", "den: reach"},
	{"reach 1 5/8", `reach 1-5/8"`},
	{"where not to screw?", "reach"},
	{"where not to screw in the den", "den: reach"},
	{"is 1 5/8 ok", `reach 1-5/8"`},
	{"1 5/8 ok in den?", `den: reach 1-5/8"`},
	{"are 1 5/8 screws ok?", `reach 1-5/8"`},
	{"can i use 1 5/8", `reach 1-5/8"`},
	{"screws", "how many screws"},
	{"how many screws?", "how many screws"},
	{"how many screws den", "den: how many screws"},
	{"how many screws do i need for den", "den: how many screws"},
	{"screws kitchen", "kitchen: how many screws"},
	{"screws 1 5/8", `screw 1-5/8"`},

	// Before it is closed.
	{"ready", "ready"},
	{"is it ready?", "ready"},
	{"is kitchen ready", "kitchen: ready"},
	{"is the kitchen ready yet?", "kitchen: ready"},
	{"kitchen ready?", "kitchen: ready"},
	{"kitchen is ready", "kitchen: ready"},
	{"ready kitchen", "kitchen: ready"},
	{"good to close?", "ready"},
	{"kitchen good to close", "kitchen: ready"},
	{"is bed 2 good to close?", "bed 2: ready"},
	{"can we close kitchen", "kitchen: ready"},
	{"check nails ok", "check nails ok"},
	{"check the nails are ok", "check nails ok"},
	{"check nails ok in kitchen", "kitchen: check nails ok"},
	{"kitchen: check electrical inspection passed", "kitchen: check electrical inspection ok"},
	{"check kitchen insulation done", "kitchen: check insulation ok"},
	{"check photos in", "check photos ok"},
	{"check insulation failed, gap over the door", "check insulation failed gap over the door"},
	{"check nails not ok", "check nails failed"},
	{"check vapor barrier waived inside wall on both sides", "check vapor barrier waived inside wall on both sides"},
	{"check vapor barrier waived", "check vapor barrier waived"},
	{"check add fire caulk", "check add fire caulk"},
	{"check v1 ok", "check v1 ok"},
	{"check valve 1 has to stay reachable ok", "check valve 1 has to stay reachable ok"},
	{"handoff", "handoff"},
	{"handoff kitchen", "kitchen: handoff"},
	{"hand off taper", "handoff taper"},
	{"hand off to the electrician", "handoff electrician"},
	{"handoff painter kitchen", "kitchen: handoff painter"},
	{"coat 2 60f 70%", "coat 2 60f 70%"},
	{"coat 1 16c", "coat 1 16c"},
	{"coat 3", "coat 3"},
	{"coat 3 done", "coat 3"},
	{"coat two 60f and damp", "coat 2 60f damp"},
	{"den coat 2 60f 75 rh", "den: coat 2 60f 75%"},
	{"coat 2 kitchen 72 °F, RH 45", "kitchen: coat 2 72f 45%"},
	{"coat 2 16.5 celsius 40 percent humidity", "coat 2 16.5c 40%"},
	{"painted", "painted"},
	{"ceiling painted", "painted"},
	{"painted the ceiling", "painted"},
	{"kitchen painted", "kitchen: painted"},
	{"kitchen is painted", "kitchen: painted"},
	{"kitchen ceiling is painted", "kitchen: painted"},

	// The plan.
	{"layout", "layout"},
	{"layout kitchen", "kitchen: layout"},
	{"layout?", "layout"},
	{"layout 2", "layout 2"},
	{"layout north wall", "layout on north wall"},
	{"layout on the window wall", "layout on north wall"},
	{"layout 2 west wall", "layout 2 on west wall"},
	{"layout west wall 2", "layout 2 on west wall"},
	{"sketch", "sketch"},
	{"sketch kitchen", "kitchen: sketch"},
	{"sketch of the kitchen ceiling", "kitchen: sketch"},
	{"sketch kitchen looking up", "kitchen: sketch looking up"},
	{"sketch looking up in kitchen please", "kitchen: sketch looking up"},
	{"can you show me a sketch from below?", "sketch looking up"},
	{"cuts", "cut list"},
	{"cuts for kitchen", "kitchen: cut list"},
	{"cut list", "cut list"},
	{"what do i cut", "cut list"},
	{"order", "order"},
	{"order for the kitchen", "kitchen: order"},
	{"order kitchen", "kitchen: order"},
	{"what do i order?", "order"},
	{"stock 9 x 12' 4 x 8'", `stock 9 x 144", 4 x 96"`},
	{"stock 9 x 12', 4 x 8'", `stock 9 x 144", 4 x 96"`},
	{"stock: 9 12s and 4 8s", `stock 9 x 144", 4 x 96"`},
	{"stock 9 of 12' and 4 of 8'", `stock 9 x 144", 4 x 96"`},
	{"stock 9x12ft 4x8ft", `stock 9 x 144", 4 x 96"`},
	{"stock 9 boards of 144", `stock 9 x 144"`},
	{"delivered 40 4x12", `delivered 40 x 144"`},
	{"stock 0 x 12'", `stock 0 x 144"`},
	{"stock", "boards left"},
	{"delivered 40 x 12'", `delivered 40 x 144"`},
	{"delivered 40 12 footers", `delivered 40 x 144"`},
	{"used 2 x 8'", `used 2 x 96"`},
	{"boards left", "boards left"},
	{"how many boards left?", "boards left"},
	{"how many 12s left", `how many 144" left`},
	{"how many 12' boards left?", `how many 144" left`},
	{"longest in 10'", `longest in 120"`},
	{"whats left?", "boards left"},
	{"longest board 10'", `longest in 120"`},
	{"longest 10 feet", `longest in 120"`},
	{"bring tomorrow", "what do i bring"},
	{"bring tomorrow kitchen", "kitchen: what do i bring"},
	{"what do i bring?", "what do i bring"},
	{"what do we bring tomorrow for den", "den: what do i bring"},
	{"hung r2", "hung r2"},
	{"hung r2 and r3", "hung r2 r3"},
	{"hung r2.1 r2.3 cut d1", "hung r2.1 r2.3 cut d1"},
	{"kitchen hung r2.1, r12.10", "kitchen: hung r2.1 r12.10"},
	{"r2.1 up", "hung r2.1"},
	{"r2 is up cut d1 and d2", "hung r2 cut d1, d2"},
	{"hung 144 + 16 3/4 r2", `hung 144" + 16-3/4" row 2`},
	{"hung r2 on north wall", "hung r2 on north wall"},
	{"hung r2.1 north wall", "hung r2.1 on north wall"},
	{"hung rows 1 and 2 on north wall cut d1", "hung r1 r2 on north wall cut d1"},
	{"texture", "texture"},
	{"no texture", "no texture"},
	{"texture kitchen ceiling", "kitchen: texture"},
}

// chatterPlan is talk that begins with a word of the plan.
var chatterPlan = []string{
	"ready for lunch?", "ready when you are", "ready to roll", "ready in 5", "are you ready", "is it ready for pickup", "good to go", "can we close the window",
	"can we close at 4", "order pizza", "order up", "order more coffee please", "what do i order from the menu", "check this out", "check it", "check with the lead if ok",
	"check your phone", "check out these boots, done", "check please", "check in at 5", "set up the ladder", "set the table", "set it down", "set of keys missing",
	"coat is in the truck", "coat rack fell", "coat 5 guys", "stock up on coffee", "stock market is up", "used my truck", "used to be good", "delivered the pizza", "delivery at 5",
	"delivery is late", "layout looks good", "layout of the bathroom is weird", "bring tomorrow's donuts", "bring tomorrow your ladder", "what do i bring to the party",
	"bring 2 boxes of screws", "painted my fence", "painted nails lol", "kitchen painted badly", "how many guys tomorrow", "how many beers", "how many screws loose has he got",
	"screws are in the van", "reach out to the supplier", "reach me at 5", "code red", "code is 1234", "plate of food", "plates are in the truck", "longest day ever",
	"longest in my life", "cuts and bruises", "cut list is on the table", "handoff the keys", "hand off the keys to mike", "hand over the drill", "texture looks great", "no texture on my phone",
	"boards left in the truck", "water is off", "gas is 4 bucks", "pipe is leaking lol", "wire me 50", "cable guy is here at 9", "copper prices are up", "duct run looks good",
	"is 10 ok?", "10 ok?", "is it ok", "where can i park", "can i use your truck", "r2 d2", "spoiled milk", "left at 5",
}

// TestPlanReadings holds single fields that the canonical text may hide.
func TestPlanReadings(t *testing.T) {
	strap := func(n int) place.Fix {
		return place.Fix{How: place.OnLine, Of: place.Of{Sup: place.Straps, N: n}}
	}
	off := func(in length.Length, w place.Wall) place.Fix {
		return place.Fix{How: place.OffWall, Said: length.Said{L: in * length.Inch}, Wall: w}
	}
	quarter := length.Said{L: length.Inch / 4}
	for _, tt := range []struct {
		in   string
		want grammar.Entry
	}{
		{"pipe p1 40 off west from strap 2 to 7 notched 1/4", things.Route{What: "pipe", Name: "p1", Shared: []place.Fix{off(40, place.West)},
			Points: [][]place.Fix{{strap(2)}, {strap(7)}}, How: "notched", Depth: quarter}},
		{"duct run 8 40 off west from north wall to south wall in conduit", things.Route{What: "duct run", Size: length.Said{L: 8 * length.Inch}, Shared: []place.Fix{off(40, place.West)},
			Points: [][]place.Fix{{off(0, place.North)}, {off(0, place.South)}}, Conduit: true}},
		{"plate p1 strap 3", things.Plate{Run: "p1", What: place.Straps, N: []int{3}}},
		{"set compound 9 per 1000", hanging.Set{What: "compound", N: 9, Per: 1000}},
		{"set rated 60", hanging.Set{What: "rated", N: 60}},
		{"set waste 10%", hanging.Set{What: "waste", N: 10}},
		{"set screw depth 1/4", hanging.Set{What: "set", L: quarter}},
		{"check vapor barrier waived Inside wall", hanging.Check{What: "vapor barrier", State: "waived", Reason: "Inside wall"}},
		{"check nails passed", hanging.Check{What: "nails", State: "ok"}},
		{"coat 2", hanging.Coat{N: 2}},
		{"coat 2 60F and damp", hanging.Coat{N: 2, Air: "60f damp"}},
		{"coat 2 16 c rh 0", hanging.Coat{N: 2, Air: "16c 0%"}},
		{"spoiled 2 x 8'", boards.StockSet{How: "used", Items: []boards.Boards{{N: 2, L: length.Said{L: 8 * length.Foot}}}}},
		{"hung r2.1 r2.3 cut d1", hanging.HungPlan{IDs: []string{"r2.1", "r2.3"}, Cut: []string{"d1"}}},
		{"no texture", boards.Texture{}},
		{"texture", boards.Texture{On: true}},
	} {
		line, err := parse.Line(tt.in, onSite(length.Imperial))
		if err != nil {
			t.Errorf("%q: %v", tt.in, err)
		} else if diff := cmp.Diff(tt.want, line.Entry); diff != "" {
			t.Errorf("%q:\n%s", tt.in, diff)
		}
	}
}

// TestNumberedRun: a job in which a run got the name "pipe 1" asks what a 1
// behind "pipe" is.
func TestNumberedRun(t *testing.T) {
	c := onSite(length.Imperial)
	c.Name = func(words string) bool { return words == "pipe 1" }
	_, err := parse.Line("pipe 1 40 off west from strap 2 to strap 7", c)
	ask, ok := errors.AsType[*grammar.Ask](err)
	if !ok || len(ask.Choices) != 2 {
		t.Fatalf("got %v, want a question with two choices", err)
	}
	for i, want := range []things.Route{{Name: "pipe 1"}, {Size: length.Said{L: length.Inch}}} {
		line, err := parse.Line(ask.Choices[i].String(), c)
		if got, ok := line.Entry.(things.Route); err != nil || !ok || got.Name != want.Name || got.Size != want.Size {
			t.Errorf("choice %q: %v, %v", ask.Choices[i].String(), line, err)
		}
	}
	line, err := parse.Line("plate pipe 1 strap 3", c)
	if err != nil || line.String() != "plate pipe 1 strap 3" {
		t.Errorf("plate pipe 1: %v, %v", line, err)
	}
}

// FuzzPlanWords puts lines together from the words of the plan.
func FuzzPlanWords(f *testing.F) {
	said := strings.Fields(`pipe wire gas copper conduit duct run heat tube water line pex cable p1 w1 d1 r2 r2.1 r3 1/2" 40 3/4 1 5/8 2 7 12 9 96 12' 8' 12s 0
		off west north south from to through on top of the straps strap joists notched into in conduit depth deep behind board 30 up wall mark a edge
		plate plates at set margin waste compound box stagger sliver short rip set screw per 1000 percent % gal code us canada reach ok screws how many
		ready is it kitchen den good to close can we check nails insulation passed failed waived add v1 has stay reachable handoff taper coat 60f 16c 70% rh damp
		painted ceiling layout cuts cut list order what do i bring tomorrow stock delivered used x of and left longest hung up row texture no yet for
		rows 1 2 3 r1-r3 2.1 with as went hung got have we sheets dozen only nothing over came broke on hand fits whats row size lay it out the other way
		, ? . : + - sink light bed 2 before row 2 at 9:58 shy strong 84 & 2 9:08 1/2`)
	f.Add([]byte("\x00\x0c\x10\x20\x30"), false)
	f.Add([]byte{3, 13, 40, 52, 14, 40, 50, 90, 100, 110}, true)
	f.Fuzz(func(t *testing.T, picks []byte, metric bool) {
		c := onSite(length.Imperial)
		if metric {
			c.Units = length.Metric
		}
		var words []string
		for _, p := range picks[:min(len(picks), 24)] {
			words = append(words, said[int(p)%len(said)])
		}
		for _, part := range sentences.Split(strings.Join(words, " ")) {
			check(t, part, c)
		}
	})
}
