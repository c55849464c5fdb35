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

// english is the language by subject, in the order of help.
var english = []read.Subject{
	{Name: "rooms", Rows: slices.Concat(rooms.RoomKinds, rooms.ShapeKinds, rooms.FloorKinds, rooms.SquareKinds)},
	{Name: "framing", Rows: rooms.SupportKinds},
	{Name: "things", Rows: slices.Concat(things.ThingKinds, things.OpeningKinds, things.RunKinds, relate.RelativeKinds)},
	{Name: "boards", Rows: slices.Concat(boards.BoardKinds, boards.PlanKinds, boards.StockKinds, boards.HangKinds)},
	{Name: "hanging", Rows: slices.Concat(hanging.HungKinds, hanging.SoFarKinds, hanging.SumKinds, hanging.CloseKinds, hanging.SetKinds)},
	{Name: "asking", Rows: slices.Concat(record.AskKinds, record.NotesKinds, record.StateKinds, record.ListKinds)},
	{Name: "notes", Rows: slices.Concat(record.NoteKinds, record.CorrectKinds, record.JobKinds)},
}

// rules are the productions by the start of a line: a command, or a subject.
var rules = func() map[string]read.Production {
	all := map[string]read.Production{"row": read.Rule[hanging.RowSyntax](), "surface": read.Rule[boards.SurfaceSyntax](), "pieces": read.Rule[hanging.PiecesSyntax](), "bare": read.Rule[record.BareSyntax]()}
	for _, of := range english {
		for _, k := range of.Rows {
			if k.Rule != nil {
				all[string(k.Kind)] = k.Rule
			}
		}
	}
	return all
}()

func init() {
	read.Teach(english, func(text string, c *grammar.Context) (grammar.Line, error) { return parse(text, c, true) })
	read.Anew = func(text string, c *grammar.Context) (grammar.Line, error) { return parse(text, c, false) }
	grammar.Register(rooms.InRoom{}, record.Pick{}, record.Bare{}, grammar.Doubtful{})
	for _, k := range read.Kinds {
		grammar.Register(k.Makes...)
	}
}

func kindOf(line grammar.Line, err error) grammar.Kind {
	if err != nil {
		return ""
	}
	return line.Entry.Kind()
}
