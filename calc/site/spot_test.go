package site_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

func dir(l length.Length, w place.Wall, of string) place.Fix {
	return place.Fix{How: place.DirOf, Said: length.Said{L: l}, Dir: w, Of: place.Of{Name: of}}
}

func duct(name string, noted place.Point, fixes ...place.Fix) event.Thing {
	return event.Thing{Room: "hall", Name: name, What: "duct", Surface: place.Ceiling, Fixes: fixes, Point: noted}
}

func hall(t testing.TB) (*log, *site.Room) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "hall", EW: 2000 * in, NS: 2000 * in})
	return l, l.st.Room("hall")
}

// A chain of ducts, each 7 in south and 3 in east of the one before. By hand:
// the last of 200 links from (26, 41) is at 26 + 200 x 3 = 626 in, 41 + 200 x 7
// = 1441 in. Every duct is worked out once, though each is named twice.
func TestLongChain(t *testing.T) {
	const links = 200
	l, r := hall(t)
	first := l.say(duct("d0", place.Point{}, off(26*in, place.West), off(41*in, place.North)))
	name := func(i int) string { return fmt.Sprint("d", i) }
	for i := 1; i <= links; i++ {
		l.say(duct(name(i), place.Point{}, dir(7*in, place.South, name(i-1)), dir(3*in, place.East, name(i-1))))
	}
	want := func(x, y length.Length, worked int) {
		t.Helper()
		if got := r.Thing(name(links)).At(); got != (place.Point{X: x, Y: y}) {
			t.Errorf("the last duct at %+v, want %d %d", got, x, y)
		}
		if got := r.WorkedOut(); got != worked {
			t.Errorf("%d places worked out, want %d", got, worked)
		}
	}
	want(626*in, 1441*in, links+1)
	for i := range links {
		r.Thing(name(i)).At()
	}
	want(626*in, 1441*in, links+1)
	p, err := r.Place(place.Ceiling, []place.Fix{dir(7*in, place.South, name(links)), dir(3*in, place.East, name(links))}, place.Size{}, 0)
	if err != nil || p.Point != (place.Point{X: 629 * in, Y: 1448 * in}) {
		t.Errorf("one more duct: %+v %v", p, err)
	}
	want(626*in, 1441*in, links+1)

	// Whatever is folded in, what was measured off it follows.
	fix := l.say(duct("d0", place.Point{}, off(27*in, place.West), off(41*in, place.North)))
	want(627*in, 1441*in, links+1)
	l.say(event.Strike{Seq: fix})
	want(626*in, 1441*in, links+1)
	l.say(event.Boarded{Room: "hall", Wall: place.North, Thick: in / 2})
	want(626*in, 1441*in, links+1)
	l.say(event.Strike{Seq: first})
	// d1 has lost what it was measured from, and stays where it was noted, at 0, 0.
	want(199*3*in, 199*7*in, links)
}

// Ducts measured off one another in a loop stay where they were noted, and what
// is measured off the loop follows from there, whichever is asked for first.
func TestLoops(t *testing.T) {
	at := func(x, y length.Length) place.Point { return place.Point{X: x * in, Y: y * in} }
	notes := []event.Thing{
		duct("own", at(10, 10), dir(2*in, place.East, "own"), dir(2*in, place.South, "own")),
		duct("a", at(20, 20), dir(5*in, place.East, "c"), off(20*in, place.North)),
		duct("b", at(30, 30), dir(5*in, place.East, "a"), dir(5*in, place.South, "d")),
		duct("c", at(40, 40), dir(5*in, place.East, "b"), off(40*in, place.North)),
		duct("d", at(50, 50), dir(5*in, place.East, "c"), off(50*in, place.North)), // joins the loop by b
		duct("tail", at(0, 0), dir(3*in, place.East, "d"), dir(4*in, place.South, "own")),
		duct("tip", at(0, 0), dir(1*in, place.East, "tail"), dir(1*in, place.South, "tail")),
	}
	want := map[string]place.Point{"own": at(10, 10), "a": at(20, 20), "b": at(30, 30), "c": at(40, 40), "d": at(50, 50), "tail": at(53, 14), "tip": at(54, 15)}
	rapid.Check(t, func(rt *rapid.T) {
		l, r := hall(t)
		for _, n := range notes {
			l.say(n)
		}
		for _, n := range rapid.Permutation(notes).Draw(rt, "asked") {
			if got := r.Thing(n.Name).At(); got != want[n.Name] {
				rt.Errorf("%s at %+v, want %+v", n.Name, got, want[n.Name])
			}
		}
		if got := r.WorkedOut(); got != len(notes) {
			rt.Errorf("%d places worked out, want %d", got, len(notes))
		}
	})
}

