package site_test

import (
	"fmt"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unsafe"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

const (
	in = length.Inch
	ft = length.Foot
	mm = length.Millimetre
)

// log folds bodies by one sender, a minute apart.
type log struct {
	t  testing.TB
	st *site.State
}

func newLog(t testing.TB) *log { return &log{t, site.New()} }

func (l *log) at(minute int64, who string, b event.Body) uint64 {
	l.t.Helper()
	seq := uint64(len(l.st.Entries)) + 1
	if err := l.st.Apply(event.Event{Seq: seq, Who: who, Sent: minute * 60_000, Body: b}); err != nil {
		l.t.Fatal(err)
	}
	return seq
}

func (l *log) say(b event.Body) uint64 {
	l.t.Helper()
	return l.at(int64(len(l.st.Entries))+1, "hanger", b)
}

func off(l length.Length, w place.Wall) place.Fix {
	return place.Fix{How: place.OffWall, Said: length.Said{L: l}, Wall: w}
}

// kitchen is 160-1/2 by 141 in with 8 straps running east-west, the first
// 14-3/8 off north, 16 on centre.
func kitchen(t testing.TB) *log {
	l := newLog(t)
	l.say(event.RoomSize{Room: "kitchen", EW: 160*in + in/2, NS: 141 * in})
	set := event.Supports{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, Run: place.EW, From: place.North, Spacing: 16 * in}
	for d := 14*in + 3*in/8; d < 141*in; d += 16 * in {
		set.At = append(set.At, d)
	}
	l.say(set)
	return l
}

// A duct 44-3/8 in along strap 3 from the east wall and 7 in south of strap 3.
// By hand: x = 160-1/2 - 44-3/8 = 116-1/8; strap 3 is at 14-3/8 + 2 x 16 =
// 46-3/8, so y = 46-3/8 + 7 = 53-3/8.
func ExampleRoom_Place() {
	l := kitchen(new(testing.T))
	p, err := l.st.Room("kitchen").Place(place.Ceiling, []place.Fix{
		{How: place.Along, Said: length.Said{L: 44*in + 3*in/8}, Wall: place.East, Of: place.Of{Sup: place.Straps, N: 3}},
		{How: place.DirOf, Said: length.Said{L: 7 * in}, Dir: place.South, Of: place.Of{Sup: place.Straps, N: 3}},
	}, place.Size{}, 0)
	fmt.Println(length.Format(p.X, length.Imperial), length.Format(p.Y, length.Imperial), err)
	// Output: 116-1/8" 53-3/8" <nil>
}

func TestPlace(t *testing.T) {
	l := kitchen(t)
	l.say(event.MarkSet{Room: "kitchen", Name: "a", Surface: place.Ceiling, Fixes: []place.Fix{off(30*in, place.West), {How: place.OnLine, Of: place.Of{Sup: place.Straps, N: 2}}}})
	r := l.st.Room("kitchen")
	round := place.Size{A: 6 * in}
	for _, tt := range []struct {
		name  string
		s     place.Surface
		fixes []place.Fix
		x, y  length.Length
		why   frame.Why
	}{
		{"off two walls", place.Ceiling, []place.Fix{off(26*in, place.West), off(41*in, place.North)}, 26 * in, 41 * in, 0},
		{"off the far walls", place.Ceiling, []place.Fix{off(26*in, place.East), off(41*in, place.South)}, 134*in + in/2, 100 * in, 0},
		{"to the near edge", place.Ceiling, []place.Fix{{How: place.OffWall, Said: length.Said{L: 23 * in}, Wall: place.West, ToEdge: true}, off(41*in, place.North)}, 26 * in, 41 * in, 0},
		{"on a strap", place.Ceiling, []place.Fix{off(26*in, place.West), {How: place.OnLine, Of: place.Of{Sup: place.Straps, N: 1}}}, 26 * in, 14*in + 3*in/8, 0},
		{"off a strap's edge", place.Ceiling, []place.Fix{off(26*in, place.West), {How: place.DirOf, Said: length.Said{L: 2 * in}, Dir: place.North, Of: place.Of{Sup: place.Straps, N: 2, Edge: true}}}, 26 * in, 30*in + 3*in/8 - in - in/4 - 2*in, 0},
		{"in line with a mark", place.Ceiling, []place.Fix{{How: place.DirOf, Said: length.Said{L: 10 * in}, Dir: place.South, Of: place.Of{Name: "a"}}}, 30 * in, 40*in + 3*in/8, 0},
		{"a second axis wins over in line", place.Ceiling, []place.Fix{{How: place.DirOf, Said: length.Said{L: 10 * in}, Dir: place.South, Of: place.Of{Name: "a"}}, off(50*in, place.West)}, 50 * in, 40*in + 3*in/8, 0},
		{"on a wall", "north", []place.Fix{off(52*in, place.West), {How: place.UpFrom, Said: length.Said{L: 16 * in}}}, 52 * in, 16 * in, 0},
		{"on the east wall, from its south end", "east", []place.Fix{off(20*in, place.South), {How: place.UpFrom, Said: length.Said{L: 16 * in}}}, 121 * in, 16 * in, 0},
		{"no such strap", place.Ceiling, []place.Fix{{How: place.OnLine, Of: place.Of{Sup: place.Straps, N: 9}}}, 0, 0, frame.NoSupport},
		{"east of a strap that runs east", place.Ceiling, []place.Fix{{How: place.DirOf, Said: length.Said{L: in}, Dir: place.East, Of: place.Of{Sup: place.Straps, N: 2}}}, 0, 0, frame.WrongWay},
		{"along from a wall beside it", place.Ceiling, []place.Fix{{How: place.Along, Said: length.Said{L: in}, Wall: place.North, Of: place.Of{Sup: place.Straps, N: 2}}}, 0, 0, frame.WrongWay},
		{"off a wall the wall does not meet", "north", []place.Fix{off(in, place.South)}, 0, 0, frame.NotHere},
		{"down with no height", "north", []place.Fix{{How: place.DownTo, Said: length.Said{L: in}}}, 0, 0, frame.NoHeight},
		{"up a ceiling", place.Ceiling, []place.Fix{{How: place.UpFrom, Said: length.Said{L: in}}}, 0, 0, frame.OnFloor},
		{"an unknown mark", place.Ceiling, []place.Fix{{How: place.DirOf, Said: length.Said{L: in}, Dir: place.South, Of: place.Of{Name: "z"}}}, 0, 0, frame.NoPoint},
		{"a board face with no board", place.Ceiling, []place.Fix{{How: place.OffWall, Said: length.Said{L: in}, Wall: place.West, Face: place.BoardFace}}, 0, 0, frame.NoBoard},
	} {
		p, err := r.Place(tt.s, tt.fixes, round, site.EndOfTime)
		if tt.why != 0 {
			if u, ok := err.(*frame.Unplaced); !ok || u.Why != tt.why {
				t.Errorf("%s: got error %v, want reason %d", tt.name, err, tt.why)
			}
			continue
		}
		if err != nil || !p.Whole() || p.X != tt.x || p.Y != tt.y {
			t.Errorf("%s: got %+v %v, want %d %d", tt.name, p, err, tt.x, tt.y)
		}
	}
}

// A wall that is boarded moves by its board: 48 in to the studs is 47-1/2 to
// 1/2 in board, and two opposite boarded walls take 1 in from the room
// (arithmetic; common practice, no source).
func TestBoardedWallMoves(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "den", EW: 120 * in, NS: 100 * in})
	l.say(event.Thing{Room: "den", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(48*in, place.West), off(20*in, place.North)}})
	l.say(event.Boarded{Room: "den", Wall: place.West, Thick: in / 2})
	l.say(event.Boarded{Room: "den", Wall: place.East, Thick: in / 2})
	l.say(event.Thing{Room: "den", Name: "d2", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(48*in, place.West), off(20*in, place.North)}})
	// sent before the wall was boarded, though it came after
	l.at(2, "sparks", event.Thing{Room: "den", Name: "d3", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(48*in, place.West), off(20*in, place.North)}})
	r := l.st.Room("den")
	for name, want := range map[string]length.Length{"d1": 48 * in, "d2": 48*in + in/2, "d3": 48 * in} {
		if got := r.Thing(name).At().X; got != want {
			t.Errorf("%s at %d, want %d", name, got, want)
		}
	}
	if c := r.Shell().Clear(place.Ceiling); c.X1-c.X0 != 119*in {
		t.Errorf("%s between the boards, want 119 in", length.Format(c.X1-c.X0, length.Imperial))
	}
	// A room measured between boarded faces has its framing further out.
	l.say(event.RoomSize{Room: "den", EW: 119 * in, NS: 100 * in})
	if ew, _ := r.Shell().Framing(); ew != 120*in {
		t.Errorf("framing %d, want 120 in", ew)
	}
	// A finished wall never moves.
	l.say(event.Boarded{Room: "den", Wall: place.West, Finished: true})
	if got := r.BoardNow(place.West); got != 0 {
		t.Errorf("a finished wall stands %d off itself", got)
	}
}

