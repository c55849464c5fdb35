package measure_test

import (
	"strings"
	"testing"

	. "strapline/calc/length"
	. "strapline/grammar/measure"

	"github.com/google/go-cmp/cmp"
)

// sixteenths is a length of so many sixteenths of an inch.
func sixteenths(n int) Length { return Length(n) * Sixteenth }

func in(whole, num, den int) Length {
	return Length(whole)*Inch + Length(num)*Inch/Length(den)
}

func mm(tenths int) Length { return Length(tenths) * Millimetre / 10 }

var systems = []Units{Imperial, Metric}
var slots = []Slot{One, List}

// Lengths that mean one thing: 116-5/8 in = 116 x 16 + 10 = 1866 sixteenths.
func TestNotations(t *testing.T) {
	const both, imperial, metric = "im", "i", "m"
	const any, one = "ol", "o"
	for _, c := range []struct {
		text     string
		in, slot string
		want     Length
	}{
		{`116 5/8`, both, any, sixteenths(1866)},
		{`600 in`, metric, any, in(600, 0, 1)},
		{`116-5/8"`, both, any, sixteenths(1866)},
		{`116⅝`, both, any, sixteenths(1866)},
		{`116 ⅝"`, both, any, sixteenths(1866)},
		{`116.625`, imperial, any, sixteenths(1866)},
		{`116.625"`, both, any, sixteenths(1866)},
		{`116.625in`, both, any, sixteenths(1866)},
		{`116 and five eighths`, both, any, sixteenths(1866)},
		{`116 and 5/8`, both, any, sixteenths(1866)},
		{`116 & 5/8`, both, any, sixteenths(1866)},
		{`116 5 eighths`, both, any, sixteenths(1866)},
		{`116 10 16ths`, both, any, sixteenths(1866)},
		{`116 5/8ths`, both, any, sixteenths(1866)},
		{`116–5/8`, both, any, sixteenths(1866)},
		{`116 5⁄8”`, both, any, sixteenths(1866)},
		{`116 10/16`, both, any, sixteenths(1866)},
		{`116 5 / 8`, both, any, sixteenths(1866)},
		{`116 5/ 8"`, both, any, sixteenths(1866)},
		{`116 10 /16`, both, any, sixteenths(1866)},
		{`9‵ 8 5/8‶`, both, any, sixteenths(1866)},
		{`9❛ 8 5/8❞`, both, any, sixteenths(1866)},
		{`9' 8 5/8"`, both, any, sixteenths(1866)},
		{`9'8 5/8"`, both, any, sixteenths(1866)},
		{`9’ 8 5/8”`, both, any, sixteenths(1866)},
		{`9′ 8⅝″`, both, any, sixteenths(1866)},
		{`9' 8 5/8''`, both, any, sixteenths(1866)},
		{`9'-8 5/8`, both, any, sixteenths(1866)},
		{`9' - 8-5/8"`, both, any, sixteenths(1866)},
		{`9'-8-5/8"`, both, any, sixteenths(1866)},
		{`9' 8.625`, both, any, sixteenths(1866)},
		{`9'8.625"`, both, any, sixteenths(1866)},
		{`9ft 8.625in`, both, any, sixteenths(1866)},
		{`9ft8.625`, both, any, sixteenths(1866)},
		{`9 FT. 8 5/8 IN. off`, both, any, sixteenths(1866)},
		{`9 feet 8 5/8 inches`, both, any, sixteenths(1866)},
		{`9ft 8 and five eighths`, both, any, sixteenths(1866)},
		{`Nine Foot Eight and Five Eighths`, both, any, sixteenths(1866)},
		{`nine foot eight five eighths`, both, any, sixteenths(1866)},
		{`9-8-5/8`, both, any, sixteenths(1866)},
		{`9-8 5/8`, both, any, sixteenths(1866)},
		{`9 8 10/16`, both, one, sixteenths(1866)},
		{`9 8-5/8`, both, one, sixteenths(1866)},
		{`9 8.625`, both, one, sixteenths(1866)},
		{`9-8-10`, imperial, one, sixteenths(1866)}, // feet-inches-sixteenths, as truss drawings write it
		{`9'-8-10`, both, any, sixteenths(1866)},
		{`one sixteen and five eighths`, both, any, sixteenths(1866)},
		{`one hundred sixteen and five eighths`, both, any, sixteenths(1866)},
		{`a hundred and sixteen and five eighths`, both, any, sixteenths(1866)},
		{`three quarters`, both, any, in(0, 3, 4)},
		{`three quarters of an inch`, both, any, in(0, 3, 4)},
		{`3/4`, both, any, in(0, 3, 4)},
		{`¾`, both, any, in(0, 3, 4)},
		{`a half`, both, any, in(0, 1, 2)},
		{`half an inch`, both, any, in(0, 1, 2)},
		{`half inch`, both, any, in(0, 1, 2)},
		{`an inch and a half`, both, any, in(1, 1, 2)},
		{`a foot`, both, any, in(12, 0, 1)},
		{`a quarter`, both, any, in(0, 1, 4)},
		{`an eighth`, both, any, in(0, 1, 8)},
		{`an inch and a quarter`, both, any, in(1, 1, 4)},
		{`a hundred and four`, imperial, any, in(104, 0, 1)},
		{`one hundred four and a half`, both, any, in(104, 1, 2)},
		{`two hundred oh four`, imperial, any, in(204, 0, 1)},
		{`one sixteen and a quarter`, both, any, in(116, 1, 4)}, // never 1 ft 16, for a foot has 12 inches
		{`twelve hundred`, metric, any, mm(12000)},
		// A decimal is a 64th only where its divisor is a power of two: 0.015625 = 1/64.
		{`96.0625`, imperial, any, in(96, 1, 16)},
		{`.375`, imperial, any, in(0, 3, 8)},
		{`41.28125`, imperial, any, in(41, 9, 32)},
		{`41.015625`, imperial, any, in(41, 1, 64)},
		{`9' 8.03125`, both, any, in(116, 1, 32)},
		{`eleven sixteenths`, both, any, in(0, 11, 16)},
		{`seven thirty-seconds`, both, any, in(0, 7, 32)},
		{`1/32`, both, any, in(0, 1, 32)},
		{`5/64"`, both, any, in(0, 5, 64)},
		{`forty eight and a half`, both, any, in(48, 1, 2)},
		{`48 and half`, both, any, in(48, 1, 2)},
		{`fifty-three and three eighths`, both, any, in(53, 3, 8)},
		{`twenty five eighths`, both, any, in(20, 5, 8)},
		{`one twenty five eighths`, both, any, in(120, 5, 8)},
		{`forty eight`, imperial, any, in(48, 0, 1)},
		{`48`, imperial, any, in(48, 0, 1)},
		{`10.5`, imperial, any, in(10, 1, 2)},
		{`.75`, imperial, any, in(0, 3, 4)},
		{`6-inch`, both, any, in(6, 0, 1)},
		{`8-foot`, both, any, in(96, 0, 1)},
		{`8'`, both, any, in(96, 0, 1)},
		{`9.5 ft`, both, any, in(114, 0, 1)},
		{`nine and a half foot`, both, any, in(114, 0, 1)},
		{`8 1/2'`, both, any, in(102, 0, 1)},
		{`9' 1/2"`, both, any, in(108, 1, 2)},
		{`9' 0-1/2"`, both, any, in(108, 1, 2)},
		{`nine foot oh eight and five eighths`, both, any, sixteenths(1866)},
		{`9' and a half inch`, both, any, in(108, 1, 2)},
		{`9 foot and five eighths`, both, any, in(108, 5, 8)},
		{`12.6"`, both, any, in(12, 6, 10)},
		{`0`, both, any, 0},
		{`2962`, metric, any, mm(29620)},
		{`2962mm`, both, any, mm(29620)},
		{`2962 millimetres`, both, any, mm(29620)},
		{`5/8 in kitchen`, metric, any, in(0, 5, 8)},
		{`2,962 mm`, both, any, mm(29620)},
		{`2,962`, metric, any, mm(29620)},
		{`12,192mm`, both, any, mm(121920)},
		{`2 962`, metric, one, mm(29620)},
		{`2 962 mm`, both, one, mm(29620)},
		{`296.2 cm`, both, any, mm(29620)},
		{`2.962 m`, both, any, mm(29620)},
		{`2.962m`, both, any, mm(29620)},
		{`2.962`, metric, any, mm(29620)},
		{`2.962 metres`, both, any, mm(29620)},
		{`two point nine six two meters`, both, any, mm(29620)},
		{`twenty-nine sixty-two`, metric, any, mm(29620)},
		{`twenty nine sixty two mm`, both, any, mm(29620)},
		{`two thousand nine hundred and sixty two`, metric, any, mm(29620)},
		{`thirty-six hundred`, metric, any, mm(36000)},
		{`twelve twenty mm`, both, any, mm(12200)},
		{`twenty-nine oh five`, metric, any, mm(29050)},
		{`eight five seventy-three`, metric, any, mm(85730)},
		{`12.7mm`, both, any, in(0, 1, 2)},
		{`0.1 mm`, both, any, mm(1)},
	} {
		for _, u := range systems {
			if !strings.Contains(c.in, string(u[:1])) {
				continue
			}
			for _, slot := range slots {
				if !strings.Contains(c.slot, "ol"[slot:slot+1]) {
					continue
				}
				got, n, why := Scan(c.text, u, slot)
				want, rest := []Reading{{L: c.want}}, strings.TrimPrefix(strings.TrimPrefix(c.text[n:], " off"), " in kitchen")
				if diff := cmp.Diff(want, got); diff != "" || rest != "" || why != "" {
					t.Errorf("Scan(%q, %s, %d): left %q, why %q, readings (-want +got):\n%s", c.text, u, slot, rest, why, diff)
				}
			}
		}
	}
}

