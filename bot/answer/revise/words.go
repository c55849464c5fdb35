package revise

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// A correction that names nothing on the plan, or that is said in too many words, is of the entry that has its words
// and its wrong number: of one that is read, the part that the number fits is changed; of a note, its words, and they
// are read again as if they came in now.

// mostSearched is how many entries are looked through for what a correction may be of.
const mostSearched = 80

// target is what a correction in words could be of.
type target struct {
	en     *site.Entry
	score  int
	next   grammar.Entry // what it makes of an entry that is read
	note   string        // what it makes of a note
	direct bool          // the wrong number is said: nothing else can be meant
}

// InWords finds what a correction in words is of: a reply for an entry that is read, or a note and its new words. of is
// nil, and so is the reply, if text is none, or if it may be of several; words says then that it is of something told.
func InWords(c answer.Ctx, text string) (r *answer.Reply, of *site.Entry, words string) {
	here := c.State.RoomOf(c.Who)
	said, ok := relate.Slots(answer.Language(c.State, here), text)
	if !ok {
		return nil, nil, ""
	}
	unsaid := said.Unsaid()
	var best []target
	searched, about := 0, false
	for _, en := range slices.Backward(c.State.Entries) {
		if en.Struck() || answer.Hidden(en.Body) {
			continue
		}
		if searched++; searched > mostSearched {
			break
		}
		has := strings.Fields(strings.ToLower(en.Text))
		t := target{en: en, score: shared(said.About, has)}
		last := en == c.State.LastOf(c.Who)
		if b, size := en.Body.(event.RoomSize); size && here != nil && b.Room == here.Name && shared([]string{"side", "way", "ceiling", "height", "lid"}, said.About) > 0 {
			t.score++ // of the room at hand
		}
		_, note := en.Body.(event.Note)
		_, thing := en.Body.(event.Thing)
		own := strings.EqualFold(en.Who, c.Who)
		_, size := en.Body.(event.RoomSize)
		if t.score == 0 && (unsaid || !last && (note || !own && !(size && ofSide.MatchString(text)))) || thing && ofOther(said.About, has) {
			continue
		}
		about = about || t.score > 0
		if t.score *= 3; own {
			t.score++
		}
		if here != nil && en.Room == here.Name {
			t.score++
		}
		if note && unsaid && ofOne(text, has) || !current(c, en) || !t.reads(c.In(c.State.Room(en.Room)), said) {
			continue
		}
		t.direct = t.direct && (last || t.score > 2)
		if len(best) > 0 && t.score > best[0].score {
			best = nil
		}
		if len(best) == 0 || t.score == best[0].score {
			best = append(best, t)
		}
	}
	if len(best) == 0 || len(best) > 1 && (best[0].note != "" && best[0].score <= 3 || best[0].note == "" && unsaid) || len(best) > 8 {
		if about {
			words = text
		}
		return nil, nil, words
	}
	t := best[0] // of several notes the newest
	if t.note != "" {
		return nil, t.en, t.note
	}
	if c := c.In(c.State.Room(t.en.Room)); t.direct && len(best) == 1 {
		c.Line = grammar.Line{Entry: t.next}
		reply := Correct(c, t.en, t.next)
		return &reply, nil, ""
	}
	var choices []grammar.Choice
	for _, t := range best {
		if t.note == "" {
			choices = append(choices, Choices(c.In(c.State.Room(t.en.Room)), t.en, []grammar.Entry{t.next})...)
		}
	}
	choices = append(choices, grammar.Choice{Label: "no: keep it as a note", Lines: []grammar.Line{{Entry: record.Note{Text: text}}}})
	reply := answer.Ask(map[bool]string{false: "did you mean this?", true: "which one?"}[len(best) > 1], "", choices...)
	return &reply, nil, ""
}

var ofSide = regexp.MustCompile(`(?i)\b(?:wall|side|way|room|end)\b`)

