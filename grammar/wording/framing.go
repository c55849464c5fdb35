package wording

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/rooms"
)

// Framing is described in any order: what it is, its lumber, its spacing, its direction, and where the
// first one is: "strapping goes east-west then, 1x3s at 16", "16 oc straps". framed sorts a line by these
// words. Every word must be one of them, or change nothing.
type framed struct {
	what, run, space, first, on string
	from                        string // the wall from which first, or the list, is measured
	over                        bool   // it said across before the direction
	at                          []string
	cut                         [2]string // its lumber, 1 x 3
	starts                      bool      // the position of the first is said
}

// framedWords are words that change nothing in such a line.
var framedWords = lex.Set(strings.Fields(`goes go going run runs running then is are it its the lid ceiling everywhere throughout here across way at and all wood now so we ok
	today just strapped framed spaced spacing in on every oc off apart centres centers c/c cc crs each center centre with there's theres measured end side`)...)

// starting are words that may precede the position of the first one.
var starting = lex.Set("first", "start", "starts", "starting", "st")

// apartWords follow a spacing.
var apartWords = lex.Set("oc", "apart", "centres", "centers", "c/c", "cc", "crs", "spacing", "ctr", "centre", "center")

// Framing returns the canonical line for framing described in any order, "" if it is none. It returns two
// if the lumber may be on edge or flat.
func Framing(l *read.Source) []string {
	if l.Cmd != nil || l.Has(lex.Thing, "") || l.Has(lex.Service, "") || l.Has(lex.Name, "") || l.Has(lex.Key, "row") {
		return nil
	}
	var f framed
	t := l.Tokens
	for i := 0; i < len(t)-1; i++ {
		word := l.WordAt(t[i].Pos.Offset)
		low := lex.Lower(word)
		switch {
		case low == "strapped" && (f.what == "" || f.what == "straps"):
			f.what = "straps"
		case t[i].Type == lex.Support && (f.what == "" || f.what == t[i].Value):
			if f.what = t[i].Value; t[i+1].Type == lex.Number && f.numbered(l, i+1) {
				return f.line(l)
			}
		case t[i].Type == lex.Direction && (f.run == "" || f.run == t[i].Value):
			f.run, f.over = t[i].Value, i > 0 && lex.Lower(l.WordAt(t[i-1].Pos.Offset)) == "across"
		case t[i].Type == lex.Wall && i > 0 && t[i-1].Value == "off" && (f.from == "" || f.from == t[i].Value):
			f.from = t[i].Value
		case t[i].Type == lex.Wall && i > 0 && (t[i-1].Value == "on" || l.SaidWall(t[i].Pos.Offset)) && f.on == "":
			f.on = " on " + t[i].Value + " wall"
		case low == "1" && lex.Lower(l.WordAt(t[i+1].Pos.Offset)) == "st":
		case t[i].Type == lex.Number:
			end, said := lengthAt(l, t[i].Pos.Offset)
			if end == 0 {
				return nil
			}
			k := i
			for t[k+1].Pos.Offset < end && !t[k+1].EOF() {
				k++
			}
			next := t[k+1]
			switch {
			case next.Value == "x" && t[k+2].Type == lex.Number && f.cut[0] == "":
				end, b := lengthAt(l, t[k+2].Pos.Offset)
				if f.cut = [2]string{said, b}; end == 0 {
					return nil
				}
				for k += 2; t[k+1].Pos.Offset < end && !t[k+1].EOF(); k++ {
				}
				if t[k+1].Value == "oc" && l.Pieces[l.PieceAt(t[k+1].Pos.Offset)].Low == "s" { // 1x3s
					k++
				}
			case apartWords[next.Value] || apartWords[lex.Lower(l.WordAt(next.Pos.Offset))], i > 0 && (t[i-1].Value == "every" || t[i-1].Value == "@"),
				i > 0 && t[i-1].Value == "at" && f.space == "" && usually(l, said):
				if f.space != "" {
					return nil
				}
				f.space = said
			case f.first == "" && firstBefore(l, i):
				f.first = said
			case f.what == "" || f.space != "" || !usually(l, said) || next.Value == "off" || next.Value == "thick" || next.Value == "wide":
				return nil
			default:
				f.space = said
			}
			i = k
		case starting[low]:
			f.starts = true
		case framedWords[low], framedWords[t[i].Value]:
		default:
			return nil
		}
	}
	return f.line(l)
}

