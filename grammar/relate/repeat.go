package relate

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
)

// sameWords say that something is to be noted again; likeWords change nothing beside them.
var (
	sameWords = lex.Set("same", "ditto", "again", "repeat", "copy", "mirror", "mirrored", "identical", "duplicate", "exact", "like", "another", "matching")
	likeWords = lex.Set(strings.Fields(`do did put note run add and then also plus so one more it that this thing the a an just as like again there theres there's is are its it's goes for in on at to of off from over with up too as well
		wall side end room spot setup layout exactly ok yes now please pls what we have been did before last was light lights pot pots can cans box boxes strapping straps joists studs opposite other`)...)
)

// framedAs reads "bedroom straps same as kitchen" and "copy the strapping from the kitchen": the framing of another
// room. It returns "" if text is neither.
func framedAs(c *grammar.Context, text string) string {
	low := strings.ToLower(strings.TrimRight(text, " .!"))
	if len(c.Rooms) == 0 || len(low) > 80 || strings.ContainsAny(low, "0123456789?") {
		return ""
	}
	words := strings.Fields(strings.NewReplacer(",", " ", ":", " ").Replace(low))
	in, of, same, framing, as := "", "", false, false, false
	for i := 0; i < len(words); i++ {
		room, n := "", min(3, len(words)-i)
		for ; n > 0 && room == ""; n-- {
			room = c.Rooms[strings.Join(words[i:i+n], " ")]
		}
		w := words[i]
		as = as && room != "" || asIn[w] || as && (w == "the" || w == "in")
		switch {
		case room != "" && as && of == "":
			of, i = room, i+n
		case room != "" && in == "":
			in, i = room, i+n
		case lex.Phrases.Whole(w).Type == lex.Support, framingWords[w]:
			framing = true
		case sameWords[w]:
			same = true
		case !likeWords[w]:
			return ""
		}
	}
	switch {
	case !same || !framing || of == "" || of == in:
		return ""
	case in != "":
		return in + ": repeat room " + of + " straps"
	}
	return "repeat room " + of + " straps"
}

var (
	asIn         = lex.Set("as", "like", "from", "of")
	framingWords = lex.Set("framing", "framed", "strapped", "strap", "spacing")
)

// repeated reads "same on the other side" and "do that again in bath", "" if text is neither.
func repeated(c *grammar.Context, text string) string {
	low := strings.ToLower(strings.TrimRight(text, " .!"))
	if strings.ContainsAny(low, "0123456789?") || strings.HasPrefix(low, "repeat room ") || !(c.Last.Now || c.Follows > 0) {
		return ""
	}
	words := strings.Fields(strings.NewReplacer(",", " ", ":", " ").Replace(low))
	same, other := false, false
	var wall place.Wall
	room := ""
	for i := 0; i < len(words); i++ {
		w := words[i]
		same, other = same || sameWords[w], other || w == "other" || w == "opposite"
		found := false
		for n := min(3, len(words)-i); n > 0 && !found; n-- {
			switch said := strings.Join(words[i:i+n], " "); {
			case c.Rooms[said] != "" && room == "":
				room, found, i = c.Rooms[said], true, i+n-1
			case n == 1 && WallSaid(c, said) != "" && wall == "":
				wall, found = WallSaid(c, said), true
			}
		}
		if !found && !sameWords[w] && !likeWords[w] {
			return ""
		}
	}
	switch {
	case !same || len(words) < 2:
		return ""
	case room != "" && wall == "" && !other:
		return "repeat room " + room
	case room == "" && wall != "":
		return "repeat " + string(wall)
	case room == "" && other:
		return "repeat other"
	}
	return ""
}
