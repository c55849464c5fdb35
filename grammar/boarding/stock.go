package boarding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
)

// boards is a number of boards of a kind.
type boards struct {
	n                 int // 0 if no number was said
	long, thick, kind string
	of                bool // some of those that were spoken of: "one of the tens", "two of them"
}

func (b boards) String() string {
	text := strconv.Itoa(max(b.n, 1)) + " x " + b.long
	if b.long == "" {
		text = "boards " + strconv.Itoa(max(b.n, 1))
	}
	if b.thick+b.kind != "" {
		text += " of"
	}
	if b.thick != "" {
		text += " " + b.thick
	}
	if b.kind != "" {
		text += " type " + b.kind
	}
	return text
}

func list(all []boards) string {
	texts := make([]string, len(all))
	for i, b := range all {
		texts[i] = b.String()
	}
	return strings.Join(texts, ", ")
}

// boards takes the boards of the line, each with what is said of it: "20 sheets of 12 footers 5/8", "24 half
// inch 12s, 8 five eighths 8s".
func (l *line) boards() (all []boards) {
	var now boards
	var took []int
	named := false // a word for boards was said
	end := func() {
		last := len(all) - 1
		switch every := len(took) > 0 && l.at(took[0]-1).is(every); {
		case now.n == 0 && last >= 0 && every && !slices.ContainsFunc(all, now.differs): // "all half inch", "all twelves"
			for i, b := range all {
				all[i].long, all[i].thick, all[i].kind = b.long+now.long, b.thick+now.thick, b.kind+now.kind
			}
			took = append(took, took[0]-1)
		case now.n > 0 && now.of && now.long == "" && last >= 0 && all[last].n == 0: // "4x12s, got 10 of em"
			all[last].n = now.n
		case now.n > 0 && named && now.long == "" || now.long != "":
			all = append(all, now)
		default:
			took = nil
		}
		for _, i := range took {
			l.words[i].used = true
		}
		now, took, named = boards{}, nil, false
	}
	for i, w := range l.words {
		next := l.at(i + 1)
		switch {
		case w.used:
			end()
			continue
		case w.is(count) && w.n > 0 && !w.is(small) || w.text == "one" || w.text == "a" && next.is(long|noun|kind|thick):
			if now.n > 0 && (now.long != "" || named) {
				end()
			}
			if now.n > 0 || now.long != "" && !l.metric {
				end()
				continue
			}
			now.n = max(w.n, 1) // also "12' x 9"
		case cut(w) != nil && l.any(came|source), w.is(long):
			if now.long != "" {
				end()
			}
			if m := cut(w); m != nil && l.any(came|source) {
				now.long, now.thick = m[1]+"'", m[2]
			} else if w.plain && w.is(size) && l.metric && now.n == 0 && !l.any(came|used|spoilt) {
				continue
			} else {
				now.long = w.value
			}
		case w.is(thick) && now.thick == "":
			now.thick = w.value
		case w.is(count|size) && l.metric && now.long != "" && metricThick[w.value]: // "15 x 3000 x 12.5"
			now.thick = w.value + "mm"
		case w.is(kind) && (now.kind == "" || now.kind == w.value):
			now.kind = w.value
		case w.is(noun), w.is(last) && now.n == 0:
			named = named || w.is(noun)
		case w.is(every) && now.n == 0, w.is(sep) && now.n == 0 && now.long == "" && now.thick+now.kind != "": // "half inch, 4x12s"
			continue
		case ofBoards[w.text]:
			now.of = now.of || w.text == "the" && now.n > 0
		case w.is(them) && now.n > 0:
			now.of, named = true, true
		default:
			end()
			continue
		}
		took = append(took, i)
	}
	end()
	return all
}

// differs reports whether the boards cannot be those of b.
func (now boards) differs(b boards) bool {
	return now.long != "" && b.long != "" || now.thick != "" && b.thick != "" || now.kind != "" && b.kind != ""
}

// ofBoards are the words between a count of boards and what boards they are.
var ofBoards = lex.Set("x", "of", "the", "full", "in", "more", "new", "resistant")

var metricThick = map[string]bool{"9.5": true, "10": true, "12.5": true, "12": true, "13": true, "15": true, "16": true}

