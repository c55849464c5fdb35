package question

import (
	"cmp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/quantity"
)

// put puts the parts of the question into a line. It returns false if one is missing.
func (q *query) put(means string) (string, bool) {
	if means == "-" {
		return "", true
	}
	at := func(all []string, n int) string {
		if n < len(all) {
			return all[n]
		}
		return ""
	}
	kind, kinds, off := at(q.kinds, 0), "everything", q.off
	if strings.HasPrefix(means, "any $kind noted") { // of a wire near a pipe the wire is asked for
		kind = q.kinds[slices.IndexFunc(q.kinds, runs)]
	}
	if kind = cmp.Or(kind, q.opening); kind != "" {
		kinds = lex.Plural(kind)
	}
	if off != "" {
		off = "off " + off
	}
	on := ""
	if q.wall != "" {
		on = "on " + q.wall + " wall"
	}
	air, _ := quantity.Air(lex.Lower(q.Text), q.Units == length.Metric)
	parts := map[string]string{"$rest": q.rest(), "$air": air, "$on": on, "$thing": at(q.things, 0), "$other": at(q.things, 1), "$kind": kind, "$opening": q.opening, "$kinds": kinds, "$off": off, "$wall": q.wall, "$row": q.row, "$support": strings.TrimSpace(q.support),
		"$length": strings.Join(q.lengths, ", "), "$screw": q.screw, "$fix": at(q.fixes, 0), "$fixes": strings.Join(q.fixes, ", "), "$trade": q.trade, "$check": q.check, "$label": q.label, "$piece": q.piece, "$all": q.Text}
	var out []string
	for w := range strings.FieldsSeq(means) {
		if w[0] == '$' {
			name := strings.TrimRight(w, "?,")
			value := parts[name]
			if value == "" && w == name+"?" {
				continue
			}
			if value == "" {
				return "", false
			}
			w = value + strings.Trim(w[len(name):], "?")
		}
		out = append(out, w)
	}
	return strings.Join(out, " "), true
}

// rest is the sum that takes the shorter of two lengths off the longer as often as it goes: the last of the boards on
// a wall. It is "" if one of them may be read in several ways.
func (q *query) rest() string {
	var all []length.Length
	for _, said := range q.lengths {
		if r, n, _ := measure.Scan(said, q.Units, measure.One); len(r) == 1 && n == len(said) {
			all = append(all, r[0].L)
		}
	}
	if len(all) != 2 || len(q.lengths) != 2 {
		return ""
	}
	whole, board := q.lengths[0], q.lengths[1]
	if all[0] < all[1] {
		whole, board, all[0], all[1] = board, whole, all[1], all[0]
	}
	if n := all[0] / all[1]; n > 0 && n < mostBoards && all[1] >= length.Foot {
		return "sum " + whole + strings.Repeat(" take "+board, int(n))
	}
	return ""
}

// mostBoards is how many boards go on a wall in such a sum.
const mostBoards = 9
