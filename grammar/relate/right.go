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
	"strapline/grammar/read"
	"strapline/grammar/record"
)

// parts are what a correction says: of which note, what is new in it, and what is old.
type parts struct {
	words []word // those that do something
	tags  string // a tag for each
	every []word // with those that do nothing here
	full  string
	lost  int    // how many those are
	room  string // "den: ", if a room was named beside something in it

	sure         bool       // it says that it is a correction
	spoke        bool       // it speaks of the note just sent
	moved        bool       // it says that a thing moved
	linked       bool       // a verb is between the name and the value
	not          bool       // what is old was said
	to           bool       // to or at a place, and not by a distance
	off          bool       // it says how far off the note is, in right
	toward       place.Wall // too far toward which wall
	of           byte       // what kind of word the name is
	name         string     // "" for what was noted last
	right, wrong string
	fresh        []word // what is new
}

// The forms of a correction, over the tags of its words. A value is what may be put right.
const (
	fresh   = `(?P<new>p*[LWKTRQr][LWKTRrp]*S?)`
	was     = `(?P<old>p*[LWKTRQr][LWKTRrp]*)`
	ofWhich = `(?P<of>[STKrUORH])`
	linking = `[bsemio]*`
)

var forms = func() (all []*regexp.Regexp) {
	for _, form := range []string{
		`[im]*(?:` + ofWhich + `|W)?` + linking + `n` + was + `[oibs]+` + fresh,                                  // isnt at 80 its at 95
		`i?(?P<side>W)b` + fresh + `o*(?:n` + was + `)?`,                                                         // north is 43
		`[imb]*` + ofWhich + `?` + linking + `(?:(?P<twice>f?p*[LWp]+)[oibs]+)?` + fresh + `o*(?:n` + was + `)?`, // d1 ended up 46 off east not 44
		linking + fresh + `o*(?:n` + was + `)?[ap]` + ofWhich,                                                    // 46 not 44 on d1
		`[im]*` + ofWhich + `?[bi]*fp*(?P<new>L)`,                                                                // d1 is off by 2
		`[im]*[bi]*fp*(?P<new>L)a` + ofWhich + `?`,
		`[im]*` + ofWhich + `?[bi]*p*(?P<new>L)?Fp*(?P<toward>W)(?:p(?P<far>L))?`, // 2 too far west
	} {
		all = append(all, regexp.MustCompile(`^[owvt]*`+form+`o*$`))
	}
	return all
}()

// twelves matches boards by their count and length: "7 12s", "twenty-six 12s".
var twelves = pattern.Compile(`\b(?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+t(?:een|y(?:[- ][a-z]+)?)) (?:8|9|10|12|14|16)s\b`)

