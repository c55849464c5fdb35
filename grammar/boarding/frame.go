package boarding

// form is words that stand side by side, each by its class. Small words between them do not count.
type form []class

// maybe marks a word of a form that may be missing.
const maybe class = 1 << 63

// each calls into with the places of the words of each match, -1 for one that is missing, and takes those
// words if it returns true.
func (l *line) each(f form, into func([]int) bool) {
	for i := range l.words {
		at := l.match(f, i, true)
		if at == nil || !into(at) {
			continue
		}
		for _, k := range at {
			if k >= 0 {
				l.words[k].used = true
			}
		}
	}
}

// match returns the places of the words of a form that begins at word i, nil if it does not.
func (l *line) match(f form, i int, first bool) []int {
	if len(f) == 0 {
		return []int{}
	}
	for k := i; k < len(l.words); k++ {
		if w := l.words[k]; !w.used && w.is(f[0]&^maybe) {
			if rest := l.match(f[1:], k+1, false); rest != nil {
				return append([]int{k}, rest...)
			}
		} else if first || w.used || !w.is(small) {
			break
		}
	}
	if f[0]&maybe != 0 {
		if rest := l.match(f[1:], i, first); rest != nil {
			return append([]int{-1}, rest...)
		}
	}
	return nil
}

// clauses calls each with the parts of the line between separators.
func (l *line) clauses(each func(from, to int)) {
	from := 0
	for i := 0; i <= len(l.words); i++ {
		if i == len(l.words) || l.words[i].is(sep) {
			if each(from, i); i < len(l.words) {
				from = i + 1
			}
		}
	}
}

// part reports whether a word of one of the classes is among those from one place up to another.
func (l *line) part(c class, from, to int) bool {
	for _, w := range l.words[from:to] {
		if w.is(c) {
			return true
		}
	}
	return false
}