func TestSupports(t *testing.T) {
	l := kitchen(t)
	r := l.st.Room("kitchen")
	if n := len(r.Supports(place.Ceiling)); n != 8 {
		t.Fatalf("%d straps, want 8: (141 - 14-3/8) / 16 = 7.9, so 7 more after the first", n)
	}
	fix := l.say(event.SupportFix{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, N: 4, Moved: true, At: 62 * in})
	l.say(event.SupportFix{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, N: 5, Wall: place.East, End: 38 * in, Stops: true})
	l.say(event.SupportFix{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, N: 6, Wall: place.West, Start: 20 * in, End: 96 * in})
	l.say(event.Supports{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, Thick: 5 * in / 8})
	s := r.Supports(place.Ceiling)
	if s[3].Pos != 62*in || s[4].To != 122*in+in/2 || s[5].From != 20*in || s[5].To != 96*in || s[0].Thick != 5*in/8 || !s[0].Measured {
		t.Errorf("got %+v", s)
	}
	l.say(event.Strike{Seq: fix})
	if got := r.Supports(place.Ceiling)[3].Pos; got != 62*in+3*in/8 {
		t.Errorf("strap 4 at %d after its correction was struck", got)
	}
	if run, ok := r.BoardsRun(place.Ceiling); !ok || run != place.NS {
		t.Errorf("boards run %s, want across the straps", run)
	}
	l.say(event.BoardsRun{Room: "kitchen", Dir: "along"})
	if run, _ := r.BoardsRun(place.Ceiling); run != place.EW {
		t.Errorf("boards along run %s", run)
	}
}