// takeApart sorts the words of a line; ok is false if no word does one of those.
func takeApart(c *grammar.Context, text, by string) (p parts, ok bool) {
	if !tells(text, by) || twelves.MatchString(text) {
		return p, false
	}
	article := false
	if m := reason.FindStringIndex(text); m != nil && strings.ContainsAny(text[:m[0]], "0123456789") && !strings.ContainsAny(text[m[0]:], "0123456789") {
		text, p.lost = text[:m[0]], 1
	}
	all := tagged(c, text)
	for i, w := range all {
		next := byte('?')
		if k := slices.IndexFunc(all[i+1:], func(w word) bool { return w.tag != '_' }); k >= 0 {
			next = all[i+1+k].tag
		}
		if w.tag == 'p' && plainWord(w.said) == "to" && next != 'E' && next != 'C' { // "to ten" may be 210
			last := p.words[max(len(p.words)-1, 0):]
			if len(last) == 0 || last[0].tag == 'L' && next != 'W' || last[0].tag == 'o' && !strings.HasPrefix(plainWord(last[0].said), "cha") {
				w.tag = '?'
			}
		}
		if w.tag == 'L' && article {
			w.is = "size" // "a 6 inch"
		}
		if article && lex.ThingOf[plainWord(w.said)] != "" && strings.Count(text, " off ")+strings.Count(text, " from ")+strings.Count(text, " up") > 1 && !tells(text, "onsmt") { // "need a sconce 30 off east and 60 up": a new one
			return p, false
		}
		article = w.tag == '_' && (w.said == "a" || w.said == "an")
		if w.tag != '_' && w.tag != 'c' && w.tag != 'x' {
			p.every, p.full = append(p.every, w), p.full+string(w.tag)
		}
		switch {
		case w.tag == 'B' && strings.Trim(p.tags, "oy") == "" && p.tags != "": // "yes but"
			p.words[len(p.words)-1].tag = 'o'
			p.tags = p.tags[:len(p.tags)-1] + "o"
		case w.tag == 'B' || w.tag == 'y' && p.tags != "":
			p.lost++
		case w.tag == 'Z':
			w.tag = 'o'
			p.words, p.tags = append(p.words, w), p.tags+"o"
		case w.tag == '?', w.tag == 'A', w.tag == 'x', w.tag == 'a' && next == '?':
			p.lost++
		case w.tag == 's' && strings.Trim(p.tags, "owv") == "":
			w.tag = 'o'
			fallthrough
		case w.tag != '_' && w.tag != 'c':
			p.words, p.tags = append(p.words, w), p.tags+string(w.tag)
		}
	}
	if m := inRoom.FindStringSubmatchIndex(p.tags); m != nil && strings.ContainsAny(p.tags, "STKrHU") {
		p.room = p.words[max(m[3], m[5])-1].is + ": "
		p.words, p.tags = slices.Delete(p.words, max(m[2], m[4]), max(m[3], m[5])), p.tags[:max(m[2], m[4])]+p.tags[max(m[3], m[5]):]
	}
	p.tags = strings.TrimSuffix(strings.TrimSuffix(p.tags, "Wbg"), "Wby") // "north is good"
	p.sure, p.not = strings.ContainsAny(p.tags, "ovw") || p.tags != "" && p.tags[0] == 't', strings.Contains(p.tags, "n")
	p.spoke = strings.HasPrefix(strings.TrimLeft(p.tags, "om"), "i")
	for _, w := range p.words {
		p.moved = p.moved || w.tag == 'e' || w.tag == 'm' && plainWord(w.said) != "found"
	}
	return p, true
}

// fill finds what is new and old in a line, and of which note.
func (p *parts) fill(c *grammar.Context) bool {
	if p.tags != "" && p.tags[0] == 't' && !(namedBack.MatchString(p.tags) && strings.Contains(p.tags, "L")) { // "strike 7"
		return false
	}
	for _, form := range forms {
		m := form.FindStringSubmatchIndex(p.tags)
		if m == nil {
			continue
		}
		at := func(group string) []word {
			if i := form.SubexpIndex(group); i > 0 && m[2*i] >= 0 {
				return p.words[m[2*i]:m[2*i+1]]
			}
			return nil
		}
		if of := at("of"); of != nil && of[0].tag == 'K' && !strings.ContainsAny(p.tags, "mns") {
			continue // a new one
		}
		old, _ := trimmed(at("old"))
		p.fresh, p.to = trimmed(append(at("new"), at("far")...))
		if side := at("side"); side != nil {
			p.fresh = append(p.fresh[:len(p.fresh):len(p.fresh)], word{'p', "off", "", 1}, side[0])
		}
		if n := len(old); n > 1 && old[0].tag == 'L' && old[n-1].tag == 'W' && len(p.fresh) == 1 && p.fresh[0].tag == 'L' { // 75 not 70 off north
			p.fresh, old = append(slices.Clone(p.fresh), old[1:]...), old[:1]
		}
		if toward := at("toward"); toward != nil {
			p.toward = place.Wall(toward[0].is)
		}
		p.off = strings.ContainsAny(p.tags, "fF") && at("twice") == nil
		switch twice, _ := trimmed(at("twice")); {
		case len(twice) > 0 && twice[0].tag == 'L' && strings.Trim(spoken(twice[1:]), " up") == "" && old == nil && (strings.Contains(p.tags, "s") || plainWord(at("twice")[0].said) == "at"): // that at 45 should be 54
			old = twice
		case twice != nil:
			p.lost++
		}
		p.right, p.wrong = spoken(p.fresh), spoken(old)
		if of := at("of"); of != nil {
			p.of, p.name = of[0].tag, of[0].is
			switch {
			case p.of == 'O' && c.Last.What == "" && old != nil: // of straps
				p.of, p.name, p.sure = 0, "", true
			case p.of == 'O':
				p.name = of[0].is + " " + c.Last.What
			}
		}
		if p.of == 'K' && old != nil && c.Noun != nil && p.name != c.Last.What && !c.KnowsOf(p.name) { // it stands in a note at most
			return false
		}
		p.not = p.not || old != nil
		p.linked = p.not || p.off || strings.ContainsAny(p.tags, "bsem") || p.of != 0 && strings.Contains(p.tags, "i")
		return p.of != 'O' || c.KnowsOf(p.name)
	}
	return false
}

