package reach_test

import (
	"flag"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
)

var long = flag.Bool("long", false, "run the grid searches many times over")

const grid = in / 8

func drawOn(t *rapid.T, name string, lo, hi int) length.Length {
	return length.Length(rapid.IntRange(lo, hi).Draw(t, name)) * grid
}

func drawQuery(t *rapid.T, slanted bool) reach.Query {
	q := reach.Query{
		Screw: drawOn(t, "screw", 8, 24), Board: drawOn(t, "board", 3, 8),
		Allow: reach.Allow{Set: in / 32, Margin: in / 4},
		Code:  rapid.SampledFrom([]place.Code{place.Strictest, place.US, place.Canada}).Draw(t, "code"),
	}
	for range rapid.IntRange(1, 3).Draw(t, "supports") {
		from := drawOn(t, "from", 0, 60)
		q.Supports = append(q.Supports, place.Support{
			Lie: place.Axis(rapid.IntRange(0, 1).Draw(t, "axis")), Pos: drawOn(t, "at", 0, 150),
			From: from, To: from + drawOn(t, "to", 1, 120),
			Thick: drawOn(t, "thick", 3, 12), Wide: 2 * drawOn(t, "half face", 1, 10), Measured: true,
		})
	}
	for range rapid.IntRange(1, 2).Draw(t, "runs") {
		run := reach.Run{
			Kind: rapid.SampledFrom([]reach.Kind{reach.Wire, reach.Pipe, reach.Gas, reach.Duct}).Draw(t, "kind"),
			How:  reach.How(rapid.IntRange(0, 2).Draw(t, "how")), Depth: drawOn(t, "depth", 0, 16), Half: drawOn(t, "half", 0, 10),
		}
		p := place.Point{X: drawOn(t, "x", 0, 150), Y: drawOn(t, "y", 0, 150)}
		run.Path = []place.Point{p}
		for range rapid.IntRange(0, 3).Draw(t, "legs") {
			turn := rapid.Bool().Draw(t, "turn")
			if slanted || turn {
				p.X = drawOn(t, "x", 0, 150)
			}
			if slanted || !turn {
				p.Y = drawOn(t, "y", 0, 150)
			}
			run.Path = append(run.Path, p)
		}
		if rapid.Bool().Draw(t, "notched") {
			run.Notched = []reach.Notch{{Support: rapid.IntRange(0, len(q.Supports)-1).Draw(t, "notch"), Depth: drawOn(t, "notch depth", 0, 6)}}
		}
		if rapid.IntRange(0, 3).Draw(t, "guarded") == 0 {
			run.Guards = []reach.Guard{{Support: rapid.IntRange(0, len(q.Supports)-1).Draw(t, "guard"), By: reach.Protection(rapid.IntRange(1, 2).Draw(t, "by"))}}
		}
		q.Runs = append(q.Runs, run)
	}
	return q
}

// gridHits is an independent brute-force check, with a screw at every 1/8 in of a support's
// face. It returns the places along the support where a screw meets the body of the run,
// enlarged by slack.
func gridHits(q reach.Query, r, s int, slack float64) []length.Length {
	run, sup := q.Runs[r], q.Supports[s]
	depth := length.Length(0)
	switch run.How {
	case reach.Behind:
		depth = run.Depth
	case reach.OnTop:
		depth = sup.Thick
	}
	for _, n := range run.Notched {
		if n.Support == s {
			depth = n.Depth
		}
	}
	for _, g := range run.Guards {
		if g.Support == s && g.By == reach.Plate {
			return nil
		}
	}
	if q.Screw-q.Board+q.Allow.Set < depth {
		return nil
	}
	var hits []length.Length
	for u := sup.From; u <= sup.To; u += grid {
		for v := sup.Pos - sup.Wide/2; v <= sup.Pos+sup.Wide/2; v += grid {
			x, y := u, v
			if sup.Lie == place.Y {
				x, y = v, u
			}
			if meets(run, float64(x)/float64(grid), float64(y)/float64(grid), slack) {
				hits = append(hits, u)
				break
			}
		}
	}
	return hits
}