// A corrected strap takes what was measured off it along.
func TestThingsMoveWithTheirStrap(t *testing.T) {
	l := kitchen(t)
	l.say(event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling,
		Fixes: []place.Fix{off(30*in, place.West), {How: place.DirOf, Said: length.Said{L: 7 * in}, Dir: place.South, Of: place.Of{Sup: place.Straps, N: 3}}}, Point: place.Point{X: 30 * in, Y: 53*in + 3*in/8}})
	th := l.st.Room("kitchen").Thing("d1")
	l.say(event.SupportFix{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, N: 3, Moved: true, At: 47 * in})
	if got := th.At().Y; got != 54*in {
		t.Errorf("d1 at %d, want 54 in", got)
	}
	// With the straps gone from the log the noted place stands in.
	l.say(event.Strike{Seq: 2})
	if got := th.At().Y; got != 53*in+3*in/8 {
		t.Errorf("d1 at %d without straps, want where it was noted", got)
	}
}

func TestStands(t *testing.T) {
	l := kitchen(t)
	r := l.st.Room("kitchen")
	note := event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(30*in, place.West), off(50*in, place.North)}}
	l.say(note)
	d1 := r.Thing("d1")
	want := func(why string, st site.Standing) {
		t.Helper()
		if got, _ := d1.Stands(); got != st {
			t.Errorf("%s: %s, want %s", why, got, st)
		}
	}
	want("just noted", site.Noted)
	hung := l.say(event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 1, Run: place.NS, Pieces: []place.Rect{{X1: 48 * in, Y1: 141 * in}}})
	want("row 1 up", site.Covered)
	opened := l.say(event.Opened{Room: "kitchen", Names: []string{"d1"}})
	want("cut", site.Open)
	undo := l.say(event.Strike{Seq: opened})
	want("cut taken back", site.Covered)
	l.say(event.Strike{Seq: undo})
	want("taking back taken back", site.Open)
	l.say(event.Strike{Seq: hung})
	want("row taken back", site.Open)
	l.say(event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 1, Run: place.NS, Pieces: []place.Rect{{X1: 48 * in, Y1: 141 * in}}})
	want("another board over the old hole", site.Covered)
	l.say(event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 1, Run: place.NS, Pieces: []place.Rect{{X1: 48 * in, Y1: 141 * in}}, Cut: []string{"d1"}})
	want("cut as it hung", site.Open)
	l.say(event.MarkSet{Room: "kitchen", Name: "a", Surface: "north", Fixes: []place.Fix{off(10*in, place.West), {How: place.UpFrom, Said: length.Said{L: 10 * in}}}})
	l.say(event.Thing{Room: "kitchen", Name: "b1", What: "box", Surface: "north", Fixes: []place.Fix{off(10*in, place.West), {How: place.UpFrom, Said: length.Said{L: 10 * in}}}})
	d1 = r.Thing("b1")
	want("on a wall, not under the ceiling", site.Noted)
	l.say(event.Hung{Room: "kitchen", Surface: "north", All: true})
	want("its wall up", site.Covered)

	// What somebody tells of it counts like a board over it, and like a cut.
	l.say(event.Thing{Room: "kitchen", Name: "l9", What: "light", Surface: place.Ceiling, Fixes: []place.Fix{off(90*in, place.West), off(50*in, place.North)}})
	d1 = r.Thing("l9")
	told := l.say(event.Opened{Room: "kitchen", Names: []string{"l9"}, Not: true})
	want("told to be behind the board", site.Covered)
	cut := l.say(event.Opened{Room: "kitchen", Names: []string{"l9"}})
	want("cut after that", site.Open)
	l.say(event.Strike{Seq: cut})
	l.say(event.Strike{Seq: told})
	want("taken back", site.Noted)
	d1 = r.Thing("d1")
	want("still as it hung", site.Open)
	l.say(event.Opened{Room: "kitchen", Names: []string{"d1"}, Not: true})
	want("told to be covered after its cut", site.Covered)
}

