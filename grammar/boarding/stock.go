package boarding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// boards is a number of boards of a kind.
type boards struct {
	N                 int // 0 if no number was said
	long, thick, kind string
	of                bool // some of those that were spoken of: "one of the tens", "two of them"
}

func (b boards) String() string {
	text := strconv.Itoa(max(b.N, 1)) + " x " + b.long
	if b.long == "" {
		text = "boards " + strconv.Itoa(max(b.N, 1))
	}
	return text + b.ofKind()
}

// ofKind is which boards they are: " of 5/8 type x".
func (b boards) ofKind() string {
	kind := b.thick
	if b.kind != "" {
		kind = strings.TrimSpace(kind + " type " + b.kind)
	}
	return strings.TrimSuffix(" of "+kind, " of ")
}

func list(all []boards) string {
	text := ""
	for _, b := range all {
		text += ", " + b.String()
	}
	return strings.TrimPrefix(text, ", ")
}

// boards takes the boards of the line, each with what is said of it: "20 sheets of 12 footers 5/8", "24 half
// inch 12s, 8 five eighths 8s".
func (l *line) boards() (all []boards) {
	var now, ahead boards // ahead is what was said of all that come behind it: "green board came, 6 8s"
	var took, tookAhead []int
	named := false // a word for boards was said
	end := func() {
		last := len(all) - 1
		every := len(took) > 0 && (l.At(took[0]-1).Is(said.Every) || l.At(took[0]-1).Is(said.Sep) && now.long == "" && now.ofKind() != "")
		switch {
		case now.N == 0 && last >= 0 && every && !slices.ContainsFunc(all, now.differs): // "all half inch", "all twelves", ", half inch"
			for i, b := range all {
				all[i].long, all[i].thick, all[i].kind = b.long+now.long, b.thick+now.thick, b.kind+now.kind
			}
			took = append(took, took[0]-1)
		case now.N > 0 && now.of && now.long == "" && last >= 0 && all[last].N == 0: // "4x12s, got 10 of em"
			all[last].N = now.N
		case now.N == 0 && now.long != "" && last >= 0 && all[last].long == "": // "16 of em, 4x12"
			all[last].long = now.long
		case now.N > 0 && (named || now.of && now.ofKind() != ""), now.long != "":
			if !ahead.differs(now) {
				now.thick, now.kind = now.thick+ahead.thick, now.kind+ahead.kind
				took = append(took, tookAhead...)
			}
			all = append(all, now)
		default:
			if last < 0 && now.N == 0 && now.ofKind() != "" {
				ahead, tookAhead = now, took
			}
			took = nil
		}
		for _, i := range took {
			l.Words[i].Used = true
		}
		now, took, named = boards{}, nil, false
	}
	for i, w := range l.Words {
		next := l.At(i + 1)
		switch {
		case w.Used:
			end()
			continue
		case w.Is(said.Count) && w.N > 0 && !w.Is(said.Small) || w.Text == "one" || w.Text == "a" && next.Is(said.Long|said.Noun|said.Kind|said.Thick):
			if now.N > 0 && (now.long != "" || named) || len(all) > 0 && now.N == 0 && now.long == "" && now.ofKind() != "" && l.At(i-1).Is(said.Sep) {
				end()
			}
			if now.N > 0 || now.long != "" && !l.Metric {
				end()
				continue
			}
			now.N = max(w.N, 1) // also "12' x 9"
		case cut(w) != nil && l.Any(said.Came|said.Source), w.Is(said.Long):
			if now.long != "" {
				end()
			}
			if m := cut(w); m != nil && l.Any(said.Came|said.Source) {
				now.long, now.thick = m[1]+"'", m[2]
			} else {
				now.long = w.Value
			}
		case w.Is(said.Thick) && now.thick == "":
			now.thick = w.Value
		case w.Is(said.Kind) && (now.kind == "" || now.kind == w.Value):
			now.kind, named = w.Value, named || w.Many
		case w.Is(said.Noun), w.Is(said.Last) && now.N == 0:
			named = named || w.Is(said.Noun)
		case w.Is(said.Every) && now.N == 0, w.Is(said.Sep) && now.N == 0 && now.long == "" && now.ofKind() != "": // "half inch, 4x12s"
			continue
		case ofBoards[w.Text]:
			now.of = now.of || w.Text == "the" && now.N > 0
		case w.Is(said.Them) && now.N > 0:
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
var ofBoards = lex.Set("x", "of", "at", "the", "full", "in", "more", "new", "resistant")

// cut returns the length and the thickness of boards in one number: "12' 1/2".
func cut(w said.Word) []string { return lengthAndThickness.FindStringSubmatch(w.Value) }

var lengthAndThickness = regexp.MustCompile(`^(8|9|10|12|14|16)['’] (1/2|5/8|3/8)["”]?$`)

// arrived is boards that were delivered.
func (l *line) arrived() []string {
	all := l.boards()
	ordered := l.Has("ordered") && !l.Any(said.Later)
	verb := ordered || l.Any(said.Came|said.Source)
	if i := l.Find(said.Count); len(all) == 0 && l.of != nil && l.of.Any(said.Source|said.Noun|said.Long) && l.Any(said.Came) && i >= 0 && l.Words[i].N > 1 { // "12 came, the rest friday"
		all, l.Words[i].Used = []boards{{N: l.Words[i].N}}, true
	}
	if len(all) == 0 || l.Any(said.Due) && !ordered || l.Any(said.Later) && !l.Any(said.Came) || l.At(0).Text == "have" || l.Any(said.Row|said.On|said.Spoilt) || l.Strictly(said.IsUp) || !verb && !l.got() && !l.Any(said.Noun) && !l.Any(said.Kind|said.Thick) || l.Any(said.Used|said.Recounted|said.Last|said.None) || l.Any(said.Left) && !l.Any(said.Source) && !(l.Has("got") && l.Has("upstairs", "downstairs", "outside")) {
		return nil
	}
	ofThem := slices.ContainsFunc(all, func(b boards) bool { return b.of && b.long+b.ofKind() == "" }) // of those that were spoken of
	if l.letFall(all) || ofThem || l.Find(said.Only) >= 0 && l.Words[l.Find(said.Only)].Text == "only" {
		return nil
	}
	l.Use(said.Came | said.Noun | said.Source)
	if l.Takes(whoBrought, 0); verb {
		l.unloaded()
	}
	l.Doubt = l.Strictly(said.Planned) || l.Has("on the truck") || l.Any(said.Planned) && !l.Any(said.Came)
	if l.Any(said.Source) {
		l.Use(said.Left | said.Only)
	}
	if l.Any(said.Stuff) { // it stays with the entry
		l.Each(said.Form{said.Count | said.Size | said.Thick, said.Stuff}, func([]int) bool { return true })
		l.Use(said.Stuff)
	}
	if l.Numbers() || l.Denies() || slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Kind) && !w.Used }) {
		return nil
	}
	for _, b := range all {
		if b.N == 0 || b.long == "" && (!verb && b.kind == "" || len(all) > 1 && b.ofKind() == "") {
			return nil
		}
	}
	if l.Has("have") && !verb && !l.Has("more") && !strings.Contains(l.Text, "footer") {
		return []string{"stock " + list(all)}
	}
	if !verb && !l.Any(said.Another) && !l.Has("more", "also", "plus") {
		return []string{"delivered " + list(all), "stock " + list(all)}
	}
	l.Use(said.Another)
	if ordered {
		l.Takes(whoBrought, said.Due)
		return []string{"ordered " + list(all)}
	}
	return []string{"delivered " + list(all)}
}

