package supply_test

import (
	"fmt"
	"testing"

	"strapline/calc/length"
	"strapline/calc/supply"
)

const foot, inch = length.Foot, length.Inch

// Worked example 16-2 of Estimating in Building Construction, chapter 16, page 203.
func TestWorkedExample(t *testing.T) {
	// 7000 sq ft take 7000 screws, 35 gal and 2660 ft of tape; with 10 % more, 59 rolls of 50 ft.
	job := supply.Job{Area: 7000, Own: supply.Numbers{PerRoll: 50}}
	for _, l := range supply.Order(job) {
		low := l.Rules[0]
		switch l.What {
		case supply.Screws:
			if low != 7000 || l.Count != 7 {
				t.Errorf("screws %v, %d boxes; want 7000, 7", low, l.Count)
			}
		case supply.Compound:
			if low != 35 || l.Low != 35 {
				t.Errorf("compound %v gal, low %d; want 35", low, l.Low)
			}
		case supply.Tape:
			if low != 2660 {
				t.Errorf("tape %v ft; want 2660", low)
			}
		}
	}
	joints := supply.Job{Joints: 2660 * foot, Own: supply.Numbers{PerRoll: 50}}
	if l := line(t, joints, supply.Tape); l.Count != 59 {
		t.Errorf("%d rolls for 2660 ft of joint, want 59", l.Count)
	}
}

func line(t *testing.T, j supply.Job, w supply.What) supply.Line {
	t.Helper()
	for _, l := range supply.Order(j) {
		if l.What == w {
			return l
		}
	}
	t.Fatalf("no %s in the order", w)
	return supply.Line{}
}

func TestOwnNumbersFirst(t *testing.T) {
	waste, compound := 10.0, 9.0
	job := supply.Job{Area: 1500, Boards: []supply.Board{{Width: 4 * foot, Length: 12 * foot, Count: 21}},
		Screws: 1204, Joints: 150 * foot, Corners: []length.Length{97 * inch, 96 * inch}, Plates: 3,
		Own: supply.Numbers{Waste: &waste, Compound: &compound}}
	for _, tc := range []struct {
		what             supply.What
		count, low, high int
		by               supply.By
	}{
		{supply.Boards, 24, 23, 26, supply.Lead},  // 21 x 1.10 = 23.1; 5 % 22.05, 20 % 25.2
		{supply.Screws, 2, 2, 2, supply.Counted},  // 1204 in boxes of 1000; rules 1500
		{supply.Tape, 1, 2, 3, supply.Counted},    // 165 ft in rolls of 500; rules 555 to 1125
		{supply.Compound, 14, 8, 21, supply.Lead}, // 13.5; rules 7.5 to 20.25
		{supply.Bead, 3, 0, 0, supply.Counted},    // 97 in takes two sticks of 8 ft
		{supply.Plates, 3, 0, 0, supply.Counted},
	} {
		l := line(t, job, tc.what)
		if l.Count != tc.count || l.Low != tc.low || l.High != tc.high || l.By != tc.by {
			t.Errorf("%s: %d (%d to %d) by %s, want %d (%d to %d) by %s", tc.what, l.Count, l.Low, l.High, l.By,
				tc.count, tc.low, tc.high, tc.by)
		}
	}
	if got := supply.Order(supply.Job{}); len(got) != 0 {
		t.Errorf("nothing known, yet %v", got)
	}
}

// Sheet weights are the published weights per square foot times the size (a board maker's specification sheet).
func TestWeight(t *testing.T) {
	for _, tc := range []struct {
		thick length.Length
		ft    int
		want  float64
		carry int
	}{
		{inch / 2, 8, 51.2, 2}, {inch / 2, 12, 76.8, 2}, {inch / 2, 16, 102.4, 2},
		{5 * inch / 8, 8, 70.4, 2}, {5 * inch / 8, 12, 105.6, 3}, {5 * inch / 8, 16, 140.8, 3},
	} {
		got, ok := supply.Weight(tc.thick, 4*foot, length.Length(tc.ft)*foot)
		if !ok || fmt.Sprintf("%.1f", got) != fmt.Sprintf("%.1f", tc.want) {
			t.Errorf("4x%d of %d nm: %.2f lb, want %.1f", tc.ft, tc.thick, got, tc.want)
		}
		if n := supply.People(got); n != tc.carry {
			t.Errorf("%.1f lb: %d people, want %d", got, n, tc.carry)
		}
	}
	if _, ok := supply.PerSquareFoot(inch); ok {
		t.Error("board of 1 in has no published weight here")
	}
	if w, ok := supply.PerSquareFoot(length.Length(12.7 * 1e6)); !ok || w != 1.6 {
		t.Errorf("12.7 mm: %v %v, want 1.6", w, ok)
	}
}

func TestStack(t *testing.T) {
	half, _ := supply.PerSquareFoot(inch / 2)
	fiveEighths, _ := supply.PerSquareFoot(5 * inch / 8)
	for _, tc := range []struct {
		name      string
		live, psf float64
		want      int
	}{
		{"1/2 in, dwelling", supply.LiveDwelling, half, 25},
		{"5/8 in, dwelling", supply.LiveDwelling, fiveEighths, 18},
		{"1/2 in, sleeping", supply.LiveSleeping, half, 18},
		{"5/8 in, sleeping", supply.LiveSleeping, fiveEighths, 13},
		{"BCSI-B4 example: plywood of 61 lb, taken as 1.9 psf", 40, 1.9, 21},
		{"no weight", 40, 0, 0},
	} {
		if got := supply.Stack(tc.live, tc.psf); got != tc.want {
			t.Errorf("%s: %d sheets, want %d", tc.name, got, tc.want)
		}
	}
	// GA-801: 25 boards of 80 lb and 48 sq ft are 41.7 psf, over 40, so 24 is the limit.
	if got := supply.Stack(supply.LiveDwelling, 80.0/48); got != 24 {
		t.Errorf("%d boards of 80 lb, want 24", got)
	}
}

func ExampleOrder() {
	compound := 9.0
	for _, l := range supply.Order(supply.Job{
		Area:   400,
		Boards: []supply.Board{{Width: 4 * foot, Length: 12 * foot, Count: 9}},
		Screws: 430,
		Own:    supply.Numbers{Compound: &compound},
	}) {
		fmt.Printf("%s: %d %s by %s (rules: %d to %d)\n", l.What, l.Count, l.Unit, l.By, l.Low, l.High)
	}
	// By hand: 9 boards + 5 % = 9.45, + 20 % = 10.8. 430 screws are one box. Tape 370 to 750 ft x 0.4 = 148 to
	// 300 ft: one roll of 500. Compound 9 x 0.4 = 3.6; 5 x 0.4 = 2, 13.5 x 0.4 = 5.4.

	// Output:
	// boards: 9 board by layout (rules: 10 to 11)
	// screws: 1 box by counted (rules: 1 to 1)
	// tape: 1 roll by rule (rules: 1 to 1)
	// compound: 4 gal by lead (rules: 2 to 6)
}
