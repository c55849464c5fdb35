package grammar

import (
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// wholes are lines matched by a single pattern, most of them questions. A pattern is matched with the
// entry in lower case, without signs and filler ("is", "the", "wall"). Without a pattern, entry is tried
// on every line. entry returns nil if the line is something else after all.
var wholes = []struct {
	said  *pattern
	entry func(l *line, said []string) Entry
}{
	{nil, (*line).aliasBackwards},
	{nil, (*line).nameFirst},
	{nil, (*line).unitsSaid},
	{nil, (*line).entersNew},
	{compile(`^(?:there )?(?:anything|something|what|what's|whats)(?: noted| logged)? (?:over|under|above|behind|in) row ([1-9]\d{0,2})(?: (?:(?:on|of|in) )?((?:north|east|south|west)(?: slope)?|slope|ceiling))?$`),
		func(_ *line, said []string) Entry { return AnyOver{Row: nth(said[1]), Surface: place.Surface(said[2])} }},
	{compile(`^(?:has |have |did )?(?:row |r)([1-9]\d{0,2})` + hungYet), func(l *line, said []string) Entry { return l.whoHung(Who{Row: nth(said[1])}) }},
	{compile(`^(?:has |have |did )?(?:ceiling|lid)` + hungYet), func(l *line, _ []string) Entry { return l.whoHung(Who{Surface: place.Ceiling}) }},
	{compile(`^(?:has |have |did )?(north|east|south|west)` + hungYet),
		func(l *line, said []string) Entry { return l.whoHung(Who{Surface: place.Surface(said[1])}) }},
	{compile(`^(?:(?:hung |put up )?` + nthRow + ` row|` + nthRow + ` row (?:went )?(?:up|hung))$`), func(l *line, said []string) Entry {
		if said[2] == "" && !l.opens("hung", "put") {
			return nil
		}
		return Hung{Row: nth(said[1] + said[2])}
	}},
	{compile(`^(?:(?:all (?:of )?rows|every row|whole ceiling) (?:up|hung)|hung (?:all (?:of )?rows|every row|whole ceiling))$`),
		func(*line, []string) Entry { return UpAll{place.Ceiling} }},
	{compile(`^(?:(?:list|show|give|what|which|any|anything|something|there|how|where) ?.*|what'?s.*)$`), func(l *line, said []string) Entry { return l.lists(said[0]) }},
	{compile(`^cut (.+) out$`), func(l *line, said []string) Entry {
		if name := canonicalThing(said[1]); l.noun(name) {
			return Opened{[]string{name}}
		}
		return nil
	}},
	{removed, (*line).removes},
	{nil, (*line).isGone},
	{compile(`^(?:where |find |whats |what's )?(?:all )?` + nthRow + ` ([a-z -]+)$`), (*line).nthThing},
}

const (
	hungYet = `(?: been| gone| go| went)? (?:hung|up|hang)(?: yet)?$`
	nthRow  = `(first|second|third|fourth|fifth|sixth|[1-9] (?:st|nd|rd|th))`
)

// whole reads a line matched by a single pattern; nil if there is none.
func (l *line) whole() Entry {
	if l.begin >= len(l.Pieces) {
		return nil
	}
	text := l.Plain(l.begin)
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
func (l *line) nthThing(said []string) Entry {
	what := canonicalThing(said[2])
	if !l.opens("where", "wheres", "where's", "find", "what", "whats", "what's") && !l.Question || lex.ThingOf[what] != what {
		return nil
	}
	if n := nth(said[1]); n <= len(lex.Ordinals) {
		return Find{Name: lex.Ordinals[n-1] + " " + what}
	}
	return nil
}

func (l *line) whoHung(e Who) Entry {
	if l.Question || l.opens("is", "are", "was", "has", "have", "did") {
		return e
	}
	return nil
}

// nameFirst reads a line that begins with a name: "d1 is open", "sink light?", "is d1 covered".
func (l *line) nameFirst(said []string) Entry {
	text := said[0]
	declared := func(said string) bool { return lex.Shape(said) || len(said) > 1 && l.Name != nil && l.Name(said) }
	if l.cmd != nil || len(l.Tokens) > 7 {
		return nil
	}
	if l.Question && declared(text) && !(lex.IsPiece(text) && l.pieceNext(l.begin)) {
		return Find{Name: text}
	}
	i := strings.LastIndexByte(text, ' ')
	if i < 0 || !declared(text[:i]) {
		return nil
	}
	switch state := text[i+1:]; {
	case (l.Question || l.opens("is")) && (state == "covered" || state == "open" || state == "cut" || state == "opened"):
		return Find{Name: text[:i]}
	case state == "open", state == "opened", state == "cut":
		return Opened{[]string{text[:i]}}
	}
	return nil
}

// unitsSaid reads the units of the tape: "all in millimetres", "we're working in feet and inches".
func (l *line) unitsSaid(said []string) Entry {
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
	if units == "" || len(all) < 2 || l.Question || l.opens("is", "are") {
		return nil
	}
	return UnitsSet{units}
}

var (
	unitWords = map[string]length.Units{"mm": length.Metric, "millimetres": length.Metric, "millimeters": length.Metric, "metric": length.Metric, "metres": length.Metric, "meters": length.Metric,
		"centimetres": length.Metric, "centimeters": length.Metric, "cm": length.Metric, "imperial": length.Imperial, "inches": length.Imperial, "feet": length.Imperial}
	unitTalk = lex.Set("all", "everything", "in", "we", "we're", "im", "i'm", "working", "work", "measure", "measuring", "measured", "measurements", "dimensions", "numbers", "on", "this", "job", "units",
		"using", "use", "tape", "here", "from", "now", "ok", "today", "by", "to", "will", "be", "house", "it's")
)

var backwards = compile(`^(?:the )?([a-z'/ ]{2,30}) wall is (?:the )?(north|east|south|west)(?: wall| one| side)*(?:,? (?:sorry|btw|here|now|then|for the notes))*$`)

// aliasBackwards reads an alias with its parts swapped: "window wall is north".
func (l *line) aliasBackwards(_ []string) Entry {
	if l.cmd != nil || !slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "is" }) {
		return nil
	}
	m := backwards.FindStringSubmatch(strings.ToLower(strings.Trim(l.Text, " .!")))
	if m == nil {
		return nil
	}
	if name := lex.Plain(m[1]); name != "" && l.talkIn(name) == "" && lex.Phrases[name] == nil {
		return Alias{Wall: place.Wall(m[2]), Name: name}
	}
	return nil
}
