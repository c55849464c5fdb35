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
	"strapline/grammar/measure"
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
		size := m[0] // "10 footer", "12s": by the foot
		switch {
		case m[2] == "" && l.Units == length.Metric:
			size = m[1] + " m"
			if n, _ := strconv.Atoi(m[1]); n >= 1500 {
				size = m[1] + " mm"
			}
		case m[2] == "" && !boardOf.MatchString(said) && !strings.Contains(said, "st "): // 8 of what?
			return nil
		case m[2] == "", m[2] == "s", strings.HasPrefix(m[2], "foot"):
			size = m[1] + "'"
		}
		r, k, _ := measure.Scan(size, l.Units, measure.One)
		if len(r) != 1 || k != len(size) {
			return nil
		}
		all = append(all, r[0].L)
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
