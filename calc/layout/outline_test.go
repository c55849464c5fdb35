package layout_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// leaning is a random room of four corners up to 3 in out of square, its rows hung to a line off the north or west wall.
func leaning(seed uint64) layout.Input {
	r := rand.New(rand.NewPCG(seed, 5))
	w, h := length.Length(100+r.IntN(300))*inch, length.Length(100+r.IntN(200))*inch
	j := func() length.Length { return length.Length(r.Int64N(int64(3 * inch))) }
	in := layout.Input{Surface: layout.Surface{W: w, H: h, Corners: []place.Point{{X: j()}, {X: w - j()}, {X: w, Y: h - j()}, {Y: h}}}, Lie: place.Y, Far: r.IntN(2) == 1}
	across, along := h, w
	if r.IntN(2) == 1 {
		in.Lie, across, along = place.X, w, h
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
						if l.Run == place.Y {
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
func startAt(in layout.Input, run place.Axis, v length.Length) float64 {
	p, q := in.Surface.Corners[0], in.Surface.Corners[3]
	if run == place.Y {
		q = in.Surface.Corners[1]
		return float64(p.Y) + float64(v-p.X)*float64(q.Y-p.Y)/float64(q.X-p.X)
	}
	return float64(p.X) + float64(v-p.Y)*float64(q.X-p.X)/float64(q.Y-p.Y)
}

// By hand: a notch of 60 in x 24 in in the corner of a room whose east wall runs 4 in in over 100 in. Row 1 has its butt at 96 in, and
// its last piece fills 24 in to 48 in off the first wall: there the wall is at 143.04 in and 142.08 in, less 96 in and the clearance.
func TestLeaningBesideNotch(t *testing.T) {
	in := layout.Input{Surface: layout.Surface{W: 144 * inch, H: 100 * inch, Corners: []place.Point{{}, {X: 144 * inch}, {X: 140 * inch, Y: 100 * inch}, {Y: 100 * inch}},
		Notches: []layout.Rect{{X: 84 * inch, W: 60 * inch, H: 24 * inch}}}, Lie: place.Y, Keep: map[int][]length.Length{1: {96 * inch}}, Rows: []length.Length{48 * inch, 48 * inch, 4 * inch}, Stock: []layout.Stock{{Width: 48 * inch, Length: 96 * inch, Count: -1}}}
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

// By hand: the south wall runs in from 52 in to 44 in over 120 in, a foot in for 15. So it passes 48 in, the joint of the rows, at 60 in:
// row 1 has five corners, and its board loses one of 60 in x 4 in. Row 2 is a wedge, 4 in wide at its start, and ends where a rip leaves
// it open, 1/4 in wide, at 56-1/4 in.
func TestFiveCorners(t *testing.T) {
	in := layout.Input{Surface: layout.Surface{W: 120 * inch, H: 52 * inch, Corners: []place.Point{{}, {X: 120 * inch}, {X: 120 * inch, Y: 44 * inch}, {Y: 52 * inch}}},
		Lie: place.Y, Rows: []length.Length{48 * inch, 4 * inch}, Stock: []layout.Stock{{Width: 48 * inch, Length: 120 * inch, Count: -1}}}
	for at := 24 * inch; at < 120*inch; at += 24 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 5 * inch / 2})
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	one, two := l.Rows[0].Pieces[0], l.Rows[1].Pieces[0]
	if want := []layout.Corner{{End: true, Far: true, Along: 60 * inch, Across: 4 * inch}}; !slices.Equal(one.Off, want) || one.RipTapered() || one.Tapered() || one.Width != 48*inch {
		t.Errorf("row 1: %+v", one)
	}
	if want := [2]length.Length{4*inch - inch/4, 0}; two.To != 56*inch+inch/4 || two.Ends != want {
		t.Errorf("row 2: %+v", two)
	}
	if !slices.ContainsFunc(l.Notes, func(n layout.Note) bool { return n.About == layout.CornerOff && n.Row == 1 }) {
		t.Errorf("notes: %v", l.Notes)
	}
	in.Far, in.Rows = true, []length.Length{4 * inch, 48 * inch} // the same rows, counted from the other wall
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	if far := l.Rows[1].Pieces[0]; !slices.Equal(far.Off, one.Off) {
		t.Errorf("from the south: %+v", far.Off)
	}
}

// By hand: a wall 144 in long and 96 in high under a slope of 4 in 5 from 84 in along it, so 48 in high at its end. Standing boards:
// the slope begins 12 in short of the second joint, and is 9.6 in down there. Level boards from the top: row 1 runs to where nothing
// is left of it, its top edge to where the slope begins.
func TestUnderSlope(t *testing.T) {
	in := layout.Input{Surface: layout.Surface{W: 144 * inch, H: 96 * inch, Under: [][2]place.Point{{{X: 84 * inch, Y: 96 * inch}, {X: 144 * inch, Y: 48 * inch}}}},
		Lie: place.Y, Along: true, Stock: []layout.Stock{{Width: 48 * inch, Length: 144 * inch, Count: -1}}}
	for at := 16 * inch; at < 144*inch; at += 16 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 3 * inch / 2})
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	second, third := l.Rows[1].Pieces[0], l.Rows[2].Pieces[0]
	if want := []layout.Corner{{End: true, Far: true, Along: 96*inch/10 + 0, Across: 12 * inch}}; !slices.Equal(second.Off, want) || second.Tapered() {
		t.Errorf("row 2: %+v, want %v", second, want)
	}
	// 86.4 in at its near edge and 48 in at the end, less 1/8 in at each end, down to 1/16 in.
	if want := [2]length.Length{86*inch + 2*inch/16, 47*inch + 12*inch/16}; third.Edges != want || len(third.Off) != 0 {
		t.Errorf("row 3: %+v, want %v", third, want)
	}
	in.Along, in.Far = false, true
	if l, err = layout.Plan(in, nil); err != nil {
		t.Fatal(err)
	}
	top := l.Rows[0].Pieces[len(l.Rows[0].Pieces)-1]
	// A strip as wide as a rip leaves open ends 1/4 in up the slope: 5/16 in short of the wall's end.
	if want := [2]length.Length{144*inch - 5*inch/16 - inch/4, 84*inch - inch/4}; top.To != 144*inch-5*inch/16 ||
		top.Edges[0] > want[0] || top.Edges[0] < want[0]-inch/16 || top.Edges[1] > want[1] || top.Edges[1] < want[1]-inch {
		t.Errorf("row 1: %+v, want %v", top, want)
	}
	if got, want := l.Area/(0.0254*0.0254), 144.0*96-60*48/2; math.Abs(got-want) > 1 {
		t.Errorf("area %v sq in, want %v", got, want)
	}
}