// meets reports whether a point, in grid steps, is within half the run's width plus slack of
// its path. It uses the signs of the area and of the two angles.
func meets(run reach.Run, x, y, slack float64) bool {
	far := float64(run.Half)/float64(grid) + slack
	for i, b := range run.Path {
		bx, by := float64(b.X)/float64(grid), float64(b.Y)/float64(grid)
		if (x-bx)*(x-bx)+(y-by)*(y-by) <= far*far {
			return true
		}
		if i == 0 || run.Path[i-1] == b {
			continue
		}
		ax, ay := float64(run.Path[i-1].X)/float64(grid), float64(run.Path[i-1].Y)/float64(grid)
		ahead := (x-ax)*(bx-ax) + (y-ay)*(by-ay)
		behind := (x-bx)*(ax-bx) + (y-by)*(ay-by)
		area := (bx-ax)*(y-ay) - (by-ay)*(x-ax)
		if ahead >= 0 && behind >= 0 && area*area <= far*far*((bx-ax)*(bx-ax)+(by-ay)*(by-ay)) {
			return true
		}
	}
	return false
}

func forEachPair(q reach.Query, do func(r, s int, strips []reach.Crossing)) {
	hits := reach.Check(q).Hits()
	for r := range q.Runs {
		for s := range q.Supports {
			var strips []reach.Crossing
			for _, h := range hits {
				if h.Run == r && h.Support == s {
					strips = append(strips, h)
				}
			}
			do(r, s, strips)
		}
	}
}

func rounds(t *testing.T, check func(*rapid.T)) {
	n := 20
	if *long {
		n = 1000
	}
	for range n {
		rapid.Check(t, check)
	}
}

// With runs along the axes and everything on the grid, the strips are exactly what the
// brute force finds.
func TestGridFindsTheSame(t *testing.T) {
	rounds(t, func(t *rapid.T) {
		q := drawQuery(t, false)
		forEachPair(q, func(r, s int, strips []reach.Crossing) {
			found := gridHits(q, r, s, 0)
			sup := q.Supports[s]
			for u := sup.From; u <= sup.To; u += grid {
				inside := slices.ContainsFunc(strips, func(c reach.Crossing) bool { return c.From <= u && u <= c.To })
				if inside != slices.Contains(found, u) {
					t.Fatalf("run %d support %d at %v in: answer says %v", r, s, inches(u), inside)
				}
			}
			if len(strips) > 0 && len(found) == 0 {
				t.Fatalf("run %d support %d: %+v and nothing on the grid", r, s, strips)
			}
		})
	})
}

// Slanted runs pass between grid points, so everything the brute force finds is in a strip,
// and every strip is close to something it finds with the run one grid step wider.
func TestGridFindsSlantedRuns(t *testing.T) {
	rounds(t, func(t *rapid.T) {
		q := drawQuery(t, true)
		forEachPair(q, func(r, s int, strips []reach.Crossing) {
			for _, u := range gridHits(q, r, s, -1e-9) {
				if !slices.ContainsFunc(strips, func(c reach.Crossing) bool { return c.From <= u && u <= c.To }) {
					t.Fatalf("run %d support %d: hit at %v in not found", r, s, inches(u))
				}
			}
			wider := gridHits(q, r, s, 1)
			for _, c := range strips {
				for _, end := range []length.Length{c.From, c.To} {
					if !slices.ContainsFunc(wider, func(u length.Length) bool { return max(u-end, end-u) <= grid }) {
						t.Fatalf("run %d support %d: strip %+v ends where nothing is", r, s, c)
					}
				}
			}
		})
	})
}

// unsafe returns the counts that must not grow: hits, and hits plus close ones.
func unsafe(a reach.Answer) (hits, near int) {
	return len(a.Hits()), len(a.Hits()) + len(a.Close())
}

func TestDeeperNeverAddsAHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuery(t, true)
		before := reach.Check(q)
		by := drawOn(t, "deeper", 0, 12)
		runs := slices.Clone(q.Runs)
		for i := range runs {
			if runs[i].How != reach.Behind {
				continue
			}
			runs[i].Depth += by
			runs[i].Notched = slices.Clone(runs[i].Notched)
			for n := range runs[i].Notched {
				runs[i].Notched[n].Depth += by
			}
		}
		q.Runs = runs
		after := reach.Check(q)
		h0, n0 := unsafe(before)
		h1, n1 := unsafe(after)
		if h1 > h0 || n1 > n0 || len(after.Plates) > len(before.Plates) {
			t.Fatalf("deeper by %v in: hits %d to %d, near %d to %d, plates %d to %d", inches(by), h0, h1, n0, n1, len(before.Plates), len(after.Plates))
		}
	})
}

func TestShorterScrewNeverAddsAHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuery(t, true)
		before := reach.Check(q)
		q.Screw -= drawOn(t, "shorter", 0, 12)
		after := reach.Check(q)
		h0, n0 := unsafe(before)
		h1, n1 := unsafe(after)
		if h1 > h0 || n1 > n0 || len(after.Plates) != len(before.Plates) {
			t.Fatalf("hits %d to %d, near %d to %d, plates %d to %d", h0, h1, n0, n1, len(before.Plates), len(after.Plates))
		}
	})
}

// A length that is OK has no hit and nothing close, and bites enough.
func TestFitsAgreeWithCheck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuery(t, true)
		stock := []length.Length{in * 9 / 8, in * 5 / 4, in * 13 / 8, 2 * in}
		fits, advice := reach.Fits(q, stock, in*5/8)
		any := false
		for i, f := range fits {
			q.Screw = stock[i]
			_, near := unsafe(reach.Check(q))
			if f.Misses != (near == 0) {
				t.Fatalf("%+v with %d near", f, near)
			}
			if f.OK() && (stock[i]-q.Board < in*5/8) {
				t.Fatalf("%+v does not bite", f)
			}
			any = any || f.OK()
		}
		if any != (len(advice) == 0) {
			t.Fatalf("fits %+v advice %v", fits, advice)
		}
	})
}

// Every run that a rectangular or round hole touches on a fine grid is reported.
func TestGridFindsHoles(t *testing.T) {
	rounds(t, func(t *rapid.T) {
		q := drawQuery(t, true)
		h := reach.Hole{At: place.Point{X: drawOn(t, "hx", 10, 140), Y: drawOn(t, "hy", 10, 140)}, W: 2 * drawOn(t, "w", 1, 24), Bit: reach.Guide}
		if rapid.Bool().Draw(t, "square") {
			h.H = 2 * drawOn(t, "h", 1, 24)
		}
		passes := reach.Holes(h, q.Supports, q.Runs, reach.Allow{})
		for r, run := range q.Runs {
			got := slices.ContainsFunc(passes, func(p reach.Pass) bool { return p.Run == r })
			sure, maybe := false, false
			high := h.H
			if h.H == 0 {
				high = h.W
			}
			for x := -h.W / 2; x <= h.W/2; x += grid {
				for y := -high / 2; y <= high/2; y += grid {
					fx, fy, rad := float64(x)/float64(grid), float64(y)/float64(grid), float64(h.W)/float64(grid)/2
					if h.H == 0 && fx*fx+fy*fy > rad*rad {
						continue
					}
					px, py := float64(h.At.X+x)/float64(grid), float64(h.At.Y+y)/float64(grid)
					sure = sure || meets(run, px, py, -1e-9)
					maybe = maybe || meets(run, px, py, 1)
				}
			}
			if sure && !got || got && !maybe {
				t.Fatalf("hole %+v run %d: answer %v, grid %v, grid and a step %v", h, r, got, sure, maybe)
			}
		}
	})
}
