package site_test

import (
	"fmt"
	"testing"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// The board of a surface is what was said of it; else of the ceiling or the walls of its room, of the room, of all
// ceilings or walls, of the job. A thickness said of a part is not of the type of the whole.
func TestBoardFor(t *testing.T) {
	l := newLog(t)
	add := func(all ...event.Body) {
		for _, b := range all {
			l.say(b)
		}
	}
	add(event.Board{Thick: 5 * in / 8, Type: "x", Lengths: []length.Length{12 * ft}}, event.Board{On: "walls", Thick: in / 2},
		event.RoomSize{Room: "den", EW: 12 * ft, NS: 10 * ft}, event.RoomSize{Room: "hall", EW: 12 * ft, NS: 4 * ft},
		event.Board{Room: "den", Type: "green"}, event.Board{Room: "den", On: "north", Thick: 3 * in / 8}, event.Board{Room: "hall", On: place.Ceiling, Thick: in / 2})
	for _, tt := range []struct{ room, on, want string }{
		{"den", "ceiling", `0.625 green`}, {"den", "south", `0.5 green`}, {"den", "north", `0.375 `}, {"hall", "ceiling", `0.5 `}, {"hall", "east", `0.5 `},
	} {
		b, said := l.st.Room(tt.room).BoardFor(place.Surface(tt.on))
		if got := fmt.Sprintf("%g %s", float64(b.Thick)/float64(in), b.Type); got != tt.want || !said || len(b.Lengths) != 1 {
			t.Errorf("%s %s: %q, %v, want %q", tt.room, tt.on, got, said, tt.want)
		}
	}
	if n := len(l.st.BoardsSaid()); n != 4 {
		t.Errorf("%d parts of the job have their own board, want 4", n)
	}
}

// Boards are counted by their kind. Those that hang are taken off the kind of their surface, and a surface gets no
// others; "left" is a count of one length.
func TestStockByKind(t *testing.T) {
	l := newLog(t)
	add := func(all ...event.Body) {
		for _, b := range all {
			l.say(b)
		}
	}
	up := place.Rect{X0: 0, X1: 12 * ft, Y0: 0, Y1: 4 * ft}
	add(event.RoomSize{Room: "den", EW: 12 * ft, NS: 10 * ft}, event.Board{Room: "den", On: place.Ceiling, Thick: 5 * in / 8, Type: "x"}, event.Board{Room: "den", On: "walls", Thick: in / 2},
		event.Stock{How: "delivered", Items: []event.Boards{{N: 9, L: 12 * ft, Thick: in / 2}, {N: 8, L: 12 * ft, Thick: 5 * in / 8, Type: "x"}, {N: 3, L: 8 * ft}, {N: 2, L: 12 * ft, Thick: in / 2, Type: "green"}}},
		event.Hung{Room: "den", Surface: place.Ceiling, Row: 1, Run: place.EW, Pieces: []place.Rect{up}, Used: []event.Boards{{N: 2, L: 12 * ft}}})
	den := l.st.Room("den")
	count := func(all []event.Boards) (s string) {
		for _, b := range all {
			s += fmt.Sprintf("%d x %d;", b.N, b.L/ft)
		}
		return s
	}
	for on, want := range map[place.Surface]string{place.Ceiling: "6 x 12;3 x 8;", "north": "9 x 12;3 x 8;"} {
		fit, _ := l.st.StockFor(site.Plane{Room: den, Surface: on})
		if got := count(fit); got != want {
			t.Errorf("%s: %q, want %q", on, got, want)
		}
	}
	add(event.Stock{How: "left", Items: []event.Boards{{N: 5, L: 12 * ft, Thick: in / 2}}}, event.Stock{How: "used", Items: []event.Boards{{N: 1, L: 8 * ft}}})
	all, _ := l.st.Stock()
	if got := count(all); got != "6 x 12;2 x 8;2 x 12;5 x 12;" && got != "6 x 12;2 x 8;5 x 12;" {
		t.Errorf("left %q", got)
	}
	if !site.SameBoard(site.Plane{Room: den, Surface: "north"}, site.Plane{Room: den, Surface: "east"}) || site.SameBoard(site.Plane{Room: den, Surface: "north"}, site.Plane{Room: den, Surface: place.Ceiling}) {
		t.Error("the walls have one board, the ceiling another")
	}
}

// A count that is put right comes after what was used of it: that is still taken off.
func TestUsedBeforeCountedAgain(t *testing.T) {
	l := newLog(t)
	came := l.say(event.Stock{How: "delivered", Items: []event.Boards{{N: 10, L: 8 * ft, Thick: in / 2}}})
	l.say(event.Stock{How: "used", Items: []event.Boards{{N: 1, L: 8 * ft}}})
	l.say(event.Strike{Seq: came})
	l.say(event.Stock{How: "delivered", Items: []event.Boards{{N: 8, L: 8 * ft, Thick: in / 2}}})
	if all, _ := l.st.Stock(); len(all) != 1 || all[0].N != 7 {
		t.Errorf("%v, want 7 of one kind", all)
	}
}
