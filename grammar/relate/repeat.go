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

// repeated reads "same on the other side" and "do that again in bath", "" if text is neither.
func repeated(c *grammar.Context, text string) string {
	low := strings.ToLower(strings.TrimRight(text, " .!"))
	if strings.ContainsAny(low, "0123456789?") || !(c.Last.Now || c.Follows > 0) {
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
