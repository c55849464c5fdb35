package answer

import (
	"cmp"
	"fmt"
	"strings"

	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/boards"
)

// Logged returns boards as they are logged.
func Logged(all []boards.Boards) []event.Boards {
	one := func(b boards.Boards) event.Boards {
		return event.Boards{N: b.N, L: b.L.L, Thick: b.Thick.L, Type: b.Type}
	}
	return say.Each(all, one)
}

// BoardsText says how many boards of which kind: 20 x 12' of 5/8", 6 boards.
func (c Ctx) BoardsText(b event.Boards) string {
	text := fmt.Sprintf("%d x %s", b.N, c.Board(b.L))
	if b.L == 0 {
		text = fmt.Sprintf("%d %s", b.N, say.Plural(b.N, "board"))
	}
	if b.Thick == 0 && b.Type == "" {
		return text
	}
	return text + " of " + c.BoardKind(b.Thick, b.Type)
}

// BoardText returns the board of the job as read back.
func (c Ctx) BoardText() string {
	now, said := c.State.BoardNow()
	text := fmt.Sprintf("board %s x %s", c.Thick(now.Thick), c.Len(now.Wide))
	if !said {
		text += " (assumed)"
	}
	if len(now.Lengths) > 0 {
		text += ", lengths " + strings.Join(say.Each(now.Lengths, c.Board), " ")
	}
	if now.Type != "" {
		text += ", type " + strings.TrimPrefix(boardType(now.Type), "type ")
	}
	for _, b := range c.State.BoardsSaid() {
		text += "\n" + BoardWhere(b) + ": " + c.BoardKind(b.Thick, b.Type)
	}
	return text
}

// BoardWhere names the part of the job that a board is for.
func BoardWhere(b event.Board) string {
	switch {
	case b.Room == "" && b.On == "walls":
		return "all walls"
	case b.Room == "":
		return "all ceilings"
	case b.On == "":
		return b.Room + " throughout"
	case b.On == place.Ceiling:
		return b.Room + " ceiling"
	case b.On == "walls":
		return b.Room + " walls"
	}
	return say.Where(b.Room, b.On)
}

// BoardKind returns a thickness and a type of board as it is ordered: 1/2" green, 5/8" type X. Either may not have
// been said.
func (c Ctx) BoardKind(thick length.Length, kind string) string {
	switch {
	case kind == "":
		return c.Thick(thick)
	case thick == 0:
		return "type " + strings.TrimPrefix(boardType(kind), "type ")
	}
	return c.Thick(thick) + " " + boardType(kind)
}

// BoardName returns the board of a surface as it is ordered, and that it is assumed if nobody said it.
func (c Ctx) BoardName(on site.Plane) string {
	board, said := on.Room.BoardFor(on.Surface)
	name := c.BoardKind(board.Thick, board.Type)
	if !said {
		name = c.Thick(board.Thick) + " (assumed)" + cmp.Or(strings.TrimSuffix(" "+boardType(board.Type), " "))
	}
	return name
}

// boardType returns a type of board as written: X and C are letters in a standard.
func boardType(s string) string {
	if len(s) == 1 {
		return "type " + strings.ToUpper(s)
	}
	return s
}
