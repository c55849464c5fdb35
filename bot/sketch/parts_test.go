package sketch_test

import (
	"slices"
	"strings"
	"testing"

	"strapline/bot/sheet"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// The door is 36 x 80 with its centre 58 off north: from 40 to 76 off north, on the floor. The window is 30 x 40
// with its centre 100 off north and 50 up: from 85 to 115 off north, which is from 29 to 59 off south, and
// from 30 to 70 up.
func TestOpeningsToBothEdges(t *testing.T) {
	up := place.Fix{How: place.UpFrom, Said: length.Said{L: 50 * in}}
	st := flat(t, append(attic(), event.Thing{Room: "attic", Name: "window 1", What: "window", Framed: true, New: true, Surface: "west",
		Size: place.Size{A: 30 * in, B: 40 * in}, Fixes: []place.Fix{off(100*in, place.North), up}, Point: place.Point{X: 100 * in, Y: 50 * in}})...)
	s := surfaceOf(t, st, "west")
	ends := map[string][]place.Point{} // of each thing, where its dimensions along an axis begin and end
	for _, th := range s.Things {
		for _, m := range th.From {
			ends[th.Name] = append(ends[th.Name], place.Point{X: m.Wall, Y: th.At.On(m.Axis) + m.Edge})
		}
	}
	p := func(x, y length.Length) place.Point { return place.Point{X: x * in, Y: y * in} }
	for name, want := range map[string][]place.Point{
		"door 1":   {p(40, 76), p(0, 40), p(0, 76), p(0, 80)},
		"window 1": {p(85, 115), p(144, 115), p(144, 85), p(30, 70), p(0, 30), p(0, 70)},
	} {
		if !slices.Equal(ends[name], want) {
			t.Errorf("%s: %v, want %v", name, ends[name], want)
		}
	}
	page, _ := sketch.Plan(s, 4000)
	got := texts(page)
	for _, want := range []string{"40 to 76\" off north, 80\" high", "29 to 59\" off south, 30 to 70\" up"} {
		if want = strings.ReplaceAll(want, " to ", "\" to "); !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	// On 3/4 in of finished floor the door's opening still stands on the subfloor and is 80 high.
	floored, _ := sketch.Plan(surfaceOf(t, flat(t, append(attic(), event.Floor{Room: "attic", Thick: 3 * in / 4})...), "west"), 4000)
	if got := texts(floored); !strings.Contains(got, `40" to 76" off north, 80" high`) {
		t.Errorf("the door on a finished floor\n%s", got)
	}
	page, _ = sketch.Plan(surfaceOf(t, st, place.Ceiling), 4000)
	if got := texts(page); !strings.Contains(got, `west wall: 40" to 76" off north, 80" high`) {
		t.Errorf("the ceiling's list has the door\n%s", got)
	}
}

// TestSlopesOnTheSheet: the sheet of a ceiling shows its slopes and bulkheads, on the plan and each by
// itself below, inside the sheet and clear of the list above. What there is no room for goes on the next.
func TestSlopesOnTheSheet(t *testing.T) {
	st := flat(t, attic()...)
	s := surfaceOf(t, st, place.Ceiling)
	plan, _ := sketch.Plan(s, 4000)
	if got := texts(plan); !strings.Contains(got, "south slope") || !strings.Contains(got, "north bulkhead") {
		t.Errorf("the plan names what is lower:\n%s", got)
	}
	if err := s.AddParts(st, plans(st)); err != nil || len(s.Parts) != 3 {
		t.Fatalf("%d parts, %v: a slope, a bulkhead's bottom and its face", len(s.Parts), err)
	}
	for most, sheets := range map[float64]int{1440: 2, 1589: 2, 3000: 1} {
		pages := sketch.Sheets(s, most)
		var all string
		for i, page := range pages {
			if page.H > most+1 {
				t.Errorf("sheet %d of %v is %v high", i+1, most, page.H)
			}
			for _, tx := range page.Texts {
				if b := tx.Box(); b.X0 < 0 || b.X1 > sheet.Width || b.Y1 > page.H {
					t.Errorf("%q is beside the sheet", tx.S)
				}
			}
			for k, a := range page.Texts {
				for _, b := range page.Texts[k+1:] {
					if x, y := a.Box(), b.Box(); x.X0 < y.X1-1 && y.X0 < x.X1-1 && x.Y0 < y.Y1-1 && y.Y0 < x.Y1-1 {
						t.Errorf("%q lies on %q", a.S, b.S)
					}
				}
			}
			all += texts(page)
		}
		first := texts(pages[0])
		for _, want := range []string{"attic ceiling", "attic south slope", "attic north bulkhead bottom"} {
			if !strings.Contains(all, want) || !strings.Contains(first, want) {
				t.Errorf("%v high: no %q on the first sheet", most, want)
			}
		}
		if n := len(pages); n < sheets {
			t.Errorf("%v high: %d sheets, want %d", most, n, sheets)
		}
	}
}
