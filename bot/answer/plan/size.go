package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/fit"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

type (
	sizeRows struct {
		Run  string  `json:"run"`
		Rows int     `json:"rows"`
		Cut  say.Len `json:"cut"`
		Last say.Len `json:"last"`
	}
	sizeFacts struct {
		Ways []sizeRows `json:"ways"`
	}
)

// orBySize answers a question about the boards of a ceiling that cannot be laid out for want of supports by its size:
// where the butts go is all that is not known then. Of any other surface it says why there is no plan.
func orBySize(c answer.Ctx, on place.Surface, stop *answer.Reply) answer.Reply {
	if stop.Refuse == nil || stop.Over || c.Room == nil || answer.SurfaceOf(on) != place.Ceiling || len(c.Room.Supports(place.Ceiling)) > 0 {
		return *stop
	}
	area, wide := c.Room.Shell().Clear(place.Ceiling), boardWide(c)
	ways := []place.Direction{place.EW, place.NS}
	if run, known := c.Room.BoardsRun(place.Ceiling); known {
		ways = []place.Direction{run}
	}
	long, rules := longestBoard(c), inforce.Rules(c.State)
	var facts sizeFacts
	lines := []string{c.Room.Name + " by its size:"}
	for _, run := range ways {
		along, across := area.X1-area.X0, area.Y1-area.Y0
		if run == place.NS {
			along, across = across, along
		}
		r := fit.InRows(along, across, wide, 2*rules.Clear, rules.Rip, rules.Sliver, c.Units)
		facts.Ways = append(facts.Ways, sizeRows{string(run), r.N, c.Fact(r.Cut), c.Fact(r.Last)})
		text := fmt.Sprintf("boards %s, %d %s of %s", say.Direction(run), r.N, say.Plural(r.N, "row"), c.Len(r.Cut))
		switch {
		case r.Last == wide:
		case r.Shared:
			text += ", the first and the last ripped to " + c.Len(r.Last)
		case r.N == 1:
			text += ", ripped to " + c.Len(r.Last)
		default:
			text += ", the last ripped to " + c.Len(r.Last)
		}
		if r.Cut > long {
			text += fmt.Sprintf("; over %s, so each has a butt", c.Board(long))
		}
		lines = append(lines, text)
	}
	lines[0] += " " + lines[1]
	lines = append(lines[:1], lines[2:]...)
	if len(c.Room.Shell().Notches()) > 0 {
		lines = append(lines, "notches are not taken off")
	}
	return answer.Tell("sizes", facts, strings.Join(append(lines, stop.Refuse.Want+", e.g. `"+stop.Refuse.Hint+"`"), "\n"))
}

// boardWide is the width of the boards for the ceiling of the room at hand.
func boardWide(c answer.Ctx) length.Length {
	board, _ := c.Room.BoardFor(place.Ceiling)
	return cmp.Or(board.Wide, 4*length.Foot)
}

// longestBoard is the longest board for the ceiling of the room at hand: of those on hand, else those said, else the usual
// ones, and no longer than gets in.
func longestBoard(c answer.Ctx) length.Length {
	board, _ := c.Room.BoardFor(place.Ceiling)
	long := slices.Max(inforce.UsualLengths)
	if len(board.Lengths) > 0 {
		long = slices.Max(board.Lengths)
	}
	if left, _ := c.State.StockFor(site.Plane{Room: c.Room, Surface: place.Ceiling}); len(left) > 0 {
		long = slices.MaxFunc(left, func(a, b event.Boards) int { return cmp.Compare(a.L, b.L) }).L
	}
	if most := c.State.LongestIn(); most > 0 {
		long = min(long, most)
	}
	return long
}