// The pieces of a wall under one slope or two cover it, but for what is left open, and no more: each is drawn as cut, its corners off.
func TestUnderSlopesIsCovered(t *testing.T) {
	n := uint64(40)
	if *long {
		n = 2000
	}
	off := 0
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 11))
		w, h := float64(100+r.IntN(150)), float64(84+r.IntN(40))
		a, b := 20+r.Float64()*(w/2-25), w-20-r.Float64()*(w/2-25) // where the slopes meet the flat top
		la, lb := 30+r.Float64()*(h-40), 30+r.Float64()*(h-40)
		at := func(x, y float64) place.Point {
			return place.Point{X: length.Length(x * float64(inch)), Y: length.Length(y * float64(inch))}
		}
		in := layout.Input{Surface: layout.Surface{W: at(w, 0).X, H: at(h, 0).X, Under: [][2]place.Point{{at(b, h), at(w, lb)}}}, Lie: place.Y, Along: r.IntN(2) == 1, Far: r.IntN(2) == 1}
		area, edge := w*h-(w-b)*(h-lb)/2, 2*(w+h)
		switch r.IntN(3) {
		case 1:
			in.Surface.Under = append(in.Surface.Under, [2]place.Point{at(0, la), at(a, h)})
			area -= a * (h - la) / 2
		case 2: // a gable: they meet in a ridge under H
			a = b + 10 + r.Float64()*40
			in.Surface.Under = append(in.Surface.Under, [2]place.Point{at(0, la), at(a, h)})
			left, right := (h-la)/a, (h-lb)/(w-b) // how steep
			ridge := (h - la + right*b) / (left + right)
			area = (la+la+left*ridge)/2*ridge + (lb+la+left*ridge)/2*(w-ridge)
		}
		for x := 10.0; x < w-4; x += 16 {
			in.Supports = append(in.Supports, layout.Support{At: at(x, 0).X, Face: 3 * inch / 2})
		}
		for _, l := range []length.Length{8, 10, 12} {
			in.Stock = append(in.Stock, layout.Stock{Width: 48 * inch, Length: l * foot, Count: -1})
		}
		l, err := layout.Plan(in, nil)
		if err != nil {
			t.Fatalf("wall %d: %v", seed, err)
		}
		covered, joints := 0.0, 0.0
		for _, row := range l.Rows {
			for _, pc := range row.Pieces {
				long, wide := [2]float64{float64(pc.Cut), float64(pc.Cut)}, [2]float64{float64(pc.Width), float64(pc.Width)}
				if pc.Tapered() {
					long = [2]float64{float64(pc.Edges[0]), float64(pc.Edges[1])}
				}
				if pc.RipTapered() {
					wide = [2]float64{float64(pc.Ends[0]), float64(pc.Ends[1])}
				}
				covered += (long[0] + long[1]) / 2 * (wide[0] + wide[1]) / 2
				for _, c := range pc.Off {
					off++
					covered -= float64(c.Along) * float64(c.Across) / 2
				}
				joints += float64(pc.To-pc.From) / float64(inch)
			}
		}
		covered /= float64(inch) * float64(inch)
		if open := (edge + joints) * 5 / 8; covered > area*(1+1e-6) || covered < area-open {
			t.Errorf("wall %d (along %v, far %v): pieces %.0f of %.0f sq in, at most %.0f open", seed, in.Along, in.Far, covered, area, open)
		}
		if got := l.Area / (0.0254 * 0.0254); math.Abs(got-area) > 1 {
			t.Errorf("wall %d: area %v, is %v", seed, got, area)
		}
	}
	if off < int(n)/2 {
		t.Errorf("%d corners off: it shows nothing", off)
	}
}

