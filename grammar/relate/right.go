package relate

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/record"
)

// A correction has up to four parts, each said in many ways: that something is to be corrected ("no
// sorry", "make that"), which note ("that one", "the duct"), what it should say, and what it said ("not
// 84"). Here they are put into the words of a correction.

var (
	// opens are words that announce a correction.
	rights = pattern.Compile(`(?i)^(?:no|nope|nah|sorry|oops|whoops|wait|actually|hang on|hold on|correction|my bad|my mistake|i mean|i meant|meant|meant to say|i said|make (?:that|it)|change (?:that|it)(?: to)?|` +
		`found (?:it|them)|should(?:'ve| have)? (?:be|been|read|say)|shoulda been|wrong(?: wall| room| one| number| size)?)(?:[,.:;!]*\s+|[.!]*$)`)
	// speaksOf are words for the note just sent. On their own they correct nothing.
	speaksOf = pattern.Compile(`(?i)^(?:that's|thats|that is|that was|it's|its|it is|it was|this is|(?:the |that )?last (?:one|light|pot|box|note)(?:'s| is| was)?|that one(?:'s| is| was)?|` +
		`(?:that|it|that one|(?:the )?last (?:one|light|pot|box|note)) (?:should|needs to|has to|must) (?:be|have been|say|go))[,.:;!]*\s+`)
	// links are words between a name and its correct value.
	links = pattern.Compile(`(?i)^(?:(?:actually|really|now|just|really) )?(?:is|are|was|were|isnt at .+? (?:its|it's|it is)|isn't at .+? (?:its|it's|it is)|(?:should|shld|shud|must) (?:be|have been|go)|(?:needs?|has|have) to (?:be|go)|(?:got |was )?moved|moves)` +
		`(?: (?:actually|really|now|just|at|be|moved to|supposed to be))*[,:]*\s+`)
	// gotMoved are words for a thing that is now somewhere else.
	gotMoved = pattern.Compile(`(?i)^(?:i |we |they )?(?:just |had to )?(?:moved?|moving|shift(?:ed|ing)?|slid|slide|bump(?:ed)?|nudged?|push(?:ed)?|scoot(?:ed)?|relocated?|chang(?:e|ed)|make)\s+(?:the )?(.+?)(?: instead)?$`)
)

// Righted returns a correction in our words, "" if text is none. If nothing in the line says that it is a
// correction, it asks.
func Righted(c *grammar.Context, text string) (string, *grammar.Ask) {
	sure, spoke, rest := false, false, text
	for {
		if m := rights.FindStringSubmatchIndex(rest); m != nil {
			sure, rest = true, rest[m[1]:]
		} else if m := speaksOf.FindStringSubmatchIndex(rest); m != nil {
			spoke, rest = true, rest[m[1]:]
		} else {
			break
		}
	}
	rest = strings.TrimRight(rest, " .!")
	if it, ok := strings.CutSuffix(rest, " sorry"); ok && spoke { // "its 2390 sorry"
		sure, rest = true, strings.TrimRight(it, " ,")
	}
	not := strings.Contains(rest, " not ")
	if m := gotMoved.FindStringSubmatch(rest); m != nil {
		of, to, ok := itself(c, m[1])
		if !ok && not {
			of, to, _ = Subject(c, m[1])
			ok = of != ""
		}
		if said := change(c, of, to); ok && said != "" && (not || c.Last.Now) {
			return said, nil
		}
	}
	if sure && wrongRoom.MatchString(strings.ToLower(text)) && c.Last.Now {
		ask := &grammar.Ask{Col: 1, Word: firstWord(text), Why: "which room is " + c.Last.Name + " in?"}
		for _, room := range slices.Sorted(maps.Values(c.Rooms)) {
			if n := len(ask.Choices); n < 9 && (n == 0 || ask.Choices[n-1].Label != room) {
				ask.Choices = append(ask.Choices, grammar.Reads(room, "instead room "+room))
			}
		}
		return "", ask
	}
	if !sure && !spoke && (!not || !strings.HasPrefix(change(c, "", rest), "instead ")) {
		return "", nil
	}
	said := change(c, "", rest)
	switch {
	case said == "":
		return "", nil
	case sure, not:
		return said, nil
	case !c.Last.Now:
		return "", nil
	}
	return "", &grammar.Ask{Col: 1, Word: firstWord(text), Why: fmt.Sprintf("of %s, your last?", c.Last.Name), Choices: []grammar.Choice{grammar.Reads(rest, said)}}
}

