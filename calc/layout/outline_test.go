package layout_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
)

// leaning is a random room of four corners up to 3 in out of square, its rows hung to a line off the north or west wall.
func leaning(seed uint64) layout.Input {
	r := rand.New(rand.NewPCG(seed, 5))
	w, h := length.Length(100+r.IntN(300))*inch, length.Length(100+r.IntN(200))*inch
	j := func() length.Length { return length.Length(r.Int64N(int64(3 * inch))) }
	in := layout.Input{Surface: layout.Surface{W: w, H: h, Corners: []layout.Point{{X: j()}, {X: w - j()}, {X: w, Y: h - j()}, {Y: h}}}, Lie: layout.Y, Far: r.IntN(2) == 1}
	across, along := h, w
	if r.IntN(2) == 1 {
		in.Lie, across, along = layout.X, w, h
	}
	if r.IntN(3) == 0 {
		in.Rows = append(in.Rows, 46*inch)
	} else {
		in.Rows = append(in.Rows, 48*inch+inch/4)
	}
	for left := across - in.Rows[0]; left > 0; left -= 48 * inch {
		in.Rows = append(in.Rows, min(left, 48*inch))
	}
	for at := length.Length(8+r.IntN(8)) * inch; at < along; at += 16 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 5 * inch / 2})
	}
	for _, l := range []length.Length{8, 10, 12} {
		in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: l * foot, Count: -1})
	}
	return in
}

// The checker shares nothing with the fit: each piece is drawn as cut, by its edges and its ends, held in the middle of its place,
// and must lie within the walls, to 1/16 in; what stays open at a wall is no more than the clearance, the rounding and what may
// be cut square. By the shoelace formula the pieces cover the room less those gaps.
func TestLeaningWalls(t *testing.T) {
	n := uint64(30)
	if *long {
		n = 2000
	}
	tapered, ripped := 0, 0
	for seed := range n {
		in := leaning(seed)
		l, err := layout.Plan(in, nil)
		if err != nil {
			t.Fatalf("room %d: %v", seed, err)
		}
		c := in.Surface.Corners
		off := func(i int, x, y float64) float64 { // inside wall i
			p, q := c[i], c[(i+1)%4]
			dx, dy := float64(q.X-p.X), float64(q.Y-p.Y)
			return (dx*(y-float64(p.Y)) - dy*(x-float64(p.X))) / math.Hypot(dx, dy)
		}
		covered, room := 0.0, 0.0
		sizes := map[string]length.Length{}
		for i, p := range c {
			q := c[(i+1)%4]
			room += (float64(p.X)*float64(q.Y) - float64(q.X)*float64(p.Y)) / 2
		}
		for k, row := range l.Rows {
			for _, pc := range row.Pieces {
				sizes[pc.ID] = pc.Cut
				a, b := float64(pc.Cut), float64(pc.Cut)
				w0, w1 := float64(pc.Width), float64(pc.Width)
				lean := [2]float64{}
				if pc.Tapered() {
					tapered++
					a, b, lean = float64(pc.Edges[0]), float64(pc.Edges[1]), [2]float64{float64(pc.Lean[0]), float64(pc.Lean[1])}
					if pc.Edges[0] > pc.Cut || pc.Edges[1] > pc.Cut {
						t.Errorf("room %d %s: edges %v do not come out of %v", seed, pc.ID, pc.Edges, pc.Cut)
					}
					if d := math.Abs(b - a - (lean[1] - lean[0])); d > float64(inch)/8 {
						t.Errorf("room %d %s: edges %v, ends lean %v", seed, pc.ID, pc.Edges, pc.Lean)
					}
				}
				if pc.RipTapered() {
					ripped++
					w0, w1 = float64(pc.Ends[0]), float64(pc.Ends[1])
				}
				covered += (a + b) / 2 * (w0 + w1) / 2
				if pc.Cut > pc.To-pc.From {
					t.Errorf("room %d %s: longer than its place", seed, pc.ID)
				}
				// Along: the middle of the free play at both edges.
				clear := float64(inch) / 8
				from0 := float64(pc.From)
				if pc.From == row.Pieces[0].From {
					from0 += clear
				}
				if pc.From > row.Pieces[0].From {
					lean[0] = 0
				}
				start := [2]float64{from0 + max(0, -lean[0]), from0 + max(0, lean[0])}
				end := [2]float64{start[0] + a, start[1] + b}
				if !pc.Tapered() { // square: behind the wall that is farthest in
					worst := 0.0
					for _, v := range []length.Length{row.From, row.To} {
						worst = max(worst, startAt(in, l.Run, v)-float64(pc.From))
					}
					if pc.From == row.Pieces[0].From {
						start[0] += worst
						start[1] += worst
					}
					end = [2]float64{start[0] + a, start[1] + b}
				}
				for e, v := range []length.Length{row.From, row.To} {
					for _, u := range []float64{start[e], end[e]} {
						x, y, walls := u, float64(v), []int{1, 3}
						if l.Run == layout.Y {
							x, y, walls = y, x, []int{0, 2}
						}
						for _, i := range walls {
							if off(i, x, y) < -float64(inch)/16 {
								t.Errorf("room %d row %d %s: edge %d at %.3f is %.3f in beyond wall %d", seed, k+1, pc.ID, e, u/float64(inch), -off(i, x, y)/float64(inch), i)
							}
						}
					}
				}
			}
		}
		perimeter := 0.0
		for i, p := range c {
			q := c[(i+1)%4]
			perimeter += math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
		}
		// Clearance 1/8 in at an end or 1/4 in beside a row, the rounding, and what may be cut square.
		if most := perimeter * float64(inch) * (1.0/4 + 1.0/8 + 1.0/4); covered > room*(1+1e-6) || covered < room-most {
			t.Errorf("room %d: pieces %.3f of %.3f sq ft, at most %.3f open", seed, covered/1e18/.0929, room/1e18/.0929, most/1e18/.0929)
		}
		if math.Abs(l.Area-room/1e18) > 1e-6 {
			t.Errorf("room %d: area %v, is %v", seed, l.Area, room/1e18)
		}
		for _, b := range l.Cuts {
			for _, s := range b.Strips {
				left := b.Length
				for _, id := range s.Pieces {
					left -= sizes[id]
				}
				if left != s.Left || left < 0 {
					t.Errorf("room %d: a board of %v for %v has %v left, says %v", seed, b.Length, s.Pieces, left, s.Left)
				}
			}
		}
		if slices.ContainsFunc(l.Rows, func(r layout.Row) bool { return len(r.Pieces) == 0 }) {
			t.Errorf("room %d: an empty row", seed)
		}
	}
	if tapered < int(n) || ripped < int(n)/2 {
		t.Errorf("%d tapered, %d ripped: it shows nothing", tapered, ripped)
	}
}

