package parse

import (
	"slices"

	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// english is the language, in the order of help.
var english = slices.Concat(rooms.RoomKinds, rooms.ShapeKinds, rooms.SupportKinds, boards.BoardKinds, things.ThingKinds, things.OpeningKinds, rooms.FloorKinds, relate.RelativeKinds, rooms.SquareKinds, hanging.HungKinds, hanging.SumKinds, record.AskKinds, record.NotesKinds, record.ListKinds, record.NoteKinds, record.CorrectKinds, record.JobKinds,
	things.RunKinds, hanging.CloseKinds, boards.PlanKinds, boards.StockKinds, boards.HangKinds, hanging.SetKinds)

// rules are the productions by the start of a line: a command, or a subject.
var rules = func() map[string]read.Production {
	all := map[string]read.Production{"row": read.Rule[hanging.RowSyntax](), "surface": read.Rule[boards.SurfaceSyntax](), "pieces": read.Rule[hanging.PiecesSyntax](), "bare": read.Rule[record.BareSyntax]()}
	for _, k := range english {
		if k.Rule != nil {
			all[string(k.Kind)] = k.Rule
		}
	}
	return all
}()

func init() {
	read.Teach(english, func(text string, c *grammar.Context) (grammar.Line, error) { return parse(text, c, true) })
	grammar.Register(rooms.InRoom{}, record.Pick{}, record.Bare{})
	for _, k := range english {
		grammar.Register(k.Makes...)
	}
}
