package grammar_test

import (
	"flag"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"strapline/calc/length"
	"strapline/grammar/parse"
	"strapline/grammar/rooms"
)

// numbers are what people say and what phones write for it, each with what it is
// worth in 64ths. The table is the test's own: it shares nothing with the reader.
var numbers = []struct {
	said  string
	worth int64
}{
	{"won", 64}, {"one", 64}, {"to", 128}, {"too", 128}, {"two", 128}, {"for", 256}, {"fore", 256}, {"four", 256}, {"sicks", 384}, {"six", 384},
	{"ate", 512}, {"eight", 512}, {"tin", 640}, {"ten", 640}, {"twelve", 768}, {"forty", 2560}, {"ninety", 5760}, {"hundred", 6400},
	{"half", 32}, {"a quarter", 16}, {"five eighths", 40}, {"5/8", 40}, {"½", 32}, {"7", 448}, {"90", 5760}, {"200", 12800},
}

// inSlots holds a line of every kind that takes a length, with {} for it, and a
// length that fits.
var inSlots = []struct{ line, fits string }{
	{"light {} off west 41 off north", "33"},
	{"light f {} off west 41 off north", "33"},
	{"light over sink {} off west 41 off north", "33"},
	{"light d1 {} off west 41 off north", "33"},
	{`light 6" d3 {} off west 41 off north`, "33"},
	{"light 41 off north {} off west", "33"},
	{"light west {} north 41", "33"},
	{"sink light {} off west 41 off north", "33"},
	{"light kitchen {} off west 41 off north", "33"},
	{"kitchen: light at {} off west 41 off north", "33"},
	{"light 26 off west and {} off north", "33"},
	{"box fan on north wall {} off west 16 up", "33"},
	{"duct {} south of strap 3, 26 off west", "33"},
	{"duct 7 south of strap 3, {} along strap 3 from east", "33"},
	{"box on north wall {} up 52 off west", "33"},
	{"vent {} x 10 18 south of mark a", "4"},
	{"vent 4 x {} 18 south of mark a", "10"},
	{"3 more lights {} apart east of l1", "33"},
	{"another light {} east of l1", "33"},
	{"square north 160 south 161 east {} west 140 diag nw-se 213", "141"},
	{"square north 160 south 161 east 141 west 140 diag nw-se {}", "213"},
	{"missed d1 at {} off west 41 off north", "33"},
	{"set margin {}", "3"},
	{"set stagger {}", "24"},
	{"reach {}", "2"},
	{"fix d1 {} south of strap 3", "33"},
	{"mark a on strap 4 {} off east", "33"},
	{"mark b {} off east 30 off north", "33"},
	{"pipe p1 {} off west from strap 2 to strap 7", "33"},
	{"pipe p1 40 off west from strap 2 to strap 7 depth {}", "5"},
	{"pipe p1 40 off west from strap 2 to strap 7, {} deep", "5"},
	{"wire w1 from {} off west 34 off north to 100 off west 34 off north", "33"},
	{"wire w1 34 off north from 3 to {} off west", "33"},
	{"room pantry {} x 700", "600"},
	{"room pantry 700 x {}", "800"},
	{"room pantry 700 x 700 high {}", "90"},
	{"room pantry 700 x 700 less {} x 300 ne", "330"},
	{"straps ew {} oc first 14 off north", "16"},
	{"straps ew 16 oc first {} off north", "33"},
	{"straps ns at 3, {} off west", "33"},
	{"straps {} thick", "1"},
	{"strap 4 at {}", "33"},
	{"strap 4 at {} off west", "33"},
	{"strap 4 from 3 to {} off west", "33"},
	{"strap 4 stops {} off east", "33"},
	{"gap {}", "33"},
	{"gap 118, {}", "33"},
	{"hung {} row 2", "33"},
	{"hung 144 + {} row 2", "33"},
	{"board {} x 48", "1/2"},
	{"board 1/2 x {}", "48"},
	{"board lengths {}", "100"},
	{"clearance {}", "1"},
	{"screw {}", "2"},
	{"stock 9 x {}", "100"},
	{"longest in {}", "100"},
	{"north wall boarded {}", "1/2"},
	{"{} not 48", "33"},
	{"*{}", "33"},
}

// inInches gives the line's own lengths their unit.
func inInches(line string) string {
	said := strings.Fields(line)
	for i, w := range said {
		if strings.Trim(w, "0123456789") == "" && i > 0 && said[i-1] != "strap" && said[i-1] != "row" && said[i-1] != "stock" {
			said[i] += `"`
		}
	}
	return strings.Join(said, " ")
}

