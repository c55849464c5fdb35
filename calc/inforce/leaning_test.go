package inforce_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// A room that leans, with a notch, a bulkhead or a slope in it, is planned on the safe side: every point of its ceiling, but for what
// is left open at the walls, lies in the place of a piece and is not cut out of it. No piece beside a notch or a bulkhead, where no
// wall of the room trims it, is cut shorter than its place less the clearances.
func TestLeaningRoomIsCovered(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 9))
		w, h := float64(120+r.IntN(120)), float64(110+r.IntN(60))
		j := func() float64 { return r.Float64()*5 - 2.5 }
		q := [4][2]float64{{0, 0}, {w, 0}, {w + j(), h + j()}, {j(), h + j()}}
		d := func(i, k int) length.Length {
			return length.Length(math.Round(math.Hypot(q[k][0]-q[i][0], q[k][1]-q[i][1]) * float64(in)))
		}
		size := event.RoomSize{Room: "den", EW: d(0, 1), NS: d(0, 3), High: 96 * in}
		size.Less = [][]event.Notch{
			{{EW: 30 * in, NS: 26 * in, Corner: "se"}},
			{{EW: 24 * in, NS: 20 * in, Wall: place.North, Off: 40 * in, From: place.East}},
			{{EW: 18 * in, NS: 30 * in, Wall: place.West, Off: 30 * in}, {EW: 20 * in, NS: 22 * in, Corner: "ne"}},
		}[seed%3]
		bodies := []event.Body{
			size,
			event.Square{Room: "den", Readings: []event.Reading{
				{Line: "north", L: d(0, 1)}, {Line: "south", L: d(3, 2)}, {Line: "east", L: d(1, 2)}, {Line: "west", L: d(0, 3)}, {Line: "nw-se", L: d(0, 2)}, {Line: "ne-sw", L: d(1, 3)},
			}},
			event.Board{Lengths: []length.Length{96 * in, 120 * in, 144 * in}},
		}
		run, far := place.NS, w
		if r.IntN(2) == 1 {
			run, far = place.EW, h
		}
		set := event.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: run, From: map[place.Direction]place.Wall{place.NS: place.West, place.EW: place.North}[run]}
		for x := 10.0; x < far-3; x += 16 {
			set.At = append(set.At, length.Length(x)*in)
		}
		bodies = append(bodies, set)
		switch r.IntN(4) {
		case 0:
			bodies = append(bodies, event.Bulkhead{Room: "den", Wall: place.South, Wide: 14 * in, Drop: 10 * in})
		case 1:
			bodies = append(bodies, event.Bulkhead{Room: "den", Wall: place.East, Wide: 14 * in, Drop: 10 * in, Off: 30 * in})
		case 2:
			bodies = append(bodies, event.Slope{Room: "den", Wall: place.West, High: 96 * in, Low: 60 * in, Over: 24 * in})
		}
		st := site.New()
		for i, b := range bodies {
			if err := st.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i + 1), Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		room := st.Room("den")
		if _, leans := room.Shell().Shape(); !leans {
			t.Fatalf("room %d is no true shape", seed)
		}
		p, err := plans(st, new(inforce.Kept), inforce.MessageSteps, true).Of(ceiling(st, "den"))
		if err != nil {
			t.Fatalf("room %d: %v", seed, err)
		}
		faces, _ := room.Shell().Faces(place.Ceiling)
		slack := 3 * in / 4
		for n := 0; n < 3000; n++ {
			at := place.Point{X: length.Length(r.Int64N(int64((w + 6) * float64(in)))), Y: length.Length(r.Int64N(int64((h + 6) * float64(in))))}
			if !room.Shell().Inside(place.Ceiling, at) || room.Shell().Overhead(at) != place.Ceiling {
				continue
			}
			edge := length.Length(math.MaxInt64) // to the walls as they are boarded
			for _, o := range faces.Locate(at) {
				edge = min(edge, o.L)
			}
			if edge < slack {
				continue // what is left open at a wall
			}
			covered := slices.ContainsFunc(p.Rows, func(row layout.Row) bool {
				return slices.ContainsFunc(row.Pieces, func(pc layout.Piece) bool { return p.Rect(pc).Has(at) && !cutOut(p, pc, at) })
			})
			if n == 0 {
				for _, row := range p.Rows {
					for _, pc := range row.Pieces[1:max(len(row.Pieces)-1, 1)] {
						if short := pc.To - pc.From - pc.Cut; short > in/4+length.Sixteenth {
							t.Errorf("room %d %s: %v short of its place", seed, pc.ID, short)
						}
					}
				}
			}
			if !covered {
				t.Fatalf("room %d: nothing is planned at %v, %v in", seed, at.X/in, at.Y/in)
			}
		}
	}
}