// current reports whether an entry is the newest of what it tells.
func current(c answer.Ctx, en *site.Entry) bool {
	now := en
	switch b := en.Body.(type) {
	case event.RoomSize:
		_, now = c.State.Room(b.Room).Said()
	case event.Thing:
		if th := c.State.Room(b.Room).Thing(b.Name); th != nil {
			_, now = th.Now()
		}
	}
	return now == en
}

// ofOne reports whether a correction that does not say what was wrong may be of one of several things that words tell of:
// "make it 40 off the tv wall" after three lights.
func ofOne(right string, words []string) bool {
	return !ofAll.MatchString(right) && slices.ContainsFunc(words, func(w string) bool {
		w = strings.Trim(w, ",.;:")
		return strings.HasSuffix(w, "s") && lex.ThingOf[w] != ""
	})
}

var ofAll = regexp.MustCompile(`(?i)\b(?:all|both|each|every|they|them|those|these|they're|lights|pots|cans|outlets|plugs|boxes|vents|ducts|pipes)\b`)

// OfText is a text that is only asked about with a correction in words put into it. ok is false if that is not of it; a
// colleague's has to be said with its wrong number.
func OfText(c answer.Ctx, right, text string, colleagues bool) (words string, ok bool) {
	said, ok := relate.Slots(answer.Language(c.State, c.State.RoomOf(c.Who)), right)
	has := strings.Fields(strings.ToLower(text))
	if !ok || said.Unsaid() && (colleagues || ofOne(right, has)) || shared(said.About, has) == 0 || ofOther(said.About, has) {
		return "", false
	}
	return renoted(text, said, c.Units)
}

// InText is a text of the sender's own, of which nothing is saved yet, with the one number of a correction in each place
// where it may belong, as far as that can be read.
func InText(c answer.Ctx, right, text string) []string {
	lang := answer.Language(c.State, c.State.RoomOf(c.Who))
	said, ok := relate.Slots(lang, right)
	if !ok || len(said.Numbers) != 1 || len(said.About) > 0 && shared(said.About, strings.Fields(strings.ToLower(text))) == 0 {
		return nil
	}
	if _, corrects := relate.Slots(lang, text); corrects {
		return nil
	}
	return slices.DeleteFunc(corrected(text, said.Numbers[0], c.Units), func(words string) bool {
		_, err := c.Parse(words, false)
		_, refused := errors.AsType[*grammar.Refusal](err)
		return refused || errors.Is(err, grammar.ErrChatter)
	})
}

// shared counts the words that two texts have in common.
func shared(a, b []string) (n int) {
	for i, w := range a {
		if !slices.Contains(a[:i], w) && slices.ContainsFunc(b, func(o string) bool { return alike(w, o) }) {
			n++
		}
	}
	return n
}

// names reports whether a word is for a kind of thing or run, or for a row.
func names(w string) bool {
	return w == "row" || w == "rows" || lex.ThingOf[w] != "" || things.RunWords[w] != "" || things.RunWords[strings.TrimSuffix(w, "s")] != ""
}

// DeniesOther reports whether text says of a row or a thing that it is not so, and noted says nothing of that.
func DeniesOther(text, noted string) bool {
	return denies.MatchString(text) && ofOther(strings.Fields(strings.ToLower(text)), strings.Fields(strings.ToLower(noted)))
}

// ofOther reports whether words name a thing, a run or a row, and none that a text has.
func ofOther(words, text []string) bool {
	named := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !names(w) })
	return len(named) > 0 && shared(named, text) == 0
}

var denies = regexp.MustCompile(`(?i)\b(?:isn'?t|aren'?t|wasn'?t|not|never)\b`)

// alike reports whether two words are the same, but for the number of them or a slip in one, or of the same kind of thing.
func alike(a, b string) bool {
	b = strings.Trim(b, ",.:;!?()'\"")
	if a == b || strings.TrimSuffix(a, "s") == strings.TrimSuffix(b, "s") {
		return true
	}
	if kind := lex.ThingOf[a]; kind != "" && kind == lex.ThingOf[b] {
		return true
	}
	return len(a) > 4 && len(b) > 4 && lex.ThingOf[a] == "" && lex.ThingOf[b] == "" && grammar.Nearest(a, []string{b}) != ""
}

