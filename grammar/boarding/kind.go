package boarding

import (
	"cmp"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// kind is the board of a surface, of a room or of the job: "lid is five eighths", "green board on the north
// wall", "den is all type x".
func (l *line) kind() []string {
	if l.Elsewhere || l.Strictly(said.Row|said.Thing|said.Came|said.Used|said.Spoilt|said.CutOut|said.Seam) || !l.Any(said.Thick|said.Kind) && !(l.Any(said.Noun) && l.Any(said.Long)) || l.Has("gapped", "corner", "seam", "joint", "hour", "hr", "min", "minute", "off", "gap", "rip", "rated", "every") || l.Has("fire rated") && !l.Any(said.Noun|said.Thick) {
		return nil
	}
	if i := l.Find(said.Long); i > 0 && supports[l.At(i-1).Text] { // 16s are a spacing
		return nil
	}
	if i := l.Find(said.But); i >= 0 && !l.Words[i].Is(said.Small) { // "half inch everywhere but the ceiling"
		if !l.Any(said.House|said.Every) || l.At(len(l.Words)-1).Value != string(place.Ceiling) {
			return nil
		}
		l.Words = append(l.Words[:i:i], said.Word{Class: said.On, Value: "walls", Text: l.Words[i].Text})
	}
	var texts []string
	from := 0
	for i := 0; i <= len(l.Words); i++ {
		next := i + 1 // the next separator
		for next < len(l.Words) && !l.Words[next].Is(said.Sep) {
			next++
		}
		another := i < len(l.Words) && l.Words[i].Is(said.Sep) && l.Part(said.Thick|said.Kind, from, i) && l.Part(said.On|said.House, from, i) && l.Part(said.Thick|said.Kind, i, next)
		if !another && i < len(l.Words) {
			continue
		}
		text, ok := l.boardOf(from, i)
		if !ok {
			return nil
		}
		if from = i; text != "" {
			texts = append(texts, text)
		}
	}
	if len(texts) == 0 || l.Denies() || l.Numbers() {
		return nil
	}
	slices.SortStableFunc(texts, func(a, b string) int { // "half inch everywhere else": what is said of a surface comes after that
		return cmp.Compare(strings.Index(b, " throughout"), strings.Index(a, " throughout"))
	})
	return l.eachWall([]string{strings.Join(texts, "\n")})
}

var supports = lex.Set("strap", "straps", "strapping", "strapped", "joist", "joists", "stud", "studs", "battens", "battened", "rafters", "trusses")

// eachWall returns a text for each wall if it is asked which one is meant.
func (l *line) eachWall(texts []string) (each []string) {
	if l.Why == "" || len(texts) == 0 {
		return texts
	}
	for _, w := range place.Walls {
		text := strings.ReplaceAll(texts[0], "?", string(w))
		if l.wall != "" {
			text = string(w) + " is " + l.wall + " wall\n" + text
		}
		each = append(each, text)
	}
	return each
}

// boardOf takes the board and the surface of the words from one place up to another. ok is false if they say two
// things of one.
func (l *line) boardOf(from, to int) (text string, ok bool) {
	var thickness, kindOf, wide string
	var where, lengths []string
	named, fit, bare, whole := l.Part(said.Noun, from, to), false, false, l.Part(said.House, from, to)
	if !named && l.Any(said.Thing) { // the half is one of its distance
		return "", false
	}
	for i := from; i < to; i++ {
		w := &l.Words[i]
		switch {
		case w.Is(said.Thick | said.Kind):
			of := &thickness
			if w.Is(said.Kind) {
				of = &kindOf
			}
			if *of != "" && *of != w.Value {
				return "", false
			}
			*of = w.Value
		case w.Is(said.On):
			if where = append(where, w.Value); w.Value == "?" && (to-from != len(l.Words) || !l.asksWall(i)) {
				return "", false
			}
		case w.Is(said.Long):
			lengths, bare = append(lengths, strings.TrimSuffix(w.Value, "'")), bare || w.Many || w.Wide != "" // "8s", "4x8"
			if w.Wide != "" {
				wide = " x " + w.Wide
			}
		case w.Is(said.Size|said.Count) && l.At(i+1).Text == "wide" && thickness != "" && wide == "":
			wide, l.Words[i+1].Used = " x "+w.Value, true
		case w.Text == "wide" && w.Used:
		case w.Is(said.IsUp) && !w.Is(said.Fits|said.Small|said.Noun|said.House), w.Is(said.Size|said.Count) && !w.Is(said.Small):
			return "", false
		case w.Is(said.Fits) && w.Text != "is" && w.Text != "on" && w.Text != "in":
			fit = true
		case !w.Is(said.Every | said.Small | said.Sep | said.Fits | said.Noun | said.House):
			continue
		}
		w.Used = true
	}
	board := strings.TrimSuffix("board "+thickness, " ")
	if board += wide; len(lengths) > 0 {
		board += " lengths " + strings.Join(lengths, " ")
	}
	if len(lengths)+len(wide) > 0 && (len(where) > 0 || whole) {
		return "", false
	}
	if kindOf != "" {
		board += " type " + kindOf
	}
	switch {
	case len(where) == 0 && (l.Room != "" || whole):
		return board + " throughout", true
	case len(where) == 0:
		l.Doubt = l.Doubt || !named && !fit || thickness == "" && lengths == nil
		return board, (named || fit || kindOf != "" || bare) && thickness != "" || named && (kindOf != "" || l.Part(said.Fits, from, to) && len(lengths) > 0)
	}
	for i, on := range where {
		if on != "walls" && on != string(place.Ceiling) {
			on += " wall"
		}
		where[i] = board + " on " + on
	}
	return strings.Join(where, "\n"), true
}

// seams is an edge that is open or a gap that the finisher has to fill: it goes on the list of things to mend.
func (l *line) seams() []string {
	open, fill := l.Any(said.Parted), l.Has("prefill", "prefilled", "pre-fill", "prefilling")
	switch {
	case len(l.Words) < 3, l.Sentences(), l.Any(said.Came), l.Strictly(said.IsUp), l.Any(said.Row) && l.Any(said.IsUp) && l.Any(said.Sep), !l.Any(said.Seam | said.Noun | said.On | said.Row | said.Taper):
		return nil
	case l.Has("filled", "prefilled") && !open && !l.Any(said.Denied): // mended
		return nil
	case (l.Any(said.Done) || l.Strictly(said.CutOut)) && !open, l.Has("coat", "coats", "taped", "rip") && !open:
		return nil
	case !(l.Any(said.Seam) && (open || l.Any(said.Taper))) && !fill && !(l.Has("finisher", "taper", "finishers", "tapers", "mudder") && l.Has("fill", "filling", "prefill", "mud", "tape")) && !(l.Apart() && l.Any(said.Seam|said.Noun|said.On|said.Row)):
		return nil
	}
	l.Use(^said.Class(0))
	return []string{"snag " + l.Text}
}
