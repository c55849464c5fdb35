// Package phrase reads lines that a single pattern matches, most of them questions.
package phrase

import (
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
	"strapline/grammar/wording"
)

// wholes are lines matched by a single pattern, most of them questions. A pattern is matched with the
// entry in lower case, without signs and filler ("is", "the", "wall"). Without a pattern, entry is tried
// on every line. entry returns nil if the line is something else after all.
var wholes = []struct {
	said  *pattern.Pattern
	entry func(l *read.Source, said []string) grammar.Entry
}{
	{nil, aliasBackwards},
	{nil, nameFirst},
	{nil, unitsSaid},
	{nil, wording.Enters},
	{nil, longest},
	{pattern.Compile(`^(?:there )?(?:anything|something|what|what's|whats)(?: noted| logged)? (?:over|under|above|behind|in) row ([1-9]\d{0,2})(?: (?:(?:on|of|in) )?((?:north|east|south|west)(?: slope)?|slope|ceiling))?$`),
		func(_ *read.Source, said []string) grammar.Entry {
			return record.AnyOver{Row: nth(said[1]), Surface: place.Surface(said[2])}
		}},
	{pattern.Compile(`^(?:has |have |did )?(?:row |r)([1-9]\d{0,2})` + hungYet), func(l *read.Source, said []string) grammar.Entry { return whoHung(l, record.Who{Row: nth(said[1])}) }},
	{pattern.Compile(`^(?:has |have |did )?(?:ceiling|lid)` + hungYet), func(l *read.Source, _ []string) grammar.Entry { return whoHung(l, record.Who{Surface: place.Ceiling}) }},
	{pattern.Compile(`^(?:has |have |did )?(north|east|south|west)` + hungYet),
		func(l *read.Source, said []string) grammar.Entry {
			return whoHung(l, record.Who{Surface: place.Surface(said[1])})
		}},
	{pattern.Compile(`^(?:(?:all (?:of )?rows|every row|whole ceiling) (?:up|hung)|hung (?:all (?:of )?rows|every row|whole ceiling))$`),
		func(*read.Source, []string) grammar.Entry { return boards.UpAll{Surface: place.Ceiling} }},
	{pattern.Compile(`^cut (.+) out$`), func(l *read.Source, said []string) grammar.Entry {
		if name := grammar.CanonicalThing(said[1]); l.MayName(name) {
			return things.Opened{Names: []string{name}}
		}
		return nil
	}},
	{pattern.Compile(`^(?:where |find |whats |what's )?(?:all )?` + nthRow + ` ([a-z -]+)$`), nthThing},
}

const (
	hungYet = `(?: been| gone| go| went)? (?:hung|up|hang)(?: yet)?$`
	nthRow  = `(first|second|third|fourth|fifth|sixth|[1-9] (?:st|nd|rd|th))`
)

// Read reads a line matched by a single pattern; nil if there is none.
func Read(l *read.Source) grammar.Entry {
	if l.Begin >= len(l.Pieces) {
		return nil
	}
	text := l.Plain(l.Begin)
	all := []string{text}
	for _, w := range wholes {
		said := all
		if w.said != nil {
			said = w.said.FindStringSubmatch(text)
		}
		if said == nil {
			continue
		}
		if e := w.entry(l, said); e != nil {
			return e
		}
	}
	return nil
}

// nth returns the number of first, 2nd ("2 nd" in pieces), third, 12.
func nth(said string) int {
	if n := lex.Ordinal[said]; n > 0 {
		return n
	}
	n, _ := strconv.Atoi(strings.Fields(said)[0])
	return n
}

// nthThing reads a thing by its order: "where is the first pot".
func nthThing(l *read.Source, said []string) grammar.Entry {
	what := grammar.CanonicalThing(said[2])
	if !l.Opens("where", "wheres", "where's", "find", "what", "whats", "what's") && !l.Question || lex.ThingOf[what] != what {
		return nil
	}
	if n := nth(said[1]); n <= len(lex.Ordinals) {
		return record.Find{Name: lex.Ordinals[n-1] + " " + what}
	}
	return nil
}

func whoHung(l *read.Source, e record.Who) grammar.Entry {
	if l.Question || l.Opens("is", "are", "was", "has", "have", "did") {
		return e
	}
	return nil
}

