// Package deliveries reads what a crew tells of boards that came, that are to come, that were used or spoiled, and of what is
// left, by the kinds of its words and not by their order.
package deliveries

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// line is a line with its words sorted, and the whole that it may be a part of.
type line struct {
	*said.Line
	of *said.Line
}

// Of fills the first frame that fits, and returns what the line may mean in canonical words; nothing if it tells nothing of
// that. of is nil if the line is no part of another.
func Of(l, of *said.Line) []string {
	for _, fill := range []func(*line) []string{(*line).recount, (*line).told, (*line).arrived, (*line).gone} {
		l.Fresh()
		if texts := fill(&line{l, of}); len(texts) > 0 {
			return texts
		}
	}
	return nil
}

// orders are words by which boards are asked for.
var orders = lex.Set("order", "reorder", "get", "grab", "buy", "pick", "need")

// mostOrdered is the largest count of boards in a request that is not taken for a size.
const mostOrdered = 400

// arrived is boards that were delivered.
func (l *line) arrived() []string {
	all := l.Boards()
	asked := slices.IndexFunc(l.Words[:min(3, len(l.Words))], func(w said.Word) bool { return orders[w.Text] })
	if l.Any(said.Came) {
		asked = -1 // "the order came"
	}
	ordered := l.Has("ordered") && !(l.Any(said.Later) && l.Any(said.Came)) || asked >= 0
	verb := ordered || l.Any(said.Came|said.Source)
	if i := l.Find(said.Count); len(all) == 0 && l.of != nil && l.of.Any(said.Source|said.Noun|said.Long) && l.Any(said.Came) && i >= 0 && l.Words[i].N > 1 { // "12 came, the rest friday"
		all, l.Words[i].Used = []said.Boards{{N: l.Words[i].N}}, true
	}
	if len(all) == 0 || (l.Any(said.Due) || l.Any(said.Later) && !l.Any(said.Came)) && !ordered || l.At(0).Text == "have" || l.Any(said.Row|said.On|said.Spoilt) || l.Strictly(said.IsUp) || !verb && !l.Got() && !l.Any(said.Noun) && !l.Any(said.Kind|said.Thick) || l.Any(said.Used|said.Recounted|said.Last|said.None) || l.Any(said.Left) && !l.Any(said.Source) && !(l.Has("got") && l.Has("upstairs", "downstairs", "outside")) {
		return nil
	}
	ofThem := slices.ContainsFunc(all, func(b said.Boards) bool { return b.Of && b.Long+b.OfKind() == "" }) // of those that were spoken of
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
	if asked >= 0 { // what else is told of it stays with the entry
		for i := range asked { // "could you"
			l.Words[i].Used = true
		}
		if l.Denies() || slices.ContainsFunc(all, func(b said.Boards) bool { return b.N == 0 || b.N > mostOrdered }) {
			return nil
		}
		l.Use(^said.Class(0))
		l.Doubt = l.Words[asked].Text != "order" && l.Words[asked].Text != "reorder"
		return []string{"ordered " + said.List(all)}
	}
	if l.Any(said.Stuff) { // it stays with the entry
		l.Each(said.Form{said.Count | said.Size | said.Thick, said.Stuff}, func([]int) bool { return true })
		l.Use(said.Stuff)
	}
	if l.Numbers() || l.Denies() || slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Kind) && !w.Used }) {
		return nil
	}
	for _, b := range all {
		if b.N == 0 || b.Long == "" && (!verb && b.Kind == "" || len(all) > 1 && b.OfKind() == "") {
			return nil
		}
	}
	if l.Has("have") && !verb && !l.Has("more") && !strings.Contains(l.Text, "footer") {
		return []string{"stock " + said.List(all)}
	}
	if !verb && !l.Any(said.Another) && !l.Has("more", "also", "plus") {
		return []string{"delivered " + said.List(all), "stock " + said.List(all)}
	}
	l.Use(said.Another)
	if ordered {
		l.Takes(whoBrought, said.Due|said.Later)
		return []string{"ordered " + said.List(all)}
	}
	return []string{"delivered " + said.List(all)}
}

// told is boards that are still to come, "truck brings 14 more friday", what came beside boards, and offcuts that are
// kept. They are noted as they were said.
func (l *line) told() []string {
	came := slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Came) && !w.Is(said.Due) })
	spent := l.Find(said.Used)
	offcut := false // the first number is its size
	l.Clauses(func(from, to int) {
		if i := l.Find(said.Count | said.Size | said.Long); from <= i && i < to {
			offcut = slices.ContainsFunc(l.Words[from:to], func(w said.Word) bool { return offcuts[w.Text] }) || l.Part(said.Piece, from, to) && l.Has("saved", "kept", "stashed", "spare", "leftover", "leaned", "leaning")
		}
	})
	switch {
	case offcut && !l.Has("any") && !l.Strictly(said.IsUp) && !l.Any(said.Used|said.Denied):
	case spent >= 0 && l.At(spent+1).Is(said.Count) && l.At(spent+2).Is(said.Stuff): // "used 5 sticks of bead, 8 footers"
	case l.Any(said.Row | said.On | said.Thing), l.Strictly(said.IsUp), l.Has("ordered") && l.Any(said.Count) && !(l.Any(said.Later) && came), slices.ContainsFunc(l.Words[:min(3, len(l.Words))], func(w said.Word) bool { return orders[w.Text] }) && l.Any(said.Long):
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
	}
	l.Room = ""
	l.Use(^said.Class(0))
	return []string{"note " + l.Said}
}

