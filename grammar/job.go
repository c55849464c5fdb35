package grammar

var jobKinds = []kind{
	{Command: Command{Kind: "job", Words: []string{"job"}, About: "the title of the job", Example: "job larkspur upper flat", Fits: "a title"},
		rule: rule[textSyntax](), makes: []Entry{Job{}}, text: true},
	{Command: Command{Kind: "units", Words: []string{"units"}, About: "what a number without a unit means",
		Example: "units metric", Fits: "imperial or metric", Strict: true},
		rule: rule[unitsSyntax](), makes: []Entry{UnitsSet{}}},
	{Command: Command{Kind: "built", Words: []string{"built"}, About: "the year of the house: old ceilings carry cautions",
		Example: "built 1962", Fits: "a year"},
		rule: rule[builtSyntax](), makes: []Entry{Built{}}},
	{Command: Command{Kind: "help", Words: []string{"help", "commands", "what can you do"}, About: "this list, or one thing of it",
		Example: "help light", Fits: "nothing, or one word of the list"},
		rule: rule[helpSyntax](), makes: []Entry{Help{}}, asks: true},
}
