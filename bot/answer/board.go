package answer

import (
	"fmt"
	"strings"
)

// BoardText returns the board of the job as read back.
func (c Ctx) BoardText() string {
	now, said := c.State.BoardNow()
	text := fmt.Sprintf("board %s x %s", c.Thick(now.Thick), c.Len(now.Wide))
	if !said {
		text += " (assumed)"
	}
	if len(now.Lengths) > 0 {
		var ls []string
		for _, l := range now.Lengths {
			ls = append(ls, c.Board(l))
		}
		text += ", lengths " + strings.Join(ls, " ")
	}
	if now.Type != "" {
		text += ", type " + strings.TrimPrefix(boardType(now.Type), "type ")
	}
	return text
}

// BoardName returns the board in use as it is ordered: 1/2" green, 5/8" type X.
func (c Ctx) BoardName() string {
	board, _ := c.State.BoardNow()
	if board.Type == "" {
		return c.Thick(board.Thick)
	}
	return c.Thick(board.Thick) + " " + boardType(board.Type)
}

// boardType returns a type of board as written: X and C are letters in a standard.
func boardType(s string) string {
	if len(s) == 1 {
		return "type " + strings.ToUpper(s)
	}
	return s
}
