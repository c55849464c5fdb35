package layout_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

const boardFoot = 0.3048 * 1.2192 // square metres in a foot of 48 in board

// BenchmarkHall is the ceiling of 40 ft x 25 ft on straps at 16 in, lengths 8, 9, 10, 12, 14 ft.
func BenchmarkHall(b *testing.B) {
	in := ceiling(40*foot, 25*foot, 8, 9, 10, 12, 14)
	b.ReportAllocs()
	var l *layout.Layout
	var took []time.Duration
	for b.Loop() {
		start := time.Now()
		l, _ = layout.Plan(in, nil)
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2])/1e6, "ms/median")
	report(b, in, l)
}

// report compares the plan with what first-fit does with the same room in the same run.
func report(b *testing.B, in layout.Input, l *layout.Layout) {
	butts, feet := firstFit(in)
	b.ReportMetric(float64(l.Butts), "butts")
	b.ReportMetric(l.Bought/boardFoot, "feet")
	b.ReportMetric(l.Bound/boardFoot, "bound")
	b.ReportMetric(float64(butts), "firstfit-butts")
	b.ReportMetric(feet, "firstfit-feet")
	b.ReportMetric(l.Bought/boardFoot/feet, "feet/firstfit")
}

// BenchmarkRooms reports times: 100 random rooms by area, mean and worst of each band.
func BenchmarkRooms(b *testing.B) {
	type band struct{ rooms []layout.Input }
	tops := []float64{100, 200, 300, 450, 600, 1000}
	bands := make([]band, len(tops))
	for seed := range uint64(100) {
		in := room(seed)
		area := in2(in.Surface.W) * in2(in.Surface.H) / 144
		for i, top := range tops {
			if area <= top {
				bands[i].rooms = append(bands[i].rooms, in)
				break
			}
		}
	}
	for i, bd := range bands {
		b.Run(fmt.Sprintf("to%.0fsqft", tops[i]), func(b *testing.B) {
			var worst time.Duration
			var spent time.Duration
			n, provable, proven, ours, theirs := 0, 0, 0, 0.0, 0.0 // provable: boards of one width, and enough of them
			for b.Loop() {
				for _, in := range bd.rooms {
					start := time.Now()
					l, err := layout.Plan(in, nil)
					d := time.Since(start)
					spent += d
					worst = max(worst, d)
					n++
					if err == nil && len(l.Short) == 0 && in.Stock[0].Width == in.Stock[len(in.Stock)-1].Width {
						provable++
						if l.Proven {
							proven++
						}
					}
					if butts, feet := firstFit(in); err == nil && butts >= 0 && in.Stock[0].Count < 0 {
						ours += l.Bought / boardFoot
						theirs += feet
					}
				}
			}
			b.ReportMetric(float64(len(bd.rooms)), "rooms")
			b.ReportMetric(float64(spent)/1e6/float64(n), "ms/room")
			b.ReportMetric(float64(worst)/1e6, "ms/worst")
			b.ReportMetric(100*float64(proven)/float64(provable), "%proven")
			b.ReportMetric(ours/theirs, "feet/firstfit")
		})
	}
}

// firstFit lays each row greedily: the longest board that ends on a support and clear of the row before,
// each piece from the first offcut that is long enough, else from the shortest board that is. It returns
// -1 if it gets stuck. It ignores notches.
func firstFit(in layout.Input) (butts int, feet float64) {
	run, cross := in.Surface.W, in.Surface.H
	if in.Lie == place.X {
		run, cross = cross, run
	}
	longest := length.Length(0)
	for _, s := range in.Stock {
		longest = max(longest, s.Length)
	}
	var offcuts []length.Length
	var before []length.Length
	for y := length.Length(0); y < cross; y += 48 * inch {
		var ends []length.Length
		for at := length.Length(0); at < run; {
			next := length.Length(-1)
			if run-at <= longest {
				next = run
			}
			for _, s := range in.Supports {
				clear := !slices.ContainsFunc(before, func(o length.Length) bool { return max(o-s.At, s.At-o) < 16*inch })
				if next != run && s.At-at >= 16*inch && s.At-at <= longest && run-s.At >= 16*inch && clear {
					next = max(next, s.At)
				}
			}
			if next < 0 {
				return -1, 1
			}
			long := next - at
			i := slices.IndexFunc(offcuts, func(o length.Length) bool { return o >= long })
			if i < 0 {
				least := length.Length(0)
				for _, s := range in.Stock {
					if s.Length >= long-inch/4 && (least == 0 || s.Length < least) {
						least = s.Length
					}
				}
				feet += in2(least) / 12
				offcuts = append(offcuts, least)
				i = len(offcuts) - 1
			}
			offcuts[i] -= long
			if next < run {
				butts++
				ends = append(ends, next)
			}
			at = next
		}
		before = ends
	}
	return butts, feet
}