var offcuts = lex.Set("offcut", "offcuts", "scraps")

// letFall reports whether a single board was dropped, which is none that came.
func (l *line) letFall(all []said.Boards) bool {
	return len(all) == 1 && (all[0].N < 2 || l.Has("off", "both") || l.Any(said.Broken)) && l.Has("dropped") && !l.Any(said.Source)
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
	came := slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.Came) && !strings.HasSuffix(w.Text, "stairs") }) // not "broke one going up the stairs"
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
	case l.Any(said.Spoilt) && len(numbers) == 1 && of == "" && (l.At(numbers[0]+1).Is(said.Them) || came || l.At(numbers[0]+1).Text == "are" && l.Any(said.Broken) && !l.Any(said.Noun|said.Source)):
		l.Doubt = !l.Any(said.Them)
		take(said.Them | said.Spoilt | said.Came | said.Noun)
		l.Takes(spoiling, said.On|said.IsUp|said.Stuff|said.Every)
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
	all := l.Boards()
	if i := l.Find(said.Spoilt); len(all) == 1 && all[0].N > 0 && i > 0 && !l.Words[i-1].Used && (l.At(i-1).Text == "one" || l.At(i-1).Is(said.Count) && l.At(i-1).N > 0) && l.Any(said.Used) {
		more := all[0] // "used 9 12s and one snapped": likely another of them
		more.N, l.Words[i-1].Used = max(l.At(i-1).N, 1), true
		all = append(all, more)
		defer func() { l.Doubt = true }()
	}
	if n := l.broken(); len(all) == 0 && n > 0 {
		l.Use(^said.Class(0))
		return []string{"used boards " + strconv.Itoa(n)}
	}
	if len(all) == 0 || l.Has("window", "door", "behind", "van") || all[0].Long+all[0].OfKind() == "" && !l.Any(said.Spoilt|said.Used) {
		return nil
	}
	counted, lost := all[0].N > 0 && all[0].Long+all[0].OfKind() != "", l.Any(said.Used|said.Spoilt)
	switch {
	case counted && !l.Has("moved", "carried", "stacked") && (l.Any(said.Recounted) || l.Any(said.Left) && !lost && !l.Any(said.Came) || l.Has("only") && l.Got() && !lost && !l.Any(said.Came|said.Source)):
		l.Doubt = !l.Any(said.Recounted) && !(l.Any(said.Left) && l.Has("only", "down to"))
		l.Use(said.Recounted | said.Left | said.Only | said.Still)
		l.Each(said.Form{said.Denied, said.Count}, func(at []int) bool { return l.Words[at[0]].Text == "not" })
		if l.Has("on hand") {
			l.Doubt = false
			return l.unless("stock " + said.List(all))
		}
		return l.unless("down to " + said.List(all))
	case all[0].Long == "" && (all[0].N == 0 || l.Any(said.None)):
		return nil
	case l.Any(said.None) || l.Any(said.Left) && len(all) == 1 && (l.Has("no") || strings.HasPrefix(lex.Lower(l.Text), "no ")):
		l.Each(said.Form{said.Denied}, func(at []int) bool { return l.Words[at[0]].Text == "no" })
		l.Use(said.None | said.Left)
		return l.unless("down to 0 x " + all[0].Long)
	case !lost && l.letFall(all):
		l.Doubt = true // it may be whole
	case !lost && !(l.Any(said.Last) && l.Has("that", "was", "thats", "that's")):
		return nil
	}
	final := l.Any(said.Last) && all[0].N < 2 || l.Any(said.Used) && l.Any(said.Every) && all[0].N == 0 // "used all the eights"
	final = final && len(all) == 1 && all[0].Long != ""
	l.Use(said.Used | said.Spoilt | said.Came | said.Last | said.Sofar | said.Noun | said.Them | said.On | said.Piece)
	if l.Any(said.Spoilt) {
		l.Takes(spoiling, said.On|said.IsUp|said.Stuff|said.Every)
	}
	if final {
		l.Use(said.Every)
		return l.unless("down to 0 x " + all[0].Long)
	}
	return l.unless("used " + said.List(all))
}

// broken returns how many boards were spoiled if only that is said beside how it was: "broke one carrying it up the stairs".
func (l *line) broken() (n int) {
	for i, w := range l.Words {
		one := w.Text == "one" || w.Is(said.Count) && w.Plain && w.N < 20
		prev, next := l.At(i-1), l.At(i+1)
		switch {
		case w.Is(said.Count) && n == 0 && one && (prev.Is(said.Spoilt) || next.Is(said.Spoilt) || next.Is(said.Small) && l.At(i+2).Is(said.Spoilt)) && (next.Text == "" || spoiling[next.Text] || next.Is(said.Small|said.Sep|said.Spoilt)):
			n = max(w.N, 1)
		case w.Is(said.Count|said.Size|said.Thing|said.Stuff|said.Row|said.Piece) || said.Negates[w.Text]:
			return 0
		}
	}
	return n
}

// spoiling are words about how boards were spoiled, and that they are of no use.
var spoiling = lex.Set(strings.Fields(`corner corners stairs getting it em cant can't its that's use carrying moving up on off the cut wrong half truck in and so one ones trying round around`)...)