// Texts with more than one meaning, likelier first; none: asked without a
// choice to offer. What a crew may mean by them is common practice, no source.
func TestAmbiguous(t *testing.T) {
	for _, c := range []struct {
		text  string
		u     Units
		slots []Slot
		want  []Length
		why   string
	}{
		{`84 & 2`, Imperial, slots, []Length{in(84, 1, 2), in(84, 1, 4), in(84, 1, 8)}, "2 what?"},
		{`84 2`, Imperial, slots[:1], []Length{in(84, 1, 2), in(84, 1, 4), in(84, 1, 8)}, "2 what?"},
		{`84 and 2`, Imperial, slots[:1], []Length{in(84, 1, 2), in(84, 1, 4), in(84, 1, 8)}, "2 what?"},
		{`4 and 3`, Imperial, slots[:1], []Length{in(51, 0, 1), in(4, 3, 4), in(4, 3, 8), in(4, 3, 16)}, "3 what?"},
		{`10 6`, Imperial, slots[:1], []Length{in(126, 0, 1), in(10, 6, 8), in(10, 6, 16)}, "6 what?"},
		{`10-6`, Imperial, slots, []Length{in(126, 0, 1), in(10, 6, 8), in(10, 6, 16)}, "6 what?"},
		{`36-12`, Imperial, slots, []Length{in(444, 0, 1), in(36, 3, 4)}, "12 what?"},
		{`thirty-six twelve`, Imperial, slots, []Length{in(444, 0, 1), in(36, 3, 4)}, "12 what?"},
		{`9-0`, Imperial, slots, []Length{in(108, 0, 1), in(9, 0, 1)}, "0 what?"},
		{`9' 8 5`, Imperial, slots[:1], []Length{in(116, 5, 8), in(116, 5, 16)}, "what of an inch?"},
		{`5-8`, Imperial, slots, []Length{in(68, 0, 1), in(5, 1, 2), in(0, 5, 8)}, "8 what?"},
		{`96 5-8`, Imperial, slots, []Length{in(96, 5, 8)}, "a fraction, 5/8?"},
		{`96-5-8`, Imperial, slots, []Length{in(96, 5, 8)}, "a fraction, 5/8?"},
		{`167 5 8`, Imperial, slots, []Length{in(167, 5, 8)}, "a fraction, 5/8?"},
		{`one six seven five eighths`, Imperial, slots, []Length{in(167, 5, 8)}, "one number, digit by digit?"},
		{`one oh four and a half`, Imperial, slots, []Length{in(16, 1, 2), in(104, 1, 2)}, "feet and inches, or one number?"},
		{`26- 5/8`, Imperial, slots, []Length{in(26, 5, 8), in(25, 3, 8)}, "is that the length?"},
		{`96 - 1/8`, Imperial, slots, []Length{in(96, 1, 8), in(95, 7, 8)}, "is that the length?"},
		{`96 1/2 - 1/8`, Imperial, slots, []Length{in(96, 3, 8)}, "is that the length?"},
		{`96 less an eighth`, Imperial, slots, []Length{in(95, 7, 8)}, "is that the length?"},
		{`96 plus 1/8"`, Imperial, slots, []Length{in(96, 1, 8)}, "is that the length?"},
		{`96" + 1/8`, Metric, slots, []Length{in(96, 1, 8)}, "is that the length?"},
		{`1/4 less 1/2`, Imperial, slots, nil, "less than nothing"},
		{`84 9`, Imperial, slots[:1], nil, "one length or two? two take a comma between"},
		{`84 2 1/2`, Imperial, slots[:1], nil, "feet and inches, or two lengths? write the marks"},
		{`9 8 10`, Imperial, slots[:1], nil, "one length or three? several take a comma between"},
		{`8-10-12`, Imperial, slots[1:], nil, "one length or three? several take a comma between"},
		{`16-24`, Imperial, slots, nil, "one length or two? two take a comma between"},
		{`400-600`, Metric, slots, nil, "one length or two? two take a comma between"},
		{`10 6`, Metric, slots[:1], nil, "one length or two? two take a comma between"},
		{`8' 10 12`, Imperial, slots[1:], nil, "one length or two? two take a comma between"},
		{`8'-10'`, Imperial, slots, nil, "one length or two? two take a comma between"},
		{`8'-26`, Imperial, slots, nil, "twelve inches or more: write the feet with them"},
		{`4.3`, Imperial, slots, []Length{in(4, 3, 10), in(4, 3, 8), in(51, 0, 1)}, "inches, or what of an inch?"},
		{`4 point 3`, Imperial, slots, []Length{in(4, 3, 10), in(4, 3, 8), in(51, 0, 1)}, "inches, or what of an inch?"},
		{`four point three`, Imperial, slots, []Length{in(4, 3, 10), in(4, 3, 8), in(51, 0, 1)}, "inches, or what of an inch?"},
		{`4 point 5`, Imperial, slots, []Length{in(4, 5, 10), in(4, 5, 8), in(53, 0, 1)}, "inches, or what of an inch?"},
		{`12.6`, Imperial, slots, []Length{in(12, 6, 10), in(12, 6, 8), in(150, 0, 1)}, "inches, or what of an inch?"},
		{`9.719`, Imperial, slots, []Length{in(9, 719, 1000), in(116, 628, 1000)}, "inches, or what of an inch?"}, // a survey tape's tenths
		{`98.37`, Imperial, slots, nil, `no mark on a tape: 98-3/8" is the nearest`},
		{`9' 8.6`, Imperial, slots, []Length{in(116, 6, 10), in(116, 6, 8)}, "inches, or what of an inch?"},
		{`12.7`, Metric, slots, []Length{mm(127000), mm(127), mm(1270)}, "mm, cm or m?"},
		{`296.2`, Metric, slots, []Length{mm(2962000), mm(2962), mm(29620)}, "mm, cm or m?"},
		{`3,2`, Metric, slots, nil, "a decimal takes a point, two numbers a space after the comma"},
		{`3,25 m`, Metric, slots, nil, "a decimal takes a point, two numbers a space after the comma"},
		{`48,60`, Imperial, slots[:1], nil, "a decimal takes a point, two numbers a space after the comma"},
		{`96,112`, Imperial, slots, nil, "one number or two? two take a space after the comma"},
		{`400,800,1200`, Metric, slots, nil, "two numbers take a space after the comma"},
		{`2,962 1/2`, Metric, slots, nil, "a comma and a fraction"},
		{`400 800`, Metric, slots[:1], nil, "one number or two?"},
		{`9:08 1/2`, Imperial, slots, []Length{in(116, 1, 2), in(98, 1, 2)}, "a clock time, or a length?"},
		{`12:11`, Imperial, slots, []Length{in(155, 0, 1), in(1211, 0, 1)}, "a clock time, or a length?"},
		{`9:58`, Imperial, slots, nil, "a clock time, not a length"},
		{`six four`, Imperial, slots, []Length{in(76, 0, 1), in(64, 0, 1)}, "feet and inches, or one number?"},
		{`six four`, Metric, slots, []Length{in(76, 0, 1), mm(640)}, "feet and inches, or one number?"},
		{`one ten`, Imperial, slots, []Length{in(22, 0, 1), in(110, 0, 1)}, "feet and inches, or one number?"},
		{`nine eight and five eighths`, Imperial, slots, []Length{in(116, 5, 8), in(98, 5, 8)}, "feet and inches, or one number?"},
		{`twelve four`, Imperial, slots, []Length{in(148, 0, 1), in(12, 1, 2), in(12, 1, 4)}, "4 what?"},
		{`fifteen sixteen`, Imperial, slots, nil, "one length or two? write it in figures"},
		{`forty 8`, Imperial, slots, nil, "one length or two? write it in figures"},
		{`one 26 off west`, Metric, slots[:1], nil, "one length or two? write it in figures"},
		{`9 eight`, Imperial, slots[:1], nil, "one length or two? write it in figures"},
		{`one sixteen to and a half`, Imperial, slots, nil, `is "to" a number? write it in figures`},
		{`forty eight sixty`, Imperial, slots, nil, "one length or two? write it in figures"},
		{`forty eight sixty inches`, Metric, slots, nil, "one length or two? write it in figures"},
		{`eight ten twelve`, Imperial, slots, nil, "one length or two? write it in figures"},
		{`three twenty metres`, Metric, slots, nil, "one number or two? write it in figures"},
		{`9-8/3`, Imperial, slots, nil, "no such mark on a tape: halves to 64ths are"},
		{`9-14 1/2`, Imperial, slots, nil, "feet and inches, or two lengths? write the marks"},
		{`9-8 2/3`, Imperial, slots, nil, "no such mark on a tape: halves to 64ths are"},
		{`9 8.6`, Imperial, slots[:1], nil, "no mark on a tape: write sixteenths"},
		{`9' 8 12`, Imperial, slots[:1], nil, "one length or two? two take a comma between"},
		{`9' 8 9 off`, Imperial, slots[1:], nil, "one length or two? two take a comma between"},
		{`9' 5/3`, Imperial, slots, nil, "no such mark on a tape: halves to 64ths are"},
		{`9' 5/4`, Imperial, slots, nil, "a fraction of one or more: write the whole number before it"},
		{`9-99999999999 1/2`, Imperial, slots, nil, "longer than 1,000 m"},
		{`4 point 3 inches`, Imperial, slots, []Length{in(4, 3, 10), in(4, 3, 8), in(51, 0, 1)}, "inches, or what of an inch?"},
		{`9' 8.63`, Imperial, slots, nil, "no mark on a tape: write sixteenths"},
		{`nine foot eight two`, Imperial, slots, nil, "too many numbers in a row: write it in figures"},
		{`nine two eight four`, Imperial, slots, nil, "too many numbers in a row: write it in figures"},
		{`nine foot and two thirds`, Imperial, slots, nil, "no such mark on a tape: halves to 64ths are"},
		{`six four and two thirds`, Imperial, slots, nil, "no such mark on a tape: halves to 64ths are"},
		{`a foot and a half`, Imperial, slots, []Length{in(18, 0, 1), in(12, 1, 2)}, "of a foot, or of an inch?"},
		{`8:06"`, Imperial, slots, []Length{in(102, 0, 1), in(86, 0, 1)}, "a clock time, or a length?"},
		{`1.23456`, Metric, slots, nil, "finer than a tenth of a millimetre"},
		{`9ft.8in`, Imperial, slots, nil, "a decimal point, or the end of a word?"},
		{`nine foot and a half`, Imperial, slots, []Length{in(114, 0, 1), in(108, 1, 2)}, "of a foot, or of an inch?"},
		{`9' and 1/4`, Imperial, slots, []Length{in(111, 0, 1), in(108, 1, 4)}, "of a foot, or of an inch?"},
		{`nine foot a half`, Imperial, slots, []Length{in(114, 0, 1), in(108, 1, 2)}, "of a foot, or of an inch?"},
		{`8 foot to`, Imperial, slots, []Length{in(98, 0, 1), in(96, 0, 1)}, `is "to" a number? write it in figures`},
		{`8' too off west`, Imperial, slots, []Length{in(98, 0, 1), in(96, 0, 1)}, `is "too" a number? write it in figures`},
		{`forty for and a half`, Imperial, slots, []Length{in(44, 1, 2), in(40, 1, 2)}, `is "for" a number? write it in figures`},
		{`forty for and a half`, Metric, slots, []Length{in(44, 1, 2), in(40, 1, 2)}, `is "for" a number? write it in figures`},
		{`40 ate`, Metric, slots, []Length{mm(480), mm(400)}, `is "ate" a number? write it in figures`},
		{`forty ate and five ates`, Imperial, slots, nil, "misheard? if that is 5/8, write it so"},
		{`forty eight and five eights`, Imperial, slots, nil, "misheard? if that is 5/8, write it so"},
		{`16 to`, Imperial, slots, nil, `is "to" a number? write it in figures`},
		{`9' 8 to`, Imperial, slots, nil, `is "to" a number? write it in figures`},
		{`for and a half`, Imperial, slots, nil, `is "for" a number? write it in figures`},
		{`twenty one thirty-seconds`, Imperial, slots, nil, "one fraction, or a number and a fraction? write it in figures"},
		{`26 in kitchen`, Metric, slots, nil, `"in": inches, or in a room? write 26" or 26 mm`},
	} {
		for _, slot := range c.slots {
			readings, n, why := Scan(c.text, c.u, slot)
			var got []Length
			for _, r := range readings {
				got = append(got, r.L)
			}
			if diff := cmp.Diff(c.want, got); diff != "" || n == 0 || why != c.why {
				t.Errorf("Scan(%q, %s, %d): took %q, why %q, readings (-want +got):\n%s", c.text, c.u, slot, c.text[:n], why, diff)
			}
		}
	}
}