// trimmed are words without the small ones before and behind; to says that one of those is "to" or "at".
func trimmed(words []word) (all []word, to bool) {
	for len(words) > 0 && words[0].tag == 'p' {
		w := plainWord(words[0].said)
		to, words = to || w == "to" || w == "at" || w == "out", words[1:]
	}
	for n := len(words) - 1; n > 0 && words[n].tag == 'p' && plainWord(words[n].said) != "up"; n-- {
		words = words[:n]
	}
	return words, to
}

// spoken is what words say, in our words where there are such.
func spoken(words []word) string {
	all := make([]string, len(words))
	for i, w := range words {
		if all[i] = w.said; w.tag == 'Q' || w.tag == 'r' {
			all[i] = w.is
		}
	}
	return strings.Trim(strings.Join(all, " "), " ,.:;!")
}

// Righted returns a correction in our words, "" if text is none. If nothing in the line says that it is a
// correction, it asks.
func Righted(c *grammar.Context, text string) (string, *grammar.Ask) {
	if said := repeated(c, text); said != "" {
		return said, nil
	}
	p, ok := takeApart(c, text, telling)
	if !ok || strings.Contains(p.full, "?") {
		return "", nil
	}
	if said := p.aside(c, lex.Lower(text)); said != "" {
		return said, nil
	}
	if strings.Trim(p.tags, "oi") == "h" && c.Last.Now {
		return "", wrongRoom(c, text)
	}
	if !p.fill(c) || p.lost > 0 || p.of == 'U' {
		return "", nil
	}
	fixed := p.of != 0 && strings.IndexByte("rRHO", p.of) >= 0 && (p.not || strings.Contains(p.tags, "s")) // a room, its framing, or one by its order
	if bare := !p.sure && !p.spoke && !p.moved && !fixed; bare && (!p.not || p.name != "") {
		return "", nil
	} else if p.moved && p.name != "" && !p.sure && !p.not && !p.orders() {
		return "", nil // asked about, if nothing else reads it
	} else if ours := p.name != "" || c.Last.Now; p.moved && !p.sure && !p.not && !ours {
		return "", nil
	} else if ask := p.asks(c, text); ask != nil && ours {
		return "", ask
	} else if said := p.change(c); said == "" || bare && !strings.HasPrefix(said, "instead ") && !c.IsLength(p.wrong) {
		return "", nil
	} else if p.sure || p.not || p.moved || fixed {
		return p.room + said, nil
	} else if c.Last.Now {
		return "", &grammar.Ask{Col: 1, Word: firstWord(text), Why: fmt.Sprintf("of %s, your last?", c.Last.Name),
			Choices: []grammar.Choice{grammar.Reads(strings.TrimSpace(p.right+canon.Tail(p.not, " not "+p.wrong)), said)}}
	}
	return "", nil
}

