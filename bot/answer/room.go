package answer

import (
	"fmt"
	"slices"

	"strapline/calc/length"
	"strapline/grammar"
)

// ARoom returns a room and its size as typed, as an example.
func ARoom(name string, u length.Units) string {
	if name == "" {
		name = "kitchen"
	}
	if u == length.Metric {
		return "room " + name + " 4075 x 3580"
	}
	return "room " + name + " 13' 4 x 11' 9"
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
	case grammar.Square, grammar.Slope, grammar.Bulkhead, grammar.SupportSet, grammar.SupportFix, grammar.BoardsRun, grammar.OtherWay,
		grammar.High, grammar.RowsFrom, grammar.Boarded, grammar.UpAll, grammar.Painted, grammar.Texture, grammar.Floor, grammar.Check, grammar.Coat,
		grammar.Thing, grammar.Even, grammar.Mark, grammar.More, grammar.Opening, grammar.Route, grammar.Plate, grammar.Hung, grammar.HungPlan:
		return true
	}
	alias, ok := e.(grammar.Alias)
	return ok && alias.Wall != ""
}

// Told reports whether an entry is kept word for word.
func Told(e grammar.Entry) bool {
	switch e.(type) {
	case grammar.Note, grammar.Snag:
		return true
	}
	return false
}
