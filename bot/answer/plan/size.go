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

// orBySize answers a question about the boards of a ceiling or a wall that cannot be laid out for want of supports by its
// size: where the butts go is all that is not known then. Of any other surface, a wall of unknown height and one that a slope
// cuts it says why there is no plan.
func orBySize(c answer.Ctx, on place.Surface, stop *answer.Reply) answer.Reply {
	on = answer.SurfaceOf(on)
	if stop.Refuse == nil || stop.Over || c.Room == nil || on != place.Ceiling && !on.IsWall() || len(c.Room.Supports(on)) > 0 {
		return *stop
	}
	shell := c.Room.Shell()
	area, wide := shell.Clear(on), boardWide(c, on)
	if area.Y1 <= area.Y0 || len(shell.Under(on)) > 0 || len(shell.Gable(on)) > 0 {
		return *stop
	}
	ways := []place.Direction{place.EW, place.NS}
	if run, known := c.Room.BoardsRun(on); known {
		ways = []place.Direction{run}
	}
	long, rules := longestBoard(c, on), inforce.Rules(c.State)
	var facts sizeFacts
	lines := []string{c.Where(on) + " by its size:"}
	for _, run := range ways {
		along, across := area.X1-area.X0, area.Y1-area.Y0
		if on.Lie(run) == place.Y {
			along, across = across, along
		}
		r := fit.InRows(along, across, wide, 2*rules.Clear, rules.Rip, rules.Sliver, c.Units)
		facts.Ways = append(facts.Ways, sizeRows{string(run), r.N, c.Fact(r.Cut), c.Fact(r.Last)})
		text := fmt.Sprintf("boards %s, %d %s of %s", say.BoardsRun(on, run), r.N, say.Plural(r.N, "row"), c.Len(r.Cut))
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
	if len(shell.NotchesOn(on)) > 0 {
		lines = append(lines, "notches are not taken off")
	}
	return answer.Tell("sizes", facts, strings.Join(append(lines, stop.Refuse.Want+", e.g. `"+stop.Refuse.Hint+"`"), "\n"))
}

// boardWide is the width of the boards for a surface of the room at hand.
func boardWide(c answer.Ctx, on place.Surface) length.Length {
	board, _ := c.Room.BoardFor(on)
	return cmp.Or(board.Wide, 4*length.Foot)
}

// longestBoard is the longest board for a surface of the room at hand: of those on hand, else those said, else the usual
// ones, and no longer than gets in.
func longestBoard(c answer.Ctx, on place.Surface) length.Length {
	board, _ := c.Room.BoardFor(on)
	long := slices.Max(inforce.UsualLengths)
	if len(board.Lengths) > 0 {
		long = slices.Max(board.Lengths)
	}
	if left, _ := c.State.StockFor(site.Plane{Room: c.Room, Surface: on}); len(left) > 0 {
		long = slices.MaxFunc(left, func(a, b event.Boards) int { return cmp.Compare(a.L, b.L) }).L
	}
	if most := c.State.LongestIn(); most > 0 {
		long = min(long, most)
	}
	return long
}
