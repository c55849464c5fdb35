package setup

import (
	"cmp"
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/rooms"
)

func board(c answer.Ctx, e boards.Board) answer.Reply {
	if e.Thick.L > 2*length.Inch || e.Wide.L > 6*length.Foot {
		return answer.Ask(fmt.Sprintf("board %s x %s? send it as `board 1/2 x 48`", c.Len(e.Thick.L), c.Len(e.Wide.L)), "")
	}
	b := event.Board{Thick: e.Thick.L, Wide: e.Wide.L, Type: e.Type}
	if e.On != "" {
		return boardOf(c, e, b)
	}
	for _, l := range e.Lengths {
		if l.L < 4*length.Foot || l.L > answer.LongestBoard {
			return answer.Ask(fmt.Sprintf("a board %s long? send the lengths again, e.g. `board lengths 8 10 12`", c.Len(l.L)), "")
		}
		b.Lengths = append(b.Lengths, l.L)
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		return c.Noted(en, "board", nil, c.BoardText())
	})
}

// boardOf notes the board of a surface, of the walls, or of a room. Before any room is noted it is that of all
// ceilings or walls.
func boardOf(c answer.Ctx, e boards.Board, b event.Board) answer.Reply {
	if b.On = place.Surface(e.On); e.On == boards.Throughout {
		b.On = ""
	}
	if len(c.State.Standing()) > 0 || b.On != place.Ceiling && e.On != boards.Walls {
		if stop := c.NeedRoom(); stop != nil {
			return *stop
		}
		b.Room = c.Room.Name
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		text := "board " + strings.TrimSuffix(c.BoardKind(b.Thick, b.Type)+" on "+b.On.Name(), " on ")
		switch {
		case b.Room == "":
			text += "; " + answer.BoardWhere(b) + " of the job"
		case b.On == "":
			text = b.Room + ": " + text + " throughout"
		default:
			text = b.Room + ": " + text
		}
		r := c.Noted(en, "board", nil, text)
		now, said := c.State.BoardNow()
		if on := cmp.Or(b.On, place.Ceiling); b.Room != "" && on == boards.Walls {
			now, said = c.Room.BoardFor(place.Surface(place.North))
		} else if b.Room != "" {
			now, said = c.Room.BoardFor(on)
		}
		if b.Thick == 0 && !said {
			r.Note("check", fmt.Sprintf("its thickness was not said: %s is assumed", c.Thick(now.Thick)))
		}
		return r
	})
}

func clearance(c answer.Ctx, e boards.Clearance) answer.Reply {
	if e.L.L > 2*length.Inch {
		return answer.Ask(fmt.Sprintf("%s clearance? send it again, e.g. `clearance 1/4`", c.Len(e.L.L)), "")
	}
	return c.Keep(event.Clearance{L: e.L.L}, "clearance", fmt.Sprintf("cuts %s under the gap, in all", c.Said(e.L)))
}

func screw(c answer.Ctx, e boards.Screw) answer.Reply {
	if e.L.L < length.Inch/2 || e.L.L > 7*length.Inch/2 {
		return answer.Ask(fmt.Sprintf("a %s screw? send it again, e.g. `screw 1 1/4`", c.Len(e.L.L)), "")
	}
	return c.Keep(event.Screw{L: e.L.L}, "screw", c.Len(e.L.L)+" screws on this job")
}

// hangs refuses to turn the rows or boards of a surface if some are up already.
func hangs(c answer.Ctx, on place.Surface) *answer.Reply {
	for _, p := range c.Room.Pieces(on) {
		if p.Row > 0 {
			return answer.Stop(answer.No(fmt.Sprintf("row %d is up in %s with boards %s, counted from %s; it stays so", p.Row, c.Where(on), say.BoardsRun(on, p.Run), say.RowsFrom(on, c.Room.RowsFrom(on, p.Run))), ""))
		}
	}
	return nil
}

func boardsRun(c answer.Ctx, e boards.BoardsRun) answer.Reply {
	on := answer.SurfaceOf(e.Surface)
	turned := []place.Surface{on}
	if e.Surface == "" && (e.Dir == "standing" || e.Dir == "level") {
		turned = []place.Surface{"north", "east", "south", "west"}
	}
	for _, s := range turned {
		if stop := hangs(c, s); stop != nil {
			return *stop
		}
	}
	return answer.Save(event.BoardsRun{Room: c.Room.Name, Surface: e.Surface, Dir: e.Dir}, func(en *site.Entry) answer.Reply {
		way := string(e.Dir)
		if e.Dir == "ew" || e.Dir == "ns" {
			way = say.Direction(place.Direction(e.Dir))
		}
		text := fmt.Sprintf("%s: boards %s%s", c.Room.Name, way, onWall(on))
		if run, ok := c.Room.BoardsRun(on); ok && (e.Dir == "along" || e.Dir == "across") {
			text += ", so " + say.BoardsRun(on, run)
		}
		return c.Noted(en, "boards", nil, text)
	})
}

func rowsFrom(c answer.Ctx, e boards.RowsFrom) answer.Reply {
	on := answer.SurfaceOf(e.Surface)
	if stop := hangs(c, on); stop != nil {
		return *stop
	}
	if run, ok := c.Room.BoardsRun(on); ok {
		switch from := c.Room.RowsFrom(on, run); from {
		case e.Wall, e.Wall.Opposite():
		case "":
			return answer.No("boards lie level on that wall, so rows count from the ceiling down", "boards standing on "+on.Name())
		default:
			return answer.No(fmt.Sprintf("boards run %s here, so rows count from %s or %s", say.BoardsRun(on, run), from, from.Opposite()), "rows from "+string(from.Opposite()))
		}
	}
	return c.Keep(event.RowsFrom{Room: c.Room.Name, Surface: e.Surface, Wall: e.Wall}, "rows", fmt.Sprintf("%s: rows count from the %s wall%s", c.Room.Name, e.Wall, onWall(on)))
}