// lengthAt returns where the length at a byte of the line ends, and its words.
func lengthAt(l *read.Source, at int) (end int, said string) {
	_, n, _ := measure.Scan(l.Read[at:], l.Units, measure.List)
	if n == 0 {
		return 0, ""
	}
	return at + n, strings.TrimSpace(l.Read[at : at+n])
}

// usually reports whether a number is a usual spacing.
func usually(l *read.Source, said string) bool {
	r, n, why := measure.Scan(said, l.Units, measure.List)
	return len(r) == 1 && n == len(said) && why == "" && slices.Contains(rooms.UsualSpacings[l.Units], r[0].L)
}

// firstBefore reports whether one of the four words before token i means the first one, or the start.
func firstBefore(l *read.Source, i int) bool {
	for k := i - 1; k >= max(0, i-4); k-- {
		switch low := lex.Lower(l.WordAt(l.Tokens[k].Pos.Offset)); {
		case starting[low]:
			return true
		case l.Tokens[k].Type == lex.Number:
			return false
		}
	}
	return false
}

// numbered reads "strap 1 at 0, 2 at 16, 3 at 32" from token i on. All must be there from the first one.
func (f *framed) numbered(l *read.Source, i int) bool {
	t := l.Tokens
	for n := 1; ; n++ {
		if t[i].Type == lex.Support && t[i].Value == f.what {
			i++
		}
		if t[i].Type != lex.Number || l.WordAt(t[i].Pos.Offset) != strconv.Itoa(n) || t[i+1].Value != "at" || t[i+2].Type != lex.Number {
			return false
		}
		end, said := lengthAt(l, t[i+2].Pos.Offset)
		if end == 0 {
			return false
		}
		f.at = append(f.at, said)
		for i += 2; !t[i].EOF() && t[i].Pos.Offset < end; i++ {
		}
		switch {
		case t[i].EOF():
			return n > 1
		case t[i].Value == "off" && t[i+1].Type == lex.Wall && t[i+2].EOF():
			f.from = t[i+1].Value
			return n > 1
		}
	}
}

func (f *framed) line(l *read.Source) []string {
	if f.what == "" || f.space == "" && f.at == nil || f.starts != (f.first != "") {
		return nil
	}
	text := canon.Say(f.what, f.run, canon.Clause{f.space, canon.Tail(f.space != "", "oc")}, canon.Clause{canon.Tail(f.at != nil, "at "+strings.Join(f.at, ", ")), canon.Off(place.Wall(f.from))})
	switch {
	case f.at != nil:
		return []string{text + f.on}
	case f.first != "":
		if f.over && f.from != "" && (f.run == "ew") != places.Across(place.Wall(f.from)) { // spaced that way, as the first one shows
			f.run = ""
		}
		text = canon.Say(f.what, f.run, f.space, "oc", canon.Clause{"first", f.first, canon.Off(place.Wall(f.from))})
	case f.from != "" && f.run == "":
		f.run = "ns"
		if places.Across(place.Wall(f.from)) {
			f.run = "ew"
		}
		text = canon.Say(f.what, f.run, f.space, "oc")
	default:
		text = canon.Say(f.what, f.run, f.space, "oc")
	}
	if f.cut[0] == "" {
		return []string{text + f.on}
	}
	thin, thick := lumber(l, f.cut[0]), lumber(l, f.cut[1])
	if thin == "" || thick == "" {
		return nil
	}
	flat, edge := fmt.Sprintf("%s, %s thick, %s wide%s", text, thin, thick, f.on), fmt.Sprintf("%s, %s thick, %s wide%s", text, thick, thin, f.on)
	switch {
	case f.what == "joists" || f.what == "studs":
		return []string{edge}
	case l.Units == length.Imperial && f.cut[0] == "1":
		return []string{flat}
	}
	return []string{flat, edge}
}

// dressed gives the actual sizes of lumber by nominal size, in inches: the American Softwood Lumber
// Standard (PS 20), from memory.
var dressed = map[string]string{"1": "3/4", "2": "1-1/2", "3": "2-1/2", "4": "3-1/2", "6": "5-1/2", "8": "7-1/4", "10": "9-1/4", "12": "11-1/4"}

// lumber returns the actual thickness or width of lumber of that nominal size; in a metric job that is the
// number itself.
func lumber(l *read.Source, sold string) string {
	if l.Units == length.Metric {
		return sold
	}
	return dressed[sold]
}
