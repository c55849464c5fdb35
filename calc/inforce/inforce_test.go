package inforce_test

import (
	"errors"
	"fmt"
	"testing"

	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/work"
)

const in = length.Inch

// den is a job with one room, 12 ft x 8 ft, and straps running north-south at 16 in.
func den(bodies ...event.Body) *site.State {
	st := site.New()
	var at []length.Length
	for x := 16 * in; x < 144*in; x += 16 * in {
		at = append(at, x)
	}
	all := append([]event.Body{
		event.RoomSize{Room: "den", EW: 144 * in, NS: 96 * in},
		event.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: at},
		event.Board{Lengths: []length.Length{12 * length.Foot}},
	}, bodies...)
	for i, b := range all {
		if err := st.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i), Body: b}); err != nil {
			panic(err)
		}
	}
	return st
}

func ceiling(st *site.State, room string) site.Plane {
	return site.Plane{Room: st.Room(room), Surface: place.Ceiling}
}

func plans(st *site.State, kept *inforce.Kept, steps int64, here bool) *inforce.Plans {
	return &inforce.Plans{State: st, Kept: kept, Work: &inforce.Work{Budget: work.Budget{Steps: steps}, Here: here}}
}

// The straps run north-south, so boards run east-west: two rows of 48 in. A row is
// 144 in, less 1/8 in at each end: one 12 ft board, no butt. Row 1 hangs as planned,
// so row 2 is left, and one board to cut.
func ExamplePlans_Of() {
	st := den(event.Hung{Room: "den", Surface: place.Ceiling, Row: 1, Run: place.EW,
		Pieces: []place.Rect{{X1: 144 * in, Y1: 48 * in}}, Sizes: []length.Length{144*in - in/4}, N: []int{1}})
	p, err := plans(st, new(inforce.Kept), inforce.MessageSteps, true).Of(ceiling(st, "den"))
	if err != nil {
		fmt.Println(err)
		return
	}
	rows, pieces := p.Rest()
	fmt.Println(p.Run, len(p.Rows), "rows,", p.Butts, "butts; left: rows", rows, "pieces", pieces)
	for _, c := range p.ToCut() {
		fmt.Println(length.Canon(c.Length), inforce.PiecesOf(c))
	}
	// Output:
	// ew 2 rows, 0 butts; left: rows [2] pieces []
	// 144" [r2.1]
}

// A layout is not worked out if Work.Here is false or the budget is used up, but a cached
// one is returned all the same.
func TestWork(t *testing.T) {
	st, kept := den(), new(inforce.Kept)
	for _, tt := range []struct {
		steps int64
		here  bool
		want  error
	}{{inforce.MessageSteps, false, inforce.ErrWork}, {0, true, inforce.ErrOver}, {inforce.MessageSteps, true, nil}, {inforce.MessageSteps, false, nil}, {0, false, nil}} {
		if _, err := plans(st, kept, tt.steps, tt.here).Of(ceiling(st, "den")); !errors.Is(err, tt.want) {
			t.Errorf("%d steps, here %v: got %v, want %v", tt.steps, tt.here, err, tt.want)
		}
	}
	if _, err := plans(site.New(), kept, 0, false).Of(site.Plane{Room: roomWithout(t), Surface: place.Ceiling}); !errors.Is(err, inforce.ErrNoStraps) {
		t.Errorf("no straps: %v", err)
	}
}

func roomWithout(t *testing.T) *site.Room {
	st := site.New()
	if err := st.Apply(event.Event{Seq: 1, Who: "lead", Body: event.RoomSize{Room: "den", EW: 144 * in, NS: 96 * in}}); err != nil {
		t.Fatal(err)
	}
	return st.Room("den")
}

// More boards of a length that was plentiful already do not change the plan; a new length
// does.
func TestACountPlansOnlyWhatItTouches(t *testing.T) {
	kept := new(inforce.Kept)
	twelves := func(n int) event.Stock {
		return event.Stock{How: "is", Items: []event.Boards{{N: n, L: 12 * length.Foot}}}
	}
	first := den(twelves(400))
	if _, err := plans(first, kept, inforce.MessageSteps, true).Of(ceiling(first, "den")); err != nil {
		t.Fatal(err)
	}
	more := den(twelves(900))
	if _, err := plans(more, kept, inforce.MessageSteps, false).Of(ceiling(more, "den")); err != nil {
		t.Errorf("more of what there is enough of: %v", err)
	}
	less := den(twelves(1))
	if _, err := plans(less, kept, inforce.MessageSteps, false).Of(ceiling(less, "den")); !errors.Is(err, inforce.ErrWork) {
		t.Errorf("one board is left: %v", err)
	}
}