// onWall names a surface other than the ceiling, for the end of a reply.
func onWall(s place.Surface) string {
	if s == place.Ceiling {
		return ""
	}
	return " on " + s.Name()
}

// otherWay turns the boards to the direction they do not run now.
func otherWay(c answer.Ctx, _ boards.OtherWay) answer.Reply {
	run, known := c.Room.BoardsRun(place.Ceiling)
	set := c.Room.Supports(place.Ceiling)
	if !known || len(set) == 0 {
		return answer.No(fmt.Sprintf("no straps noted in %s: which way the boards run now is not known", c.Room.Name), "boards along")
	}
	dir := "across"
	if run != set[0].Run {
		dir = "along"
	}
	return boardsRun(c, boards.BoardsRun{Dir: dir})
}

func longest(c answer.Ctx, e boards.Longest) answer.Reply {
	if e.L.L < 2*length.Foot || e.L.L > answer.LongestBoard {
		return answer.Ask(fmt.Sprintf("a longest board of %s? send it again, e.g. `longest in 10'`", c.Len(e.L.L)), "")
	}
	return c.Keep(event.Longest{L: e.L.L}, "longest", "nothing longer than "+c.Len(e.L.L)+" gets in")
}

func texture(c answer.Ctx, e boards.Texture) answer.Reply {
	text := "no texture"
	if e.On {
		text = "a water-based texture"
	}
	return c.Keep(event.Texture{Room: c.Room.Name, On: e.On}, "texture", c.Room.Name+": "+text+" on the ceiling")
}

// whichFirst says what goes up first: as the lead noted of the room, or else as is usual (common practice, no
// source).
func whichFirst(c answer.Ctx, e rooms.WhichFirst) answer.Reply {
	text := "ceiling first, then the walls: their boards close its gap and carry its edge (common practice)"
	switch {
	case e.Wall:
		text = fmt.Sprintf("on a wall the top row first, tight to the ceiling, then the bottom row, about %s up off the floor (common practice)", c.Near(length.Inch/2))
	case c.Room != nil && c.Room.WallsFirst():
		text = c.Room.Name + ": walls first, as noted"
	case c.Room != nil:
		text += "; where it is the other way: `" + c.Room.Name + ": walls first`"
	}
	return answer.Tell("whichfirst", nil, text)
}

// wallsFirst notes that the walls are boarded before the ceiling. The ceiling then fits between the wall
// boards, which run up to its framing.
func wallsFirst(c answer.Ctx, _ rooms.WallsFirst) answer.Reply {
	return goesFirst(c, true, "walls first", "their boards run up to the framing, and the ceiling's lie between them")
}

func ceilingFirst(c answer.Ctx, _ rooms.CeilingFirst) answer.Reply {
	return goesFirst(c, false, "ceiling first", "its boards run to the framing of the walls, and theirs go up under it")
}

func goesFirst(c answer.Ctx, walls bool, text, so string) answer.Reply {
	if up := len(c.Room.Pieces(place.Ceiling)) > 0; up && walls && !c.Room.WallsFirst() {
		return answer.No(fmt.Sprintf("the ceiling of %s is boarded already", c.Room.Name), "log "+c.Room.Name)
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(event.First{Room: c.Room.Name, Walls: walls}, func(en *site.Entry) answer.Reply {
		r := c.Noted(en, "first", nil, c.Room.Name+": "+text+"; "+so)
		revise.Moves(c, &r, before)
		return r
	})
}

// floor notes the finished floor. Heights noted before it are off the subfloor.
func floor(c answer.Ctx, e rooms.Floor) answer.Reply {
	return c.Keep(event.Floor{Room: c.Room.Name, Thick: e.Thick.L}, "floor", fmt.Sprintf("%s: finished floor %s; from now on heights are off it", c.Room.Name, c.Said(e.Thick)))
}

func code(c answer.Ctx, e hanging.Code) answer.Reply {
	rules := map[string]string{"us": "IRC and NEC", "canada": "NBC and CE Code"}
	return c.Keep(event.Code{Code: e.Code}, "code", fmt.Sprintf("code %s: %s from now on; local amendments go first", e.Code, rules[e.Code]))
}

// settings are the numbers a lead may set, with the bounds accepted without asking.
var settings = map[string]struct {
	unit     string
	low, top float64
}{
	"margin": {"", 0, 2}, "set": {"", 0, 0.25}, "stagger": {"", 0, 60}, "sliver": {"", 0, 24}, "short": {"", 0, 48}, "rip": {"", 0, 2},
	"waste": {"%", 0, 50}, "compound": {"gal", 0, 100}, "box": {"screws a box", 1, 100_000}, "rated": {"min", 0, 240},
}

func set(c answer.Ctx, e hanging.Set) answer.Reply {
	rule, ok := settings[e.What]
	if !ok {
		return answer.No(fmt.Sprintf("%q is not a setting", e.What), "set waste 10")
	}
	value := e.N
	if rule.unit == "" {
		value = float64(e.L.L) / float64(length.Inch)
	}
	if value < rule.low || value > rule.top {
		return answer.Ask(fmt.Sprintf("%s %g? send it again", e.What, value), "")
	}
	text := fmt.Sprintf("set %s %g %s", e.What, e.N, rule.unit)
	switch {
	case rule.unit == "":
		text = fmt.Sprintf("set %s %s", e.What, c.Said(e.L))
	case e.Per > 0:
		text += fmt.Sprintf(" per %d sq ft", e.Per)
	}
	return c.Keep(event.Setting{What: e.What, L: e.L.L, N: e.N, Per: e.Per}, "set", text)
}