// Numbers that no length can be made of.
func TestRefused(t *testing.T) {
	for _, c := range []struct{ text, why string }{
		{`1/3`, "no such mark on a tape: halves to 64ths are"},
		{`26 2/3`, "no such mark on a tape: halves to 64ths are"},
		{`26⅓`, "no such mark on a tape: halves to 64ths are"},
		{`5/0`, "no such mark on a tape: halves to 64ths are"},
		{`5/128`, "no such mark on a tape: halves to 64ths are"},
		{`26 5/10`, "no such mark on a tape: halves to 64ths are"},
		{`two thirds`, "no such mark on a tape: halves to 64ths are"},
		{`1/99999999999999999999`, "no such mark on a tape: halves to 64ths are"},
		{`0/8`, "a fraction of nothing"},
		{`26 7/4`, "a fraction of one or more: write the whole number before it"},
		{`5/4`, "a fraction of one or more: write the whole number before it"},
		{`ten eighths`, "a fraction of one or more: write the whole number before it"},
		{`forty eight quarters`, "a fraction of one or more: write the whole number before it"},
		{`5/8/26`, "a date, or two fractions?"},
		{`1.2.3`, "two points in one number"},
		{`9.8-5/8`, "a decimal and a fraction"},
		{`9'14"`, "twelve inches or more: write the feet with them"},
		{`1001 m`, "longer than 1,000 m"},
		{`3281 ft`, "longer than 1,000 m"},
		{`39371"`, "longer than 1,000 m"},
		{`3280' 11"`, "longer than 1,000 m"},
		{`999999999999-0`, "longer than 1,000 m"},
		{`18446744073709551617mm`, "longer than 1,000 m"},
		{`9223372036854775808`, "longer than 1,000 m"},
		{`0.0000001 m`, "finer than can be measured"},
		{`0.0000001"`, "finer than can be measured"},
		{`1000 1/2 m`, "longer than 1,000 m"},
		{`99999999999999.5`, "longer than 1,000 m"},
		{`0.000001"`, "finer than can be measured"},
		{`0.0000011 mm`, "finer than can be measured"},
		{`1.23456 m1`, ""},
	} {
		readings, n, why := Scan(c.text, Imperial, One)
		if len(readings) > 0 || why != c.why || (n == 0) != (c.why == "") {
			t.Errorf("Scan(%q): %v, took %q, why %q, want %q", c.text, readings, c.text[:n], why, c.why)
		}
	}
	for _, text := range []string{`1000 m`, `3280' 10 1/16"`, `0.000001 mm`} {
		if readings, n, why := Scan(text, Imperial, One); len(readings) != 1 || n != len(text) {
			t.Errorf("Scan(%q): %v, took %q, why %q", text, readings, text[:n], why)
		}
	}
}

