package lex

import (
	"cmp"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/measure"
	"strconv"
	"strings"
)

// Names are the names declared on a job, and its units.
type Names struct {
	Units    length.Units
	Rooms    map[string]string     // names and aliases to the room's name
	Walls    map[string]place.Wall // aliases
	Name     func(words string) bool
	MaxWords int // of the longest Name
}

// MostWords is the maximum number of words in a declared name, whatever the context says.
const MostWords = 6

// longest returns the number of words of the longest name, at most [MostWords].
func (n Names) longest() int {
	most := n.MaxWords
	for said := range n.Rooms {
		most = max(most, strings.Count(said, " ")+1)
	}
	for said := range n.Walls {
		most = max(most, strings.Count(said, " ")+1)
	}
	return min(most, MostWords)
}

// Declared returns the longest declared name at piece i. Filler inside it is ignored, and it must not end
// in a number that continues.
func (l *Reader) Declared(i int) (Symbol, int) {
	if l.Rooms == nil && l.Walls == nil && l.Name == nil {
		return Symbol{}, 0
	}
	var best Symbol
	end, count, said, figured := 0, 0, "", ""
	for k := i; k < len(l.Pieces) && count < l.longest; k++ {
		p := l.Pieces[k]
		if p.Kind == '.' || p.Gone {
			break
		}
		if k > i && Filler[p.Low] {
			continue
		}
		before, n := said, 0
		if count == 0 {
			said = p.Low
		} else {
			said, n = said+" "+p.Low, Counts[p.Low]
		}
		switch {
		case n > 0: // bedroom two is bedroom 2
			figured = cmp.Or(figured, before) + " " + strconv.Itoa(n)
		case figured != "":
			figured += " " + p.Low
		}
		count++
		var sym Symbol
		room, ok := l.Rooms[said]
		if !ok && figured != "" {
			room, ok = l.Rooms[figured]
		}
		switch {
		case ok && !l.another(i, room):
			sym = Symbol{Room, room}
		case l.Walls[said] != "" && !l.labels(i, k+1) && (!opening[said] || l.wallAt(i, k+1)):
			sym = Symbol{Wall, string(l.Walls[said])}
		case count <= l.MaxWords && l.Name != nil && l.named(i, said):
			sym = Symbol{Name, said}
		}
		if sym.Type != 0 && !l.goesOn(k) {
			best, end = sym, k-i+1
		}
	}
	return best, end
}

// named reports whether said, at piece i, is the name of a declared thing. A single letter must be in the
// right place, because "a" and "x" are words too.
func (l *Reader) named(i int, said string) bool {
	if len(said) == 1 {
		before := ""
		if i > 0 {
			before = l.Pieces[i-1].Low
		}
		if before != "mark" && before != "of" && (said == "a" || said == "x" || said == "i") {
			return false
		}
		return l.Name(said)
	}
	if k := strings.LastIndexByte(said, ' '); len(l.Tokens) == 0 && k > 0 && ThingOf[said[k+1:]] != "" {
		return false // "sink light 26 off west" says where it is, and what it is
	}
	if sym, n := l.PhraseAt(i, Phrases); len(l.Tokens) == 0 && (sym.Type == Service ||
		sym.Type == Thing && strings.Contains(said, " ") && n < len(l.Pieces)-i && l.Pieces[i+n].Word()) {
		return false // "pipe 1 40 off west" is a pipe, "light over stove 26 off west" a light
	}
	return l.Name(said)
}

// goesOn reports whether the number at piece k continues.
func (l *Reader) goesOn(k int) bool {
	if p := l.Pieces[k]; p.Kind != '0' && !Numeral(p.Low) {
		return false
	}
	if k+1 < len(l.Pieces) { // "box 2x4"
		next := l.Pieces[k+1].Low
		if next == "x" && l.NumberAt(k+2) || len(next) > 1 && next[0] == 'x' && strings.Trim(next[1:], "0123456789") == "" {
			return true
		}
	}
	_, n, _ := measure.Scan(l.Read[l.Pieces[k].Start:], l.Units, measure.List)
	return n != l.Pieces[k].End-l.Pieces[k].Start && (n > 0 || l.Pieces[k].Kind == '0')
}