// cutOut reports whether the place is cut out of the piece.
func cutOut(p *inforce.Plan, pc layout.Piece, at place.Point) bool {
	return slices.ContainsFunc(pc.Notches, func(q layout.Rect) bool {
		x, y := at.X-p.Dx-q.X, at.Y-p.Dy-q.Y
		return 0 < x && x < q.W && 0 < y && y < q.H
	})
}

// Slopes, bulkheads and notches that leave hardly anything of a room, or nothing, are a [layout.Problem] at worst.
func TestOddShapes(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 13))
		l := func(most int) length.Length { return length.Length(1+r.IntN(most)) * in }
		wall := func() place.Wall { return place.Walls[r.IntN(4)] }
		size := event.RoomSize{Room: "den", EW: 144 * in, NS: 120 * in, High: 96 * in}
		for range r.IntN(3) {
			n := event.Notch{EW: l(160), NS: l(140), Wall: wall(), Off: l(150)}
			if r.IntN(2) == 0 {
				n = event.Notch{EW: n.EW, NS: n.NS, Corner: []string{"nw", "ne", "sw", "se"}[r.IntN(4)]}
			}
			size.Less = append(size.Less, n)
		}
		bodies := []event.Body{size, event.Board{Lengths: []length.Length{96 * in, 144 * in}},
			event.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: place.NS, From: place.West, At: []length.Length{20 * in, 50 * in, 80 * in, 110 * in, 140 * in}}}
		if r.IntN(3) > 0 {
			bodies = append(bodies, event.Square{Room: "den", Readings: []event.Reading{
				{Line: "north", L: 144 * in}, {Line: "south", L: 146 * in}, {Line: "east", L: 120 * in}, {Line: "west", L: 120 * in}, {Line: "nw-se", L: 188*in + 5*in/8}}})
		}
		for range 1 + r.IntN(3) {
			switch w := wall(); r.IntN(2) {
			case 0:
				b := event.Slope{Room: "den", Wall: w, High: 96 * in, Low: 40 * in}
				if r.IntN(3) > 0 {
					b.Over = l(119)
				}
				bodies = append(bodies, b)
			default:
				b := event.Bulkhead{Room: "den", Wall: w, Wide: l(119), Drop: l(90)}
				if r.IntN(2) == 0 {
					b.Off = l(100)
				}
				bodies = append(bodies, b)
			}
		}
		if r.IntN(4) == 0 {
			bodies = append(bodies, event.First{Room: "den", Walls: true})
		}
		for _, w := range place.Walls {
			bodies = append(bodies, event.Supports{Room: "den", Surface: place.Surface(w), What: place.Studs, Run: place.Up, From: place.Surface(w).Start(place.X), At: []length.Length{16 * in, 48 * in, 80 * in, 112 * in}})
		}
		st := site.New()
		for i, b := range bodies {
			if err := st.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i + 1), Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		room := st.Room("den")
		for _, s := range room.Shell().Surfaces() {
			x, y := room.Shell().Extent(s)
			if c := room.Shell().Clear(s); c.X1 > x+in || c.Y1 > y+in || c.X0 < -in || c.Y0 < -in {
				t.Errorf("seed %d: %s of %v x %v is clear at %v", seed, s, x/in, y/in, c)
			}
			for range 20 {
				p := place.Point{X: l(200) - 30*in, Y: l(200) - 30*in}
				if room.Shell().Inside(s, p) && (p.X < 0 || p.Y < 0 || p.X > x || y > 0 && p.Y > y) {
					t.Errorf("seed %d: %v is inside %s", seed, p, s)
				}
				room.Shell().Overhead(p)
			}
			room.Bearing(s)
			if o := room.Shell().Overcut(); o < 0 || o > 100*in {
				t.Errorf("seed %d: %v over", seed, o)
			}
			p, err := plans(st, new(inforce.Kept), 1_000_000, true).Of(site.Plane{Room: room, Surface: s})
			if _, odd := errors.AsType[*layout.Problem](err); err != nil && !odd && !errors.Is(err, inforce.ErrNoStraps) && !errors.Is(err, inforce.ErrNoHeight) {
				t.Errorf("seed %d: %s: %v", seed, s, err)
			}
			if err == nil && len(p.Rows) > 10 {
				t.Errorf("seed %d: %s: %d rows", seed, s, len(p.Rows))
			}
		}
	}
}
