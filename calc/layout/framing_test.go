package layout_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"strapline/calc/fasten"
	"strapline/calc/layout"
	"strapline/calc/place"
)

// TestBays: a strap that stops after the first row of two leaves a bay of 32 in over the second, where 1/2 in board may cross
// 24 in (IRC table R702.3.5, from memory; NBC table 9.29.5.3).
func TestBays(t *testing.T) {
	in := ceiling(160*inch, 96*inch, 12)
	in.Supports[4].To = 50 * inch
	in.Framing = fasten.Where{Board: inch / 2}
	spacing := func() (out []layout.Note) {
		l, err := layout.Plan(in, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range l.Notes {
			if n.About == layout.Spacing {
				out = append(out, n)
			}
		}
		return out
	}
	us := layout.Note{About: layout.Spacing, Row: 2, At: 32 * inch, Limit: 24 * inch, Rule: "IRC R702.3.5"}
	canada := us
	canada.Rule = "NBC 9.29.5.3"
	if d := cmp.Diff([]layout.Note{us, canada}, spacing()); d != "" {
		t.Error(d)
	}
	in.Framing.Code = place.US
	if d := cmp.Diff([]layout.Note{us}, spacing()); d != "" {
		t.Error(d)
	}
	in.Supports[4].To = 0
	if got := spacing(); got != nil {
		t.Errorf("%v with all straps through", got)
	}
}
