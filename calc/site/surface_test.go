package site_test

import (
	"testing"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

func up(l length.Length, f place.Face) place.Fix {
	return place.Fix{How: place.UpFrom, Said: length.Said{L: l}, Face: f}
}

// A height is off the floor that was there when it was said: 16 in off the subfloor; once a finished floor of 3/4 in is
// noted, 16-3/4 in off the subfloor. One that names its floor is taken at its word.
func TestFloors(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "den", EW: 192 * in, NS: 120 * in, High: 97*in + in/8})
	r := l.st.Room("den")
	y := func(sent int64, f place.Fix) length.Length {
		t.Helper()
		p, err := r.Place("north", []place.Fix{off(50*in, place.West), f}, place.Size{}, sent*60_000)
		if err != nil {
			t.Fatal(err)
		}
		return p.Y
	}
	if _, err := r.Place("north", []place.Fix{off(50*in, place.West), up(16*in, place.FinishedFloor)}, place.Size{}, 0); err == nil {
		t.Error("a finished floor that nobody noted")
	}
	l.at(10, "lead", event.Floor{Room: "den", Thick: 3 * in / 4})
	for _, tt := range []struct {
		sent int64
		face place.Face
		want length.Length
	}{{5, "", 16 * in}, {15, "", 16*in + 3*in/4}, {5, place.FinishedFloor, 16*in + 3*in/4}, {15, place.Subfloor, 16 * in}} {
		if got := y(tt.sent, up(16*in, tt.face)); got != tt.want {
			t.Errorf("16 up at %d off %q: %s, want %s", tt.sent, tt.face, length.Canon(got), length.Canon(tt.want))
		}
	}
	// Down is from what was overhead then: the joists at 97-1/8 in, or 1/2 in of board under them.
	down := place.Fix{How: place.DownTo, Said: length.Said{L: 48 * in}}
	l.at(20, "lead", event.Hung{Room: "den", Surface: place.Ceiling, All: true})
	if a, b := y(15, down), y(25, down); a != 49*in+in/8 || b != 48*in+5*in/8 {
		t.Errorf("48 down: %s on bare joists, %s under board", length.Canon(a), length.Canon(b))
	}
}

// A wall is boarded between the faces that are there, under the ceiling's board and 1/2 in off the floor; a height that was
// said to the ceiling's board is that much more to the framing.
func TestClearOfAWall(t *testing.T) {
	l := newLog(t)
	l.say(event.Board{Thick: 5 * in / 8})
	l.say(event.RoomSize{Room: "den", EW: 192 * in, NS: 120 * in, High: 97 * in})
	l.say(event.Boarded{Room: "den", Wall: place.East, Thick: in / 2})
	r := l.st.Room("den")
	want := place.Rect{X0: 0, X1: 192*in - in/2, Y0: in / 2, Y1: 97*in - 5*in/8}
	if got := r.Shell().Clear("north"); got != want {
		t.Errorf("clear of the north wall %v, want %v", got, want)
	}
	if got, want := r.Shell().Clear("east"), (place.Rect{X1: 120 * in, Y0: in / 2, Y1: 97*in - 5*in/8}); got != want {
		t.Errorf("clear of the east wall %v, want %v", got, want)
	}
	l.say(event.Hung{Room: "den", Surface: place.Ceiling, All: true})
	l.say(event.Board{Thick: in / 2})
	if got := r.Shell().Clear("north"); got != want {
		t.Errorf("with other board since the ceiling went up %v, want %v", got, want)
	}
	l.say(event.RoomSize{Room: "den", EW: 192 * in, NS: 120 * in, High: 96*in + 3*in/8})
	if _, y := r.Shell().Extent("north"); y != 97*in {
		t.Errorf("96-3/8 in under 5/8 in of board: %s to the framing", length.Canon(y))
	}
}

// A notch of 48 x 36 in in the north-east corner: the room's own north wall is 144 in long, its east wall starts 36 in south.
func TestNotchOnWalls(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "den", EW: 192 * in, NS: 120 * in, High: 97 * in, Less: []event.Notch{{EW: 48 * in, NS: 36 * in, Corner: "ne"}}})
	r := l.st.Room("den")
	for _, tt := range []struct {
		on     place.Surface
		x      length.Length
		inside bool
	}{{"north", 143 * in, true}, {"north", 145 * in, false}, {"east", 35 * in, false}, {"east", 37 * in, true}, {"south", 190 * in, true}} {
		if got := r.Shell().Inside(tt.on, place.Point{X: tt.x, Y: 16 * in}); got != tt.inside {
			t.Errorf("%s of the %s wall inside: %v", length.Canon(tt.x), tt.on, got)
		}
	}
	east := off(20*in, place.East)
	east.Notch = true
	if p, err := r.Place("north", []place.Fix{east, up(16*in, "")}, place.Size{}, 0); err != nil || p.X != 124*in {
		t.Errorf("20 off the notch: %s, %v", length.Canon(p.X), err)
	}
}

// Old notes of level boards on an east wall say ew; they lie level, and not standing.
func TestBoardsOnWalls(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "den", EW: 192 * in, NS: 120 * in, High: 97 * in})
	r := l.st.Room("den")
	if run, _ := r.BoardsRun("east"); run != place.NS || r.RowsFrom("east", run) != "" {
		t.Errorf("boards %s, rows from %q", run, r.RowsFrom("east", run))
	}
	turned := l.say(event.BoardsRun{Room: "den", Dir: "standing"})
	if run, _ := r.BoardsRun("east"); run != place.Up || r.RowsFrom("east", run) != place.North {
		t.Errorf("standing: boards %s, rows from %q", run, r.RowsFrom("east", run))
	}
	if run, known := r.BoardsRun(place.Ceiling); known {
		t.Errorf("the ceiling's boards run %s", run)
	}
	l.say(event.Strike{Seq: turned})
	l.say(event.Hung{Room: "den", Surface: "east", Row: 1, Run: place.EW, Pieces: []place.Rect{{X1: 120 * in, Y0: 48 * in, Y1: 96 * in}}})
	if run, _ := r.BoardsRun("east"); run != place.NS || r.Pieces("east")[0].Run != place.NS {
		t.Errorf("an old note: boards %s", run)
	}
}
