package setup

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
	"strapline/calc/site"
	"strapline/calc/slip"
	"strapline/calc/square"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

type squareFacts struct {
	Residuals []say.Len  `json:"residuals"`
	Corners   [4]float64 `json:"corners_deg"`
	Suspect   []string   `json:"suspect"`
}

// squared saves readings of walls and diagonals and says what room they make.
func squared(c answer.Ctx, e rooms.Square) answer.Reply {
	if no := shortOfCorner(c, e); no != nil {
		return *no
	}
	b := event.Square{Room: c.Room.Name, Readings: say.Each(e.Readings, func(r rooms.Reading) event.Reading { return event.Reading{Line: r.Line, L: r.L.L} })}
	all := read(c, b.Readings)
	room, err := square.Fit(all)
	if bad, ok := errors.AsType[*square.Error](err); ok && bad.Kind != square.Few {
		return noSquare(c, bad)
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		if bad, ok := errors.AsType[*square.Error](err); ok {
			r := c.Noted(en, "square", nil, c.Room.Name+" "+readings(c, b.Readings))
			r.Line(wanted(c, bad.Lines) + diagonals(c, all))
			return r
		}
		r := fitted(c, room, all)
		r.Text = c.Noted(en, "square", nil, r.Text).Text
		switch _, leans := c.Room.Shell().Shape(); {
		case leans:
			r.Line("distances, layout and cuts go by these walls from now on")
		case !room.Check.Sound():
			r.Line("until then the room counts as square, at the size you gave")
		case !c.Room.Shell().Fits(room):
			ew, ns := c.Room.Shell().Framing()
			r.Note("check", fmt.Sprintf("the room is noted %s x %s, more than %s from these: one is wrong. Until that is put right the noted size stands",
				c.Len(ew), c.Len(ns), c.Len(shell.Unlike)))
		}
		revise.Moves(c, &r, before)
		return r
	})
}

// readings returns readings as they are typed.
func readings(c answer.Ctx, all []event.Reading) string {
	return strings.Join(say.Each(all, func(r event.Reading) string { return lines([]square.Line{square.Line(r.Line)}) + " " + c.Len(r.L) }), ", ")
}

// wanted says what is still to be measured in a room of four corners, and how to send it.
func wanted(c answer.Ctx, missing []square.Line) string {
	var left []string
	diagonals := 0
	for _, l := range missing {
		if l == square.NWSE || l == square.NESW {
			diagonals++
			continue
		}
		left = append(left, string(l))
	}
	if diagonals == 2 {
		left = append(left, "diag "+string(seen(c)))
	}
	return fmt.Sprintf("still to measure: %s; send `square %s ...`", strings.Join(left, ", "), strings.Join(left, " ... "))
}

// diagonals says what the two of them show on their own; "" if only one is read.
func diagonals(c answer.Ctx, all []square.Reading) string {
	var by [2]length.Length
	for _, r := range all {
		switch r.Line {
		case square.NWSE:
			by[0] = r.L
		case square.NESW:
			by[1] = r.L
		}
	}
	switch d := by[0] - by[1]; {
	case min(by[0], by[1]) == 0:
		return ""
	case d == 0:
		return ". The diagonals are alike"
	default:
		return fmt.Sprintf(". The diagonals are %s apart", c.Near(max(d, -d)))
	}
}

// howSquare repeats what the readings of a room show, or what is still to be measured.
func howSquare(c answer.Ctx, _ rooms.HowSquare) answer.Reply {
	all := read(c, nil)
	room, err := square.Fit(all)
	if bad, ok := errors.AsType[*square.Error](err); ok && bad.Kind == square.Few {
		some := fmt.Sprintf("%s: not measured yet; ", c.Room.Name)
		if len(all) > 0 {
			some = c.Room.Name + ": "
		}
		return answer.Nothing(some+wanted(c, bad.Lines)+diagonals(c, all), "")
	} else if ok {
		return noSquare(c, bad)
	}
	return fitted(c, room, all)
}

// shortOfCorner asks about readings of a room in which a notch takes a corner: of a wall only as far as
// the notch, or of the diagonal to the missing corner. It returns nil if there are none.
func shortOfCorner(c answer.Ctx, e rooms.Square) *answer.Reply {
	size, _ := c.Room.Said()
	ew, ns := c.Room.Shell().Framing()
	near := func(a, b length.Length) bool { return max(a-b, b-a) <= shell.Unlike }
	for i, r := range e.Readings {
		for _, n := range size.Less {
			whole, missing := length.Length(0), length.Length(0)
			switch w := place.Wall(r.Line); {
			case n.Corner == "":
			case (w == place.North || w == place.South) && string(w[:1]) == n.Corner[:1]:
				whole, missing = ew, n.EW
			case (w == place.West || w == place.East) && string(w[:1]) == n.Corner[1:]:
				whole, missing = ns, n.NS
			case strings.Contains(r.Line, n.Corner):
				if whole = shell.Incline(ew, ns); !near(r.L.L, whole) {
					return answer.Stop(answer.No(fmt.Sprintf("diag %s ends in the %s corner, which the notch takes", r.Line, n.Corner), "square diag "+string(otherDiagonal(square.Line(r.Line)))+" "+c.Said(r.L)))
				}
			}
			if missing == 0 || near(r.L.L, whole) || !near(r.L.L, whole-missing) {
				continue
			}
			next := rooms.Square{Readings: slices.Clone(e.Readings)}
			next.Readings[i].L = length.Said{L: r.L.L + missing, Tag: r.L.Tag}
			return answer.Stop(answer.Ask(fmt.Sprintf("%s %s runs only to the notch. The whole wall is wanted, to where the corner would be", r.Line, c.Said(r.L)), "",
				c.As(fmt.Sprintf("with the notch's %s: %s %s", c.Len(missing), r.Line, c.Len(r.L.L+missing)), next), grammar.Choice{Label: "no: send it again"}))
		}
	}
	return nil
}