// cut returns the length and the thickness of boards in one number: "12' 1/2".
func cut(w word) []string { return lengthAndThickness.FindStringSubmatch(w.value) }

var lengthAndThickness = regexp.MustCompile(`^(8|9|10|12|14|16)['’] (1/2|5/8|3/8)["”]?$`)

// arrived is boards that were delivered.
func (l *line) arrived() []string {
	all := l.boards()
	verb := l.any(came | source)
	if len(all) == 0 || l.at(0).text == "have" || l.any(row|on|spoilt) || l.strictly(isUp) || !verb && !l.got() && !l.any(noun) && !l.any(kind|thick) || l.any(used|recounted|last|none) || l.any(left) && !l.any(source) {
		return nil
	}
	if l.letFall(all) || ofThem(all) || l.find(only) >= 0 && l.words[l.find(only)].text == "only" {
		return nil
	}
	l.use(came | noun | source)
	l.doubt = l.strictly(planned) || l.has("on the truck") || l.any(planned) && !l.any(came)
	if l.any(source) {
		l.use(left | only)
	}
	if l.any(stuff) { // it stays with the entry
		l.each(form{count | size | thick, stuff}, func([]int) bool { return true })
		l.use(stuff)
	}
	if l.numbers() || l.denies() {
		return nil
	}
	for _, b := range all {
		if b.n == 0 || b.long == "" && (!verb || len(all) > 1) {
			return nil
		}
	}
	if !verb && !l.any(another) && !l.has("more", "also", "plus") {
		return []string{"delivered " + list(all), "stock " + list(all)}
	}
	l.use(another)
	return []string{"delivered " + list(all)}
}

// letFall reports whether a single board was dropped, which is none that came.
func (l *line) letFall(all []boards) bool {
	return len(all) == 1 && all[0].n < 2 && l.has("dropped") && !l.any(source)
}

// got reports whether boards are simply there: "got 18 twelves".
func (l *line) got() bool {
	return l.has("got", "we've", "weve") || l.has("have") && l.at(0).text != "have"
}

// ofThem reports whether boards are some of those that were spoken of, of no length of their own.
func ofThem(all []boards) bool {
	return slices.ContainsFunc(all, func(b boards) bool { return b.of && b.long == "" })
}

// recount is a delivery that was not as said: "only 21 came", "they shorted us 2", "18 not 20", "two of them
// were broken".
func (l *line) recount() []string {
	if l.any(row | on | thing | stuff | recounted) {
		return nil
	}
	var numbers []int
	of := "" // the boards of which it is said
	for i, w := range l.words {
		switch {
		case w.is(count) && w.n > 0 && w.text != "both" && (w.text != "one" || l.at(i+1).is(them) || l.at(i+2).is(them) || l.at(i-1).is(spoilt)):
			numbers = append(numbers, i)
		case w.is(long) && of == "" && (!w.is(size) || l.any(came|source|noun)):
			of = " x " + w.value
			l.words[i].used = true
		case w.is(size | thick | long):
			return nil
		}
	}
	if len(numbers) == 0 {
		return nil
	}
	if l.at(0).text == "no" {
		l.words[0].used = true
	}
	first := l.words[numbers[0]]
	negates := -1
	for i, w := range l.words {
		if w.text == "not" || w.text == "instead" {
			negates = i
		}
	}
	take := func(c class) {
		l.use(c)
		for _, i := range numbers {
			l.words[i].used = true
		}
	}
	switch {
	case l.any(short) && l.any(came|source|them|noun|long) || l.has("shorted"):
		if len(numbers) != 1 || l.any(left) {
			return nil
		}
		take(short | came | source | noun | them)
		l.pronouns()
		return l.unless("delivery short " + strconv.Itoa(first.n) + of)
	case l.any(spoilt) && len(numbers) == 1 && of == "" && (l.any(them) || l.any(broken) && !l.any(noun|source) && first.n < 20):
		take(them | spoilt | came | noun)
		l.carried()
		l.doubt = !l.any(them)
		return l.unless("delivery lost " + strconv.Itoa(first.n))
	case negates >= 0 && len(numbers) == 2 && (l.any(came|source|noun) || of != ""):
		right, wrong := first, l.words[numbers[1]]
		if numbers[0] == negates+1 {
			right, wrong = wrong, right
		}
		l.words[negates].used = true
		take(came | source | noun | only | them)
		l.pronouns()
		return l.unless("delivery was " + strconv.Itoa(right.n) + of + " not " + strconv.Itoa(wrong.n))
	case l.has("only") && len(numbers) == 1 && (l.any(came) && l.at(numbers[0]+1).is(came|noun|long|them) || l.any(source) && (l.at(numbers[0]+1).text == "" || l.at(numbers[0]+1).is(noun|long))):
		take(only | came | noun | them)
		if of != "" {
			l.use(source)
		}
		l.pronouns()
		return l.unless("delivery was " + strconv.Itoa(first.n) + of)
	}
	return nil
}

