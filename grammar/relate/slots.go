package relate

import (
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
)

// Said is a correction as its words tell it: its numbers, and the words that it shares with what it puts right.
type Said struct {
	Numbers []Number
	About   []string // words that may tell of what it is, in plain form
	Opens   bool     // it begins as a correction does
}

// Unsaid reports whether it leaves open which number is wrong.
func (s Said) Unsaid() bool {
	return slices.ContainsFunc(s.Numbers, func(n Number) bool { return n.Old == "" })
}

// Number is one that is put right.
type Number struct {
	New, Old string   // as typed; Old is "" if it was not said
	Beside   []string // words beside it in plain form: what it is measured from, or which measure it is
}

// Slots takes a correction apart by what its words do. ok is false if it is none, or a number in it is neither old nor new.
func Slots(c *grammar.Context, text string) (s Said, ok bool) {
	if strings.HasSuffix(strings.TrimSpace(text), "?") || !tells(text, "onswtmq") || read.CutLine(text, c).AsksSomething() {
		return s, false
	}
	var sure, old, side, moved, off bool // side: words belong to the number before them; off: it is a place, not a way to go
	for i, w := range tagged(c, text) {
		moved, off = moved || w.tag == 'm', (off || offWords[plainWord(w.said)]) && w.tag != 'L'
		said, ends := strings.TrimRight(w.said, ",.:;!?"), strings.ContainsAny(w.said[len(w.said)-1:], ",.;")
		n := len(s.Numbers)
		switch {
		case w.tag == 'L' && plainWord(w.said) == "one": // "one end"
		case w.tag == 'L' && old && n > 0 && s.Numbers[n-1].Old == "":
			s.Numbers[n-1].Old, old, side = said, false, false
		case w.tag == 'L' && old: // isnt at 80 its at 95
			s.Numbers, old, side = append(s.Numbers, Number{Old: said}), false, false
		case w.tag == 'L' && n > 0 && s.Numbers[n-1].New == "":
			s.Numbers[n-1].New, side = said, true
		case w.tag == 'L':
			s.Numbers, side = append(s.Numbers, Number{New: said}), true
		case w.tag == 's' && n > 0 && s.Numbers[n-1].Old == "": // 78 should be 79
			s.Numbers[n-1].Old, s.Numbers[n-1].New, sure = s.Numbers[n-1].New, "", true
		case w.tag == 'q' && side && n > 1 && s.Numbers[n-2].Old == "" && s.Numbers[n-1].Old == "" && len(s.Numbers[n-1].Beside) == 0: // 315, the 310 was to the plaster
			s.Numbers[n-2].Old, s.Numbers, sure, side = s.Numbers[n-1].New, s.Numbers[:n-1], true, false
		case w.tag == 'n', w.tag == 'q':
			old, sure, side = true, true, false
		case w.tag == 'p' && further[plainWord(w.said)], w.tag == 'W' && moved && side && !off: // moved 30 to the north
			return s, false
		case w.tag == 'p' && !measures[plainWord(w.said)], w.tag == '_' && !measures[plainWord(w.said)], w.tag == 'c', w.tag == 'b', w.tag == 'x', w.tag == 'A', w.tag == 'i', w.tag == 'e':
		case w.tag == 'o' && plainWord(w.said) == "no" && side && s.Numbers[n-1].Old == "": // 16 off the pan no 14
			old, side = true, false
		case strings.IndexByte("oswm", w.tag) >= 0, w.tag == 't' && i == 0: // not "they cross the hall"
			s.Opens, sure, side = s.Opens || n == 0, true, side && w.tag != 'o'
		default:
			for word := range strings.FieldsSeq(w.said) {
				word = plainWord(word)
				if s.About = append(s.About, word); side && n > 0 && len(s.Numbers[n-1].Beside) < 4 {
					s.Numbers[n-1].Beside = append(s.Numbers[n-1].Beside, word)
				}
			}
		}
		side = side && !ends
	}
	return s, sure && len(s.Numbers) > 0 && !slices.ContainsFunc(s.Numbers, func(n Number) bool { return n.New == "" })
}

// measures are small words that say which measure a number is, offWords that it is a place.
var measures, offWords = lex.Set("up", "down", "wide", "long", "deep", "out", "short", "oc", "each", "side"), lex.Set("off", "from", "at", "of", "up", "down")
