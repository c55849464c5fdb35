package markup

import (
	"strings"
	"testing"

	"strapline/bot/message"
)

func TestText(t *testing.T) {
	for _, tc := range []struct {
		name string
		out  message.Out
		want string
	}{
		{"as it is", message.Out{Answers: []message.Answer{{Reply: "noted 1: a"}, {Reply: "noted 2: b"}}}, "noted 1: a\nnoted 2: b"},
		{"calls those who were told, each once", message.Out{Answers: []message.Answer{
			{Reply: "noted 1", Tell: []string{"sparks", "spark"}}, {Reply: "noted 2", Tell: []string{"sparks"}},
		}}, "noted 1\nnoted 2\n@sparks @spark"},
		{"calls nobody else", message.Out{Answers: []message.Answer{{Reply: "noted 1: @all look @Channel, @here"}}},
			"noted 1: @\u200ball look @\u200bChannel, @\u200bhere"},
		{"choices one a line", message.Out{Answers: []message.Answer{{Reply: "61 off which wall?  1: east  2: west\nnoted  12 x 3"}}}, "61 off which wall?\n1: east\n2: west\nnoted  12 x 3"},
		{"no markup", message.Out{Answers: []message.Answer{{Reply: "note *all* _of_ it `now` ~~no~~ [x](y) \\o/ 116-5/8\""}}},
			"note \\*all\\* \\_of\\_ it \\`now\\` \\~\\~no\\~\\~ \\[x\\](y) \\\\o/ 116-5/8\""},
		{"no markup at the beginning of a line", message.Out{Answers: []message.Answer{{Reply: "# a\n> b\n  - c\n1. d\n12) e\n1-1/2\" f\n3 off"}}},
			"\\# a\n\\> b\n  \\- c\n1\\. d\n12\\) e\n1-1/2\" f\n3 off"},
		{"addresses as they are", message.Out{Answers: []message.Answer{{Reply: "*a* https://x.test/a_b_c/pl/d *e*, http://y.test/[z](w)"}}},
			"\\*a\\* https://x.test/a_b_c/pl/d \\*e\\*, http://y.test/\\[z\\](w)"},
	} {
		if got := Text(tc.out, 16383); got != tc.want {
			t.Errorf("%s: got %q, want %q", tc.name, got, tc.want)
		}
	}
	long := message.Out{Answers: []message.Answer{{Reply: strings.Repeat("règle 12 ", 1000)}}}
	if got := []rune(Text(long, 4000)); len(got) > 4000 || len(got) < 4000-100 {
		t.Errorf("cut to %d runes, want nearly %d", len(got), 4000)
	}
}
