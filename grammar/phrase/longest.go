package phrase

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
	"strapline/grammar/read"
)

var (
	wayIn     = regexp.MustCompile(`\b(?:stairs?|stairwell|turns?|corners?|landing|elevator|lift|hatch|door|doorway|window|fits?|gets? (?:in|up|through|around|round)|make[s]? (?:it|the)|(?:bring|carry|get) (?:in|up|it|them)|up there|up here)\b`)
	mostSay   = regexp.MustCompile(`\b(?:longest|max|maximum|biggest|nothing (?:over|longer|bigger)|no (?:longer|bigger)|only|at most)\b`)
	noneFit   = regexp.MustCompile(`\b(?:wont|won't|cant|can't|cannot|dont|don't|doesnt|doesn't|not)\b`)
	passage   = regexp.MustCompile(`\b(?:stairs?|stairwell|turns?|corners?|landing|elevator|lift|hatch|up there|up here)\b`)
	elsewhere = regexp.MustCompile(`\b(?:moisture|green|purple|regular|fire|half|rest|walls?|truck|van|car|trailer|if|left|here)\b`)
	byTheM    = regexp.MustCompile(`(\d+(?:\.\d+)?) ?(mm|m\b|metres?|meters?|ft|foot|feet|footers?|'|s\b)?`)
	boardOf   = regexp.MustCompile(`\b(?:boards?|sheets?|lengths?)\b`)
)

// longest reads the longest board that gets in, told in any words: "longest that turns the stairs is a 10 footer", "12s
// wont make the corner, 10s max". The size that is said not to fit is longer than the other.
func longest(l *read.Source, _ []string) grammar.Entry {
	said := lex.Lower(l.Text[l.Pieces[l.Begin].Start:])
	if l.Question || len(l.Pieces) > 30 || !mostSay.MatchString(said) && !(noneFit.MatchString(said) && passage.MatchString(said)) || !wayIn.MatchString(said) && !boardOf.MatchString(said) || elsewhere.MatchString(said) || !wayIn.MatchString(said) && !strings.Contains(said, "max") && !strings.Contains(said, "st ") || l.AsksSomething() {
		return nil
	}
	var all []length.Length
	for _, m := range byTheM.FindAllStringSubmatch(said, -1) {
		n, _ := strconv.ParseFloat(m[1], 64)
		switch {
		case strings.HasPrefix(m[2], "mm"), m[2] == "" && n >= 1500 && l.Units == length.Metric:
			all = append(all, length.Length(n*float64(length.Millimetre)))
		case strings.HasPrefix(m[2], "m"), m[2] == "" && l.Units == length.Metric:
			all = append(all, length.Length(n*1000*float64(length.Millimetre)))
		case m[2] == "" && !boardOf.MatchString(said) && !strings.Contains(said, "st "): // 8 of what?
			return nil
		default:
			all = append(all, length.Length(n*float64(length.Foot)))
		}
	}
	if noneFit.MatchString(said) {
		if len(all) != 2 || all[0] == all[1] {
			return nil
		}
		all = []length.Length{slices.Min(all)}
	}
	if len(all) != 1 || all[0] < 6*length.Foot || all[0] > 16*length.Foot+length.Inch {
		return nil
	}
	return boards.Longest{L: length.Said{L: all[0]}}
}
