package boarding

import (
	"slices"
	"strings"

	"strapline/calc/place"
)

// kind is the board of a surface, of a room or of the job: "lid is five eighths", "green board on the north
// wall", "den is all type x".
func (l *line) kind() []string {
	if l.elsewhere || l.any(row|thing|came|used|spoilt|cutOut|seam) && !l.onlyFits() || !l.any(thick|kind) || l.has("gapped", "corner", "seam", "joint", "hour", "hr", "min", "minute", "off", "gap", "rip", "rated", "every") || l.has("fire rated") && !l.any(noun|thick) {
		return nil
	}
	if i := l.find(but); i >= 0 && !l.words[i].is(small) { // "half inch everywhere but the ceiling"
		if !l.any(house|every) || l.at(len(l.words)-1).value != string(place.Ceiling) {
			return nil
		}
		l.words = append(l.words[:i:i], word{class: on, value: "walls", text: l.words[i].text})
	}
	var texts []string
	from := 0
	for i := 0; i <= len(l.words); i++ {
		another := i < len(l.words) && l.words[i].is(sep) && l.part(thick|kind, from, i) && l.part(on|house, from, i) && l.part(thick|kind, i, len(l.words))
		if !another && i < len(l.words) {
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
	if len(texts) == 0 || l.denies() || l.numbers() {
		return nil
	}
	if l.why == "" {
		return []string{strings.Join(texts, "\n")}
	}
	var each []string
	for _, w := range place.Walls {
		each = append(each, strings.Replace(texts[0], "?", string(w), 1))
	}
	return each
}

// onlyFits reports whether the words of other frames are only small ones here.
func (l *line) onlyFits() bool {
	return !slices.ContainsFunc(l.words, func(w word) bool { return w.is(row|thing|came|used|spoilt|cutOut|seam) && !w.is(fits|small) })
}

// boardOf takes the board and the surface of the words from one place up to another. ok is false if they say two
// things of one.
func (l *line) boardOf(from, to int) (text string, ok bool) {
	var thickness, kindOf, wide string
	var where, lengths []string
	named, fit, whole := l.part(noun, from, to), false, l.part(house, from, to)
	for i := from; i < to; i++ {
		w := &l.words[i]
		switch {
		case w.is(thick | kind):
			of := &thickness
			if w.is(kind) {
				of = &kindOf
			}
			if *of != "" && *of != w.value {
				return "", false
			}
			*of = w.value
		case w.is(on):
			where = append(where, w.value)
		case w.text == "wall" && len(where) == 0:
			where = append(where, "?")
		case w.is(long):
			lengths = append(lengths, strings.TrimSuffix(w.value, "'"))
			if w.wide != "" {
				wide = " x " + w.wide
			}
		case w.is(isUp) && !w.is(fits|small|noun|house), w.is(size|count) && !w.is(small):
			return "", false
		case w.is(fits) && w.text != "is" && w.text != "on" && w.text != "in":
			fit = true
		case !w.is(every | small | sep | fits | noun | house):
			continue
		}
		w.used = true
	}
	board := strings.TrimSuffix("board "+thickness, " ")
	if len(lengths) > 0 {
		board += wide + " lengths " + strings.Join(lengths, " ")
		if len(where) > 0 || whole {
			return "", false
		}
	}
	if kindOf != "" {
		board += " type " + kindOf
	}
	switch {
	case len(where) == 0 && (l.room != "" || whole):
		return board + " throughout", true
	case len(where) == 0:
		return board, (named || fit) && thickness != ""
	case where[0] == "?" && to-from != len(l.words):
		return "", false
	case where[0] == "?":
		l.why = "which wall is that?"
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
	open, fill := l.any(parted), l.has("prefill", "prefilled", "pre-fill", "prefilling")
	switch {
	case len(l.words) < 3, l.sentences(), l.any(came), l.strictly(isUp), !l.any(seam | noun | on | row | taper):
		return nil
	case (l.any(done) || l.strictly(cutOut)) && !open, l.has("coat", "coats", "taped", "rip") && !open:
		return nil
	case !(l.any(seam) && (open || l.any(taper))) && !fill && !(l.has("finisher", "taper", "finishers", "tapers", "mudder") && l.has("fill", "filling", "prefill", "mud", "tape")) && !(l.apart() && l.any(seam|noun|on|row)):
		return nil
	case l.has("needs", "need") && !l.any(taper):
		return nil
	}
	for i := range l.words {
		l.words[i].used = true
	}
	return []string{"snag " + l.said}
}

// sentences reports whether the line has several.
func (l *line) sentences() bool {
	i := slices.IndexFunc(l.words, func(w word) bool { return w.text == "." })
	return i > 0 && i < len(l.words)-1
}

// apart reports whether boards do not meet, in as many words.
func (l *line) apart() bool {
	return slices.ContainsFunc(l.words, func(w word) bool { return w.is(parted) && (strings.Contains(w.text, " ") || w.text == "gapped") })
}