// The boards of the room whose layout was taken first are not available to the next.
func TestRoomsTakeTheirBoardsInTurn(t *testing.T) {
	st := den(event.Stock{How: "is", Items: []event.Boards{{N: 3, L: 12 * length.Foot}}},
		event.RoomSize{Room: "bath", EW: 144 * in, NS: 96 * in},
		event.Supports{Room: "bath", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: []length.Length{16 * in, 72 * in, 128 * in}},
		event.PlanPick{Room: "den", Pick: 1})
	ps := plans(st, new(inforce.Kept), 4*inforce.MessageSteps, true)
	p, err := ps.Of(ceiling(st, "bath"))
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Hand.After) != 1 || p.Hand.After[0].Room.Name != "den" || len(p.Hand.Boards) != 1 || p.Hand.Boards[0].N != 1 {
		t.Errorf("on hand after %v: %v", p.Hand.After, p.Hand.Boards)
	}
	if short := p.Missing(); len(short) != 1 || short[0].Count != 1 {
		t.Errorf("missing %v", short)
	}
}

// A wall 12 ft long, 97-1/8 in high to the framing. Boards start below 1/2 in of ceiling
// board and end 1/2 in off the floor, so 97-1/8 - 1/2 - 1/2 = 96-1/8 in is boarded: two full
// rows from the ceiling down, and 1/8 in is too little for a third. Studs are 16 in apart.
// The west wall's board takes 1/2 in off the length, which leaves 143-1/2 in, cut 1/8 in
// short at each end.
func TestWall(t *testing.T) {
	var at []length.Length
	for x := 16 * in; x < 144*in; x += 16 * in {
		at = append(at, x)
	}
	st := den(event.RoomSize{Room: "den", EW: 144 * in, NS: 96 * in, High: 97*in + in/8},
		event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: at},
		event.Boarded{Room: "den", Wall: place.West, Thick: in / 2})
	north := site.Plane{Room: st.Room("den"), Surface: "north"}
	p, err := plans(st, new(inforce.Kept), inforce.MessageSteps, true).Of(north)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Rows) != 2 || p.Butts != 0 || len(p.Rows[0].Pieces) != 1 {
		t.Fatalf("got %d rows, %d butts", len(p.Rows), p.Butts)
	}
	top := p.Rows[0].Pieces[0]
	if got, want := p.Rect(top), (place.Rect{X0: in / 2, X1: 144 * in, Y0: 97*in + in/8 - in/2 - 48*in, Y1: 97*in + in/8 - in/2}); got != want || top.Cut != 143*in+in/4 {
		t.Errorf("row 1 is cut %s at %v, want 143-1/4 at %v", length.Canon(top.Cut), got, want)
	}
	for _, b := range []struct {
		on   place.Surface
		want error
	}{{"east", inforce.ErrNoStraps}, {place.Ceiling, nil}} {
		if _, err := plans(st, new(inforce.Kept), inforce.MessageSteps, true).Of(site.Plane{Room: north.Room, Surface: b.on}); !errors.Is(err, b.want) {
			t.Errorf("%s: %v", b.on, err)
		}
	}
	bare := den(event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: at})
	if _, err := plans(bare, new(inforce.Kept), inforce.MessageSteps, true).Of(site.Plane{Room: bare.Room("den"), Surface: "north"}); !errors.Is(err, inforce.ErrNoHeight) {
		t.Errorf("no height: %v", err)
	}
}

