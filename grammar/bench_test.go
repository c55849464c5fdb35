package grammar_test

import (
	"testing"

	"strapline/calc/length"
	"strapline/grammar/parse"
)

func BenchmarkParse(b *testing.B) {
	for _, bb := range []struct{ name, in string }{
		{"thing", `light 6" over sink 26 off west 41 off north`},
		{"support", "duct d3 44 3/8 along strap 3 from east, 7 south of strap 3"},
		{"straps", "straps ns at 9 1/2 25 1/4 41 56 3/4 off west"},
		{"hung", "hung 144 + 16 3/4 row 2"},
		{"find", "where is the sink light?"},
		{"chatter", "running late, traffic is bad, be there in twenty"},
		{"refused", "light 26 off wset 41 off north"},
		{"asked", "light 26 off west 84 & 2 off north"},
	} {
		b.Run(bb.name, func(b *testing.B) {
			c := onSite(length.Imperial)
			b.ReportAllocs()
			for b.Loop() {
				parse.Line(bb.in, c)
			}
		})
	}
}
