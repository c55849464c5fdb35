package relate

import (
	"cmp"
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

// A correction has up to five parts, each said in many ways: that something is to be corrected ("no sorry", "yes
// but"), which note ("that one", "the duct"), what became of it ("ended up", "should be", "bumped"), what it
// should say, and what it said ("not 84"). [takeApart] sorts a line into them; the rest of this file puts them
// into the words of a correction.
type parts struct {
	sure         bool       // it says that it is a correction
	spoke        bool       // it speaks of the note just sent: "that's"
	moved        bool       // it says that a thing moved
	to           bool       // to or at a place, and not by a distance
	linked       bool       // a verb is between the name and the value
	off          bool       // it says how far off it is, in right
	toward       place.Wall // too far toward which wall
	name         string     // "" for what was noted last
	right, wrong string
	not          bool // wrong was said
}

const (
	// somebody is who did it.
	somebody = `(?:(?:i|we|they|he|she|you|elec|electrician|sparky|sparks|plumber|hvac|tinner|framer|painter|owner|customer|homeowner|client|architect|gc|super|boss|lead|guys|somebody|someone)(?:'ve|'s|'d)? )?(?:the )?`
	shifts   = `(?:mov(?:e|ed|ing)|shift(?:ed|ing)?|slid(?:e|ing)?|bump(?:ed|ing)?|nudg(?:e|ed|ing)|push(?:ed|ing)?|scoot(?:ed|ing)?|scooch(?:ed)?|shov(?:e|ed)|relocat(?:e|ed|ing)|drag(?:ged)?|kick(?:ed)?)`
	small    = `(?:(?:just|had|have|has|got|gotta|need|needs|to|been|being|be|was|is|are|were|get|gets|all|now|really|actually|already|since|it|its|it's|only|more like|supposed) )*`
	measured = `(?:measured|taped|taken|pulled|marked|laid out|read|reads)`
)

var (
	// opens are words that announce a correction.
	opens = pattern.Compile(`(?i)^(?:(?:yes|yeah|yep|yup|ya|right|ok|okay|close|almost|correct)[, ]+(?:but|except|only|just|though|tho|with)(?: that)?|no|nope|nah|sorry|oops|whoops|wait|actually|hang on|hold on|scratch that|correction|my bad|my mistake|my fault|i mean|i meant|meant|` +
		`meant to say|i said|i was wrong|got that wrong|typo|misread(?: it| that)?|make (?:that|it)|change (?:that|it)(?: to)?|found (?:it|them)|(?:should|shld|shud)(?:'ve| have| of|a)? (?:be|been|read|say)|shoulda been|(?:i |we )?(?:had |got )?(?:it |that |them |those )?(?:backwards?|(?:the )?(?:other|wrong) way (?:round|around))|(?:swap|switch|flip|reverse) (?:em|them|those|these|that|it)(?: around| round)?|wrong(?: wall| room| one| number| size)?)(?:[,.:;!]*\s+|[.!]*$)`)
	// closes are such words at the end.
	closes = pattern.Compile(`(?i)^(.+?)[,. ]+(sorry|my bad|my mistake|oops|whoops|i meant|i mean|actually|instead|pls|please|lol)[ .!]*$`)
	// inside are such words in the middle: "south wall sorry not north".
	inside = pattern.Compile(`(?i)[, ]+(?:sorry|oops|whoops|my bad|i mean|i meant)[, ]+`)
	// speaksOf are words for the note just sent. On their own they correct nothing.
	speaksOf = pattern.Compile(`(?i)^(?:that's|thats|that is|that was|it's|its|it is|it was|this is|(?:the |that )?last (?:one|light|pot|box|note)(?:'s| is| was)?|that (?:first |second |third |other )?one(?:'s| is| was)?|` +
		`(?:that|it|that one|(?:the )?last (?:one|light|pot|box|note)) (?:should|needs to|has to|must) (?:be|have been|say|go))[,.:;!]*\s+`)
	// moves are words for a thing that is now somewhere else, before its name.
	moves  = pattern.Compile(`(?i)^` + somebody + small + `(?:` + shifts + `|chang(?:e|ed)|make|(found))\s+(?:the )?(.+?)(?: instead)?$`)
	orders = pattern.Compile(`(?i)^(?:move|shift|slide|bump|nudge|push|scoot|scooch|relocate|drag|kick) `)
	// links are words between a name and its correct value.
	links = pattern.Compile(`(?i)^` + small + `(?:(?:is |was )?wrong[,.]* (?:its|it's|it is|should be|was|is)|(` + shifts + `|ended up|wound up|landed|ended|came out|came in|turned out|sits|lives)|isnt at .+? (?:its|it's|it is)|isn't at .+? (?:its|it's|it is)|(?:should|shld|shud|must)(?:'ve| have| of|a)? (?:be|been|go)|(?:needs?|has|have) to (?:be|go)|` +
		measured + `|(?:is|are|was|were|its|it's|it is)(?: now| really| actually)?)[,:]*\s+`)
	// after are small words before a value.
	after = pattern.Compile(`(?i)^(actually|really|now|just|being|be|supposed to be|more like|it's|its|out|about|by|over|another|up being|to be|at|to|:)[,:]*\s+`)
	// shouldBe is a wrong number before the right one; numbersNot a right one before the wrong; restGood says that
	// the others are right.
	shouldBe   = pattern.Compile(`(?i)^(?:the )?(\d.*?) (?:should|shld|shud|shoulda|must|needs to|has to)(?:'ve| have)? (?:be|been|read|say) (\d.*)$`)
	numbersNot = pattern.Compile(`(?i)^(?:at )?\d[^a-z]*(?:up |in |ft )?(?:not|instead of) \d`)
	restGood   = pattern.Compile(`(?i)[,.]+ (?:the )?[a-z]+(?: wall| one| number| side)? (?:is|was|are) (?:good|ok|okay|right|fine|the same)$`)
	// offBy and tooFar are how far off a note is; which way, or that it is to be put right, is asked.
	offBy  = pattern.Compile(`(?i)^(?:is |are |was |were |its |it's )?(?:off|out) by (?:about )?(.+)$`)
	tooFar = pattern.Compile(`(?i)^(?:is |are |was |were |its |it's )?(?:by )?(?:(.+?) )?too (?:far|close) (?:over )?(?:to )?(?:the )?([a-z]+)(?: wall| side)?(?: by (.+))?$`)
	// onThat is what a correction is of, at its end.
	onThat = pattern.Compile(`(?i)^(.+?),? (?:on|for|of|with) (?:that |the )?([a-z][a-z0-9 ]*)$`)
	// itself are words for the last thing.
	courtesy = lex.Set("pls", "please", "lol")
	itself   = lex.Set("it", "that", "this", "one", "that one", "them", "this one")
	lastOf   = lex.Set("that one", "that last one", "the last one", "it", "that", "last one", "that note", "my last")
)

// takeApart sorts the words of a line. named says that a name at its start counts without an opening.
func takeApart(c *grammar.Context, text string, named bool) (p parts) {
	rest := strings.TrimSpace(text)
	for {
		if m := opens.FindStringSubmatchIndex(rest); m != nil {
			p.sure, rest = true, rest[m[1]:]
		} else if m := speaksOf.FindStringSubmatchIndex(rest); m != nil {
			p.spoke, rest = true, rest[m[1]:]
		} else {
			break
		}
	}
	rest = restGood.ReplaceAllString(strings.TrimRight(rest, " .!"), "")
	if m := inside.FindStringSubmatchIndex(rest); m != nil {
		p.sure, rest = true, rest[:m[0]]+" "+rest[m[1]:]
	}
	if m := shouldBe.FindStringSubmatch(rest); m != nil && c.IsLength(m[1]) && c.IsLength(m[2]) {
		p.sure, p.right, p.wrong, p.not = true, m[2], m[1], true
		return p
	}
	for m := closes.FindStringSubmatch(rest); m != nil; m = closes.FindStringSubmatch(rest) {
		said := strings.ToLower(m[2])
		sorry := said != "actually" && said != "instead"
		p.sure = p.sure || !courtesy[said] && (p.spoke || sorry && valued(c, m[1]))
		rest = m[1]
	}
	if m := moves.FindStringSubmatch(rest); m != nil {
		found := m[1] != ""
		if w, to, _ := strings.Cut(m[2], " "); itself[strings.ToLower(w)] && to != "" {
			p.moved, p.linked, rest = true, true, to
		} else if name, to := nameFirst(c, m[2]); name != "" {
			p.moved, p.linked, p.name, rest = !found, true, name, to
		} else if name, to := unknownFirst(m[2]); name != "" {
			p.moved, p.linked, p.name, rest = !found, true, name, to
		}
	} else if w, to, _ := strings.Cut(rest, " "); itself[strings.ToLower(w)] && links.MatchString(to) {
		p.spoke, p.linked, rest = true, true, to
	} else if name, to := nameIf(named || p.sure || p.spoke, c, rest); name != "" && (numbersNot.MatchString(to) || links.MatchString(to) || offBy.MatchString(to) || tooFar.MatchString(to)) {
		p.linked, p.name, rest = true, name, to
	} else if name, to := unknownFirst(rest); name != "" && named && otherBefore.MatchString(to) && links.MatchString(to) {
		p.linked, p.name, rest = true, name, to
	}
	if m := onThat.FindStringSubmatch(rest); m != nil && p.name == "" && (named || p.sure || p.spoke) && offBy.MatchString(strings.TrimPrefix(rest, "i was ")) {
		if name := c.NameOf(strings.ToLower(m[2])); c.KnowsOf(name) {
			p.name, rest = name, strings.TrimPrefix(m[1], "i was ")
		}
	}
	if m := offBy.FindStringSubmatch(rest); m != nil {
		p.off, p.linked, p.right = true, true, aUnit.ReplaceAllString(m[1], "1 $1")
		return p
	}
	if m := tooFar.FindStringSubmatch(rest); m != nil {
		p.off, p.linked, p.right, p.toward = true, true, aUnit.ReplaceAllString(cmp.Or(m[1], m[3]), "1 $1"), WallSaid(c, m[2])
		return p
	}
	for p.linked {
		m := links.FindStringSubmatchIndex(rest)
		if m == nil {
			break
		}
		p.moved, rest = p.moved || m[2] >= 0, rest[m[1]:]
	}
	for p.linked || p.sure || p.spoke {
		m := after.FindStringSubmatchIndex(rest)
		if m == nil || p.moved && rest[m[1]-2] != ':' && !strings.ContainsAny(rest[m[1]:m[1]+1], "0123456789ant") {
			break // "to sixty" may be 260
		}
		said := strings.ToLower(rest[m[2]:m[3]])
		p.to, rest = p.to || said == "to" || said == "at" || said == "out", rest[m[1]:]
	}
	if m := onThat.FindStringSubmatch(rest); m != nil && p.name == "" {
		if name := c.NameOf(strings.ToLower(m[2])); c.KnowsOf(name) {
			p.name, rest = name, m[1]
		} else if lastOf[strings.ToLower(m[2])] {
			rest = m[1]
		}
	}
	p.right, p.wrong, p.not = strings.Cut(rest, " not ")
	if !p.not {
		p.right, p.wrong, p.not = strings.Cut(rest, " instead of ")
	}
	if wrong, ok := strings.CutPrefix(p.right, "not "); ok && !p.not {
		p.right, p.wrong, p.not = "", wrong, true
	}
	p.right = aUnit.ReplaceAllString(strings.Trim(p.right, " ,.;"), "1 $1")
	p.wrong = strings.TrimPrefix(strings.Trim(p.wrong, " ,.;!"), "at ")
	return p
}

// Opened returns what is behind the words that announce a correction, or all of text.
func Opened(text string) string {
	rest := text
	for m := opens.FindStringSubmatchIndex(rest); m != nil; m = opens.FindStringSubmatchIndex(rest) {
		rest = rest[m[1]:]
	}
	return cmp.Or(rest, text)
}

// valued reports whether words begin with a number or a wall.
func valued(c *grammar.Context, said string) bool {
	first, _, _ := strings.Cut(strings.TrimPrefix(said, "the "), " ")
	return said != "" && said[0] >= '0' && said[0] <= '9' || WallSaid(c, first) != ""
}

// nameFirst splits "light 3 should be 102 off west" after the name of something noted, the longest that is one.
func nameFirst(c *grammar.Context, said string) (name, to string) {
	words := strings.Fields(grammar.WithoutArticles(said))
	for n := min(len(words)-1, max(c.MaxWords, 2)+1); n > 0; n-- {
		name := c.NameOf(grammar.WithOrdinals(strings.TrimRight(strings.Join(words[:n], " "), ":,.")))
		if c.KnowsOf(name) {
			return name, strings.Join(words[n:], " ")
		}
	}
	return "", ""
}

// unknownFirst splits a line after the kind of a thing, with its number, of which nothing is noted: that is then
// said.
func unknownFirst(said string) (name, to string) {
	what, to, _ := strings.Cut(grammar.WithoutArticles(said), " ")
	name = lex.ThingOf[strings.TrimRight(what, ",:")]
	if n, rest, ok := strings.Cut(to, " "); ok && name != "" && len(n) < 3 && strings.Trim(n, "0123456789") == "" {
		return name + " " + n, rest
	}
	return name, to
}

// Subject splits a line into the name that it is about and what is said of it; ok reports whether a verb is
// between.
func Subject(c *grammar.Context, said string) (name, to string, ok bool) {
	name, to = nameFirst(c, said)
	linked := false
	for m := links.FindStringSubmatchIndex(to); m != nil; m = links.FindStringSubmatchIndex(to) {
		to, linked = to[m[1]:], true
	}
	return name, to, linked
}

// nameIf is [nameFirst] where a name is looked for.
func nameIf(wanted bool, c *grammar.Context, text string) (name, to string) {
	if !wanted {
		return "", ""
	}
	return nameFirst(c, text)
}

// Righted returns a correction in our words, "" if text is none. If nothing in the line says that it is a
// correction, it asks.
func Righted(c *grammar.Context, text string) (string, *grammar.Ask) {
	for _, read := range []func(*grammar.Context, string) string{aside, framedAs, repeated} {
		if said := read(c, text); said != "" {
			return said, nil
		}
	}
	p := takeApart(c, text, false)
	if p.moved && p.name != "" && !p.sure && !p.not && !orders.MatchString(text) {
		return "", nil // asked about, if nothing else reads it
	}
	ours := p.name != "" || c.Last.Now
	if ask := p.asks(c, text); ask != nil && (p.moved || p.sure || p.off && p.spoke) && ours {
		return "", ask
	}
	bare := !p.sure && !p.spoke && !p.moved
	if bare && !p.not {
		return "", nil
	}
	said := p.change(c)
	switch {
	case said == "", bare && (!p.not || !strings.HasPrefix(said, "instead ") && !c.IsLength(p.wrong)), p.moved && !p.sure && !p.not && !ours:
		return "", nil
	case p.sure, p.not, p.moved:
		return said, nil
	case !c.Last.Now:
		return "", nil
	}
	return "", &grammar.Ask{Col: 1, Word: firstWord(text), Why: fmt.Sprintf("of %s, your last?", c.Last.Name), Choices: []grammar.Choice{grammar.Reads(strings.TrimSpace(p.right+canon.Tail(p.not, " not "+p.wrong)), said)}}
}

// RightedBy reads a line with the name of something and its correct value: "d1 is 46 off east not 44",
// "moved the duct: 46 not 44", "strap 4 should be 63". sure reports whether more than "is" indicates a
// correction.
func RightedBy(l *read.Source, said string) (right string, sure bool, ask *grammar.Ask) {
	sure = otherBefore.MatchString(said)
	if m := strapIs.FindStringSubmatch(said); m != nil {
		right, wrong, not := strings.Cut(m[3], " not ")
		if m[2] != "" {
			wrong, not = m[2], true
		}
		right, wrong = strings.Trim(right, " ,"), strings.TrimPrefix(wrong, "at ")
		switch {
		case not && l.IsLength(right) && l.IsLength(wrong):
			return right + " not " + wrong + ", in " + m[1], true, nil
		case !not && l.IsLength(right):
			return m[1] + " at " + right, sure, nil
		}
	}
	p := takeApart(l.Context, said, true)
	if p.name == "" || !p.linked {
		return "", false, nil
	}
	if what, n, numbered := strings.Cut(p.name, " "); numbered && lex.ThingOf[what] != "" && strings.Trim(n, "0123456789") == "" && !l.Context.KnowsOf(p.name) {
		return "", false, l.Asks(p.name + " is not noted. Which one is it?")
	}
	if ask := p.asks(l.Context, said); ask != nil {
		return "", false, ask
	}
	return p.change(l.Context), sure || p.sure || p.moved && p.to, nil
}

// change returns the correction of the note of that name, or of the last note if there is no name. It returns
// "" if the words are not a correction.
func (p parts) change(c *grammar.Context) string {
	name, right, wrong, not := p.name, p.right, p.wrong, p.not
	if right == "" || p.off {
		return ""
	}
	if a, ok := strings.CutPrefix(right, "a "); ok && !not && !p.moved && c.IsLength(a) && name == "" && c.Last.Now {
		return "fix " + c.Last.Name + " " + a
	}
	in := ""
	if name != "" {
		in = ", in " + name
	}
	right = ofThem.ReplaceAllString(right, "")
	if first, ok := strings.CutPrefix(right, "first "); ok && name == "" && p.sure && c.IsLength(first) { // of straps: which number it is, is asked
		right = first
	}
	if m := eachWall.FindStringSubmatch(right); m != nil && c.Asked && name == "" && c.IsLength(m[1]) { // of several that are asked about
		right = m[1]
	}
	number := strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(right, "at "), " off"), " up")
	switch {
	case not && c.IsLength(number) && c.IsLength(wrong):
		return number + " not " + wrong + in
	case !not && c.IsLength(number) && strings.HasSuffix(right, " up") && cmp.Or(name, c.Last.Name) != "":
		return "fix " + cmp.Or(name, c.Last.Name) + " " + right
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
	if size, what, ok := sizedKind(c, right); ok && name == "" && !not && c.Last.Now && what == c.Last.What {
		return "fix " + c.Last.Name + " " + size
	}
	if what := lex.ThingOf[grammar.WithoutArticles(right)]; what != "" && (not && lex.ThingOf[grammar.WithoutArticles(wrong)] != "" || !not && c.Last.Now && name == "") {
		return "instead " + what + in
	}
	if room := c.Rooms[grammar.WithoutArticles(strings.TrimPrefix(strings.TrimPrefix(strings.ToLower(right), "in "), "for "))]; room != "" {
		return "instead room " + room + in
	}
	if m := rowSaid.FindStringSubmatch(strings.ToLower(right)); m != nil && name == "" && p.sure {
		return fmt.Sprintf("instead row %d", max(Few(m[1]), lex.Ordinal[grammar.WithOrdinals(m[2])]))
	}
	if name == "" {
		if name = c.Last.Name; name == "" || !c.Last.Now {
			return ""
		}
	}
	if m := onWall.FindStringSubmatch(right); m != nil && c.IsLength(m[2]) {
		if w := WallSaid(c, m[1]); w != "" {
			right = m[2] + " off " + string(w)
		}
	}
	if all := pairs.FindAllStringSubmatch(right, -1); len(all) == 2 && p.sure && places.Across(Wall(all[0][2])) != places.Across(Wall(all[1][2])) {
		right = pairs.ReplaceAllString(right, "$1 off $2$3")
	}
	if m := pairs.FindStringSubmatch(right); m != nil && m[0] == right && c.Asked && !p.moved && c.IsLength(m[1]) { // what is asked about is asked again
		right = m[1] + " off " + m[2]
	}
	if m := nearer.FindStringSubmatch(right); m != nil && !p.to && c.IsLength(m[1]) {
		if w := WallSaid(c, m[2]); w != "" && (p.moved || further.MatchString(right)) {
			return fmt.Sprintf("fix %s %s %s of %s", name, m[1], w, place.Of{Name: name})
		}
	}
	if fix := "fix " + name + " " + right + canon.Tail(not, ", not "+wrong); strings.ContainsAny(right, "0123456789") || p.moved {
		line, err := read.Nested(fix, c)
		_, asks := err.(*grammar.Ask)
		if e, ok := line.Entry.(record.Refix); ok && err == nil && len(e.Fixes) > 0 || asks {
			return fix
		}
	}
	return ""
}

