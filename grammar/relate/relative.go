package relate

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/things"
)

// Some lines refer to what was said before: "same as last but 24 further east", "next one 24 over", "3
// more pots 48 apart going east". Here they are put into words that stand alone, which keep the relation.

// More: `3 more lights 48" apart east of l1`: further ones in a line, each off the one before.
type More struct {
	What  string
	Size  place.Size
	Count int
	Step  length.Said
	Dir   place.Wall
	Of    string // what the first one is off
}

func (e More) String() string {
	size := canon.Say(e.Size)
	if size != "" {
		size += ","
	}
	return canon.Say(e.Count, "more", lex.Plural(e.What)+",", size, e.Step.String(), "apart", string(e.Dir), "of", e.Of)
}
func (More) Kind() grammar.Kind { return "more" }

const toward = `(?:(?:further|farther|more|over|on|again|going|heading|to|toward|towards|the|and) )*(north|east|south|west|n|e|s|w|over|along|on|apart|further|farther)(?:er?ly|wards?)?(?: of (?:that|it|them|that one|the last(?: one)?|last))?`

var (
	// again starts a line for one more thing like the last.
	again = pattern.Compile(`(?i)^(?:and |then |plus |also |so )*(?:(?:the |a )?(?:same|ditto|again|next|another|one more|a second|a third|second|third|fourth|2nd|3rd|4th)|(?:and|then) (?:a|one))` +
		`(?: (?:again|thing|size|one|the same|like (?:it|that)|of (?:those|them|the same)|as (?:the )?(?:last|that|before)(?: one)?))*,?(?: (?:but|is|goes|at))*,? (.+)$`)
	// inLine are words for a place that shares a coordinate with another thing.
	inLine    = pattern.Compile(`(?i),? ?(?:and )?(?:(?:on |at |in )?(?:the )?same (?:line|row)|in(?: |-)?line|lined up|level)(?: (?:with|as) (?:the )?(that one|that|it|the last one|the last|last one|last|[a-z]+ ?\d+|[a-z]+ [a-z]+))?,?`)
	sameOff   = pattern.Compile(`(?i),? ?(?:and )?(?:(?:the )?same (?:distance |measurement |number |dim )?(?:off |from )?(?:the )?(north|east|south|west|n|e|s|w)(?: wall| side)?(?: measurement| distance| number| dim| one)?|(?:the )?(north|east|south|west) (?:is )?the same)`)
	onward    = pattern.Compile(`(?i)^(.{1,40}?) ` + toward + `$`)
	more      = pattern.Compile(`(?i)^(\d{1,2}|two|three|four|five|six|seven|eight) (?:more|others?)(?: (?:of )?(?:those|them|the same))?,? (.{1,60}?) apart(?: going| heading| to)?(?: the)? (north|east|south|west|n|e|s|w)(?: of (.+))?$`)
	panelOver = pattern.Compile(`(?i)^((?:an? |the |put |an )*(?:\d\S*(?: ?(?:x|by|×) ?\d\S*)? )?(?:access|attic|hatch|panel).*?),? (?:(?:goes|right|directly|straight|centred|centered|just) )*(?:over|on|at|for|in front of|to reach) (?:the )?(.+)$`)
)

// Few is a small number, in figures or as a word.
func Few(said string) int {
	if n := lex.Counts[strings.ToLower(said)]; n > 0 {
		return n
	}
	n, _ := strconv.Atoi(said)
	return n
}

// Relative rewrites a line that refers to another. If it leads to a question, or is parsed already, err or
// e is set.
func Relative(text string, c *grammar.Context) (said string, e grammar.Entry, err error) {
	if read.KeepsAll(text) {
		return text, nil, nil
	}
	text = offLetter(text)
	head, rest := RoomBefore(text, c)
	if m := more.FindStringSubmatch(rest); m != nil {
		e, err := readMore(c, m)
		return text, e, err
	}
	if m := panelOver.FindStringSubmatch(rest); m != nil {
		if said := overPanel(c, m[1], strings.ToLower(m[2])); said != "" {
			return head + said, nil, nil
		}
	}
	return oneMore(c, text, head, rest)
}

