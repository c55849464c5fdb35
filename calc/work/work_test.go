package work_test

import (
	"testing"

	"strapline/calc/work"
)

// A search ends within a few thousand steps after Done is closed, and its steps are
// subtracted.
func TestDone(t *testing.T) {
	done := make(chan struct{})
	b := work.Budget{Steps: 1_000_000, Done: done}
	n := 0
	ended := b.Do(func() {
		b.Part(500_000, func(part *work.Budget) {
			for ; ; n++ {
				if part.Spend(10); n == 10_000 {
					close(done)
				}
			}
		})
	})
	if took := 1_000_000 - b.Steps; ended || n < 10_000 || n > 10_500 || took != 10*int64(n+1) {
		t.Errorf("ended %v, %d rounds, %d steps", ended, n, took)
	}
	if b.Do(func() { b.Spend(5000) }) {
		t.Error("goes on when stopped before")
	}
}

func TestSpend(t *testing.T) {
	b := work.Budget{Steps: 100}
	if !b.Do(func() { b.Part(50, func(part *work.Budget) { part.Spend(70) }) }) || b.Steps != 30 {
		t.Errorf("%d left of 100, want 30: a part that took more than it was given is counted whole", b.Steps)
	}
	defer func() {
		if r := recover(); r != "a fault" {
			t.Errorf("recovered %v", r)
		}
	}()
	b.Do(func() { panic("a fault") })
	t.Error("a fault is taken for a stop")
}