// reads finds what a correction makes of the entry; false if that is nothing, or may be several.
func (t *target) reads(c answer.Ctx, said relate.Said) bool {
	if note, ok := t.en.Body.(event.Note); ok {
		t.note, ok = renoted(note.Text, said, c.Units)
		return ok && (!said.Unsaid() || said.Opens && t.en == c.State.LastOf(c.Who))
	}
	next := Retyped(c, t.en)
	if next == nil {
		return false
	}
	t.direct = true
	for _, n := range said.Numbers {
		found := amended(c, next, n, said.About)
		if len(found) != 1 {
			return false
		}
		next = found[0]
		t.direct = t.direct && n.Old != ""
	}
	t.next = next
	return true
}

// amended is what one number makes of an entry.
func amended(c answer.Ctx, e grammar.Entry, n relate.Number, about []string) (all []grammar.Entry) {
	if _, room := e.(rooms.Room); room && shared([]string{"ceiling", "height", "lid", "high"}, about) > 0 {
		return highs(lengths(n.New, c.Units))
	}
	if n.Old == "" {
		_, thing := e.(record.Refix)
		if l := lengths(n.New, c.Units); thing && len(l) > 0 && slices.Contains(slices.Concat(about, n.Beside), "up") {
			return amend.Entry(e, record.Refix{Fixes: []place.Fix{{How: place.UpFrom, Said: length.Said{L: l[0]}}}}, c.Units)
		}
		if w := wallOf(c, n.Beside); w != "" {
			if l := lengths(n.New, c.Units); len(l) > 0 {
				f := place.Fix{How: place.OffWall, Wall: w, Said: length.Said{L: l[0]}}
				return amend.Entry(e, record.Refix{Fixes: []place.Fix{f}}, c.Units)
			}
		}
		old := sideSaid(e, about)
		if old == 0 {
			return nil
		}
		return swapped(c, e, lengths(n.New, c.Units), []length.Length{old}, true)
	}
	all = swapped(c, e, lengths(n.New, c.Units), lengths(n.Old, c.Units), false)
	if _, set := e.(rooms.SupportSet); set && len(all) > 1 && shared([]string{"oc", "centre", "center", "spacing", "spaced", "apart"}, about) > 0 {
		return all[:1] // its spacing comes before its first distance
	}
	return all
}

// highs are heights of a ceiling that a number may mean.
func highs(all []length.Length) (out []grammar.Entry) {
	for _, l := range all {
		if l > 5*length.Foot && l < 20*length.Foot {
			out = append(out, boards.High{L: length.Said{L: l}})
		}
	}
	return out
}

// swapped tries what two numbers may be: "20'4 not 20" is of feet, whatever 20 is by itself.
func swapped(c answer.Ctx, e grammar.Entry, anew, old []length.Length, known bool) (all []grammar.Entry) {
	scales := []length.Length{1, 12}
	if c.Units == length.Metric {
		scales = []length.Length{1, 10, 1000}
	}
	for _, was := range old {
		for _, k := range scales {
			for _, is := range anew {
				for _, j := range scales {
					if known && k > 1 || !near(is*j, was*k) {
						continue
					}
					all = append(all, amend.Swapped(e, record.Swap{New: length.Said{L: is * j}, Old: length.Said{L: was * k}}, c.Units)...)
				}
			}
		}
		if len(all) > 0 {
			break
		}
	}
	return slices.CompactFunc(all, func(a, b grammar.Entry) bool { return a.String() == b.String() })
}

// near reports whether one length may have been misread as the other: by less than half of it.
func near(a, b length.Length) bool { return 2*a > b && 2*b > a && a != b }

// lengths are what a number as typed may be.
func lengths(said string, u length.Units) (all []length.Length) {
	found, n, _ := measure.Scan(said, u, measure.One)
	if n < len(said) {
		return nil
	}
	return say.Each(found, func(r measure.Reading) length.Length { return r.L })
}