var wrongRoom = regexp.MustCompile(`wrong room[ .!]*$`)

// itself removes "it to" from what was moved, and supplies the name of the last thing.
func itself(c *grammar.Context, said string) (of, to string, ok bool) {
	w, to, _ := strings.Cut(said, " ")
	switch strings.ToLower(w) {
	case "it", "that", "this", "one":
		return c.Last.Name, bareMove(to), c.Last.Name != "" && to != ""
	}
	return "", "", false
}

// bareMove returns "over to 60 off west" without the small words.
func bareMove(to string) string {
	for {
		w, rest, ok := strings.Cut(to, " ")
		switch w := strings.ToLower(w); {
		case !ok, w != "over" && w != "to" && w != ":" && w != "is" && w != "its" && w != "it's" && w != "at":
			return to
		case w != ":" && w != "over" && (rest[0] < '0' || rest[0] > '9') && !strings.HasPrefix(rest, "to ") && !strings.HasPrefix(rest, "the "):
			return to // "to sixty" may be 260
		}
		to = rest
	}
}

// change returns the correction of the note of that name, or of the last note if name is "". It returns ""
// if the words are not a correction.
func change(c *grammar.Context, name, said string) string {
	right, wrong, not := strings.Cut(said, " not ")
	if !not {
		right, wrong, not = strings.Cut(said, " instead of ")
	}
	if right = strings.Trim(right, " ,.;"); right == "" {
		return ""
	}
	wrong = strings.TrimPrefix(strings.Trim(wrong, " ,.;!"), "at ")
	if a, ok := strings.CutPrefix(right, "a "); ok && !not && c.IsLength(a) && name == "" && c.Last.Now {
		return "fix " + c.Last.Name + " " + a
	}
	in := ""
	if name != "" {
		in = ", in " + name
	}
	number := strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(right, "at "), " off"), " up")
	switch {
	case not && c.IsLength(number) && c.IsLength(wrong):
		return number + " not " + wrong + in
	case !not && c.IsLength(number) && name == "":
		return "*" + number
	case !not && c.IsLength(number) && places.SizeSaid.MatchString(number):
		return fmt.Sprintf("fix %s %s", name, number)
	case !not && c.IsLength(number):
		return "*" + number + in
	}
	if w := WallSaid(c, right); w != "" && (!not || WallSaid(c, wrong) != "") {
		return "instead " + string(w) + canon.Tail(not, " not "+string(WallSaid(c, wrong))) + in
	}
	if what := lex.ThingOf[grammar.WithoutArticles(right)]; what != "" && (not && lex.ThingOf[grammar.WithoutArticles(wrong)] != "" || !not && c.Last.Now && name == "") {
		return "instead " + what + in
	}
	if room := c.Rooms[grammar.WithoutArticles(strings.TrimPrefix(strings.TrimPrefix(strings.ToLower(right), "in "), "for "))]; room != "" {
		return "instead room " + room + in
	}
	if name == "" {
		if of, to, ok := Subject(c, right); ok {
			return change(c, of, strings.TrimSpace(to+canon.Tail(not, " not "+wrong)))
		}
		if name = c.Last.Name; name == "" || !c.Last.Now {
			return ""
		}
	}
	if m := nearer.FindStringSubmatch(right); m != nil && c.IsLength(m[1]) {
		if w := WallSaid(c, m[2]); w != "" {
			return fmt.Sprintf("fix %s %s %s of %s", name, m[1], w, place.Of{Name: name})
		}
	}
	if fix := "fix " + name + " " + right + canon.Tail(not, ", not "+wrong); strings.ContainsAny(right, "0123456789") {
		line, err := read.Nested(fix, c)
		_, asks := err.(*grammar.Ask)
		if e, ok := line.Entry.(record.Refix); ok && err == nil && len(e.Fixes) > 0 || asks {
			return fix
		}
	}
	return ""
}

