package said

import (
	"regexp"
	"strconv"
	"strings"
)

// The numbers of boards, in the order they are tried.
var (
	ofWidth     = regexp.MustCompile(`^(?:4|48|1200|1220)['’]? ?(?:x|by) ?(\d{1,4})(?:['’]?s\b|['’]|ft\b| ?mm\b)?`)
	ofWide      = regexp.MustCompile(`^54["”]?s? ?(?:x|by) ?(8|9|10|12|14|16)(?:['’]?s?\b|['’]|ft\b)`)
	ofThick     = regexp.MustCompile(`^\d{1,3} (?:1/2|5/8|3/8)["”]? (?:4 ?x ?\d|(?:8|9|10|12|14|16)(?:['’]|s\b| ?f)|sheets?\b|boards?\b|eights|tens|twelves)`)
	byWidth     = regexp.MustCompile(`^(\d{4}) ?x ?(?:1200|1220)\b(?: ?mm\b)?`)
	byMetre     = regexp.MustCompile(`^([1-6])(?:[.,](\d{1,2}))?(?: ?(?:x|by) ?1[.,]2[02]?\b(?: ?m\b)?| ?(?:m|met(?:er|re)s?)\b)`) // "2.4 x 1.2", "3 metre"
	byKind      = regexp.MustCompile(`^(54|9\.5|12\.5|13|15)['’]?(?:(s)\b|[- ]?(?:inch\b|in\b|["”]|wides?\b)(?: wides?\b)?)`)
	nickname    = regexp.MustCompile(`^(8|9|10|12|14|16)(?:['’]?s\b|[- ]?(?:footers?|foot|ft|feet)\b)`)
	byThickness = regexp.MustCompile(`^(8|9|10|12|14|16) ?x ?(?:1/2|5/8|3/8)\b`) // "8 x 12 x 1/2"
	footmark    = regexp.MustCompile(`^(8|9|10|12|14|16)['’](?:[^\d\s]|\s[^\d]|$|\s\d+ ?[x'’])`)
	thickness   = regexp.MustCompile(`^(1/2|5/8|3/8)(?: ?(?:["”]|''|ths?\b|inch\b|in\b))?`)
	thickMM     = regexp.MustCompile(`^(9\.5|10|12\.5|13|15|16)( ?mm\b)?`)
	nth         = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)\b`)
	measured    = regexp.MustCompile(`^\d+(?:['’](?:-?\d+(?:[ -]\d+/\d+)?["”]?| \d+(?:[ -]\d+/\d+)?["”]| \d+/\d+["”]?)?|[ -]\d+/\d+["”]?|\.\d+ ?(?:mm\b|cm\b|m\b)?|/\d+["”]?| ?(?:["”]|in\b|inch(?:es)?\b|mm\b|cm\b|m\b|ft\b|foot(?:er)?s?\b|feet\b))`)
	rowNumber   = regexp.MustCompile(`^#? ?(\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\b(?:(?: ?(?:,|&|\+)| and|,? and| n)? ?(\d{1,2}|two|three|four|five|six)\b)*`)
	rowPair     = regexp.MustCompile(`^\d{1,2} ?(?:and|n|&|\+) ?\d{1,2}(?: (?:are|r|is|up|on|in|done|hung|both)\b|,|$)`)
	rowRange    = regexp.MustCompile(`^(\d{1,2})(?: ?- ?| to | through | thru )(\d{1,2})\b`)
	rowEach     = regexp.MustCompile(`\d+|[a-z]+`)
)

// number reads the figures at the beginning of s.
func (l *Line) number(s string, at int) (Word, int) {
	if m := ofWide.FindStringSubmatch(s); m != nil && !l.Metric { // "8 54s by 12"
		return Word{Class: Long, Value: m[1] + "'", Wide: "54"}, at + len(m[0])
	}
	if m := ofThick.FindString(s); m != "" { // "6 5/8 4x12" are six boards
		n, _ := strconv.Atoi(figures.FindString(m))
		return Word{Class: Count, Value: strconv.Itoa(n), N: n, Plain: true}, at + len(figures.FindString(m))
	}
	counted := l.At(len(l.Words) - 1).Is(Count)
	if m := ofWidth.FindStringSubmatch(s); m != nil && !(strings.HasPrefix(s, "4 ") && strings.ContainsAny(m[0], "'’")) && (counted || !strings.HasPrefix(s, "4x ")) { // "4 x 8'" is four boards, so is "4x 8ft"
		if v, _ := strconv.Atoi(m[1]); v >= 8 && v <= 16 {
			return Word{Class: Long, Value: m[1] + "'", Wide: "48"}, at + len(m[0])
		} else if v >= 1800 && v <= 6000 {
			return Word{Class: Long, Value: m[1]}, at + len(m[0])
		}
	}
	if m := byWidth.FindStringSubmatch(s); m != nil {
		return Word{Class: Long, Value: m[1]}, at + len(m[0])
	}
	if m := byMetre.FindStringSubmatch(s); m != nil && l.Metric {
		return Word{Class: Long, Value: m[1] + (m[2] + "000")[:3]}, at + len(m[0])
	}
	if m := byThickness.FindStringSubmatch(s); m != nil {
		return Word{Class: Long, Value: m[1] + "'"}, at + len(m[1])
	}
	if m := byKind.FindStringSubmatch(s); m != nil && (m[1] == "54") != l.Metric { // "54s", "how many 15s"
		return map[bool]Word{false: {Class: Kind, Value: "wide", Many: m[2] == "s"}, true: {Class: Thick, Value: m[1] + "mm"}}[l.Metric], at + len(m[0])
	}
	if m := nickname.FindStringSubmatch(s); m != nil {
		return Word{Class: Long, Value: m[1] + "'", Many: strings.HasSuffix(m[0], "s")}, at + len(m[0])
	}
	if m := footmark.FindStringSubmatch(s); m != nil {
		return Word{Class: Long | Size, Value: m[1] + "'"}, at + len(m[1]) + len(s[len(m[1]):]) - len(strings.TrimLeft(s[len(m[1]):], "'’"))
	}
	if m := thickness.FindStringSubmatch(s); m != nil {
		return Word{Class: Thick | Size, Value: m[1]}, at + len(m[0])
	}
	if m := thickMM.FindStringSubmatch(s); m != nil && (m[2] != "" || l.Metric && strings.Contains(m[1], ".")) {
		return Word{Class: Thick, Value: m[1] + "mm"}, at + len(m[0])
	}
	if m := nth.FindStringSubmatch(s); m != nil {
		n, _ := strconv.Atoi(m[1])
		return Word{Class: Row, N: n, Plain: true}, at + len(m[0])
	}
	m := measured.FindString(s)
	if strings.HasPrefix(s[len(m):], " row") { // "pots 1 and 2 in row 1"
		m = strings.TrimSuffix(m, " in")
	}
	if m != "" && m != figures.FindString(s) {
		return Word{Class: Size, Value: footer.ReplaceAllString(strings.TrimSpace(m), "'")}, at + len(m)
	}
	m = figures.FindString(s)
	n, _ := strconv.Atoi(m)
	switch {
	case m == "":
		return Word{}, at + 1
	case l.Metric && n >= 1800 && n <= 6000:
		return Word{Class: Long | Size, Value: m, N: n, Plain: true}, at + len(m)
	}
	return Word{Class: Count | Size, Value: m, N: n, Plain: true}, at + len(m)
}

var footer = regexp.MustCompile(` ?foot(?:er)?s?$`)

var figures = regexp.MustCompile(`^\d{1,5}`)