// startAt is where a row starts at v, by the wall's two corners.
func startAt(in layout.Input, run layout.Axis, v length.Length) float64 {
	p, q := in.Surface.Corners[0], in.Surface.Corners[3]
	if run == layout.Y {
		q = in.Surface.Corners[1]
		return float64(p.Y) + float64(v-p.X)*float64(q.Y-p.Y)/float64(q.X-p.X)
	}
	return float64(p.X) + float64(v-p.Y)*float64(q.X-p.X)/float64(q.Y-p.Y)
}

// By hand: a notch of 60 in x 24 in in the corner of a room whose east wall runs 4 in in over 100 in. Row 1 has its butt at 96 in, and
// its last piece fills 24 in to 48 in off the first wall: there the wall is at 143.04 in and 142.08 in, less 96 in and the clearance.
func TestLeaningBesideNotch(t *testing.T) {
	in := layout.Input{Surface: layout.Surface{W: 144 * inch, H: 100 * inch, Corners: []layout.Point{{}, {X: 144 * inch}, {X: 140 * inch, Y: 100 * inch}, {Y: 100 * inch}},
		Notches: []layout.Rect{{X: 84 * inch, W: 60 * inch, H: 24 * inch}}}, Lie: layout.Y, Keep: map[int][]length.Length{1: {96 * inch}}, Rows: []length.Length{48 * inch, 48 * inch, 4 * inch}, Stock: []layout.Stock{{Width: 48 * inch, Length: 96 * inch, Count: -1}}}
	for at := 48 * inch; at < 144*inch; at += 48 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 5 * inch / 2})
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	last := l.Rows[0].Pieces[len(l.Rows[0].Pieces)-1]
	if want := [2]length.Length{46*inch + 14*inch/16, 45*inch + 15*inch/16}; last.From != 96*inch || last.Lo != 24*inch || last.Edges != want {
		t.Errorf("got from %v, lo %v, edges %v, want %v", last.From, last.Lo, last.Edges, want)
	}
	// (144 + 140) / 2 x 100 less 60 x 24, in square inches.
	if got, want := l.Area/(0.0254*0.0254), 142.0*100-60*24; math.Abs(got-want) > 1 {
		t.Errorf("area %v sq in, want %v", got, want)
	}
	// All round: the four walls; a notch in a corner adds nothing.
	if got, want := float64(l.WallJoint)/float64(inch), 144+140+100+math.Hypot(4, 100); math.Abs(got-want) > 0.01 {
		t.Errorf("joint at the walls %v in, want %v", got, want)
	}
}