// What stands behind a length stays there.
func TestLeaves(t *testing.T) {
	for _, c := range []struct{ text, rest string }{
		{`26 off west 41 off north`, ` off west 41 off north`},
		{`26off west`, `off west`},
		{`26 in off west`, ` off west`},
		{`26 in kitchen`, ` in kitchen`},
		{`26 in north bedroom`, ` in north bedroom`},
		{`26 in north of strap 3`, ` north of strap 3`},
		{`26 in. off west`, ` off west`},
		{`26 in.`, ``},
		{`12' 6 x 14`, ` x 14`},
		{`12' 6x14`, `x14`},
		{`12' 6 by 14`, ` by 14`},
		{`12' 6×14`, `×14`},
		{`2x4`, `x4`},
		{`1/2 x 48`, ` x 48`},
		{`48, 60`, `, 60`},
		{`48,60`, `,60`},
		{`9 1/2 25 1/4`, ` 25 1/4`},
		{`9 8 5/8`, ` 8 5/8`},
		{`8 10 16`, ` 10 16`},
		{`26 about 41`, ` about 41`},
		{`26 a bit of`, ` a bit of`},
		{`84 2`, ` 2`},
		{`84 and 2`, ` and 2`},
		{`26 and 41 off north`, ` and 41 off north`},
		{`144 + 16 3/4`, ` + 16 3/4`},
		{`144+16`, `+16`},
		{`144 plus 16`, ` plus 16`},
		{`26 light`, ` light`},
		{`26 full height`, ` full height`},
		{`4 short of west`, ` short of west`},
		{`8 foot to edge`, ` to edge`},
		{`20 to 96 off west`, ` to 96 off west`},
		{`48 for duct`, ` for duct`},
		{`8' 26 off west`, ` 26 off west`},
		{`8' 10' 12'`, ` 10' 12'`},
		{`8' 2962mm`, ` 2962mm`},
		{`16s`, `s`},
		{`16oc`, `oc`},
		{`16 oc`, ` oc`},
		{`6"over sink`, `over sink`},
		{`6" d1`, ` d1`},
		{`eight foot ceiling`, ` ceiling`},
		{`26.`, `.`},
		{`26 1/2.`, `.`},
		{"26\n1/2", "\n1/2"},
		{`26 -`, ` -`},
		{`five eighths drywall`, ` drywall`},
		{`9 1/2' 6`, ` 6`},
		{`9' and cut`, ` and cut`},
		{`8' 10 16" 24"`, ` 16" 24"`},
		{`5/8 in kitchen`, ` in kitchen`},
		{`26 -in`, ` -in`},
		{`26- in`, `- in`},
		{`four 22 off east`, ` 22 off east`},
		{`forty 22 off east`, ` 22 off east`},
	} {
		readings, n, why := Scan(c.text, Imperial, List)
		if len(readings) != 1 || why != "" || c.text[n:] != c.rest {
			t.Errorf("Scan(%q): %v, left %q, want %q, why %q", c.text, readings, c.text[n:], c.rest, why)
		}
	}
}

