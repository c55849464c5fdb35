package record

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// List: `list lights`, `list kitchen`, `list boxes on north wall`. What is the kind asked for, "" for
// everything; "board" means the board of the job, "size" the size of a room.
type List struct {
	What string
	On   place.Surface
}

func (e List) String() string {
	what := e.What
	switch {
	case what == "":
		what = "everything"
	case what != "board" && what != "size":
		what = lex.Plural(what)
	}
	return canon.Say("list", what, e.On)
}
func (List) Kind() grammar.Kind { return "list" }

// listed are the ways to ask for a list, without filler. The first group is a kind, the second a wall.
var listed = []*pattern.Pattern{
	pattern.Compile(`^(?:show me|give me|list|show)(?: all)?(?: of)?(?: (.+?))?(?: noted)?(?: (?:on|in|behind) (\w+))?$`),
	pattern.Compile(`^(?:what|what's|whats|which|anything|something|there anything)()(?: noted| all)? (?:on|in|behind) (\w+)$`),
	pattern.Compile(`^(?:what|what's|whats)(?: all)?(?: have| do)?(?: we (?:got|have))?$`),
	pattern.Compile(`^(?:what|which|how many) (.+?)(?: (?:do )?we (?:have|got|use|using|hanging))?(?: noted| there)?(?: (?:on|in|behind) (\w+))?$`),
	pattern.Compile(`^(?:there )?any (.+?)(?: noted)? (?:on|in|behind) (\w+)$`),
	pattern.Compile(`^(?:how far apart|what between|whats between|what's between|what walls have|where all)(?: all| two)? (.+)$`),
	pattern.Compile(`^(?:what|whats|what's) (size)$`),
}

// sized matches questions about the size of a room.
var sized = pattern.Compile(`^(?:how (?:big|wide|long|high|tall)|(?:what|whats|what's) size of) (.+)$`)

// Lists reads a question about what was noted.
func Lists(l *read.Source, text string) grammar.Entry {
	if m := sized.FindStringSubmatch(text); m != nil && l.Rooms[m[1]] != "" {
		l.InRoom(l.Rooms[m[1]])
		return List{What: "size"}
	}
	if text == "how many boards" || text == "how many sheets" {
		return boards.Order{}
	}
	for _, r := range listed {
		m := r.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		var e List
		said, wall := "", ""
		if len(m) > 1 {
			said = m[1]
		}
		if len(m) > 2 {
			wall = m[2]
		}
		if wall != "" {
			if e.On = place.Surface(Wall(l, wall)); e.On == "" {
				continue
			}
		}
		switch sym := lex.Phrases.Whole(said); {
		case l.Rooms[said] != "" && said != "":
			l.InRoom(l.Rooms[said])
		case said == "everything":
		case said == "size", said == "" && strings.HasPrefix(text, "how "), sym.Type == lex.Support:
			e.What = "size"
		case said == "board" && e.On == "":
			e.What = said
		case said == "" && e.On == "" && l.Room == "", said == "" && text == "list":
			continue
		case said == "":
		case sym.Type == lex.Thing, sym.Type == lex.Service:
			e.What = sym.Value
		case places.Openings[strings.TrimSuffix(said, "s")] != "":
			e.What = places.Openings[strings.TrimSuffix(said, "s")]
		default:
			continue
		}
		return e
	}
	return nil
}

// Wall returns the wall of that name, "" if none has it.
func Wall(l *read.Source, said string) place.Wall {
	if sym := lex.Phrases.Whole(said); sym.Type == lex.Wall {
		return place.Wall(sym.Value)
	}
	return l.Walls[said]
}

var ListKinds = []read.Row{
	{Command: read.Command{Kind: "list", About: "what was noted: of a kind, in a room, on a wall", Example: "list lights",
		Fits: `a kind of thing, "everything" or a room, then "on north wall"`}, Makes: []grammar.Entry{List{}}, Asks: true},
}