// By hand: a gable of 2 in 3, 40 in high at both ends and 88 in in the middle of 144 in, in rows from 96 in down. Row 1 is 40 in high under the
// ridge, less 1/4 in to rip, and loses both of its corners from there on.
func TestUnderRidge(t *testing.T) {
	in := layout.Input{Surface: layout.Surface{W: 144 * inch, H: 96 * inch, Under: [][2]place.Point{
		{{Y: 40 * inch}, {X: 72 * inch, Y: 88 * inch}}, {{X: 72 * inch, Y: 88 * inch}, {X: 144 * inch, Y: 40 * inch}}}},
		Lie: place.Y, Far: true, Stock: []layout.Stock{{Width: 48 * inch, Length: 144 * inch, Count: -1}}}
	for at := 16 * inch; at < 144*inch; at += 16 * inch {
		in.Supports = append(in.Supports, layout.Support{At: at, Face: 3 * inch / 2})
	}
	l, err := layout.Plan(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	pc := l.Rows[0].Pieces[0]
	if pc.Width != 40*inch-inch/4 || pc.RipTapered() || len(pc.Off) != 2 || pc.Off[0].Along != 72*inch-pc.From || pc.Off[1].Along != pc.To-72*inch || !pc.Off[0].Far {
		t.Errorf("row 1: %+v", pc)
	}
}
