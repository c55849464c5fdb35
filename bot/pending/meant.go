package pending

import (
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/rooms"
)

// An answer is said in words of one's own: "up the north wall", "the long way", "40 west", "in the middle".

// mostSaid is the most words of an answer that is looked for among those of the choices.
const mostSaid = 6

// Means returns the number of the one choice among whose words are all those of an answer; 0 if there is none, -1 if
// there are several.
func (q *Question) Means(text string) (n int) {
	said := meaning(text)
	if len(said) == 0 || len(said) > mostSaid || strings.Trim(strings.Join(said, ""), "0123456789/") == "" {
		return 0
	}
	if len(q.Choices)-len(q.Declining()) < 2 {
		return 0
	}
	for i, c := range q.Choices {
		label := meaning(c.Label)
		if len(label) == 1 && isWall(label[0]) {
			label = append(label, "wall", "side", "end")
		}
		if len(label) == 2 && isWall(label[0]) && isWall(label[1]) && len(said) < 2 { // "from the north" is no way to run
			continue
		}
		if declines(c) || slices.ContainsFunc(said, func(w string) bool { return !slices.Contains(label, w) }) {
			continue
		}
		if n != 0 {
			return -1
		}
		n = i + 1
	}
	return n
}

func isWall(w string) bool { return lex.Phrases.Whole(w).Type == lex.Wall }

// Near reports whether a text of a few words may be an answer, though none that is understood.
func (q *Question) Near(text string) bool {
	words := meaning(text)
	return len(words) <= mostSaid && slices.ContainsFunc(words, func(w string) bool {
		return isWall(w) || q.Base != "" && strings.Trim(w, "0123456789") == "" || answering[w]
	})
}

var answering = lex.Set("both", "either", "neither", "along", "across", "parallel", "perpendicular", "middle", "center", "centre", "centred", "centered", "halfway", "edge", "left", "right", "long", "short", "feet", "inches")

// meaning are the words of an answer or of a choice that tell it from others.
func meaning(text string) (all []string) {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,;:.!()-\"“”?", r) }) {
		if said := inFull[w]; said != "" {
			all = append(all, strings.Fields(said)...)
		} else if !small[w] {
			all = append(all, w)
		}
	}
	if len(all) == 0 && strings.TrimSpace(text) == "in" {
		return []string{"inches"}
	}
	return all
}

var (
	inFull = map[string]string{"n": "north", "e": "east", "s": "south", "w": "west", "ew": "east west", "ns": "north south", "we": "east west", "sn": "north south",
		"ft": "feet", "foot": "feet", "inch": "inches", "crosses": "across", "cross": "across", "crossing": "across", "m": "metres", "cm": "centimetres"}
	small = lex.Set("the", "a", "an", "this", "that", "there", "in", "at", "and", "it", "it's", "its", "thats", "that's", "they", "goes", "go", "going", "to", "from", "on", "off", "of", "one", "runs", "run", "thing", "please", "is", "are", "be")
)

// Ways reports whether the question is about boards or supports, which run one way or the other.
func (q *Question) Ways() bool {
	return slices.ContainsFunc(q.Choices, func(c grammar.Choice) bool {
		if len(c.Lines) != 1 {
			return false
		}
		_, hung := c.Lines[0].Entry.(hanging.Hung)
		return hung || framing(c.Lines[0].Entry) != ""
	})
}

// Way returns the number of the one choice whose boards or supports run as an answer says: "the long way".
func (q *Question) Way(text string, c answer.Ctx) int {
	line, err := c.Parse("boards run "+strings.TrimPrefix(strings.ToLower(text), "boards run "), false)
	run, ok := line.Entry.(boards.BoardsRun)
	if err != nil || !ok || len(strings.Fields(text)) > mostSaid || oneWall.MatchString(text) {
		return 0
	}
	n := 0
	for i, c := range q.Choices {
		if len(c.Lines) != 1 || way(c.Lines[0].Entry) != run.Dir {
			continue
		}
		if n != 0 {
			return 0
		}
		n = i + 1
	}
	return n
}