// told is boards that are still to come, "truck brings 14 more friday", and what came beside boards. Both are kept as they
// were said.
func (l *line) told() []string {
	came := slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Came) && !w.Is(said.Due) })
	switch {
	case l.Any(said.Row | said.On | said.Thing), l.Strictly(said.IsUp), l.Has("ordered") && l.Any(said.Count) && !l.Any(said.Later):
		return nil
	case l.Any(said.Stuff) && l.Any(said.Came):
		for i, w := range l.Words {
			if w.Is(said.Noun) || w.Is(said.Long) && !l.At(i+1).Is(said.Stuff) {
				return nil
			}
		}
	case !l.Any(said.Due|said.Later) || l.Any(said.Used|said.Spoilt|said.CutOut|said.Stuff|said.Left|said.Seam) || !l.Any(said.Count|said.Noun|said.Long|said.Rest),
		!l.Any(said.Noun|said.Long|said.Source) && !(l.Any(said.Due|said.Came) && l.Any(said.Rest) || (l.Any(said.Short) || l.Has("other", "more")) && l.Any(said.Due)),
		l.Any(said.Later|said.Sep) && came: // what came is read by itself
		return nil
	default:
		l.Room = ""
	}
	l.Use(^said.Class(0))
	return []string{"note " + l.Text}
}

