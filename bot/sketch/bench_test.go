package sketch_test

import (
	"fmt"
	"image/png"
	"io"
	"testing"

	"strapline/bot/scene"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// hall is 40 ft x 25 ft with 30 things and a layout in force.
func hall(tb testing.TB) scene.Scene {
	bodies := []event.Body{
		event.RoomSize{Room: "kitchen", EW: 40 * ft, NS: 25 * ft},
		event.Board{Thick: in / 2, Wide: 48 * in, Lengths: []length.Length{8 * ft, 10 * ft, 12 * ft, 14 * ft}},
		event.PlanPick{Room: "kitchen", Pick: 1, Said: true},
	}
	set := event.Supports{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, Run: place.EW, From: place.North, Spacing: 16 * in}
	for at := 16 * in; at < 25*ft; at += 16 * in {
		set.At = append(set.At, at)
	}
	bodies = append(bodies, set)
	for i := range length.Length(30) {
		bodies = append(bodies, thing(fmt.Sprintf("l%d", i+1), "light", place.Size{A: 6 * in}, 40*in+i%6*75*in+i*in, 40*in+i/6*52*in+i*in/4))
	}
	return sceneOf(tb, flat(tb, bodies...), false)
}

func BenchmarkPNG(b *testing.B) {
	s := hall(b)
	for b.Loop() {
		page, _ := sketch.Plan(s, 4000)
		if err := page.PNG(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkEncode is the reference: the standard encoder alone, on the same picture in full colour.
func BenchmarkEncode(b *testing.B) {
	page, _ := sketch.Plan(hall(b), 4000)
	img, err := page.Image()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := png.Encode(io.Discard, img); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLayOut(b *testing.B) {
	s := hall(b)
	for b.Loop() {
		sketch.Plan(s, 4000)
	}
}