// seen returns a diagonal of the room at hand whose two corners exist.
func seen(c answer.Ctx) square.Line {
	size, _ := c.Room.Said()
	for _, n := range size.Less {
		if n.Corner == "nw" || n.Corner == "se" {
			return square.NESW
		}
	}
	return square.NWSE
}

func otherDiagonal(l square.Line) square.Line {
	if l == square.NWSE {
		return square.NESW
	}
	return square.NWSE
}

// read returns the readings of the room, to the faces that were there, together with more.
func read(c answer.Ctx, more []event.Reading) []square.Reading {
	form := slip.Inches
	switch {
	case c.Units == length.Metric:
		form = slip.Millimetres
	case strings.Contains(c.Words, "'"):
		form = slip.FeetInches
	}
	return say.Each(append(c.Room.Squares(c.Sent.UnixMilli()), more...), func(r event.Reading) square.Reading {
		return square.Reading{Line: square.Line(r.Line), L: r.L, Form: form}
	})
}

func lines(ls []square.Line) string {
	out := make([]string, len(ls))
	for i, l := range ls {
		if out[i] = string(l); strings.Contains(out[i], "-") {
			out[i] = "diag " + out[i]
		}
	}
	return strings.Join(out, ", ")
}

func noSquare(c answer.Ctx, e *square.Error) answer.Reply {
	switch e.Kind {
	case square.TooMany:
		return answer.No(fmt.Sprintf("at most %d readings of one room; strike the old ones", square.MostReadings), "log "+c.Room.Name)
	case square.BadLength:
		return answer.Ask(fmt.Sprintf("%s: no length of a room. Send it again", lines(e.Lines)), "")
	}
	return answer.Ask(fmt.Sprintf("%s cannot meet in four corners: one of them is read wrong. Send them again", lines(e.Lines)), "")
}

// fitted says what room the readings make.
func fitted(c answer.Ctx, room square.Room, all []square.Reading) answer.Reply {
	facts := squareFacts{Corners: room.Angles(), Suspect: []string{}, Residuals: say.Each(room.Residuals[:], c.Fact)}
	run, known := c.Room.BoardsRun(place.Ceiling)
	if !known {
		run = place.EW
	}
	board, _ := c.State.BoardNow()
	ends := func(w place.Wall) string { at, _ := c.Room.Shell().EndsAt(w); return at.Name() }
	ceiling := room // the part that the rows cover, without slopes and bulkheads at the walls
	var by [4]length.Length
	for i, w := range place.Walls {
		if _, off := c.Room.Shell().EndsAt(w); off > 0 {
			by[i] = c.Room.Board(w, c.Sent.UnixMilli()) - off
		}
	}
	if c.Room.Shell().AllSlope() == "" {
		ceiling = room.Wider(by)
	}
	line := ceiling.Control(run, board.Wide)
	if cross := ceiling.Cross(line.Wall); cross > line.Off {
		by := inforce.Rules(c.State)
		line, _, _ = line.Even(cross, board.Wide, by.Rip, by.Sliver)
	}
	a := facts.Corners
	text := fmt.Sprintf("%s: strike the first line %s off the %s at both ends", c.Room.Name, c.Near(line.Off), ends(line.Wall))
	text += fmt.Sprintf("; a first board pushed tight there would leave %s at worst: %s", c.Near(line.Gap), line.Why)
	r := answer.Tell("square", nil, text)
	r.Line(fmt.Sprintf("corners nw %.2f, ne %.2f, se %.2f, sw %.2f degrees", a[0], a[1], a[2], a[3]))
	first, last, two := ceiling.Rips(line, board.Wide, c.State.Clear(), c.Units)
	rip := func(name string, p square.Rip) {
		switch {
		case p.Whole:
		case p.Taper:
			r.Line(fmt.Sprintf("%s, at the %s: taper cut %s to %s, from its %s end", name, ends(p.Wall), c.Len(p.CutA), c.Len(p.CutB), end(p.Wall)))
		default:
			r.Line(fmt.Sprintf("%s, at the %s: %s wide", name, ends(p.Wall), c.Len(p.CutA)))
		}
		if p.Thin {
			r.Note("check", fmt.Sprintf("%s is thin: start with a cut row", name))
		}
	}
	rip("first row", first)
	if two {
		rip("last row", last)
	}
	switch k := room.Check; {
	case k.Named >= 0:
		name := lines([]square.Line{all[k.Named].Line})
		facts.Suspect = append(facts.Suspect, string(all[k.Named].Line))
		r.Note("reading", fmt.Sprintf("the readings do not close: %s %s is the bad one, it is left out. Read it again", name, c.Len(all[k.Named].L)))
	case k.Bad:
		text := "the readings do not close: one is bad, no telling which; read them again"
		for i, s := range k.Suspects[:min(len(k.Suspects), 2)] {
			facts.Suspect = append(facts.Suspect, string(all[s.Index].Line))
			if i == 0 {
				text += "; would close: "
			} else {
				text += " or "
			}
			text += fmt.Sprintf("%s %s", lines([]square.Line{all[s.Index].Line}), c.Len(s.L))
		}
		r.Note("reading", text)
	case k.Crossed:
		r.Note("reading", fmt.Sprintf("the readings close within %s", c.Near(max(k.Misclosure, -k.Misclosure))))
	default:
		r.Note("reading", "nothing checks these readings: a second diagonal would")
	}
	r.Facts = facts
	return r
}

// end names the end from which a row along a wall is measured.
func end(w place.Wall) string {
	if w == place.North || w == place.South {
		return "west"
	}
	return "north"
}