// oneMore reads one more thing by the place of the last: "same again 24 further east", "another one same
// line, 130 off west".
func oneMore(c *grammar.Context, text, head, rest string) (string, grammar.Entry, error) {
	said, line, off := rest, false, ""
	if m := inLine.FindStringSubmatchIndex(said); m != nil && (m[2] < 0 || places.LastSaid[strings.ToLower(said[m[2]:m[3]])]) {
		said, line = said[:m[0]]+said[m[1]:], true
	}
	if m := sameOff.FindStringSubmatchIndex(said); m != nil {
		k := 2
		if m[2] < 0 {
			k = 4
		}
		off, said = strings.ToLower(said[m[k]:m[k+1]]), said[:m[0]]+said[m[1]:]
	}
	said = strings.Trim(said, " ,.")
	m := again.FindStringSubmatch(said)
	if m == nil && !line && off == "" {
		return lined(c, text, head, rest), nil, nil
	}
	if m != nil {
		said = m[1]
	}
	as := canon.Say(c.Last.What, things.Thing{Size: c.Last.Size}.Size)
	if what, size, left := kindFirst(c, said); what != "" {
		said = left
		if what != c.Last.What || size != "" {
			as = strings.TrimSpace(what + " " + size)
		}
	}
	said = strings.Trim(said, " ,.")
	none := func() (string, grammar.Entry, error) {
		return text, nil, &grammar.Refusal{Col: 1, Word: firstWord(rest), Want: "a thing of yours noted before it", Hint: read.Words.Rows["thing"].Say(c.Units)}
	}
	if d := onward.FindStringSubmatch(said); d != nil && c.IsLength(d[1]) {
		if c.Last.Name == "" {
			return none()
		}
		at := func(w place.Wall) string {
			return fmt.Sprintf("%s%s, %s %s of %s", head, as, d[1], w, place.Of{Name: c.Last.Name})
		}
		if w := WallSaid(c, d[2]); w != "" {
			return at(w), nil, nil
		}
		ask := &grammar.Ask{Col: 1, Word: d[2], Why: fmt.Sprintf("%s which way from %s?", strings.TrimSpace(d[1]), c.Last.Name)}
		for _, w := range []place.Wall{place.North, place.East, place.South, place.West} {
			ask.Choices = append(ask.Choices, grammar.Reads(string(w), at(w)))
		}
		return text, nil, ask
	}
	one, err := read.Nested(as+", "+said, c)
	th, ok := one.Entry.(things.Thing)
	if err != nil || !ok || th.Label != "" || as == "" {
		return text, nil, nil
	}
	if !line && off == "" && len(th.Fixes) > 0 {
		return head + as + ", " + said, nil, nil
	}
	if !line && off == "" || len(th.Fixes) != 1 {
		return text, nil, nil
	}
	if c.Last.Name == "" {
		return none()
	}
	if to := th.Fixes[0].InLine(c.Last.Name); to != "" && (off == "" || WallSaid(c, off).Along() != th.Fixes[0].Wall.Along()) {
		return head + as + ", " + said + ", " + to, nil, nil
	}
	return text, nil, nil
}

// lined reads "in line with light 1, 90 off north" by the place of that thing.
func lined(c *grammar.Context, text, head, rest string) string {
	m := inLine.FindStringSubmatchIndex(rest)
	if m == nil || m[2] < 0 {
		return text
	}
	name := c.NameOf(rest[m[2]:m[3]])
	said := strings.Trim(rest[:m[0]], " ,") + ", " + strings.Trim(rest[m[1]:], " ,")
	one, err := read.Nested(said, c)
	th, ok := one.Entry.(things.Thing)
	if err != nil || !ok || len(th.Fixes) != 1 || name == "" || !c.KnowsOf(name) {
		return text
	}
	if to := th.Fixes[0].InLine(name); to != "" {
		return head + said + ", " + to
	}
	return text
}

// kindFirst returns the kind and the size that text begins with, and the rest.
func kindFirst(c *grammar.Context, said string) (what, size, rest string) {
	fields := strings.Fields(said)
	for i := range min(3, len(fields)) {
		for n := min(3, len(fields)-1-i); n > 0; n-- {
			what := lex.ThingOf[strings.ToLower(strings.TrimRight(strings.Join(fields[i:i+n], " "), ","))]
			if what == "" {
				continue
			}
			size := strings.Join(fields[:i], " ")
			if i > 0 && !c.IsLength(size) {
				return "", "", said
			}
			n += i
			for n < len(fields)-1 && (fields[n] == "but" || fields[n] == "is" || fields[n] == "goes" || fields[n] == "at") {
				n++
			}
			return what, size, strings.Join(fields[n:], " ")
		}
	}
	return "", "", said
}