// Of two notes of one thing the later sent stands, whatever came in last.
func TestLateNoteDoesNotWin(t *testing.T) {
	l := kitchen(t)
	l.at(20, "hanger", event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(30*in, place.West), off(50*in, place.North)}})
	l.at(10, "sparks", event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(31*in, place.West), off(50*in, place.North)}})
	if got := l.st.Room("kitchen").Thing("d1").At().X; got != 30*in {
		t.Errorf("d1 at %d, want 30 in", got)
	}
}

func TestNotch(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "kitchen", EW: 160 * in, NS: 140 * in, Less: []event.Notch{
		{EW: 36 * in, NS: 24 * in, Corner: "ne"},
		{EW: 48 * in, NS: 20 * in, Wall: place.South, Off: 30 * in, From: place.West},
	}})
	r := l.st.Room("kitchen")
	if q := r.Shell().Notches(); q[0] != (place.Rect{X0: 124 * in, Y0: 0, X1: 160 * in, Y1: 24 * in}) || q[1] != (place.Rect{X0: 30 * in, Y0: 120 * in, X1: 78 * in, Y1: 140 * in}) {
		t.Errorf("notches %+v", q)
	}
	for _, tt := range []struct {
		p  place.Point
		in bool
	}{{place.Point{X: 140 * in, Y: 10 * in}, false}, {place.Point{X: 140 * in, Y: 24 * in}, true}, {place.Point{X: 50 * in, Y: 130 * in}, false}, {place.Point{X: 100 * in, Y: 130 * in}, true}, {place.Point{X: 161 * in, Y: 50 * in}, false}} {
		if got := r.Shell().Inside(place.Ceiling, tt.p); got != tt.in {
			t.Errorf("%+v inside: %v", tt.p, got)
		}
	}
	p, err := r.Place(place.Ceiling, []place.Fix{off(20*in, place.East), {How: place.OffWall, Said: length.Said{L: 10 * in}, Wall: place.North, Notch: true}}, place.Size{}, 0)
	if err != nil || p.Point != (place.Point{X: 140 * in, Y: 34 * in}) {
		t.Errorf("off the notch's north wall: %+v %v", p, err)
	}
}