func TestNoLength(t *testing.T) {
	for _, text := range []string{
		``, ` 26`, `off 26`, `x 26`, `d1`, `2nd`, `3rd row`, `100k`, `26west1`, `45°`, `5%`, `-26`, `+`, `"`, `'9`, `.`, `,5`, `1/2wall`,
		`and a half`, `a light`, `an`, `half wall`, `one's`, `tenon`, `to edge`, `for d1`, `second`, `oh`, `point 3`, "\xff26", `quarter round`, `½5`,
	} {
		for _, u := range systems {
			for _, slot := range slots {
				if readings, n, why := Scan(text, u, slot); len(readings) > 0 || n != 0 || why != "" {
					t.Errorf("Scan(%q, %s, %d): %v, took %q, why %q", text, u, slot, readings, text[:n], why)
				}
			}
		}
	}
}

// A length whose sender was not sure of it is no length before it was asked about.
func TestDoubts(t *testing.T) {
	for _, text := range []string{
		`about 96`, `around 96`, `roughly 96`, `approx 96`, `approx. 96`, `approximately 96`, `maybe 96`, `nearly 96`, `almost 96`, `probably 96`,
		`circa 96`, `~96`, `~ 96`, `96 ish`, `96ish`, `96-ish`, `96" ish`, `96 or so`, `96 more or less`, `96 i think`, `96 I guess`, `96 or thereabouts`, `96 maybe`,
		`96 roughly`, `96 approx`, `96 probably`, `96 give or take`, `96 give or take an eighth`, `96 give or take 1/8"`, `96 +/- 1/8`, `96 +- 1/8`, `96 ± 1/8`,
		`96 +/-`, `96 plus or minus 1/8`, `96 plus or minus an eighth`, `about 96 give or take`, `about 8 foot`, `ninety six ish`, `maybe 8' give or take an inch`,
	} {
		for _, slot := range slots {
			got, n, why := Scan(text, Imperial, slot)
			if len(got) != 1 || got[0].L != in(96, 0, 1) || got[0].Tag != Exact || n != len(text) || why != "is that what the tape says?" {
				t.Errorf("Scan(%q): %v, took %q, why %q", text, got, text[:n], why)
			}
		}
	}
	// Another doubt goes first, and the guess is not lost with it.
	if got, n, why := Scan(`about 84 & 2`, Imperial, One); len(got) != 3 || n != 12 || why != "2 what?" {
		t.Errorf("about 84 & 2: %v, took %d, why %q", got, n, why)
	}
	for _, text := range []string{`about to`, `about for d1`, `maybe later`, `around the corner`, `probably off`, `~`} {
		if got, n, why := Scan(text, Imperial, One); n != 0 || got != nil || why != "" {
			t.Errorf("Scan(%q): %v, took %q, why %q", text, got, text[:n], why)
		}
	}
	// The doubt is said of the length behind it.
	if _, n, why := Scan(`26 maybe 41`, Imperial, List); n != 2 || why != "" {
		t.Errorf("26 maybe 41: took %d, why %q", n, why)
	}
}