// nearer matches how far something moves, and toward which wall.
var nearer = pattern.Compile(`(?i)^(?:another )?(.{1,30}?) (?:(?:further|farther|more|closer|nearer|over|back|away|to|towards?|the|and) )*` +
	`([a-z]+?)(?:er?ly|wards?)?(?: wall| side| end)?(?: of (?:that|it|where it (?:is|was)))?$`)

// WallSaid returns the wall if it is all that was said: "off the east wall".
func WallSaid(c *grammar.Context, said string) place.Wall {
	fields := strings.Fields(strings.ToLower(said))
	for len(fields) > 1 && (fields[0] == "off" || fields[0] == "from" || fields[0] == "the" || fields[0] == "on" || fields[0] == "to" || fields[0] == "of") {
		fields = fields[1:]
	}
	for n := len(fields); n > 1 && (fields[n-1] == "wall" || fields[n-1] == "side" || fields[n-1] == "one" || fields[n-1] == "end"); n = len(fields) {
		fields = fields[:n-1]
	}
	name := strings.Join(fields, " ")
	if w := lex.Compass[name]; w != "" {
		return place.Wall(w)
	}
	if sym := lex.Phrases.Whole(name); sym.Type == lex.Wall {
		return place.Wall(sym.Value)
	}
	return c.Walls[name]
}

// Subject splits "light 3 should be 102 off west" into what it is about and the rest.
func Subject(c *grammar.Context, said string) (name, to string, ok bool) {
	words := strings.Fields(grammar.WithoutArticles(said))
	for n := min(len(words)-1, max(c.MaxWords, 2)+1); n > 0; n-- {
		name := c.NameOf(grammar.WithOrdinals(strings.TrimRight(strings.Join(words[:n], " "), ":,")))
		if !c.KnowsOf(name) {
			continue
		}
		to := strings.Join(words[n:], " ")
		linked := false
		for m := links.FindStringSubmatchIndex(to); m != nil; m = links.FindStringSubmatchIndex(to) {
			to, linked = to[m[1]:], true
		}
		return name, to, linked
	}
	return "", "", false
}

// RightedBy reads a line with the name of something and its correct value: "d1 is 46 off east not 44",
// "moved the duct: 46 not 44", "strap 4 should be 63". sure reports whether more than "is" indicates a
// correction.
func RightedBy(l *read.Source, said string) (right string, sure bool) {
	moved := false
	sure = otherBefore.MatchString(said)
	if m := gotMoved.FindStringSubmatch(said); m != nil {
		said, moved = m[1], true
	}
	if m := strapIs.FindStringSubmatch(said); m != nil {
		right, wrong, not := strings.Cut(m[3], " not ")
		if m[2] != "" {
			wrong, not = m[2], true
		}
		right, wrong = strings.Trim(right, " ,"), strings.TrimPrefix(wrong, "at ")
		switch {
		case not && l.IsLength(right) && l.IsLength(wrong):
			return right + " not " + wrong + ", in " + m[1], true
		case !not && l.IsLength(right):
			return m[1] + " at " + right, sure
		}
	}
	name, to, linked := Subject(l.Context, said)
	if name == "" || !linked && !moved {
		return "", false
	}
	return change(l.Context, name, bareMove(to)), sure
}