// Right triangles of Pythagorean triples (3-4-5, 6-8-10, 9-12-15 ft), and the
// diagonal of a 10 ft x 12 ft room, 187.446 in = 15 ft 7-7/16 in to the nearest
// 1/16 (computed; from memory of the usual square check): the distance between
// a point off one pair of walls and one off the other pair.
func TestPlaceAgainstTriangles(t *testing.T) {
	for _, tt := range []struct {
		a, b length.Length
		c    float64 // in
	}{{3 * ft, 4 * ft, 60}, {6 * ft, 8 * ft, 120}, {9 * ft, 12 * ft, 180}, {10 * ft, 12 * ft, 187.446}} {
		l := newLog(t)
		l.say(event.RoomSize{Room: "den", EW: tt.a + 2*ft, NS: tt.b + 2*ft})
		r := l.st.Room("den")
		p, err1 := r.Place(place.Ceiling, []place.Fix{off(ft, place.West), off(ft, place.North)}, place.Size{}, 0)
		q, err2 := r.Place(place.Ceiling, []place.Fix{off(ft, place.East), off(ft, place.South)}, place.Size{}, 0)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		got := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)) / float64(in)
		if math.Abs(got-tt.c) > 0.0005 {
			t.Errorf("%d x %d: %.4f in, want %.3f", tt.a/ft, tt.b/ft, got, tt.c)
		}
	}
}

// A distance off a wall and the same place off the opposite wall are one point,
// whatever is boarded when.
func TestPlaceFromBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &log{&testing.T{}, site.New()}
		size := length.Length(rapid.Int64Range(int64(100*in), int64(400*in)).Draw(t, "room"))
		l.say(event.RoomSize{Room: "den", EW: size, NS: size})
		east := length.Length(rapid.SampledFrom([]int64{0, int64(in / 2), int64(5 * in / 8)}).Draw(t, "east"))
		if east > 0 {
			l.say(event.Boarded{Room: "den", Wall: place.East, Thick: east})
		}
		d := length.Length(rapid.Int64Range(0, int64(90*in)).Draw(t, "d"))
		r := l.st.Room("den")
		p, _ := r.Place(place.Ceiling, []place.Fix{off(d, place.East), off(d, place.North)}, place.Size{}, site.EndOfTime)
		q, _ := r.Place(place.Ceiling, []place.Fix{off(size-east-d, place.West), off(size-d, place.South)}, place.Size{}, site.EndOfTime)
		if p.Point != q.Point {
			t.Fatalf("%+v and %+v", p.Point, q.Point)
		}
	})
}

