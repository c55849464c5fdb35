package sketch_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// attic is a room with a door, a slope and a bulkhead.
func attic() []event.Body {
	up := func(l length.Length) place.Fix { return place.Fix{How: place.UpFrom, Said: length.Said{L: l}} }
	on := func(s place.Surface, name, what string, size place.Size, x, y length.Length) event.Thing {
		return event.Thing{Room: "attic", Name: name, What: what, Surface: s, Size: size, New: true,
			Fixes: []place.Fix{off(x, s.Start(place.X)), up(y)}, Point: place.Point{X: x, Y: y}}
	}
	door := on("west", "door 1", "door", place.Size{A: 36 * in, B: 80 * in}, 58*in, 40*in)
	door.Framed = true
	studs := event.Supports{Room: "attic", Surface: "west", What: place.Studs, Run: place.Up, From: place.North}
	straps := event.Supports{Room: "attic", Surface: "south slope", What: place.Straps, Run: place.EW, From: place.South}
	for at := 16 * in; at < 12*ft; at += 16 * in {
		studs.At = append(studs.At, at)
		if at < 5*ft {
			straps.At = append(straps.At, at)
		}
	}
	return []event.Body{
		event.RoomSize{Room: "attic", EW: 14 * ft, NS: 12 * ft, High: 8 * ft},
		event.Slope{Room: "attic", Wall: place.South, High: 8 * ft, Low: 4 * ft, Over: 3 * ft},
		event.Bulkhead{Room: "attic", Wall: place.North, Wide: 16 * in, Drop: 12 * in},
		studs, straps, door,
		on("west", "b1", "box", place.Size{A: 2 * in, B: 4 * in}, 110*in, 16*in),
		on("south slope", "l1", "light", place.Size{A: 4 * in}, 30*in, 41*in),
		event.PlanPick{Room: "attic", Surface: "west", Pick: 1},
	}
}

func surfaceOf(t testing.TB, st *site.State, on place.Surface) scene.Scene {
	t.Helper()
	speech := say.Speech{Units: st.Units(), Loc: time.UTC, Now: time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC)}
	s, err := scene.Room(st, plans(st), "attic", on, speech, false)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestElevations(t *testing.T) {
	st := flat(t, attic()...)
	golden(t, surfaceOf(t, st, "west"), "west-wall", false)
	golden(t, surfaceOf(t, st, "south slope"), "south-slope", false)
	want := []place.Surface{place.Ceiling, "west", "south slope"}
	if got := scene.Surfaces(st.Room("attic")); !slices.Equal(got, want) {
		t.Errorf("surfaces with something on them: %v, want %v", got, want)
	}
}

// Facing the south wall, west is on the right; facing the north wall, it is on the left.
// Up is up.
func TestWestOnTheRight(t *testing.T) {
	st := flat(t, attic()...)
	at := func(on place.Surface, word string) (x, y float64) {
		page, _ := sketch.Plan(surfaceOf(t, st, on), 4000)
		for _, tx := range page.Texts {
			if tx.S == word {
				return tx.X, tx.Y
			}
		}
		t.Fatalf("%s: no %q", on, word)
		return 0, 0
	}
	for _, c := range []struct {
		on          place.Surface
		left, right string
	}{
		{"north", "west", "east"}, {"south", "east", "west"}, {"east", "north", "south"}, {"west", "south", "north"},
		{"south slope", "east", "west"}, {"north bulkhead face", "west", "east"}, {"north bulkhead bottom", "west", "east"},
	} {
		left, _ := at(c.on, c.left)
		right, _ := at(c.on, c.right)
		if left >= right {
			t.Errorf("%s: %s is not left of %s", c.on, c.left, c.right)
		}
	}
	_, top := at("west", "ceiling")
	_, box := at("west", "b1")
	_, floor := at("west", "floor")
	if !(top < box && box < floor) {
		t.Errorf("ceiling %v, box %v, floor %v", top, box, floor)
	}
}

// No two texts overlap on random walls, slopes and bulkheads: 100 of them unless
// -rapid.checks is set.
func TestNoTwoTextsOverlapOnWalls(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		inches := func(label string, lo, hi int) length.Length {
			return length.Length(rapid.IntRange(16*lo, 16*hi).Draw(r, label)) * length.Sixteenth
		}
		high := inches("high", 80, 160)
		bodies := []event.Body{
			event.RoomSize{Room: "attic", EW: inches("ew", 40, 600), NS: inches("ns", 100, 600), High: high},
			event.Slope{Room: "attic", Wall: place.South, High: high, Low: inches("low", 10, 70), Over: inches("over", 10, 90)},
			event.Bulkhead{Room: "attic", Wall: place.North, Wide: inches("wide", 4, 40), Drop: inches("drop", 4, 40), Off: inches("off", 0, 20)},
		}
		room := flat(t, bodies...).Room("attic")
		on := rapid.SampledFrom(room.Shell().Surfaces()[1:]).Draw(r, "on")
		x, y := room.Shell().Extent(on)
		oc := inches("oc", 8, 24)
		set := event.Supports{Room: "attic", Surface: on, What: place.Studs, Run: place.Up, From: on.Start(place.X)}
		if !on.Upright() {
			set.What, set.Run = place.Straps, on.DirectionOf(place.Y)
		}
		for at := oc; at < x; at += oc {
			set.At = append(set.At, at)
		}
		bodies = append(bodies, set)
		for i := range rapid.IntRange(0, 12).Draw(r, "things") {
			p := place.Point{X: length.Length(rapid.Int64Range(0, int64(x)).Draw(r, "x")), Y: length.Length(rapid.Int64Range(0, int64(y)).Draw(r, "y"))}
			th := event.Thing{Room: "attic", Name: fmt.Sprintf("b%d", i), What: "box", Surface: on, Size: place.Size{A: inches("a", 1, 40), B: inches("b", 1, 80)}, New: true,
				Fixes: []place.Fix{{How: place.OffWall, Wall: on.Start(place.X), Said: length.Said{L: p.X}}, {How: place.UpFrom, Said: length.Said{L: p.Y}}}, Point: p}
			th.Framed = on.IsWall() && i == 0
			bodies = append(bodies, th)
		}
		if rapid.Bool().Draw(r, "layout") {
			bodies = append(bodies, event.PlanPick{Room: "attic", Surface: on, Pick: 1})
		}
		plan, left := sketch.Plan(surfaceOf(t, flat(t, bodies...), on), 4000)
		for _, p := range append([]*sheet.Page{plan}, sketch.Lists(surfaceOf(t, flat(t, bodies...), on), 4000, left)...) {
			checkTexts(r, p)
		}
	})
}

// The lists name the surface that their plan is of.
func TestListsNameTheirSurface(t *testing.T) {
	s := surfaceOf(t, flat(t, attic()...), "west")
	_, left := sketch.Plan(s, 1440)
	pages := sketch.Lists(s, 1440, left)
	if len(pages) == 0 || !slices.ContainsFunc(pages[0].Texts, func(x sheet.Text) bool { return strings.HasPrefix(x.S, "attic west wall, ") }) {
		t.Errorf("%d pages, none headed attic west wall", len(pages))
	}
}