// pronouns takes the words for who brought it.
func (l *line) pronouns() {
	for i, w := range l.words {
		l.words[i].used = w.used || whoBrought[w.text]
	}
}

var whoBrought = lex.Set("they", "us", "he", "it", "actually", "really", "left", "gave", "me", "sorry")

// has reports whether one of the words is in the line.
func (l *line) has(texts ...string) bool {
	return slices.ContainsFunc(l.words, func(w word) bool { return slices.Contains(texts, w.text) })
}

// unless returns a text if nothing of the line denies it.
func (l *line) unless(text string) []string {
	if l.denies() || l.numbers() {
		return nil
	}
	return []string{text}
}

// gone is boards that were used or spoiled, and what is left of those of one length.
func (l *line) gone() []string {
	if l.any(row|thing|stuff) && !l.any(spoilt) || l.strictly(isUp) && !l.any(spoilt|used|left|recounted) {
		return nil
	}
	all := l.boards()
	if len(all) == 0 || l.has("window", "door", "behind", "van") || all[0].long == "" && !l.any(spoilt) {
		return nil
	}
	counted, lost := all[0].n > 0 && all[0].long != "", l.any(used|spoilt)
	switch {
	case counted && (l.any(recounted) || l.any(left) && !lost && !l.any(came) || l.has("only") && l.got() && !lost && !l.any(came|source)):
		l.doubt = !l.any(recounted) && !(l.any(left) && l.has("only", "down to"))
		l.use(recounted | left | only | still)
		l.each(form{denied, count}, func(at []int) bool { return l.words[at[0]].text == "not" })
		return l.unless("down to " + list(all))
	case l.any(none):
		l.use(none)
		return l.unless("down to 0 x " + all[0].long)
	case !lost && l.letFall(all):
		l.doubt = true // it may be whole
	case !lost && !(l.any(last) && l.has("that", "was", "thats", "that's")):
		return nil
	}
	final := l.any(last) && all[0].n < 2 || l.any(used) && l.any(every) && all[0].n == 0 // "used all the eights"
	final = final && len(all) == 1 && all[0].long != ""
	l.use(used | spoilt | came | last | sofar | noun | them | on | piece)
	if l.any(spoilt) {
		l.carried()
	}
	if final {
		l.use(every)
		return l.unless("down to 0 x " + all[0].long)
	}
	return l.unless("used " + list(all))
}

// carried takes what is told of how boards were spoiled.
func (l *line) carried() {
	for i, w := range l.words {
		l.words[i].used = w.used || w.is(on|isUp) || spoiling[w.text]
	}
}

// spoiling are words about how boards were spoiled, and that they are of no use.
var spoiling = lex.Set(strings.Fields(`corner corners stairs getting it em cant can't its that's use carrying moving up on off the cut wrong half truck in and so one ones`)...)

// shipment is materials other than boards, which are kept as they were said.
func (l *line) shipment() []string {
	if !l.any(stuff) || !l.any(came) || l.any(noun|row|on|thing) || l.strictly(isUp) {
		return nil
	}
	for i, w := range l.words {
		if w.is(long) && !l.at(i+1).is(stuff) {
			return nil
		}
	}
	for i := range l.words {
		l.words[i].used = true
	}
	return []string{"note " + l.said}
}