// kept is every length and count of an entry.
func kept(v reflect.Value) (all []int64) {
	switch {
	case v.Type() == reflect.TypeFor[length.Length]():
		all = append(all, v.Int())
	case v.Type() == reflect.TypeFor[rooms.Room](): // "room bed 2 160 x 141": its number is in its name
		for w := range strings.FieldsSeq(v.FieldByName("Name").String()) {
			if n, err := strconv.Atoi(w); err == nil {
				all = append(all, int64(n)*int64(length.Inch))
			}
		}
		for i := range v.NumField() {
			all = append(all, kept(v.Field(i))...)
		}
	case v.Kind() == reflect.Int:
		all = append(all, v.Int()*int64(length.Inch))
	case v.Kind() == reflect.Interface || v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			return kept(v.Elem())
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			all = append(all, kept(v.Field(i))...)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			all = append(all, kept(v.Index(i))...)
		}
	}
	return slices.DeleteFunc(all, func(n int64) bool { return n == 0 })
}

// units are what a number without one may be in.
var units = []int64{int64(length.Inch), int64(length.Foot), int64(length.Millimetre), int64(length.Metre)}

// take takes a number in any unit from what was kept.
func take(rest []int64, worth int64) ([]int64, bool) {
	for _, u := range units {
		if i := slices.Index(rest, worth*u/64); worth*u%64 == 0 && i >= 0 {
			return slices.Delete(slices.Clone(rest), i, i+1), true
		}
	}
	return rest, false
}

// together are the numbers that two make that are said one behind the other.
func together(a, b int64) (all []int64) {
	const one = 64
	whole := a%one == 0 && b%one == 0
	switch {
	case whole && b < 10*one && a >= 20*one && a/one%10 == 0: // forty six, a hundred four
		all = append(all, a+b)
	case whole && b == 100*one: // twelve hundred
		all = append(all, a*100)
	case a == one && b < one: // one half
		all = append(all, a+b, b)
	case a%one == 0 && b < one: // six and a half
		all = append(all, a+b)
	}
	if whole {
		for ten := int64(10); ten <= 1000; ten *= 10 { // one sixteen, 1 200
			if b < ten*one && b >= ten*one/10 {
				all = append(all, a*ten+b)
			}
		}
	}
	if a%one == 0 && b < 12*one { // six foot four
		all = append(all, a*12+b)
	}
	return all
}

var long = flag.Bool("long", false, "put all numbers into all slots, not each eighth")

// TestNothingIsSwallowed puts each two numbers into each slot. A line is read with
// both in it or not at all.
func TestNothingIsSwallowed(t *testing.T) {
	read, bad := 0, 0
	for _, u := range []length.Units{length.Imperial, length.Metric} {
		c := onSite(u)
		for at, slot := range inSlots {
			if u == length.Metric {
				slot.line = inInches(slot.line)
			}
			control, err := parse.Line(strings.ReplaceAll(slot.line, "{}", slot.fits+`"`), c)
			if err != nil {
				t.Fatalf("%s: %v", slot.line, err)
			}
			fits := int64(32)
			if n, err := strconv.Atoi(slot.fits); err == nil {
				fits = int64(n) * 64
			}
			own, ok := take(kept(reflect.ValueOf(control.Entry)), fits)
			if !ok {
				t.Fatalf("%s: its own length is not in %v", slot.line, control)
			}
			for i, a := range numbers {
				for k, b := range numbers {
					for j, join := range []string{" ", " and "} {
						if !*long && (i+k+j+at)%8 != 0 {
							continue
						}
						in := strings.ReplaceAll(slot.line, "{}", a.said+join+b.said)
						line, err := parse.Line(in, c)
						if err != nil || a.said == "to" && (strings.HasPrefix(slot.line, "fix") || strings.HasPrefix(slot.line, "set")) { // "set margin to 7"
							continue
						}
						if line.Entry.Kind() == "note" { // kept in its own words
							continue
						}
						read++
						if !holds(kept(reflect.ValueOf(line.Entry)), own, a.worth, b.worth) {
							if bad++; bad < 200 {
								t.Errorf("%s: %q was read as %q", u, in, line)
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d lines read", read)
	if read < 1000 {
		t.Errorf("%d lines were read: the test tests nothing", read)
	}
}

// holds reports whether what was kept is the line's own numbers and both of those
// said, apart or together.
func holds(all, own []int64, a, b int64) bool {
	for _, n := range own {
		i := slices.Index(all, n)
		if i < 0 {
			return false
		}
		all = slices.Delete(slices.Clone(all), i, i+1)
	}
	if rest, ok := take(all, a); ok {
		if rest, ok = take(rest, b); ok && len(rest) == 0 {
			return true
		}
	}
	for _, one := range together(a, b) {
		if rest, ok := take(all, one); ok && len(rest) == 0 {
			return true
		}
	}
	return false
}