// wrongRoom asks which room the last note is of.
func wrongRoom(c *grammar.Context, text string) *grammar.Ask {
	ask := &grammar.Ask{Col: 1, Word: firstWord(text), Why: "which room is " + c.Last.Name + " in?"}
	for _, name := range slices.Compact(slices.Sorted(maps.Values(c.Rooms))) {
		ask.Choices = append(ask.Choices, grammar.Reads(name, "instead room "+name))
	}
	ask.Choices = ask.Choices[:min(len(ask.Choices), 9)]
	return ask
}

// orders reports whether a line begins with an order to move something.
func (p *parts) orders() bool {
	w := plainWord(p.words[0].said)
	return p.words[0].tag == 'm' && w != "make" && w != "change" && w != "found" && w != "slid" && !strings.HasSuffix(w, "ed") && !strings.HasSuffix(w, "ing")
}

// Corrected reads what a line that no rule reads says has become of something: a line of ours, and whether it is
// taken without a question. loosely: with words that have no part in it, of which a question is asked.
func Corrected(l *read.Source, text string, loosely bool) (line string, taken bool, ask *grammar.Ask) {
	c := l.Context
	p, ok := takeApart(c, text, hinting)
	if !ok || len(p.words)+p.lost > mostWords {
		return "", false, nil
	}
	if name, none := p.gone(); none != "" {
		return "", false, l.Asks(none + " is not noted. Which one is it?")
	} else if name != "" {
		return "gone " + name, true, nil
	}
	if m := isWrong.FindStringSubmatchIndex(p.tags); m != nil && p.lost == 0 && plainWord(p.words[len(p.words)-1].said) == "wrong" {
		ask = l.Asks("where should " + p.words[m[2]].is + " be? e.g. `26 off west`")
		ask.Keep, ask.Base = true, "fix "+p.words[m[2]].is
		return "", false, ask
	}
	if !loosely && p.lost > 0 || p.lost > mostLost || !p.fill(c) || !loosely && p.lost > 0 || p.name == "" && !(loosely && c.Last.Now && p.lost < mostLost/2 && (p.not || p.moved)) || !p.linked {
		return "", false, nil
	}
	if !loosely && p.tags[0] == 'b' || p.name == "" && !p.not && p.full[0] == '?' { // it is about what that word names
		return "", false, nil
	}
	if p.of == 'U' {
		return "", false, l.Asks(p.name + " is not noted. Which one is it?")
	}
	strong := p.not || p.sure || p.moved && p.to || strings.Contains(p.tags, "s")
	if p.lost > 0 && !strong && !p.moved && !strings.Contains(p.tags, "b") {
		return "", false, nil
	}
	if ask := p.asks(c, text); ask != nil {
		return "", false, ask
	}
	if line = p.change(c); line != "" {
		line = p.room + line
	}
	return line, strong && p.lost == 0, nil
}

const (
	mostWords = 20 // limits the work for one line
	mostLost  = 6  // how many words of a line may have no part in what it is asked to mean
)