// letFall reports whether a single board was dropped, which is none that came.
func (l *line) letFall(all []boards) bool {
	return len(all) == 1 && (all[0].N < 2 || l.Has("off", "both") || l.Any(said.Broken)) && l.Has("dropped") && !l.Any(said.Source)
}

// got reports whether boards are simply there: "got 18 twelves".
func (l *line) got() bool {
	return l.Has("got", "we've", "weve") || l.Has("have") && l.At(0).Text != "have"
}

// recount is a delivery that was not as said: "only 21 came", "they shorted us 2", "18 not 20", "two of them
// were broken".
func (l *line) recount() []string {
	if l.Any(said.Row | said.On | said.Thing | said.Stuff | said.Due | said.Later) {
		return nil
	}
	var numbers []int
	of := "" // the boards of which it is said
	for i, w := range l.Words {
		switch {
		case w.Is(said.Count) && w.N > 0 && w.Text != "both" && (w.Text != "one" || l.At(i+1).Is(said.Them) || l.At(i+2).Is(said.Them) || l.At(i-1).Is(said.Spoilt)):
			numbers = append(numbers, i)
		case w.Is(said.Long) && of == "" && (!w.Is(said.Size) || l.Any(said.Came|said.Source|said.Noun)):
			of = " x " + w.Value
			l.Words[i].Used = true
		case w.Is(said.Size | said.Thick | said.Long):
			return nil
		}
	}
	if len(numbers) == 0 {
		return nil
	}
	if l.At(0).Text == "no" {
		l.Words[0].Used = true
	}
	first := l.Words[numbers[0]]
	negates := -1
	for i, w := range l.Words {
		if w.Text == "not" || w.Text == "instead" {
			negates = i
		}
	}
	take := func(c said.Class) {
		l.Use(c)
		for _, i := range numbers {
			l.Words[i].Used = true
		}
	}
	switch {
	case l.Any(said.Recounted): // "i see only 7 here"
		if take(said.Recounted | said.Only | said.Noun); len(numbers) > 1 || of != "" || !l.Any(said.Noun|said.Only) && !l.Has("here") {
			return nil
		}
		l.Doubt = true
		return l.unless("down to boards " + strconv.Itoa(first.N))
	case !l.Has("only") && (l.Any(said.Short) && l.Any(said.Came|said.Source|said.Them|said.Noun|said.Long) || l.Has("shorted")): // "short, only 9 came" is not short by 9
		if len(numbers) != 1 || l.Any(said.Left) {
			return nil
		}
		take(said.Short | said.Came | said.Source | said.Noun | said.Them)
		l.Takes(whoBrought, 0)
		return l.unless("delivery short " + strconv.Itoa(first.N) + of)
	case l.Any(said.Spoilt) && len(numbers) == 1 && of == "" && (l.Any(said.Them) || l.Any(said.Broken) && !l.Any(said.Noun|said.Source) && first.N < 20):
		take(said.Them | said.Spoilt | said.Came | said.Noun)
		l.Takes(spoiling, said.On|said.IsUp|said.Stuff|said.Every)
		l.Doubt = !l.Any(said.Them)
		return l.unless("delivery lost " + strconv.Itoa(first.N))
	case negates >= 0 && len(numbers) == 2 && (l.Any(said.Came|said.Source|said.Noun) || of != ""):
		right, wrong := first, l.Words[numbers[1]]
		if numbers[0] == negates+1 {
			right, wrong = wrong, right
		}
		l.Words[negates].Used = true
		take(said.Came | said.Source | said.Noun | said.Only | said.Them)
		l.Takes(whoBrought, 0)
		return l.unless("delivery was " + strconv.Itoa(right.N) + of + " not " + strconv.Itoa(wrong.N))
	case l.Has("only") && len(numbers) == 1 && (l.Any(said.Came) && l.At(numbers[0]+1).Is(said.Came|said.Noun|said.Long|said.Them) || l.Any(said.Source) && (l.At(numbers[0]+1).Text == "" || l.At(numbers[0]+1).Is(said.Noun|said.Long))):
		take(said.Only | said.Came | said.Noun | said.Them)
		if of != "" {
			l.Use(said.Source)
		}
		l.Takes(whoBrought, 0)
		return l.unless("delivery was " + strconv.Itoa(first.N) + of)
	}
	return nil
}