// wallOf is the wall that words beside a number name.
func wallOf(c answer.Ctx, beside []string) place.Wall {
	lang := answer.Language(c.State, c.Room)
	for _, w := range beside {
		if wall := relate.WallSaid(lang, w); wall != "" {
			return wall
		}
		for name, wall := range lang.Walls {
			if alike(w, name) {
				return wall
			}
		}
	}
	return ""
}

// sideSaid is the side of a room that words mean: the short or the long one, or its height.
func sideSaid(e grammar.Entry, about []string) length.Length {
	r, ok := e.(rooms.Room)
	if !ok {
		return 0
	}
	for _, w := range about {
		switch w {
		case "short", "shorter", "narrow", "width", "wide":
			return min(r.EW.L, r.NS.L)
		case "long", "longer", "length":
			return max(r.EW.L, r.NS.L)
		}
	}
	return 0
}

// renoted is a note with numbers put right. ok is false if one is not found, or may be several.
func renoted(text string, said relate.Said, u length.Units) (string, bool) {
	for _, n := range said.Numbers {
		found := corrected(text, n, u)
		if len(found) != 1 {
			return "", false
		}
		text = found[0]
	}
	return text, true
}

// corrected is a text with the number put right that is said to be wrong, else with one that has the same words beside
// it; with each one that may have been misread, if no word is beside the new one.
func corrected(text string, n relate.Number, u length.Units) (all []string) {
	words, most, beside := strings.Fields(text), 1, telling(n.Beside)
	anew := lengths(n.New, u)
	for i := 0; i < len(words); i++ {
		was, end := numberAt(words, i, u)
		if end == i {
			continue
		}
		score := shared(beside, besideNote(words, end))
		switch mayBe := func(is length.Length) bool {
			return slices.ContainsFunc(was, func(was length.Length) bool { return near(is, was) })
		}; {
		case n.Old != "" && slices.ContainsFunc(lengths(n.Old, u), func(old length.Length) bool { return slices.Contains(was, old) }):
			score += 4 // it is what is said to be wrong
		case n.Old != "" || !slices.ContainsFunc(anew, mayBe):
			score = 0 // nobody misreads a foot as fourteen
		case len(beside) == 0:
			score = 1
		}
		if score > most {
			most, all = score, nil
		}
		if score == most {
			tail := words[end-1][len(strings.TrimRight(words[end-1], ",.;:")):]
			all = append(all, strings.Join(slices.Concat(words[:i], []string{n.New + tail}, words[end:]), " "))
		}
		i = end - 1
	}
	return all
}

// telling are the words beside a number that tell it from others: not that it is off a wall, but off which.
func telling(beside []string) []string {
	return slices.DeleteFunc(slices.Clone(beside), func(w string) bool { return lex.Filler[w] || w == "off" || w == "from" })
}

// numberAt reads the number that begins at a word, and where it ends: at the word itself if there is none.
func numberAt(words []string, i int, u length.Units) (all []length.Length, end int) {
	for n := min(4, len(words)-i); n > 0; n-- {
		if last := words[i+n-1]; n > 1 && (last == "to" || last == "for") { // "84 to the bottom" is no 82
			continue
		}
		if all = lengths(strings.Trim(strings.Join(words[i:i+n], " "), ",.:;"), u); len(all) > 0 {
			return all, i + n
		}
	}
	return nil, i
}

// besideNote are the words behind a number in a note, to the next sign or number.
func besideNote(words []string, from int) (all []string) {
	if from > 0 && strings.ContainsAny(words[from-1][len(words[from-1])-1:], ",.;") {
		return nil
	}
	for _, w := range words[from:min(from+5, len(words))] {
		if w[0] >= '0' && w[0] <= '9' {
			break
		}
		all = append(all, strings.ToLower(w))
		if strings.ContainsAny(w[len(w)-1:], ",.;") {
			break
		}
	}
	return all
}