// SizesOf reads the correct size of a room or its ceiling: "kitchen should be 13'6 x 11'9", "ceiling is
// 8'1 not 8'".
func SizesOf(l *read.Source, said string) string {
	if m := ceilingIs.FindStringSubmatch(said); m != nil && l.IsLength(strings.TrimSpace(m[1])) && l.IsLength(m[2]) {
		return "ceiling height " + m[1]
	}
	if !strings.Contains(said, "should") && !strings.Contains(said, "actually") && !strings.Contains(said, "really") {
		return ""
	}
	m := roomIs.FindStringSubmatch(said)
	if m == nil || l.Room == "" && l.Rooms[m[1]] == "" {
		return ""
	}
	room := l.Room
	if l.Rooms[m[1]] != "" {
		room = l.Rooms[m[1]]
	}
	return fmt.Sprintf("room %s %s x %s", room, m[2], m[3])
}

var (
	ceilingIs = pattern.Compile(`^(?:the )?(?:ceiling|lid)s? (?:height )?(?:is|should be) (.+?) not (.+)$`)
	roomIs    = pattern.Compile(`^(?:the )?([a-z ]+? )?(?:should (?:be|have been)|is actually|is really) (\d.*?) (?:x|by) (\d[^x]*?)(?: not .*)?$`)
)

// takenBack reports whether the last note is taken back: "never mind the last one".
func takenBack(c *grammar.Context, said string) bool {
	m := takesBack.FindStringSubmatch(strings.ToLower(strings.TrimRight(said, " .!")))
	return m != nil && lastNote.MatchString(grammar.WithoutArticles(strings.TrimSuffix(strings.TrimSuffix(m[1], " please"), " pls")))
}

var (
	takesBack = pattern.Compile(`(?i)^(?:no |ok |sorry |oops |just |please |and |wait )*(?:forget|ignore|scratch|scrap|cancel|undo|delete|never ?mind|nvm|disregard|strike|drop|remove|take back|skip|kill)(?: about)? (.+)$`)
	lastNote  = regexp.MustCompile(`^(?:(?:very )?last|my last|last thing|(?:my |very )?last (?:one|note|message|text|entry|line|thing|bit|measurement)|what i (?:just )?(?:said|sent)(?: last)?|one before)$`)
)

// ComesOff asks whether a thing that is said to be gone should be deleted.
func ComesOff(l *read.Source, said string) *grammar.Ask {
	for _, form := range []*pattern.Pattern{notGoing, noLonger} {
		m := form.FindStringSubmatch(said)
		if m == nil {
			continue
		}
		name := l.NameOf(m[1])
		if !l.Context.KnowsOf(name) {
			continue
		}
		if got, err := l.Again("delete " + name); err == nil {
			ask := l.Asks(fmt.Sprintf("take %s off the list?", name))
			ask.Choices = []grammar.Choice{{Label: "take it off", Text: got.String()}}
			return ask
		}
	}
	return nil
}

var (
	notGoing = pattern.Compile(`^(?:the )?(.+?) (?:is |are |was |got |has been )?(?:(?:not|isnt|isn't|aint|ain't|wont|won't|no longer) (?:be )?(?:going|happening|there|needed|required|wanted|in)(?: in| up| there| here| anymore| any more)*|cancelled|canceled|deleted|scrapped|gone|off the list|out of the job)$`)
	noLonger = pattern.Compile(`^(?:there's |theres |there is )?(?:no more|no|skip|drop|ditch|forget about|take|pull|lose|nix|kill) (?:the )?(.+?)(?: off| out)?(?: anymore| any more| after all| please)?$`)
)

// otherBefore matches words that say that something was different before.
var otherBefore = regexp.MustCompile(`\b(?:not|isnt|isn't|instead of|should|shld|shud|must|needs? to|has to|have to|actually)\b`)

var strapIs = pattern.Compile(`^((?:strap|joist|stud|channel) \d+) (?:(?:is|was|should|needs|to|be|moved|now|actually|isnt|isn't|not) )+(?:at (.*?),? (?:its|it's|it is) )?(?:at )?(.+)$`)