var BothWalls = regexp.MustCompile(`(?i),? ?(\d[\d'"’” /.-]*?(?: ?(?:in|inch|inches|ft|feet|mm|cm))?) ?(?:(?:off|out|in|from|of) )*(?:both|each|either)(?: (?:walls?|ways?|sides?|directions?|of the walls))?\b`)

// overPanel rewrites "hatch 14 x 14 over v1" as a place, at the middle of v1; "" if the words are not
// about a panel, or name nothing.
func overPanel(c *grammar.Context, panel, over string) string {
	if over = c.DeclaredIn(over); over == "" {
		return ""
	}
	said := fmt.Sprintf("%s, 0 east of %s", panel, over)
	if line, err := read.Nested(said, c); err == nil {
		if th, ok := line.Entry.(things.Thing); ok && th.What == "hatch" && th.Label == "" {
			return said
		}
	}
	return ""
}

// offLetter returns text with "50w" as "50 off west". 12s are boards.
func offLetter(text string) string {
	for i := 1; i < len(text); i++ {
		w := place.Wall(lex.Compass[strings.ToLower(text[i:i+1])])
		if w != "" && w != place.South && strings.ContainsRune("0123456789\"'", rune(text[i-1])) && (i+1 == len(text) || strings.ContainsRune(" ,.;", rune(text[i+1]))) {
			return text[:i] + " off " + string(w) + offLetter(text[i+1:])
		}
	}
	return text
}

// RoomBefore splits a line into its "kitchen: " and the rest.
func RoomBefore(text string, c *grammar.Context) (head, rest string) {
	if i := strings.Index(text, ":"); i > 0 && c.Rooms[strings.ToLower(strings.TrimSpace(text[:i]))] != "" {
		return text[:i+1] + " ", strings.TrimSpace(text[i+1:])
	}
	return "", strings.TrimSpace(text)
}

func firstWord(s string) string { return strings.Fields(s)[0] }

// readMore reads "3 more pots 48 apart going east".
func readMore(c *grammar.Context, m []string) (grammar.Entry, error) {
	e := More{What: c.Last.What, Size: c.Last.Size, Count: Few(m[1]), Dir: WallSaid(c, m[3]), Of: c.Last.Name}
	said := strings.Fields(m[2])
	for i := 0; i <= len(said); i++ { // a kind and its size, then how far
		if i == len(said) {
			return nil, &grammar.Refusal{Col: 1, Word: m[1], Want: "how far apart", Hint: read.Words.Rows["more"].Say(c.Units)}
		}
		what, step := strings.Join(said[:i], " "), strings.Join(said[i:], " ")
		line, err := read.Nested("gap "+step, c)
		if err != nil {
			continue
		}
		g, ok := line.Entry.(hanging.Gap)
		if !ok || g.B.L != 0 {
			continue
		}
		if i > 0 {
			line, err = read.Nested(strings.TrimRight(what, ",")+", 1 off west, 1 off north", c)
			th, ok := line.Entry.(things.Thing)
			if err != nil || !ok || th.Name != "" || th.Label != "" {
				continue
			}
			e.What = th.What
			if th.Size != (place.Size{}) || th.What != c.Last.What {
				e.Size = th.Size
			}
		}
		e.Step = g.A
		break
	}
	if m[4] != "" {
		e.Of = strings.ToLower(strings.TrimPrefix(m[4], "mark "))
	}
	if e.Of == "" || e.What == "" {
		return nil, &grammar.Refusal{Col: 1, Word: m[1], Want: "a thing of yours noted before it", Hint: read.Words.Rows["thing"].Say(c.Units)}
	}
	if e.Count < 1 || e.Count > MostMore {
		return nil, &grammar.Refusal{Col: 1, Word: m[1], Want: fmt.Sprintf("1 to %d more", MostMore), Hint: read.Words.Rows["more"].Say(c.Units)}
	}
	return e, nil
}

// MostMore is the maximum number of things noted in a line at once.
const MostMore = 40

var RelativeKinds = []read.Row{
	{Command: read.Command{Kind: "more", About: "as many again in a line, each so far off the one before",
		Example: "3 more lights 48 apart east of l1", Metric: "3 more lights 1200 apart east of l1", Fits: `how many, "more", how far apart and which way`},
		Makes: []grammar.Entry{More{}}},
}
