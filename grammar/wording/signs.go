package wording

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Tidy drops the words and signs at the ends of a text that say nothing, writes each apostrophe and space as it is read, and capitals
// alone in small letters.
func Tidy(text string) string {
	from, to := topic.Said(text)
	if read.KeepsAll(text[from:to]) {
		return text[from:]
	}
	text = strings.TrimRight(text[from:to], " .!…")
	if text == strings.ToUpper(text) {
		text = strings.ToLower(text)
	}
	if strings.Contains(text, "’") {
		text = apostrophe.ReplaceAllString(text, "$1'$2")
	}
	if strings.ContainsAny(text, "%") || strings.Contains(text, "percent") || strings.Contains(text, "pct") {
		text = perCent.ReplaceAllString(hundred.ReplaceAllString(text, "all $1"), "mostly $1")
	}
	if strings.Contains(text, "'s ") {
		text = hasPlace.ReplaceAllStringFunc(text, func(said string) string {
			if kind, rest, _ := strings.Cut(said, "'s "); lex.ThingOf[lex.Lower(kind)] != "" {
				return kind + " is " + rest
			}
			return said
		})
	}
	if strings.Contains(text, "um ") || strings.Contains(text, "uh ") {
		text = hesitates.ReplaceAllString(text, "$1")
	}
	if strings.Contains(text, " in from ") {
		text = inFrom.ReplaceAllString(text, "$1 off ")
	}
	if strings.HasSuffix(text, " square") {
		text = allSquare.ReplaceAllString(text, "$1")
	}
	if strings.Contains(text, " hi") || strings.Contains(text, " above the floor") {
		text = offFloor.ReplaceAllString(text, "$1 up")
	}
	if strings.Contains(text, "roughed") {
		text = roughedIn.ReplaceAllString(text, " $1")
	}
	text = strings.Replace(text, "rough opening", "opening", 1)
	if strings.Contains(text, "  ") {
		text = strings.Join(strings.Fields(text), " ")
	}
	return text
}

// hundred and perCent match how much of something is done, which is no length: "ceiling 100% up".
var hundred, perCent = regexp.MustCompile(`(?i)\b100 ?(?:%|percent|pct) (up|hung|done|boarded|closed|covered)\b`), regexp.MustCompile(`(?i)\b\d+ ?(?:%|percent|pct) (up|hung|done|boarded|closed|covered)\b`)

// hasPlace matches what is said of a thing: "light's 32 off north".
var hasPlace = regexp.MustCompile(`(?i)\b[a-z]+'s (?:\d|at |on |in |off |up )`)

// inFrom matches what a distance off a wall is called whose unit was said, or that is spelt: `3'4" in from`, "ten in from".
var inFrom = regexp.MustCompile(`(?i)(["”]|\b(?:[a-z]+teen|[a-z]+ty(?:[ -][a-z]+)?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|half|quarters?|eighths?)) in from `)

// allSquare matches what is said of the sides of a room behind them, which changes nothing.
var allSquare = regexp.MustCompile(`(?i)(\b(?:x|by) .*),? (?:all|its|it's|nice and|pretty|looks) (?:all )?square$`)

// offFloor matches how high something is: "3 ft 1 hi", "45 inches above the floor".
var offFloor = regexp.MustCompile(`(?i)(\d["']?|\b(?:[a-z]+teen|[a-z]+ty(?:[ -][a-z]+)?|ten|eleven|twelve|half|quarters?))(?: hi\b|(?: (?:inches|inch|in))? above the floor\b)`)

// roughedIn matches that a thing is there already, before its place.
var roughedIn = regexp.MustCompile(`(?i) (?:(?:is|are|was) )?roughed[ -]in (?:at |is )?(\d|[a-z]+teen\b|[a-z]+ty\b|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve\b)`)

// hesitates matches what is no word, and no part of a name.
var hesitates = regexp.MustCompile(`(?i)(^| )(?:um+|uh+),? `)

var apostrophe = regexp.MustCompile(`(\pL)’(\pL)`)

// slashed is two lengths with a slash between them that is none of a fraction, and the walls they are off, if said.
var slashed = regexp.MustCompile(`(?i)(\d[\d.,'"]*(?: \d+/\d+"?)?) / (\d[\d.,'"]*(?: \d+/\d+"?)?)(?: (?:off|from) (?:the )?(\w+)(?: wall)?,? (?:and|&|/) (?:the )?(\w+)\b)?`)

// slashedOff matches a wall, a slash and the next distance: "60 off west / 30 off north".
var slashedOff = regexp.MustCompile(`(?i)( (?:off|from) (?:the )?\w+(?: wall)?) / (\d)`)

// Signs writes the signs of lengths as the rules read them: a slash between two of them, a comma in metres, and an inch
// that is clipped.
func Signs(text string) string {
	if read.KeepsAll(text) {
		return text
	}
	if inch, slash := strings.Contains(lex.Lower(text), "inch "), strings.Contains(text, " / "); inch || slash {
		text = unslashed(inchAnd.ReplaceAllString(text, "${1}an inch and $2"))
	}
	if commas.MatchString(text) && (strings.Contains(lex.Lower(text), "room") || OpensInMetric(text)) {
		text = tallCommas.ReplaceAllString(commas.ReplaceAllString(text, "${1}.$2 m x ${3}.$4 m$5"), "$1$2.$3 m$4")
	}
	return text
}

// unslashed reads "30 / 44 off west and north", and "2,10 / 1,82" of metres.
func unslashed(text string) string {
	text = slashedOff.ReplaceAllString(text, "$1, $2")
	m := slashed.FindStringSubmatch(text)
	if m == nil || slices.Contains([]string{"2", "4", "8", "16", "32", "64"}, m[2]) {
		return text
	}
	a, b := m[1], m[2]
	if strings.Contains(a, ",") && strings.Contains(b, ",") {
		a, b = strings.Replace(a, ",", ".", 1)+" m", strings.Replace(b, ",", ".", 1)+" m"
	}
	if a += " and " + b; m[3] != "" {
		a = fmt.Sprintf("%s off %s %s off %s", m[1], m[3], m[2], m[4])
	}
	return strings.Replace(text, m[0], a, 1)
}

// commas are two sides in metres as they are written in much of the world, 4,20 x 3,65, and tallCommas a height behind them.
var (
	commas     = pattern.Compile(`\b(\d{1,2}),(\d\d?)(?: ?m)? ?(?:x|by|×|/) ?(\d{1,2}),(\d\d?)(?: ?m)?($|[ ,;])`)
	tallCommas = regexp.MustCompile(`([ ,;])(\d),(\d{1,3})(?: ?m)?($|[ .]*$| high)`)
)

// inchAnd matches a whole inch that is clipped: "inch n 5/8".
var inchAnd = regexp.MustCompile(`(?i)(^|[a-z] )inch (?:and|n|an|&) (?:a |an )?(half|quarter|eighth|(?:three|five|seven) (?:quarter|eighth)s|\d{1,2}/\d{1,2})(?:s\b|\b)`)