// change returns the correction of the note of that name, or of the last note if there is no name. It returns
// "" if the words are not a correction.
func (p *parts) change(c *grammar.Context) string {
	name, right, wrong, isNumber := p.name, p.right, p.wrong, c.IsLength(p.right)
	var walls, lengths []word
	shape, shift, away := "", p.moved, false // of what is new, and whether it is a way to go, away from the wall
	for i, w := range p.fresh {
		switch said := plainWord(w.said); {
		case w.tag == 'W':
			walls = append(walls, w)
			if i > 0 && p.fresh[i-1].tag == 'L' { // "41 west 26 north"
				right = strings.Replace(right, w.said, "off "+w.said, 1)
			}
		case w.tag == 'L':
			lengths = append(lengths, w)
		case w.tag == 'p' && further[said]:
			shift, away = true, said == "further" || said == "farther" || said == "more"
		case said == "off" || said == "from":
			shift = shift && away
		}
		if w.tag != 'p' {
			shape += strings.Replace(string(w.tag), "T", "K", 1)
		}
	}
	in := ""
	if name != "" {
		in = ", in " + name
	}
	switch of := cmp.Or(name, c.Last.Name); {
	case right == "" || p.off:
		return ""
	case p.of == 'R' && shape == "LL":
		return "room " + name + " " + right
	case p.of == 'H' && p.not && isNumber:
		return "ceiling height " + right
	case p.of == 'R', p.of == 'H':
		return ""
	case p.of == 'r' && !p.not && isNumber:
		return name + " at " + right
	case shape == "L" && p.not && c.IsLength(strings.TrimSuffix(wrong, " up")):
		return strings.TrimSuffix(right, " up") + " not " + strings.TrimSuffix(wrong, " up") + in
	case shape == "L" && !p.not && strings.HasSuffix(right, " up") && of != "":
		return "fix " + of + " " + right
	case shape == "L" && !p.not && name == "" && lengths[0].is == "size" && c.Last.Now:
		return "fix " + of + " " + right
	case shape == "L" && !p.not:
		return "*" + right + in
	case shape == "W" && (!p.not || WallSaid(c, wrong) != ""):
		return "instead " + string(WallSaid(c, right)) + canon.Tail(p.not, " not "+string(WallSaid(c, wrong))) + in
	case shape == "K" && (p.not && lex.ThingOf[wrong] != "" || !p.not && c.Last.Now && name == ""):
		return "instead " + p.fresh[0].is + in
	case shape == "LK" && name == "" && !p.not && c.Last.Now && p.fresh[1].is == c.Last.What:
		return "fix " + c.Last.Name + " " + lengths[0].said
	case shape == "R":
		return "instead room " + p.fresh[0].is + in
	case shape == "Q" && name == "" && p.sure:
		return "instead " + right
	case name == "" && !c.Last.Now || of == "":
		return ""
	case shape == "LW" && shift && !p.to:
		to := place.Wall(walls[0].is)
		if away && (strings.Contains(right, "from ") || strings.Contains(right, "off ")) {
			to = to.Opposite()
		}
		return fmt.Sprintf("fix %s %s %s of %s", of, lengths[0].said, to, place.Of{Name: of})
	case len(lengths) > 0:
		fix := "fix " + of + " " + right + canon.Tail(p.not, ", not "+wrong)
		line, err := read.Nested(fix, c)
		_, asks := err.(*grammar.Ask)
		if e, ok := line.Entry.(record.Refix); ok && err == nil && len(e.Fixes) > 0 || asks {
			return fix
		}
	}
	return ""
}

// further are words that make a distance one from where the thing is.
var further = lex.Set(strings.Fields("further farther closer nearer over toward towards more")...)

// asks asks for what a correction leaves open: which way a thing moved or is off, which room is right.
func (p *parts) asks(c *grammar.Context, text string) *grammar.Ask {
	name := cmp.Or(p.name, c.Last.Name)
	if p.not || name == "" {
		return nil
	}
	ask := &grammar.Ask{Col: 1, Word: firstWord(text)}
	shift := func(far string, w place.Wall) {
		ask.Choices = append(ask.Choices, grammar.Reads(string(w), fmt.Sprintf("fix %s %s %s of %s", name, far, w, place.Of{Name: name})))
	}
	switch far := p.right; {
	case !c.IsLength(far):
		return nil
	case p.off && p.toward != "":
		ask.Why = fmt.Sprintf("put %s %s to the %s of where it is?", name, far, p.toward.Opposite())
		shift(far, p.toward.Opposite())
		ask.Choices = append(ask.Choices, grammar.Reads("no: leave it", "find "+name))
	case p.off || p.moved && !p.to:
		ask.Why = fmt.Sprintf("%s which way?", far)
		for _, w := range place.Walls {
			shift(far, w)
		}
	default:
		return nil
	}
	return ask
}

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
	return cmp.Or(c.Walls[name], c.Walls[strings.TrimSuffix(name, "s")])
}