// unloaded takes where boards were put: "at the back door".
func (l *line) unloaded() {
	l.Clauses(func(from, to int) {
		at := slices.IndexFunc(l.Words[from:to], func(w said.Word) bool { return w.Is(said.Along) || w.Text == "in" || w.Text == "on" })
		if at < 0 || l.Part(said.Count|said.Size|said.Long|said.Thick|said.Kind|said.Denied, from+at, to) {
			return
		}
		for i := from + at; i < to; i++ {
			l.Words[i].Used = true
		}
	})
}

// whoBrought are words about who brought boards.
var whoBrought = lex.Set("they", "us", "he", "it", "actually", "really", "left", "gave", "me", "sorry")

// unless returns a text if nothing of the line denies it.
func (l *line) unless(text string) []string {
	if l.Denies() || l.Numbers() {
		return nil
	}
	return []string{text}
}

// gone is boards that were used or spoiled, and what is left of those of one length.
func (l *line) gone() []string {
	if l.Any(said.Row|said.Thing|said.Stuff) && !l.Any(said.Spoilt) || l.Any(said.On) && l.Any(said.Used) && !l.Any(said.Spoilt|said.Left) && (l.Any(said.Done) || l.Strictly(said.IsUp)) || l.Strictly(said.IsUp) && !l.Any(said.Spoilt|said.Used|said.Left|said.Recounted) {
		return nil
	}
	all := l.boards()
	if len(all) == 0 || l.Has("window", "door", "behind", "van") || all[0].long+all[0].ofKind() == "" && !l.Any(said.Spoilt|said.Used) {
		return nil
	}
	counted, lost := all[0].N > 0 && all[0].long+all[0].ofKind() != "", l.Any(said.Used|said.Spoilt)
	switch {
	case counted && (l.Any(said.Recounted) || l.Any(said.Left) && !lost && !l.Any(said.Came) || l.Has("only") && l.got() && !lost && !l.Any(said.Came|said.Source)):
		l.Doubt = !l.Any(said.Recounted) && !(l.Any(said.Left) && l.Has("only", "down to"))
		l.Use(said.Recounted | said.Left | said.Only | said.Still)
		l.Each(said.Form{said.Denied, said.Count}, func(at []int) bool { return l.Words[at[0]].Text == "not" })
		if l.Has("on hand") {
			l.Doubt = false
			return l.unless("stock " + list(all))
		}
		return l.unless("down to " + list(all))
	case all[0].long == "" && (all[0].N == 0 || l.Any(said.None)):
		return nil
	case l.Any(said.None) || l.Any(said.Left) && len(all) == 1 && (l.Has("no") || strings.HasPrefix(lex.Lower(l.Text), "no ")):
		l.Each(said.Form{said.Denied}, func(at []int) bool { return l.Words[at[0]].Text == "no" })
		l.Use(said.None | said.Left)
		return l.unless("down to 0 x " + all[0].long)
	case !lost && l.letFall(all):
		l.Doubt = true // it may be whole
	case !lost && !(l.Any(said.Last) && l.Has("that", "was", "thats", "that's")):
		return nil
	}
	final := l.Any(said.Last) && all[0].N < 2 || l.Any(said.Used) && l.Any(said.Every) && all[0].N == 0 // "used all the eights"
	final = final && len(all) == 1 && all[0].long != ""
	l.Use(said.Used | said.Spoilt | said.Came | said.Last | said.Sofar | said.Noun | said.Them | said.On | said.Piece)
	if l.Any(said.Spoilt) {
		l.Takes(spoiling, said.On|said.IsUp|said.Stuff|said.Every)
	}
	if final {
		l.Use(said.Every)
		return l.unless("down to 0 x " + all[0].long)
	}
	return l.unless("used " + list(all))
}

// spoiling are words about how boards were spoiled, and that they are of no use.
var spoiling = lex.Set(strings.Fields(`corner corners stairs getting it em cant can't its that's use carrying moving up on off the cut wrong half truck in and so one ones`)...)

// upFirst matches a surface that is up, and then what it took: "hall up, 3 twelves".
var upFirst = regexp.MustCompile(`(?i)^\D*\b(?:up|done|hung|closed|boarded)[.,;] `)
