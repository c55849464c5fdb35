package boarding

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/said"
	"strapline/grammar/speech"
)

// part is what stands between two separators, and the room that it is of.
type part struct {
	from, to int
	room     string
}

// mostParts limits the work for one line.
const mostParts = 10

// parts reads a sentence that tells of several things part by part, each with as many of those behind it as a frame
// takes. What no frame takes is kept beside them as a note.
func (l *line) parts() []speech.Guess {
	var all []part
	room := ""
	l.Clauses(func(from, to int) {
		if from == to {
			return
		}
		for _, w := range l.Words[from:to] {
			if w.Is(said.In) {
				room = w.Value
			}
		}
		all = append(all, part{from, to, room})
	})
	if len(all) < 2 || len(all) > mostParts || l.Sentences() || l.Any(said.Mends) {
		return nil
	}
	l.Why = ""
	texts, rest, open, lost := []string{""}, false, false, 0
	for i := 0; i < len(all); {
		next, said, unused := l.longest(all, i)
		switch {
		case said != nil && (len(said) > 1 && len(texts) > 1 || open):
			return nil
		case said != nil:
			var each []string
			for _, before := range texts {
				for _, text := range said {
					each = append(each, strings.TrimPrefix(before+"\n"+text, "\n"))
				}
			}
			texts, i, lost = each, next, lost+unused
			continue
		case l.changes(all[i]):
			return nil
		}
		open = open || l.leavesOpen(all[i])
		rest = rest || l.tells(all[i])
		i++
	}
	if texts[0] == "" || rest && strings.HasPrefix(texts[0], "note ") || rest && sized.MatchString(texts[0]) {
		return nil
	}
	l.Room, l.Doubt = "", true
	return l.guesses(texts, lost, rest)
}

// sized matches pieces of a row: without one of them the others are in another place.
var sized = regexp.MustCompile(`(?m)(?:^|: )hung [^r]`)

// longest reads as many parts from i on as one frame takes. It returns where the rest begins.
func (l *line) longest(all []part, i int) (next int, texts []string, lost int) {
	for k := len(all); k > i; k-- {
		if all[k-1].room != all[i].room {
			continue
		}
		of := *l.Line
		of.Words, of.Room, of.Elsewhere = slices.Clone(l.Words[all[i].from:all[k-1].to]), all[i].room, false
		of.Text = textOf(of.Words)
		of.Said = of.Text
		of.Noted = func(string) bool { return false } // it is asked about anyway
		one := &line{Line: &of, of: l}
		if texts = one.read(); len(texts) == 0 || one.Why != "" && l.Why != "" || one.Lost() > 0 {
			continue
		}
		if one.Why != "" {
			l.Why = one.Why
		}
		for n, text := range texts {
			texts[n] = grammar.InRoom(of.Room, text)
		}
		return k, texts, one.Lost()
	}
	return i, nil, 0
}

// textOf returns words as they were typed, in lower case.
func textOf(words []said.Word) string {
	var b strings.Builder
	for _, w := range words {
		if b.Len() > 0 && !strings.ContainsAny(w.Text, ",.;") {
			b.WriteByte(' ')
		}
		b.WriteString(w.Text)
	}
	return b.String()
}

// later are words that put off what is told beside them, and nothing else of the line.
var later = map[string]bool{"tomorrow": true, "tmrw": true, "later": true, "after": true, "before": true}

// tells reports whether a part says more than small words.
func (l *line) tells(p part) bool {
	return slices.ContainsFunc(l.Words[p.from:p.to], func(w said.Word) bool { return !w.Is(said.Small) && w.Text != "" })
}

// leavesOpen reports whether a part says what may be, so that what is told behind it may not be so either.
func (l *line) leavesOpen(p part) bool {
	return slices.ContainsFunc(l.Words[p.from:p.to], func(w said.Word) bool { return w.Is(said.Denied) && !said.Negates[w.Text] && !later[w.Text] })
}

// changes reports whether a part has no verb and no thing of its own, so that it may change what stands before it.
func (l *line) changes(p part) bool {
	first := l.Words[p.from]
	if first.Is(said.But) && !first.Is(said.Small) || first.Is(said.Denied) && !said.Negates[first.Text] { // "row 1 up, once it is dry"
		return true
	}
	return l.tells(p) && !slices.ContainsFunc(l.Words[p.from:p.to], func(w said.Word) bool {
		return w.Class == 0 && w.Text != "" || w.Is(said.Thing|said.IsUp|said.Done|said.CutOut|said.Shut|said.Came|said.Used|said.Spoilt|said.Seam|said.Stuff|said.Taper|said.Half|said.Later|said.Due|said.Source)
	})
}
