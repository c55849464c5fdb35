package answer

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// ARoom returns a room and its size as typed, as an example.
func ARoom(name string, u length.Units) string {
	return "room " + cmp.Or(name, "kitchen") + u.Pick(" 13' 4 x 11' 9", " 4075 x 3580")
}

// RoomAsSaid returns a room's size as a line to type again.
func RoomAsSaid(b event.RoomSize) string {
	return fmt.Sprintf("room %s %s x %s", b.Room, length.Canon(b.EW), length.Canon(b.NS))
}

// NoSuchRoom refuses a room that is not noted.
func (c Ctx) NoSuchRoom(name string) Reply {
	if slices.Contains(c.Opening, name) {
		return Nothing(fmt.Sprintf("the size of %s is not known yet, so nothing is noted there", name), ARoom(name, c.Units))
	}
	return No(fmt.Sprintf("there is no room %q", name), ARoom(name, c.Units))
}

// OfRoom reports whether an entry is about something in a room and means nothing without one.
func OfRoom(e grammar.Entry) bool {
	switch e.(type) {
	case rooms.Square, rooms.Slope, rooms.Bulkhead, rooms.SupportSet, rooms.SupportFix, boards.BoardsRun, boards.OtherWay,
		boards.High, boards.RowsFrom, boards.Boarded, boards.UpAll, boards.Painted, boards.Texture, rooms.Floor, hanging.Check, hanging.Coat,
		things.Thing, things.Even, things.Mark, relate.More, things.Opening, things.Route, things.Plate, hanging.Hung, hanging.HungPlan, hanging.SoFar:
		return true
	}
	alias, ok := e.(rooms.Alias)
	return ok && alias.Wall != ""
}

// Told reports whether an entry is kept word for word.
func Told(e grammar.Entry) bool {
	switch e.(type) {
	case record.Note, record.Snag:
		return true
	}
	return false
}
