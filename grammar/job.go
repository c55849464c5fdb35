package grammar

var jobKinds = []kind{
	{Command{Kind: "job", Words: []string{"job"}, About: "the title of the job", Example: "job larkspur upper flat", Fits: "a title"},
		rule[textSyntax](), []Entry{Job{}}},
	{Command{Kind: "units", Words: []string{"units"}, About: "what a number without a unit means",
		Example: "units metric", Fits: "imperial or metric", Strict: true},
		rule[unitsSyntax](), []Entry{UnitsSet{}}},
	{Command{Kind: "built", Words: []string{"built"}, About: "the year of the house: old ceilings carry cautions",
		Example: "built 1962", Fits: "a year"},
		rule[builtSyntax](), []Entry{Built{}}},
	{Command{Kind: "help", Words: []string{"help", "commands", "what can you do"}, About: "this list, or one thing of it",
		Example: "help light", Fits: "nothing, or one word of the list"},
		rule[helpSyntax](), []Entry{Help{}}},
}
