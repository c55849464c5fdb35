package sketch_test

import (
	"flag"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"strapline/bot/sheet"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// checkTexts checks that no text leaves its sheet, no two overlap, and none hides a run.
func checkTexts(t interface{ Errorf(string, ...any) }, p *sheet.Page) {
	type box struct {
		x0, y0, x1, y1 float64
		s              string
	}
	var boxes []box
	for _, tx := range p.Texts {
		b := tx.Box()
		a := box{b.X0, b.Y0, b.X1, b.Y1, tx.S}
		if a.x0 < 0 || a.y0 < 0 || a.x1 > sheet.Width || a.y1 > p.H {
			t.Errorf("%v leaves the sheet of %v", a, p.H)
		}
		for _, o := range boxes {
			if a.x0 < o.x1 && o.x0 < a.x1 && a.y0 < o.y1 && o.y0 < a.y1 {
				t.Errorf("%v and %v overlap", a, o)
			}
		}
		boxes = append(boxes, a)
	}
	for _, line := range p.Shapes {
		if line.Pen.W != sketch.RunWidth {
			continue
		}
		from, to := line.Points[0], line.Points[1]
		for f := 0.0; f <= 1; f += 1.0 / 64 {
			x, y := from.X+f*(to.X-from.X), from.Y+f*(to.Y-from.Y)
			for _, b := range boxes {
				if b.x0 < x && x < b.x1 && b.y0 < y && y < b.y1 {
					t.Errorf("%v hides a run at %v, %v", b, x, y)
				}
			}
		}
	}
}

// randomRoom is a room of any shape, with anything in it.
func randomRoom(r *rapid.T) []event.Body {
	inches := func(label string, lo, hi int) length.Length {
		return length.Length(rapid.IntRange(16*lo, 16*hi).Draw(r, label)) * length.Sixteenth
	}
	ew, ns := inches("ew", 24, 700), inches("ns", 24, 700)
	if rapid.IntRange(0, 9).Draw(r, "hall") == 0 {
		ew = inches("long", 700, 2400)
	}
	size := event.RoomSize{Room: "kitchen", EW: ew, NS: ns}
	if rapid.Bool().Draw(r, "notch") {
		size.Less = append(size.Less, event.Notch{EW: ew / 4, NS: ns / 3, Corner: rapid.SampledFrom([]string{"ne", "nw", "se", "sw"}).Draw(r, "corner")})
	}
	if rapid.Bool().Draw(r, "mid") {
		size.Less = append(size.Less, event.Notch{EW: ew / 8, NS: ns / 5, Wall: place.North, Off: ew * 2 / 5, From: place.West})
	}
	name := rapid.StringMatching(`[a-zA-Z0-9 äЖ☃"]{1,40}`)
	out := []event.Body{event.JobTitle{Title: name.Draw(r, "title")}, size}
	if rapid.Bool().Draw(r, "metric") {
		out = append(out, event.UnitsSet{Units: length.Metric})
	}
	run, across := place.EW, ns
	from := place.North
	if rapid.Bool().Draw(r, "run") {
		run, across, from = place.NS, ew, place.West
	}
	if oc := inches("oc", 8, 24); rapid.IntRange(0, 9).Draw(r, "straps") > 0 {
		set := event.Supports{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, Run: run, From: from, Spacing: oc}
		for at := oc; at < across; at += oc {
			set.At = append(set.At, at)
		}
		if len(set.At) > 0 {
			out = append(out, set)
		}
	}
	for i := range rapid.IntRange(0, 40).Draw(r, "things") {
		th := thing(fmt.Sprintf("%s %d", name.Draw(r, "name"), i), rapid.SampledFrom([]string{"light", "vent", "smoke alarm"}).Draw(r, "what"),
			place.Size{A: inches("a", 0, 30)}, inches("x", 0, int(ew/in)), inches("y", 0, int(ns/in)))
		if rapid.Bool().Draw(r, "square") {
			th.Size.B = inches("b", 1, 30)
		}
		out = append(out, th)
		if rapid.IntRange(0, 5).Draw(r, "open") == 0 {
			out = append(out, event.Opened{Room: "kitchen", Names: []string{th.Name}})
		}
	}
	for i := range rapid.IntRange(0, 4).Draw(r, "runs") {
		v := event.Route{Room: "kitchen", Name: fmt.Sprintf("p%d", i), What: "pipe", Surface: place.Ceiling, Size: inches("size", 0, 6)}
		for range rapid.IntRange(2, 3).Draw(r, "points") {
			x, y := inches("x", 0, int(ew/in)), inches("y", 0, int(ns/in))
			v.Points = append(v.Points, []place.Fix{off(x, place.West), off(y, place.North)})
			v.At = append(v.At, place.Point{X: x, Y: y})
		}
		out = append(out, v)
	}
	wide := 48 * in
	boards := ns
	if run == place.EW {
		boards = ew
	}
	for i := range rapid.IntRange(0, 6).Draw(r, "rows") {
		lo := length.Length(i) * wide
		if lo >= boards {
			break
		}
		rect := place.Rect{X0: lo, X1: min(lo+wide, ew), Y1: ns}
		dir := place.NS
		if run == place.NS {
			rect, dir = place.Rect{Y0: lo, Y1: min(lo+wide, ns), X1: ew}, place.EW
		}
		out = append(out, event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: i + 1, Run: dir, Pieces: []place.Rect{rect}})
	}
	return out
}

// No two texts overlap in random rooms: 500 of them unless -rapid.checks is set.
func TestNoTwoTextsOverlap(t *testing.T) {
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue {
		if err := f.Value.Set("500"); err != nil {
			t.Fatal(err)
		}
		defer f.Value.Set(f.DefValue)
	}
	rapid.Check(t, func(r *rapid.T) {
		s := sceneOf(t, flat(t, randomRoom(r)...), rapid.Bool().Draw(r, "up"))
		for i := range rapid.IntRange(0, 12).Draw(r, "boards") {
			id := fmt.Sprintf("r%d.1", i)
			cut := length.Length(rapid.IntRange(16, 16*144).Draw(r, "cut")) * length.Sixteenth
			if s.Sizes == nil {
				s.Sizes = map[string]layout.Piece{}
			}
			s.Sizes[id] = layout.Piece{ID: id, Cut: cut, Width: 16 * in, Rip: i%2 == 0}
			s.ToCut = append(s.ToCut, layout.Cut{Width: 48 * in, Length: 12 * ft, Strips: []layout.Strip{{Width: 48 * in, Pieces: []string{id}, Left: 12*ft - cut, Keep: true}}})
		}
		most := rapid.SampledFrom([]float64{1440, 4000}).Draw(r, "high")
		plan, left := sketch.Plan(s, most)
		for _, p := range append([]*sheet.Page{plan}, sketch.Lists(s, most, left)...) {
			checkTexts(r, p)
		}
	})
}
