package grammar_test

func init() {
	accepted = append(accepted, acceptedRows...)
	chatter = append(chatter, chatterRows...)
}

// acceptedRows is accepted for what is up: rows, planned pieces, sizes.
var acceptedRows = []struct{ in, canon string }{
	{"hung row 1 and 2", "hung r1 r2"},
	{"hung rows 1 and 2", "hung r1 r2"},
	{"hung row 2 and row 3", "hung r2 r3"},
	{"hung row 1 2", "hung r1 r2"},
	{"hung row 1, 2", "hung r1 r2"},
	{"hung row 1, 2 & 3", "hung r1 r2 r3"},
	{"hung row 1 + 2", "hung r1 r2"},
	{"hung row 7 and 8", "hung r7 r8"},
	{"hung row 6 7", "hung r6 r7"},
	{"hung rows 7 8 9", "hung r7 r8 r9"},
	{"hung rows 1 to 3", "hung r1 r2 r3"},
	{"hung rows 1-3 cut d1", "hung r1 r2 r3 cut d1"},
	{"hung rows two and three", "hung r2 r3"},
	{"hung r1 and 2", "hung r1 r2"},
	{"hung r1 & 2", "hung r1 r2"},
	{"hung r1-r2", "hung r1 r2"},
	{"hung r1 to r3", "hung r1 r2 r3"},
	{"hung r1 to 3", "hung r1 r2 r3"},
	{"hung row 1 and 1", "hung row 1"},
	{"hung r1 row 2", "hung r2 r1"},
	{"rows 1 and 2 up", "hung r1 r2"},
	{"rows 1-2 up", "hung r1 r2"},
	{"rows1-2 up", "hung r1 r2"},
	{"rows 1 to 3 up", "hung r1 r2 r3"},
	{"rows 1, 2, 3 are up", "hung r1 r2 r3"},
	{"rows one and two up", "hung r1 r2"},
	{"rows 1 and 2 went up", "hung r1 r2"},
	{"row 1 & 2 up", "hung r1 r2"},
	{"row 2 and 3 up", "hung r2 r3"},
	{"row 1 and row 2 hung cut d1 d2", "hung r1 r2 cut d1, d2"},
	{"kitchen rows 1 and 2 up", "kitchen: hung r1 r2"},
	{"r1 and r2 up", "hung r1 r2"},
	{"r1-r2 up", "hung r1 r2"},
	{"r1 hung", "hung r1"},
	{"hung row 1 2 3/4", `hung 2-3/4" row 1`},
	{"hung row 1 2in + 96", `hung 2" + 96" row 1`},
	{"hung row 2 96 47", `hung 96" + 47" row 2`},
	{"hung r3 as 96 + 41 3/4", `hung 96" + 41-3/4" row 3`},
	{"hung row 3 with 96 and 41 3/4", `hung 96" + 41-3/4" row 3`},
	{"r3 up with 96 and 41 3/4", `hung 96" + 41-3/4" row 3`},
	{"r3 96 + 41 3/4 up", `hung 96" + 41-3/4" row 3`},
	{"r3 up: 96 + 41 3/4", `hung 96" + 41-3/4" row 3`},
	{"r3 went in as 96 and 47", `hung 96" + 47" row 3`},
	{"row 3 up: 96 + 41 3/4 cut d1", `hung 96" + 41-3/4" row 3 cut d1`},
	{"row 3 96 + 41 3/4 up on north wall", `hung 96" + 41-3/4" row 3 on north wall`},
	{"hung 2.1", "hung r2.1"},
	{"hung 2.1 and 2.2", "hung r2.1 r2.2"},
	{"hung r2.1 and 2.2 cut d1", "hung r2.1 r2.2 cut d1"},
	{"hung 16.5 row 2", `hung 16-1/2" row 2`},
	{"first row up", "hung row 1"},
	{"2nd row is up", "hung row 2"},
	{"all rows up", "ceiling up"},
	{"hung all of the rows", "ceiling up"},
	{"is r2 up?", "who hung row 2"},
}

// chatterRows is talk about rows that says nothing of what hangs.
var chatterRows = []string{
	"all up", "all up to you", "all rows look good", "first row seats", "r1 done", "r1 went in the truck", "r1 hung up on me", "r1-r2 batteries", "hung with the lads",
	"hung as usual", "hung all day",
}
