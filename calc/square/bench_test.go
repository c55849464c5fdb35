package square_test

import (
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"

	"strapline/calc/square"
)

// yardstick is the time gonum takes for a dense solve with 8 unknowns, in ns.
func yardstick(b *testing.B) float64 {
	a, x := mat.NewDense(8, 8, nil), new(mat.VecDense)
	for i := range 8 {
		for j := range 8 {
			a.Set(i, j, float64((i*j)%7))
		}
		a.Set(i, i, 20)
	}
	v := mat.NewVecDense(8, []float64{1, 2, 3, 4, 5, 6, 7, 8})
	const times = 2000
	start := time.Now()
	for range times {
		if err := x.SolveVec(a, v); err != nil {
			b.Fatal(err)
		}
	}
	return float64(time.Since(start).Nanoseconds()) / times
}

// BenchmarkFit fits a set of six readings, and ten sets with a reading a foot out, including
// the search for suspects.
func BenchmarkFit(b *testing.B) {
	set := readings(160*in+in/2, 172*in, 141*in, 140*in+7*in/8, 213*in+3*in/4, 213*in+7*in/8)
	for _, bc := range []struct {
		name string
		sets int
	}{{"six", 1}, {"sixty", 10}} {
		b.Run(bc.name, func(b *testing.B) {
			var all []square.Reading
			for range bc.sets {
				all = append(all, set...)
			}
			if bc.sets > 1 {
				for i := range all {
					if all[i].Line == square.South {
						all[i].L = 160*in + 3*in/4
					}
				}
				all[7].L += foot
			}
			yard := yardstick(b)
			for b.Loop() {
				if _, err := square.Fit(all); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/yard, "x-solve")
			b.ReportMetric(yard, "ns-solve")
		})
	}
}