// A wall 16 ft long, boarded from 1/2 in to 96-5/8 in up, with a door of 36 in x 80 in whose
// near edge is 40 in off west. Row 1 is 48-5/8 in to 96-5/8 in up, so the door takes
// 80 - 48-5/8 = 31-3/8 in out of it: 8 in of the piece that ends at 48 in, and 28 in of the
// next. Row 2 stops at the sides of the door: 40 in less 1/8 in at each end, and 116 in
// likewise.
func TestDoor(t *testing.T) {
	var at []length.Length
	for x := 16 * in; x < 192*in; x += 16 * in {
		at = append(at, x)
	}
	st := den(event.RoomSize{Room: "den", EW: 192 * in, NS: 96 * in, High: 97*in + in/8},
		event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: at},
		event.Board{Lengths: []length.Length{8 * length.Foot, 10 * length.Foot, 12 * length.Foot}},
		event.Thing{Room: "den", Name: "door 1", What: "door", Surface: "north", Size: place.Size{A: 36 * in, B: 80 * in}, Framed: true,
			Fixes: []place.Fix{
				{How: place.OffWall, Wall: place.West, Said: length.Said{L: 40 * in}, ToEdge: true}, {How: place.UpFrom, ToEdge: true}}})
	north := site.Plane{Room: st.Room("den"), Surface: "north"}
	p, err := plans(st, new(inforce.Kept), inforce.MessageSteps, true).Of(north)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			got += pc.ID + " " + length.Canon(pc.Cut)
			for _, n := range pc.Notches {
				got += " less " + length.Canon(n.W) + " x " + length.Canon(n.H)
			}
			got += "; "
		}
	}
	if want := `r1.1 47-7/8" less 8" x 31-3/8"; r1.2 143-7/8" less 28" x 31-3/8"; r2.1 39-3/4"; r2.2 115-3/4"; `; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for _, b := range []event.Body{event.Hung{Room: "den", Surface: "north", All: true}} {
		if err := st.Apply(event.Event{Seq: uint64(len(st.Entries) + 1), Who: "lead", Sent: 99, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	if s, over := north.Room.Thing("door 1").Stands(); s != site.Open || over != nil {
		t.Errorf("the door is %s", s)
	}
}

// A ceiling and a wall share the same boards. What the ceiling takes or has up is not
// available to the wall; what hangs on the wall is put back only for planning the wall.
func TestSurfacesShareTheBoards(t *testing.T) {
	st := den(event.Stock{How: "is", Items: []event.Boards{{N: 3, L: 12 * length.Foot}}},
		event.RoomSize{Room: "den", EW: 144 * in, NS: 96 * in, High: 97*in + in/8},
		event.Supports{Room: "den", Surface: "north", What: place.Studs, Run: place.Up, From: place.West, At: []length.Length{16 * in, 72 * in, 128 * in}},
		event.PlanPick{Room: "den", Pick: 1}, event.PlanPick{Room: "den", Surface: "north", Pick: 1})
	north := site.Plane{Room: st.Room("den"), Surface: "north"}
	look := func() *inforce.Plan {
		t.Helper()
		p, err := plans(st, new(inforce.Kept), 4*inforce.MessageSteps, true).Of(north)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	// Each has two rows of one 12 ft board, so the ceiling leaves one of three.
	p := look()
	if len(p.Hand.After) != 1 || p.Hand.After[0] != ceiling(st, "den") || len(p.Hand.Boards) != 1 || p.Hand.Boards[0].N != 1 {
		t.Errorf("on hand after %v: %v", p.Hand.After, p.Hand.Boards)
	}
	if short := p.Missing(); len(short) != 1 || short[0].Count != 1 {
		t.Errorf("missing %v", short)
	}
	b := event.Hung{Room: "den", Surface: "north", Row: 1, Run: p.Run, Pieces: []place.Rect{p.Rect(p.Rows[0].Pieces[0])},
		Sizes: []length.Length{p.Rows[0].Pieces[0].Cut}, N: []int{1}}
	p.Take(&b, "r1.1")
	if err := st.Apply(event.Event{Seq: uint64(len(st.Entries) + 1), Who: "hanger", Sent: 99, Body: b}); err != nil {
		t.Fatal(err)
	}
	if p = look(); p.Around || !p.Hung["r1.1"] || len(p.Todo()) != 1 {
		t.Errorf("planned anew: %v; up %v, to do %v", p.Around, p.Hung, p.Todo())
	}
	if got := st.Boards().HungFrom("den", place.Ceiling); len(got) != 0 {
		t.Errorf("the ceiling took %v", got)
	}
}

// The alternatives of a room that was planned for another one's sake are worked out when they are asked for, and are those that
// would have come first.
func TestOffersLater(t *testing.T) {
	st := den(event.Stock{How: "is", Items: []event.Boards{{N: 30, L: 8 * length.Foot}, {N: 30, L: 12 * length.Foot}}},
		event.RoomSize{Room: "den", EW: 144 * in, NS: 120 * in},
		event.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: []length.Length{16 * in, 32 * in, 48 * in, 64 * in, 80 * in, 96 * in, 112 * in, 128 * in}},
		event.RoomSize{Room: "bath", EW: 144 * in, NS: 96 * in},
		event.Supports{Room: "bath", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: []length.Length{16 * in, 72 * in, 128 * in}},
		event.PlanPick{Room: "den", Pick: 1})
	offers := func(kept *inforce.Kept, room string) int {
		p, err := plans(st, kept, inforce.MessageSteps, true).Of(ceiling(st, room))
		if err != nil {
			t.Fatal(err)
		}
		return len(p.Offers)
	}
	want := offers(new(inforce.Kept), "den")
	kept := new(inforce.Kept)
	offers(kept, "bath")
	if got := offers(kept, "den"); got != want || want < 2 {
		t.Errorf("%d layouts to pick from after another room, %d before", got, want)
	}
}