// Of a mark and a duct of one name on one surface the mark is meant; a name on
// another surface is not.
func TestSameName(t *testing.T) {
	l, r := hall(t)
	l.say(duct("a", place.Point{}, off(10*in, place.West), off(10*in, place.North)))
	l.say(event.MarkSet{Room: "hall", Name: "a", Surface: place.Ceiling, Fixes: []place.Fix{off(20*in, place.West), off(20*in, place.North)}})
	l.say(event.MarkSet{Room: "hall", Name: "b", Surface: "north", Fixes: []place.Fix{off(30*in, place.West), {How: place.UpFrom}}})
	p, err := r.Place(place.Ceiling, []place.Fix{dir(in, place.East, "a")}, place.Size{}, 0)
	if err != nil || p.Point != (place.Point{X: 21 * in, Y: 20 * in}) {
		t.Errorf("1 in east of a: %+v %v", p, err)
	}
	if at := r.Thing("a").At(); at != (place.Point{X: 10 * in, Y: 10 * in}) {
		t.Errorf("duct a at %+v", at)
	}
	if p, err := r.Place(place.Ceiling, []place.Fix{dir(in, place.East, "b")}, place.Size{}, 0); err == nil {
		t.Errorf("off a mark of another surface: %+v", p)
	}
}

// loops reports whether what start is measured from comes back to it.
func loops(of [][]int, start int) bool {
	seen := map[int]bool{}
	todo := slices.Clone(of[start])
	for len(todo) > 0 {
		i := todo[0]
		todo = todo[1:]
		if i == start {
			return true
		}
		if !seen[i] {
			seen[i] = true
			todo = append(todo, of[i]...)
		}
	}
	return false
}

// Any web of ducts against the definition: one that can be followed back to
// itself is where it was noted, any other is where its two distances put it.
func TestAnyWeb(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(rt, "ducts")
		of := make([][]int, n)
		l, r := hall(t)
		for i := range of {
			of[i] = rapid.SliceOfN(rapid.IntRange(0, n-1), 2, 2).Draw(rt, "of")
			l.say(duct(fmt.Sprint("d", i), place.Point{X: length.Length(i) * ft, Y: length.Length(i) * mm},
				dir(in, place.East, fmt.Sprint("d", of[i][0])), dir(in, place.South, fmt.Sprint("d", of[i][1]))))
		}
		at := func(i int) place.Point { return r.Thing(fmt.Sprint("d", i)).At() }
		at(rapid.IntRange(0, n-1).Draw(rt, "first"))
		for i := range of {
			want := place.Point{X: length.Length(i) * ft, Y: length.Length(i) * mm}
			if !loops(of, i) {
				want = place.Point{X: at(of[i][0]).X + in, Y: at(of[i][1]).Y + in}
			}
			if at(i) != want {
				rt.Fatalf("d%d of %v at %+v, want %+v", i, of, at(i), want)
			}
		}
		if r.WorkedOut() != n {
			rt.Fatalf("%d of %d worked out", r.WorkedOut(), n)
		}
	})
}
