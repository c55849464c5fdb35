package record

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// List: `list lights`, `list kitchen`, `list boxes on north wall`. What is the kind asked for, "" for
// everything; "board" means the board of the job, "size" the size of a room, "area" that of its ceiling, "here" the
// room that the sender is in.
type List struct {
	What string
	On   place.Surface
}

func (e List) String() string {
	what := e.What
	switch {
	case what == "":
		what = "everything"
	case what != "board" && what != "size" && what != "area" && what != "here":
		what = lex.Plural(what)
	}
	return canon.Say("list", what, e.On)
}
func (List) Kind() grammar.Kind { return "list" }

func (s *listSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := List{What: s.Of, On: s.On.Surface()}
	switch said := s.Word; {
	case s.Framing:
		e.What = "size"
	case said != nil:
		if e.What = places.Openings[strings.TrimSuffix(said.Text, "s")]; e.What == "" {
			return nil, l.Refuse(said.Pos, read.Words.Rows["list"].Fits)
		}
	case s.All || e.What != "" || e.On != "" || l.Room != "":
	default:
		return nil, l.RefuseEnd(read.Words.Rows["list"].Fits)
	}
	return e, nil
}

type listSyntax struct {
	All     bool                `parser:"'list' (  @'everything'"`
	Of      string              `parser:"        | @(Thing | Service | 'size' | 'board' | 'area' | 'here')"`
	Framing bool                `parser:"        | @Support"`
	Word    *read.Label         `parser:"        | @@ )? 'noted'?"`
	On      *places.WhereSyntax `parser:"( ( 'on' | 'in' | 'behind' )? @@ )?"`
}

var ListKinds = []read.Row{
	{Command: read.Command{Kind: "list", Words: []string{"list"}, About: "what was noted: of a kind, in a room, on a wall", Example: "list lights",
		Fits: `a kind of thing, "everything", "area", "here" or a room, then "on north wall"`}, Rule: read.Rule[listSyntax](), Makes: []grammar.Entry{List{}}, Asks: true, OfRoom: true, Chat: read.Always},
}
