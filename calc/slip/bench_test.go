package slip_test

import (
	"testing"
	"time"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

// BenchmarkMissed has a duct off two walls with board, straps, a run and a similar room, so
// that every slip applies. The reference is the list of a plain search of the same room,
// sorted.
func BenchmarkMissed(b *testing.B) {
	s := straps(slip.Scene{W: 160 * in, H: 140 * in}, 2*in+in/2)
	n := slip.Note{X: off(s, place.West, 116*in+5*in/8), Y: off(s, place.North, 47*in+3*in/8), Size: place.Size{A: 6 * in}}
	n.X.Board, n.Y.Board = in/2, in/2
	bare := slip.Scene{W: s.W, H: s.H}
	for _, bc := range []struct {
		name string
		s    slip.Scene
		size length.Length
	}{{"straps", s, 6 * in}, {"bare", bare, 6 * in}, {"small", bare, in}} {
		b.Run(bc.name, func(b *testing.B) {
			n, s := n, bc.s
			n.Size.A = bc.size
			s.Empty = []place.Point{n.Place()}
			s.Twins = []slip.Twin{{Room: "bath 2", At: place.Point{X: 77 * in, Y: 77 * in}}}
			s.Runs = []slip.Run{{Path: []place.Point{{X: 40 * in}, {X: 40 * in, Y: s.H}}, Half: 2 * in}}
			start := time.Now()
			for range 20 {
				circle(s, n)
			}
			yard := float64(time.Since(start).Nanoseconds()) / 20
			probes := 0
			for b.Loop() {
				probes = len(slip.Missed(s, n))
			}
			b.ReportMetric(float64(probes), "probes")
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/yard, "x-circle")
		})
	}
}
