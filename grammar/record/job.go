package record

import (
	"strapline/grammar"
	"strapline/grammar/read"
	"strapline/grammar/rooms"
)

var JobKinds = []read.Row{
	{Command: read.Command{Kind: "job", Words: []string{"job"}, About: "the title of the job", Example: "job larkspur upper flat", Fits: "a title"},
		Rule: read.Rule[textSyntax](), Makes: []grammar.Entry{rooms.Job{}}, Text: true},
	{Command: read.Command{Kind: "units", Words: []string{"units"}, About: "what a number without a unit means",
		Example: "units metric", Fits: "imperial or metric", Strict: true},
		Rule: read.Rule[rooms.UnitsSyntax](), Makes: []grammar.Entry{rooms.UnitsSet{}}},
	{Command: read.Command{Kind: "built", Words: []string{"built"}, About: "the year of the house: old ceilings carry cautions",
		Example: "built 1962", Fits: "a year"},
		Rule: read.Rule[rooms.BuiltSyntax](), Makes: []grammar.Entry{rooms.Built{}}},
	{Command: read.Command{Kind: "help", Words: []string{"help", "commands", "what can you do"}, About: "this list, or one thing of it",
		Example: "help light", Fits: "nothing, or one word of the list"},
		Rule: read.Rule[helpSyntax](), Makes: []grammar.Entry{Help{}}, Asks: true},
}
