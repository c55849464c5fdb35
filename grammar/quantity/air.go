package quantity

import (
	"regexp"
	"strings"
)

// Air is what a text in lower case tells of the air that a coat dries in, as `coat` has it: "62f 70% damp"; rest are
// its other words. Without a scale up to 39 is Celsius, since nobody coats in that of Fahrenheit.
func Air(text string, metric bool) (air, rest string) {
	var all []string
	for i, r := range airs {
		m := r.FindStringSubmatch(text)
		if m == nil || i == 1 && all != nil {
			continue
		}
		text = strings.Replace(text, m[0], " ", 1)
		said := strings.Join(m[1:], "")
		switch {
		case i == 0:
			said = m[1] + m[2][:1]
		case i == 1 && (metric || len(said) == 1 || said < "40"):
			said += "c"
		case i == 1:
			said += "f"
		case i == 2:
			said += "%"
		default:
			said = "damp"
		}
		all = append(all, said)
	}
	return strings.Join(all, " "), text
}

// airs are a temperature with its scale and without, a humidity in percent, and damp.
var airs = []*regexp.Regexp{
	regexp.MustCompile(`(-?\b\d{1,3}(?:\.\d{1,2})?)\s*(?:°|º|deg(?:rees)?)?\s*(f|c|fahrenheit|celsius)\b`),
	regexp.MustCompile(`\b(?:its|it's|it is|still|reads)(?: only| about| like| around)? (\d\d)\b(?:$| ?(?:,|°|º|deg(?:rees)?\b|in|here|and|inside|now))|\b(\d{1,2}) ?(?:°|º|deg(?:rees)?\b)|\bat ([3-9]\d)\b`),
	regexp.MustCompile(`(\d{1,3}(?:\.\d{1,2})?)\s*(?:(?:%|percent|per cent|pct)\s*(?:rh|humidity)?|rh\b|humidity\b)|\b(?:rh|humidity)\s*(?:(?:is|of|at|in|there|here|like|about|around|reads)\s*)*(\d{1,3}(?:\.\d{1,2})?)\s*(?:%|percent|pct)?`),
	regexp.MustCompile(`\b(?:damp|humid|muggy|wet|rain(?:y|ing))\b`),
}