// way is how the boards or supports of an entry run, "" if it does not say.
func way(e grammar.Entry) string {
	switch e := e.(type) {
	case rooms.SupportSet:
		return string(e.Run)
	case hanging.Hung:
		return string(e.Run)
	}
	return ""
}

// Filled are the ways in which an answer completes the base of the question, the likeliest first.
func (q *Question) Filled(text string) (all []string) {
	said := strings.TrimSpace(itIs.ReplaceAllString(text, ""))
	says := []string{text, said}
	if m := wallLast.FindStringSubmatch(said); m != nil {
		says = []string{strings.TrimSpace(m[1]) + " off " + m[2], text}
	} else if m := wallFirst.FindStringSubmatch(said); m != nil {
		says = []string{m[2] + " off " + m[1], text}
	} else if middle.MatchString(said) {
		says = []string{"in the middle"}
	}
	for _, s := range says {
		all = append(all, s, q.Lead+" "+s)
	}
	return all
}

var (
	itIs      = pattern.Compile(`^(?:and |so |um |ok |,)*(?:(?:its|it's|it is|thats|that's|that is|at|say|call it|make it|height is|height's)\b,? *)+`)
	wallLast  = pattern.Compile(`^(\d[^a-z]*(?:in|ft|mm|cm|m|inches|feet|foot)?) ?,? (?:to (?:the )?|in (?:the )?)?(north|east|south|west|n|e|s|w)(?: wall| side| end)?$`)
	wallFirst = pattern.Compile(`^(?:the )?(north|east|south|west|n|e|s|w)(?: wall| side| end)? (?:is )?(\d[^a-z]*(?:in|ft|mm|cm|m|inches|feet|foot)?)$`)
	middle    = pattern.Compile(`^(?:dead |right |its |it's )*(?:in |at |on )?(?:the )?(?:middle|cent(?:re|er)|cent(?:red|ered)|halfway)(?: of (?:it|the (?:wall|room|ceiling)))?$`)
	placed    = pattern.Compile(`\d.* (?:off|from|up|down|oc|on cent(?:re|er)|apart)\b|\bfirst .*\d`)
	oneWall   = pattern.Compile(`^(?:from|off|at) (?:the )?(?:north|east|south|west)(?: wall| side| end)?$`)
	unsure    = pattern.Compile(`^(?:i )?(?:(?:don'?t|do not|dont) know|dunno|not sure|no idea|no clue|will check|i'?ll check|let me check|ask (?:the )?\w+|later|skip(?: it)?|don'?t remember|can'?t tell|cant say)(?: yet| now)?$`)
)

// Unsure reports whether an answer says that its sender does not know.
func Unsure(text string) bool { return unsure.MatchString(strings.TrimRight(text, " .!")) }

// Completed reports whether a line that an answer completes tells which way the boards or supports run that the question
// is about, and all that was told before.
func (q *Question) Completed(line grammar.Line, said string) bool {
	_, hung := line.Entry.(hanging.Hung)
	if !hung && framing(line.Entry) == "" || !sameFigures(said, line.Entry.String()) {
		return false
	}
	return slices.ContainsFunc(q.Choices, func(c grammar.Choice) bool {
		return len(c.Lines) == 1 && !declines(c) && c.Lines[0].Entry.Kind() == line.Entry.Kind()
	})
}

// OfColleague finds the one open question of somebody else about framing that a text answers in full: "first 11 off west".
// A place alone may be of something else.
func OfColleague(all map[string]*Question, text string, c answer.Ctx) (who string, of *Question, line grammar.Line) {
	if !placed.MatchString(text) {
		return "", nil, line
	}
	for other, q := range all {
		if q.Base == "" || q.Saved || q.Supports() == "" || strings.EqualFold(other, c.Who) {
			continue
		}
		for _, filled := range q.Filled(text) {
			whole, err := c.Parse(q.Base+" "+filled, false)
			if err != nil || !q.AsksFor(whole.Entry) {
				continue
			}
			if of != nil { // or of another
				return "", nil, line
			}
			who, of, line = other, q, whole
			break
		}
	}
	return who, of, line
}