// nameFirst reads a line that begins with a name: "d1 is open", "sink light?", "is d1 covered".
func nameFirst(l *read.Source, said []string) grammar.Entry {
	text := said[0]
	declared := func(said string) bool { return lex.Shape(said) || len(said) > 1 && l.Name != nil && l.Name(said) }
	if l.Cmd != nil || len(l.Tokens) > 7 {
		return nil
	}
	if l.Question && declared(text) && !lex.IsPiece(text) {
		return record.Find{Name: text}
	}
	i := strings.LastIndexByte(text, ' ')
	if i < 0 || !declared(text[:i]) {
		return nil
	}
	switch state := text[i+1:]; {
	case state == "open", state == "opened", state == "cut":
		return things.Opened{Names: []string{text[:i]}}
	}
	return nil
}

// unitsSaid reads the units of the tape: "all in millimetres", "we're working in feet and inches".
func unitsSaid(l *read.Source, said []string) grammar.Entry {
	if unitWords[said[0][strings.LastIndexByte(said[0], ' ')+1:]] == "" {
		return nil
	}
	var units length.Units
	all := strings.Fields(said[0])
	for _, w := range all {
		switch u := unitWords[w]; {
		case u == "" && !unitTalk[w], u != "" && units != "" && u != units:
			return nil
		case u != "":
			units = u
		}
	}
	if units == "" || len(all) < 2 || l.Question || l.Opens("is", "are") {
		return nil
	}
	return rooms.UnitsSet{Units: units}
}

var (
	unitWords = map[string]length.Units{"mm": length.Metric, "millimetres": length.Metric, "millimeters": length.Metric, "metric": length.Metric, "metres": length.Metric, "meters": length.Metric,
		"centimetres": length.Metric, "centimeters": length.Metric, "cm": length.Metric, "imperial": length.Imperial, "inches": length.Imperial, "feet": length.Imperial}
	unitTalk = lex.Set("all", "everything", "in", "we", "we're", "im", "i'm", "working", "work", "measure", "measuring", "measured", "measurements", "dimensions", "numbers", "on", "this", "job", "units",
		"using", "use", "tape", "here", "from", "now", "ok", "today", "by", "to", "will", "be", "house", "it's")
)

var backwards = []*pattern.Pattern{
	pattern.Compile(`^(?:by |when i say |if i say )?(?:the )?(?P<name>[a-z'/ ]{2,30}?) wall(?: is| =|:|,? i mean| means)+ (?:the )?(?P<wall>north|east|south|west)(?: wall| one| side)*(?:,? (?:sorry|btw|here|now|then|for the notes))*$`),
	pattern.Compile(`^(?:i'?m |we'?re |i |we |let'?s |i'?ll )*(?:call|calling) (?:the )?(?P<wall>north|east|south|west)(?: wall| one| side)? (?:the )?(?P<name>[a-z'/ ]{2,30}?) wall$`),
	pattern.Compile(`^(?P<wall>north|east|south|west)(?: wall| side)? is (?:the )?(?P<name>back|front|rear)$`),
	pattern.Compile(`^(?:the )?[a-z]+(?:'?s| is| are) (?:on|in|at) the (?P<wall>north|east|south|west)(?: wall| side)?,? (?:so |and )*(?:(?:i'?ll |we'?ll |lets |let'?s |just )*call (?:that|it|this)(?: one)?|that'?s|thats|that is|it'?s) the (?P<name>[a-z'/ ]{2,30}?) wall$`),
}

// aliasBackwards reads an alias with its parts swapped: "window wall is north".
func aliasBackwards(l *read.Source, _ []string) grammar.Entry {
	if l.Cmd != nil && l.Cmd.Kind != "alias" {
		return nil
	}
	text := strings.ToLower(strings.Trim(l.Text, " .!"))
	for _, p := range backwards {
		m := p.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		of := func(group string) string { return m[p.Regexp().SubexpIndex(group)] }
		if name := lex.Plain(of("name")); name != "" && l.TalkIn(name) == "" && lex.Phrases.Whole(name) == (lex.Symbol{}) {
			return rooms.Alias{Wall: place.Wall(of("wall")), Name: name}
		}
	}
	return nil
}