// aUnit is one of a unit: "a foot".
var aUnit = pattern.Compile(`(?i)^(?:a|an|one) (foot|inch|ft)\b`)

// eachWall is a distance off all walls.
var eachWall = pattern.Compile(`(?i)^(.+?) (?:off|from|out from|in from) (?:each|every|both|all)(?: of)?(?: the)?(?: four| 4)?(?: walls?| sides?| ways?| corners?)?$`)

// ofThem is behind a count.
var ofThem = pattern.Compile(`(?i) of (?:them|those|the \d+(?:'?s|'| footers)?)$`)

var (
	rowSaid = regexp.MustCompile(`^(?:the )?(?:row (\d{1,2})|([a-z0-9]+) (?:row|course))$`)
	// onWall is a wall with its distance behind it: "north is 43".
	onWall = pattern.Compile(`(?i)^(?:the |off )?([a-z]+(?: wall| side| one)?)(?: (?:distance|measurement|number|dim))? (?:is|was|at|should be|shld be)? ?(\d.*)$`)
	// pairs are distances off walls without an "off": "41 west 26 north".
	pairs = regexp.MustCompile(`(?i)(\d\S*(?: \d+/\d+)?) (north|east|south|west)(?: wall)?(,? |$)`)
	// nearer matches how far something moves, and toward which wall.
	nearer = pattern.Compile(`(?i)^(?:over )?(?:another |about )?(.{1,30}?) (?:(?:further|farther|more|closer|nearer|over|back|away|to|towards?|the|and|out|down) )*` +
		`([a-z]+?)(?:er?ly|wards?)?(?: wall| side| end)?(?: of (?:that|it|where it (?:is|was)))?$`)
	// further are words that make it a shift from where it is, though nothing says that it moved.
	further = pattern.Compile(`(?i)\b(?:further|farther|closer|nearer|over|towards?|of (?:that|it|where))\b`)
)

