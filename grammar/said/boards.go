package said

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
)

// Boards is a number of boards of a kind.
type Boards struct {
	N                 int // 0 if no number was said
	Long, Thick, Kind string
	Of                bool // some of those that were spoken of: "one of the tens", "two of them"
}

func (b Boards) String() string {
	text := strconv.Itoa(max(b.N, 1)) + " x " + b.Long
	if b.Long == "" {
		text = "boards " + strconv.Itoa(max(b.N, 1))
	}
	return text + b.OfKind()
}

// OfKind is which boards they are: " of 5/8 type x".
func (b Boards) OfKind() string {
	kind := b.Thick
	if b.Kind != "" {
		kind = strings.TrimSpace(kind + " type " + b.Kind)
	}
	return strings.TrimSuffix(" of "+kind, " of ")
}

func List(all []Boards) string {
	text := ""
	for _, b := range all {
		text += ", " + b.String()
	}
	return strings.TrimPrefix(text, ", ")
}

// Boards takes the boards of the line, each with what is said of it: "20 sheets of 12 footers 5/8", "24 half
// inch 12s, 8 five eighths 8s".
func (l *Line) Boards() (all []Boards) {
	var now, ahead Boards // ahead is what was said of all that come behind it: "green board came, 6 8s"
	var took, tookAhead []int
	named := false // a word for boards was said
	end := func() {
		last := len(all) - 1
		every := len(took) > 0 && (l.At(took[0]-1).Is(Every) || l.At(took[0]-1).Is(Sep) && now.Long == "" && now.OfKind() != "")
		switch {
		case now.N == 0 && last >= 0 && every && !slices.ContainsFunc(all, now.differs): // "all half inch", "all twelves", ", half inch"
			for i, b := range all {
				all[i].Long, all[i].Thick, all[i].Kind = b.Long+now.Long, b.Thick+now.Thick, b.Kind+now.Kind
			}
			took = append(took, took[0]-1)
		case now.N > 0 && now.Of && now.Long == "" && last >= 0 && all[last].N == 0: // "4x12s, got 10 of em"
			all[last].N = now.N
		case now.N == 0 && now.Long != "" && last >= 0 && all[last].Long == "": // "16 of em, 4x12"
			all[last].Long = now.Long
		case now.N > 0 && (named || now.Of && now.OfKind() != ""), now.Long != "":
			if !ahead.differs(now) {
				now.Thick, now.Kind = now.Thick+ahead.Thick, now.Kind+ahead.Kind
				took = append(took, tookAhead...)
			}
			all = append(all, now)
		default:
			if last < 0 && now.N == 0 && now.OfKind() != "" {
				ahead, tookAhead = now, took
			}
			took = nil
		}
		for _, i := range took {
			l.Words[i].Used = true
		}
		now, took, named = Boards{}, nil, false
	}
	for i, w := range l.Words {
		next := l.At(i + 1)
		switch {
		case w.Used:
			end()
			continue
		case w.Is(Count) && w.N > 0 && !w.Is(Small) || w.Text == "one" || w.Text == "a" && next.Is(Long|Noun|Kind|Thick):
			if now.N > 0 && (now.Long != "" || named) || len(all) > 0 && now.N == 0 && now.Long == "" && now.OfKind() != "" && l.At(i-1).Is(Sep) {
				end()
			}
			if now.N > 0 || now.Long != "" && !l.Metric {
				end()
				continue
			}
			now.N = max(w.N, 1) // also "12' x 9"
		case cut(w) != nil && (l.Any(Came|Source) || l.Got()), w.Is(Long):
			if now.Long != "" {
				end()
			}
			if m := cut(w); m != nil && !w.Is(Long) {
				now.Long, now.Thick = m[1]+"'", m[2]
			} else {
				now.Long = w.Value
			}
			if w.Wide == "54" {
				now.Kind = "wide"
			}
		case w.Is(Thick) && now.Thick == "":
			now.Thick = w.Value
		case w.Is(Kind) && (now.Kind == "" || now.Kind == w.Value):
			now.Kind, named = w.Value, named || w.Many
		case w.Is(Noun), w.Is(Last) && now.N == 0:
			named = named || w.Is(Noun)
		case w.Is(Every) && now.N == 0, w.Is(Sep) && now.N == 0 && now.Long == "" && now.OfKind() != "": // "half inch, 4x12s"
			continue
		case ofBoards[w.Text]:
			now.Of = now.Of || w.Text == "the" && now.N > 0
		case w.Is(Them) && now.N > 0:
			now.Of, named = true, true
		default:
			end()
			continue
		}
		took = append(took, i)
	}
	end()
	return all
}

// differs reports whether the boards cannot be those of b.
func (now Boards) differs(b Boards) bool {
	return now.Long != "" && b.Long != "" || now.Thick != "" && b.Thick != "" || now.Kind != "" && b.Kind != ""
}

// ofBoards are the words between a count of boards and what boards they are.
var ofBoards = lex.Set("x", "of", "at", "the", "full", "in", "more", "new", "resistant")

// cut returns the length and the thickness of boards in one number: "12' 1/2".
func cut(w Word) []string { return lengthAndThickness.FindStringSubmatch(w.Value) }

var lengthAndThickness = regexp.MustCompile(`^(8|9|10|12|14|16)['’] (1/2|5/8|3/8)["”]?$`)

// Got reports whether boards are simply there: "got 18 twelves".
func (l *Line) Got() bool {
	return l.Has("got", "we've", "weve") || l.Has("have") && l.At(0).Text != "have"
}
