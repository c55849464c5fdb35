package boarding

import (
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
	var part []int
	flush := func() bool {
		text, ok := l.boardOf(part)
		part = nil
		if ok && text != "" {
			texts = append(texts, text)
		}
		return ok
	}
	for i, w := range l.words {
		if w.is(sep) && len(part) > 0 && l.hasAny(part, thick|kind) && l.hasAny(part, on|house) && l.hasAnyAfter(i, thick|kind) {
			if !flush() {
				return nil
			}
			continue
		}
		part = append(part, i)
	}
	if !flush() || len(texts) == 0 || l.denies() {
		return nil
	}
	if l.numbers() {
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
	for _, w := range l.words {
		if w.is(row|thing|came|used|spoilt|cutOut|seam) && !w.is(fits|small) {
			return false
		}
	}
	return true
}

func (l *line) hasAny(part []int, c class) bool {
	for _, i := range part {
		if l.words[i].is(c) {
			return true
		}
	}
	return false
}

func (l *line) hasAnyAfter(from int, c class) bool {
	for _, w := range l.words[from:] {
		if w.is(c) {
			return true
		}
	}
	return false
}

// boardOf takes the board and the surface of a part of the line. ok is false if the part says two things of
// one.
func (l *line) boardOf(part []int) (text string, ok bool) {
	thickness, kindOf, named, fit, whole := "", "", false, false, false
	var where, lengths []string
	wide := ""
	for _, i := range part {
		w := &l.words[i]
		switch {
		case w.is(thick):
			if thickness != "" && thickness != w.value {
				return "", false
			}
			thickness = w.value
		case w.is(kind):
			if kindOf != "" && kindOf != w.value {
				return "", false
			}
			kindOf = w.value
		case w.is(on):
			where = append(where, w.value)
		case w.text == "walls":
			where = append(where, "walls")
		case w.text == "wall":
			if len(where) == 0 {
				where = append(where, "?")
			}
		case w.is(noun):
			named = true
		case w.is(house):
			whole = true
		case w.is(long):
			lengths = append(lengths, strings.TrimSuffix(w.value, "'"))
			if w.wide != "" {
				wide = " x " + w.wide
			}
		case w.is(isUp) && !w.is(fits|small), w.is(size|count) && !w.is(small):
			return "", false
		case w.is(fits) && w.text != "is" && w.text != "on" && w.text != "in":
			fit = true
		case w.is(every | small | sep | fits):
		default:
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
	case len(where) == 0 && l.room != "":
		return board + " throughout", true
	case whole && len(where) == 0:
		return board + " throughout", true
	case len(where) == 0:
		if !named && !fit || thickness == "" {
			return "", false
		}
		return board, true
	case where[0] == "?":
		if len(part) != len(l.words) {
			return "", false
		}
		l.why = "which wall is that?"
	}
	var each []string
	for _, w := range where {
		on := w
		if w != "walls" && w != string(place.Ceiling) {
			on += " wall"
		}
		each = append(each, board+" on "+on)
	}
	return strings.Join(each, "\n"), true
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
	for i, w := range l.words {
		if w.text == "." && i > 0 && i < len(l.words)-1 {
			return true
		}
	}
	return false
}

// apart reports whether boards do not meet, in as many words.
func (l *line) apart() bool {
	for _, w := range l.words {
		if w.is(parted) && (strings.Contains(w.text, " ") || w.text == "gapped") {
			return true
		}
	}
	return false
}