// sizedKind splits "a 6 inch can".
func sizedKind(c *grammar.Context, said string) (size, what string, ok bool) {
	words := strings.Fields(grammar.WithoutArticles(said))
	for i := 1; i < len(words); i++ {
		kind := strings.Join(words[i:], " ")
		size, what = strings.Join(words[:i], " "), cmp.Or(lex.ThingOf[kind], lex.ThingOf[kind+"s"])
		if what != "" && c.IsLength(size) {
			return size, what, true
		}
	}
	return "", "", false
}

// asks asks for what a correction leaves open: which way a thing moved or is off, which wall or room is right.
func (p parts) asks(c *grammar.Context, text string) *grammar.Ask {
	name, low := cmp.Or(p.name, c.Last.Name), strings.ToLower(text)
	if p.not || name == "" {
		return nil
	}
	ask := &grammar.Ask{Col: 1}
	shift := func(far string, w place.Wall) grammar.Choice {
		return grammar.Reads(string(w), fmt.Sprintf("fix %s %s %s of %s", name, far, w, place.Of{Name: name}))
	}
	switch far := strings.TrimSuffix(p.right, " over"); {
	case p.off && p.toward != "" && c.IsLength(far):
		ask.Why = fmt.Sprintf("put %s %s to the %s of where it is?", name, far, p.toward.Opposite())
		ask.Choices = []grammar.Choice{shift(far, p.toward.Opposite()), grammar.Reads("no: leave it", "find "+name)}
	case (p.off && p.toward == "" || p.moved && !p.to) && c.IsLength(far):
		ask.Why = fmt.Sprintf("%s which way?", far)
		for _, w := range place.Walls {
			ask.Choices = append(ask.Choices, shift(far, w))
		}
	case p.sure && wrongRoom.MatchString(low) && c.Last.Now:
		ask.Why = "which room is " + name + " in?"
		for _, room := range slices.Sorted(maps.Values(c.Rooms)) {
			if n := len(ask.Choices); n < 9 && (n == 0 || ask.Choices[n-1].Label != room) {
				ask.Choices = append(ask.Choices, grammar.Reads(room, "instead room "+room))
			}
		}
	default:
		return nil
	}
	ask.Word = firstWord(text)
	return ask
}

var wrongRoom = pattern.Compile(`wrong room[ .!]*$`)

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

// otherBefore matches words that say that something was different before.
var otherBefore = pattern.Compile(`\b(?:not|isnt|isn't|wrong|instead of|should|shld|shud|must|needs? to|has to|have to|actually)\b`)

var strapIs = pattern.Compile(`^((?:strap|joist|stud|channel) \d+) (?:(?:is|was|got|should|needs|to|be|moved|now|actually|isnt|isn't|not|really|ended up|wound up|landed|came out|turned out|shifted|to|over) )+(?:at (.*?),? (?:its|it's|it is) )?(?:at )?(.+)$`)
