package boarding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
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
		of.Text = of.Typed()
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

// remarks takes what is told of the boards beside that they are up: "butt over the middle of the window", "ripped the last
// one to 23 3/4". It stays with the entry.
func (l *line) remarks() {
	l.Clauses(func(from, to int) {
		size := l.Find(said.Row|said.On) < from && l.Part(said.Size, from, to) && slices.ContainsFunc(l.Words[from:to], func(w said.Word) bool { return widths[w.Text] })
		if !size && !l.Part(said.Seam, from, to) || l.Part(said.Row|said.On|said.Parted|said.CutOut, from, to) || slices.ContainsFunc(l.Words[from:to], func(w said.Word) bool {
			return w.Class == 0 && !seats[w.Text] && !widths[w.Text] || w.Is(said.Denied) || !size && w.Is(said.Size) && !w.Is(said.Count) || w.Is(said.IsUp) && size && !w.Is(said.Small|said.Fits)
		}) {
			return
		}
		for i := from; i < to; i++ {
			l.Words[i] = said.Word{Class: said.Small, Text: l.Words[i].Text}
		}
	})
}

// widths are words by which a size is that of boards that were told before.
var widths = lex.Set("wide", "rip", "ripped", "was")

// seats are words for where a butt is.
var seats = lex.Set(strings.Fields("strap straps joist joists stud studs batten battens rafter truss channel middle centre center off land lands landed falls breaks sits staggered window door doorway")...)

// rests takes the parts of the line that say what is not done yet: "bottom still to do", "two to go".
func (l *line) rests(h *hung) {
	l.Clauses(func(from, to int) {
		at := slices.IndexFunc(l.Words[from:to], func(w said.Word) bool {
			return w.Is(said.Still) && !w.Is(said.Started) || w.Text == "starting" || w.Text == "started"
		})
		if at += from; at < from || from == 0 || l.Part(said.But, from, to) || slices.ContainsFunc(l.Words[from:to], func(w said.Word) bool {
			return w.Text == "from" || !w.Used && (w.Class == 0 && w.Text != "" && !l.Words[at].Is(said.Started) || w.Is(said.CutOut) && !w.Is(said.IsUp|said.Small) && w.Text != "open") || w.Is(said.On) && w.Value != string(place.Ceiling) && l.Words[at].Is(said.Started) && !l.Words[at].Is(said.Still)
		}) {
			return
		}
		if !l.Words[at].Is(said.Started) && !l.Part(said.On, from, to) {
			l.except(h, from, to)
		}
		for k := from; k < to; k++ {
			l.Words[k].Used, l.Words[k].Class = true, said.Small
		}
	})
}

// except takes what is left of a surface from some words: "the bottom", "row 3", "the last two pieces".
func (l *line) except(h *hung, from, to int) {
	n := 1
	for k := from; k < to; k++ {
		switch w := l.Words[k]; {
		case w.Is(said.Row) && w.N > 0:
			h.but = "row " + strconv.Itoa(w.N)
		case w.Is(said.Top):
			h.but = "top row"
		case w.Is(said.Bottom), w.Is(said.Last) && (l.At(k+1).Is(said.Row) || l.At(k+2).Is(said.Row)):
			h.but = "bottom row"
		case w.Is(said.Count) && w.N > 0 && !w.Is(said.Small):
			n = w.N
		case w.Is(said.Piece|said.Noun) && h.but == "":
			h.but = strconv.Itoa(n) + " piece"
		}
	}
}