// What a refused event names first is there; what it names next is not.
func TestApplyRefuses(t *testing.T) {
	made := func() *site.State {
		l := kitchen(t)
		l.say(event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling})
		return l.st
	}
	names := []string{"d1", "d2"}
	for _, b := range []event.Body{
		nil,
		unread{}, // a log would take it and never give it back
		event.Thing{Room: "nowhere", Name: "d1"},
		event.Things{Room: "nowhere", Each: []event.Thing{{Name: "d3"}}},
		event.Here{Room: "nowhere"},
		event.Strike{Seq: 7},
		event.Strike{},
		event.SnagFixed{Seq: 4},
		event.Photo{Of: 4},
		event.Told{Room: "kitchen", Names: names},
		event.Opened{Room: "kitchen", Names: names},
		event.Hung{Room: "kitchen", Surface: place.Ceiling, All: true, Cut: names, Used: []event.Boards{{N: 1, L: 8 * ft}}},
		event.Plates{Room: "kitchen", Run: "p1"},
	} {
		st := made()
		if err := st.Apply(event.Event{Seq: 4, Who: "lead", Body: b}); err == nil {
			t.Errorf("%+v was taken", b)
		}
		if !reflect.DeepEqual(st, made()) {
			t.Errorf("%+v was refused and changed the state", b)
		}
	}
	if err := made().Apply(event.Event{Seq: 5, Body: event.Note{}}); err == nil {
		t.Error("an event out of order was taken")
	}
}

// A snag is open until it is fixed, and again when the fixing is struck.
func TestOpenSnags(t *testing.T) {
	l := newLog(t)
	want := func(seqs ...uint64) {
		t.Helper()
		var got []uint64
		for _, e := range l.st.OpenSnags() {
			got = append(got, e.Seq)
		}
		if !slices.Equal(got, seqs) {
			t.Errorf("open %v, want %v", got, seqs)
		}
	}
	a, b := l.say(event.Snag{Text: "nail"}), l.say(event.Snag{Text: "tear"})
	want(a, b)
	once, twice := l.say(event.SnagFixed{Seq: a}), l.say(event.SnagFixed{Seq: a})
	want(b)
	l.say(event.Strike{Seq: once})
	want(b)
	l.say(event.Strike{Seq: twice})
	want(a, b)
	l.say(event.Strike{Seq: b})
	want(a)
}

// Undo takes back what a sender said, not what they were told or shown.
func TestLastOf(t *testing.T) {
	l := kitchen(t)
	thing := l.say(event.Thing{Room: "kitchen", Name: "d1", What: "duct", Surface: place.Ceiling})
	l.say(event.Told{Room: "kitchen", Names: []string{"d1"}})
	l.say(event.Photo{Of: thing, Links: []string{"x"}})
	l.say(event.PlanPick{Room: "kitchen", Pick: 1})
	want := func(seq uint64) {
		t.Helper()
		if e := l.st.LastOf("Hanger"); e == nil || e.Seq != seq {
			t.Errorf("undo takes %+v back, want entry %d", e, seq)
		}
	}
	want(thing)
	l.say(event.Strike{Seq: thing, Undo: true})
	want(thing - 1)
	took := l.say(event.PlanPick{Room: "kitchen", Pick: 2, Said: true})
	want(took)
	struck := l.say(event.Strike{Seq: took})
	want(struck)
}

// unread is a body of a kind that cannot be read back.
type unread struct{}

func (unread) Kind() string { return "unread" }
func (unread) In() string   { return "" }

// What can be read back can be folded in, and nothing else.
func TestEveryKindIsFolded(t *testing.T) {
	file, err := os.ReadFile("../event/testdata/kinds.txt")
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for line := range strings.Lines(string(file)) {
		kind, _, _ := strings.Cut(line, " ")
		want = append(want, kind)
	}
	slices.Sort(want)
	if got := site.Folded(); !slices.Equal(got, want) {
		t.Errorf("folded %v\nread back %v", got, want)
	}
}

// A job of 100,000 entries, 75,000 of them things with two fixes, takes up to 64 MB. What there is
// one of for each takes what the allocator has a size for, on a 64-bit machine.
func TestSizes(t *testing.T) {
	for _, tt := range []struct {
		what       string
		size, most uintptr
	}{
		{"two fixes", 2 * unsafe.Sizeof(place.Fix{}), 320},
		{"a thing as noted", unsafe.Sizeof(event.Thing{}), 160},
		{"an entry", unsafe.Sizeof(site.Entry{}), 96},
		{"a thing with its notes", unsafe.Sizeof(site.ThingState{}), 64},
	} {
		if tt.size > tt.most {
			t.Errorf("%s: %d bytes, the most is %d", tt.what, tt.size, tt.most)
		}
	}
}