func TestTags(t *testing.T) {
	half := Reading{L: in(2, 1, 2)}
	for _, c := range []struct {
		text string
		tag  Tag
	}{
		{`2 1/2 strong`, Strong}, {`2 1/2" heavy`, Strong}, {`2.5 fat`, Strong}, {`2-1/2 plus`, Strong}, {`2 1/2 full`, Strong},
		{`2 1/2+`, Strong}, {`2½"+`, Strong}, {`two and a half strong`, Strong},
		{`2 1/2 a hair strong`, Strong}, {`2 1/2 a bit heavy`, Strong}, {`2 1/2" a touch shy`, Shy},
		{`2 1/2 shy`, Shy}, {`2 1/2 Scant`, Shy}, {`2 1/2 weak`, Shy}, {`2 1/2 minus`, Shy},
		{`2 1/2`, Exact},
	} {
		want := []Reading{{L: half.L, Tag: c.tag}}
		got, n, why := Scan(c.text, Imperial, List)
		if diff := cmp.Diff(want, got); diff != "" || n != len(c.text) || why != "" {
			t.Errorf("Scan(%q): took %q, why %q, readings (-want +got):\n%s", c.text, c.text[:n], why, diff)
		}
	}
	want := []Reading{{L: half.L, Tag: Shy}, {L: half.L}}
	got, n, why := Scan(`2 1/2 short`, Imperial, One)
	if diff := cmp.Diff(want, got); diff != "" || n != 11 || why != "a bit under, or cut off by that much?" {
		t.Errorf("short: took %d, why %q, readings (-want +got):\n%s", n, why, diff)
	}
	// A doubt about the number keeps its own question.
	if _, _, why := Scan(`84 & 2 short`, Imperial, One); why != "2 what?" {
		t.Errorf("84 & 2 short: why %q", why)
	}
}
