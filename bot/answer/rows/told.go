package rows

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/place"
)

// WallNow is the wall that the sender hung board on last in the room, "" if that was no wall.
func WallNow(c answer.Ctx) (on place.Surface) {
	last := int64(0)
	for _, s := range c.Room.Shell().Surfaces() {
		for _, p := range c.Room.Pieces(s) {
			if p.Entry.Who == c.Who && int64(p.Entry.Seq) > last {
				if last, on = int64(p.Entry.Seq), ""; s.Upright() {
					on = s
				}
			}
		}
	}
	return on
}

// InWords names rows and pieces: "row 1", "rows 1 and 2", "r1.1 r1.2".
func InWords(ids []string) string {
	rows := Whole(ids)
	switch n := len(rows); {
	case n == 0:
		return strings.Join(ids, " ")
	case n == 1:
		return fmt.Sprintf("row %d", rows[0])
	case n == 2:
		return fmt.Sprintf("rows %d and %d", rows[0], rows[1])
	case slices.IsSorted(rows) && rows[n-1]-rows[0] == n-1:
		return fmt.Sprintf("rows %d to %d", rows[0], rows[n-1])
	}
	return "rows " + strings.ReplaceAll(strings.Join(ids, ", "), "r", "")
}

// Whole returns the numbers of the rows named, nil if pieces are named too.
func Whole(ids []string) (rows []int) {
	for _, id := range ids {
		n, err := strconv.Atoi(strings.TrimPrefix(id, "r"))
		if err != nil {
			return nil
		}
		rows = append(rows, n)
	}
	return rows
}
