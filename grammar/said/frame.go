// Package said sorts the words of a line about boards, each by what it may tell, and finds those that stand side by
// side. What they tell is up to the frames of boarding.
package said

import (
	"slices"
	"strings"
)

// Form is words that stand side by side, each by its class. Small words between them do not count.
type Form []Class

// Maybe marks a word of a form that may be missing.
const Maybe Class = 1 << 63

// Each calls into with the places of the words of each match, -1 for one that is missing, and takes those
// words if it returns true.
func (l *Line) Each(f Form, into func([]int) bool) {
	for i := range l.Words {
		at := l.match(f, i, true)
		if at == nil || !into(at) {
			continue
		}
		for _, k := range at {
			if k >= 0 {
				l.Words[k].Used = true
			}
		}
	}
}

// match returns the places of the words of a form that begins at word i, nil if it does not.
func (l *Line) match(f Form, i int, first bool) []int {
	if len(f) == 0 {
		return []int{}
	}
	for k := i; k < len(l.Words); k++ {
		if w := l.Words[k]; !w.Used && w.Is(f[0]&^Maybe) {
			if rest := l.match(f[1:], k+1, false); rest != nil {
				return append([]int{k}, rest...)
			}
		} else if first || w.Used || !w.Is(Small) {
			break
		}
	}
	if f[0]&Maybe != 0 {
		if rest := l.match(f[1:], i, first); rest != nil {
			return append([]int{-1}, rest...)
		}
	}
	return nil
}

// Clauses calls each with the parts of the line between separators.
func (l *Line) Clauses(each func(from, to int)) {
	from := 0
	for i := 0; i <= len(l.Words); i++ {
		if i == len(l.Words) || l.Words[i].Is(Sep) {
			if each(from, i); i < len(l.Words) {
				from = i + 1
			}
		}
	}
}

// Part reports whether a word of one of the classes is among those from one place up to another.
func (l *Line) Part(c Class, from, to int) bool {
	return slices.ContainsFunc(l.Words[from:to], func(w Word) bool { return w.Is(c) })
}

// Takes marks words of a set and of some classes.
func (l *Line) Takes(words map[string]bool, c Class) {
	for i, w := range l.Words {
		l.Words[i].Used = w.Used || w.Is(c) || words[w.Text]
	}
}

// Sentences reports whether the line has several.
func (l *Line) Sentences() bool {
	i := slices.IndexFunc(l.Words, func(w Word) bool { return w.Text == "." })
	return i > 0 && i < len(l.Words)-1
}

// Apart reports whether boards do not meet, in as many words.
func (l *Line) Apart() bool {
	return slices.ContainsFunc(l.Words, func(w Word) bool {
		return w.Is(Parted) && (strings.Contains(w.Text, " ") || w.Text == "gapped")
	})
}

// Unmeasured reports whether a board was said beside measured pieces, and not how long it is: "a full sheet and a 34".
func (l *Line) Unmeasured() bool {
	i := slices.IndexFunc(l.Words, func(w Word) bool { return w.Is(Noun) })
	prev := l.At(i - 1)
	return i > 0 && (prev.Is(Count) || prev.Text == "full" || prev.Text == "a" || prev.Text == "whole")
}

// Typed returns the words as they were typed, in lower case.
func (l *Line) Typed() string {
	var b strings.Builder
	for _, w := range l.Words {
		if b.Len() > 0 && !strings.ContainsAny(w.Text, ",.;") {
			b.WriteByte(' ')
		}
		b.WriteString(w.Text)
	}
	return b.String()
}

// Mend drops what is put right in the same breath: "north slope is on, wait no I mean the flat".
func (l *Line) Mend() (mended bool) {
	for i, w := range l.Words {
		if !w.Is(Mends) {
			continue
		}
		for _, c := range []Class{On, Row, Top | Bottom, Thing} {
			if l.Part(c, i, len(l.Words)) && l.Part(c, 0, i) {
				mended = true
				for k := range l.Words[:i] {
					if l.Words[k].Is(c) {
						l.Words[k].Class = Small
					}
				}
			}
		}
		if mended {
			for k := max(i-3, 0); k <= i; k++ {
				if l.Words[k].Is(Mends) || (l.Words[k].Text == "no" || l.Words[k].Text == "not") {
					l.Words[k].Class = Small
				}
			}
		}
	}
	return mended
}
