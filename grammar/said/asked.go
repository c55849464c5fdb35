package said

import (
	"cmp"
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/read"
)

// Asked returns what is asked of boards of a kind, or whether there are as many as are needed, as one of our lines:
// "whats left of the 5/8", "need 7 for the slope, have we enough". It returns "" for any other line.
func Asked(s *read.Source) string {
	if !slices.ContainsFunc(s.Pieces, func(p lex.Piece) bool { return counting[p.Low] }) {
		return ""
	}
	asked := s.AsksSomething()
	was := s.Question
	s.Question = false
	l := Scan(s)
	s.Question = was
	if l == nil || l.Any(Row|Thing|Stuff|Spoilt|CutOut|Seam|Short) || l.Strictly(IsUp) || l.Has("take", "takes", "order", "buy") {
		return ""
	}
	text, need, of := "boards left", "", ""
	for _, w := range l.Words {
		switch {
		case w.Is(Small), w.Class == 0 && (counting[w.Text] || asking[w.Text]):
		case w.Is(Count) && w.N > 0 && need == "":
			need = " need " + w.Value
		case w.Is(Long) && text == "boards left":
			text += " " + w.Value
		case w.Is(Thick) && of == "":
			of = " of " + w.Value
		case w.Is(Kind) && !strings.Contains(of, " type "):
			of = cmp.Or(of, " of") + " type " + w.Value
		case w.Is(Size | Thick | Kind), w.Class == 0:
			return ""
		}
	}
	text += of
	enough := l.Has("enough", "enuf")
	switch {
	case need != "" && enough && l.Has("need", "needs", "needed"):
		return text + need
	case need != "" || enough || text == "boards left" || !asked || l.Has("need") || l.Any(On) || !l.Any(Left|Came|Used) && !l.Has("now", "have", "got", "remaining", "kicking"):
		return ""
	}
	return text
}

// counting are words of a question that counts, asking those that may stand beside them.
var (
	counting = lex.Set("left", "leftover", "remaining", "enough", "enuf", "now", "have", "got", "came", "used", "kicking")
	asking   = lex.Set(strings.Fields("? do did does those any many need needs needed much so on hand stack pile there lot bot they around whats total ordered")...)
)
