package relate

import (
	"regexp"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
)

// aside reads corrections that have no value: two numbers mixed up, a distance to the edge, a note taken back.
func (p *parts) aside(c *grammar.Context, text string) string {
	if strings.ContainsAny(p.tags, "LWKRQr") {
		return ""
	}
	in, fresh := "", c.Last.Now || c.Asked || c.Follows == grammar.Right
	for _, w := range p.words {
		if w.tag == 'S' || w.tag == 'T' {
			in, fresh = ", in "+w.is, true
		}
	}
	switch at := measuredTo.FindStringSubmatch(p.tags); {
	case takesBack.MatchString(p.full):
		return "undo"
	case !fresh:
	case strings.Contains(p.tags, "v"):
		return "other way round" + in
	case strings.Contains(p.tags, "w"):
		return "wrong wall" + in
	case at != nil && !strings.Contains(p.tags, "aC") && (p.spoke || strings.ContainsAny(p.tags, "onq") || strings.Contains(text, "measured") || strings.Contains(text, "taped")):
		return map[bool]string{true: "instead edge", false: "instead centre"}[at[1]+at[2] == "E" || at[3] == "C"] + in
	}
	return ""
}

var (
	reason    = regexp.MustCompile(`(?i),? (?:so (?:that )?(?:its|it's|it|we|they|he|she|i)|because|cause|cuz|coz|since) .*$`)
	inRoom    = regexp.MustCompile(`(aR)|(R)[STKrHU]`) // "the fan in the den is at 40", "both den lights are"
	namedBack = regexp.MustCompile(`^t+[STKO]`)        // "scratch the fan, its 30"
	isWrong   = regexp.MustCompile(`^([ST])[bi]*o$`)
	takesBack = regexp.MustCompile(`^o*ti+p*$`)
	// measuredTo is what a note was measured to: what is not old.
	measuredTo = regexp.MustCompile(`^[^nqEC]*([EC])(?:[^EC]*[nq][^EC]*[EC])?[^EC]*$|^[^EC]*[nq][^EC]*[EC].*([EC])[^EC]*$|^[^EC]*[nq][^EC]*([EC])[^EC]*$`)
	// takenOff are things that are there no more: "they took the fan out", "the fan isnt going there". What stands
	// behind is a reason.
	takenOff = regexp.MustCompile(`^(?:[?ioZbpmna]|N\?)*?(?:tA?([STU])|([STU])[bie]*(?:z|t|[nN]+[bapi]*k|N+[bi]*z)|(?:z|Z|[nN]k|Nk?)([ST]))[ztpabikN]*(\?.*)?$`)
)

// gone returns the name of a thing that a line says is there no more, or the kind of one of which none is noted.
func (p *parts) gone() (name, none string) {
	m := takenOff.FindStringSubmatchIndex(p.full)
	if m == nil || strings.Contains(p.full, "L") {
		return "", ""
	}
	if m[8] >= 0 { // a reason, or this is about something else
		last, why := p.every[m[8]-1].said, plainWord(p.every[m[8]].said)
		if !strings.HasSuffix(last, ",") && !strings.HasSuffix(last, ".") && !reasons[why] {
			return "", ""
		}
	}
	of := p.every[max(m[2], m[4], m[6])]
	if of.tag == 'U' {
		return "", of.is
	}
	return of.is, ""
}

var reasons = lex.Set("cause", "because", "cuz", "since", "so", "per", "as", "customer", "owner", "job", "when")
