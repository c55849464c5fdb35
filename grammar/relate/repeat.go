package relate

import (
	"cmp"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
)

// sameWords say that something is to be noted again; likeWords change nothing beside them.
var (
	sameWords = lex.Set("same", "ditto", "again", "repeat", "copy", "mirror", "mirrored", "identical", "duplicate", "exact", "like", "another", "matching")
	likeWords = lex.Set(strings.Fields(`do did put note run add and then also plus so one more it that this thing the a an just as like again there theres there's is are its it's goes for in on at to of off from over with up too well
		wall side end room spot setup layout exactly ok yes now please pls what we have been before last was light lights pot pots can cans box boxes opposite other`)...)
)

// repeated reads "same on the other side", "do that again in bath" and "bedroom straps same as kitchen", "" if text is
// none.
func repeated(c *grammar.Context, text string) string {
	low := strings.ToLower(strings.TrimRight(text, " .!"))
	if len(low) > 80 || strings.ContainsAny(low, "0123456789?") || strings.HasPrefix(low, "repeat room ") || strings.Contains(low, "mirror wall") {
		return ""
	}
	words := strings.Fields(strings.NewReplacer(",", " ", ":", " ").Replace(low))
	in, of, same, other, framing, as := "", "", false, false, false, false
	var wall place.Wall
	for i := 0; i < len(words); i++ {
		room, n := "", min(3, len(words)-i)
		for ; n > 0 && room == ""; n-- {
			room = c.Rooms[strings.Join(words[i:i+n], " ")]
		}
		w := words[i]
		as = as && room != "" || asIn[w] || as && (w == "the" || w == "in")
		same, other = same || sameWords[w], other || w == "other" || w == "opposite"
		switch said := WallSaid(c, w); {
		case room != "" && as && of == "":
			of, i = room, i+n
		case room != "" && in == "":
			in, i = room, i+n
		case said != "" && wall == "":
			wall = said
		case lex.Phrases.Whole(w).Type == lex.Support, framingWords[w]:
			framing = true
		case !sameWords[w] && !likeWords[w]:
			return ""
		}
	}
	switch room := cmp.Or(in, of); {
	case !same || len(words) < 2:
	case framing && of != "" && of != in && wall == "":
		return strings.TrimPrefix(in+": repeat room "+of+" straps", ": ")
	case !c.Last.Now && c.Follows == 0, in != "" && of != "":
	case room != "" && wall == "" && !other:
		return "repeat room " + room
	case room == "" && wall != "":
		return "repeat " + string(wall)
	case room == "" && other:
		return "repeat other"
	}
	return ""
}

var (
	asIn         = lex.Set("as", "like", "from", "of")
	framingWords = lex.Set("framing", "framed", "strapped", "strap", "spacing")
)
