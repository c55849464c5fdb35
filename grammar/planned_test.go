package grammar_test

func init() {
	accepted = append(accepted, acceptedAsked...)
	chatter = append(chatter, chatterAsked...)
}

// acceptedAsked is accepted for what is asked of the plan.
var acceptedAsked = []struct{ in, canon string }{
	// The layout.
	{"lay it out", "layout"},
	{"lay it out in den", "den: layout"},
	{"give me the layout", "layout"},
	{"what's the layout in den?", "den: layout"},
	{"we ready?", "ready"},
	{"whats the cut for r2.1", "whats r2.1"},
	{"how do the boards go?", "layout"},
	{"which way do the boards run", "layout"},
	{"can i get a layout", "layout"},
	{"can i get a layout for the den", "den: layout"},
	{"need a layout", "layout"},
	{"ceiling layout", "layout"},
	{"board layout", "layout"},
	{"go with layout 2", "layout 2"},
	{"take layout 2", "layout 2"},
	{"use layout 2 in den", "den: layout 2"},
	{"lay it out the other way", "boards the other way"},
	{"boards the other way", "boards the other way"},
	{"run em the other way", "boards the other way"},
	{"kitchen: run them the other way", "kitchen: boards the other way"},

	// What to order and what to bring.
	{"how many boards do i need", "order"},
	{"how many boards for den", "den: order"},
	{"how many boards do i need for the den?", "den: order"},
	{"how many boards do i have for the den", "den: order"},
	{"how many 12s do i need", "order"},
	{"boards for den?", "den: order"},
	{"what do i need for den", "den: order"},
	{"order boards for the den", "den: order"},
	{"material list", "order"},
	{"how many boards do we need tomorrow", "what do i bring"},
	{"what do we need to order", "order"},
	{"are we short", "order"},
	{"are we short for den?", "den: order"},
	{"short of boards?", "order"},
	{"enough boards?", "order"},
	{"do we have enough boards for the kitchen", "kitchen: order"},
	{"how many boards do i have left", "boards left"},
	{"what do i need tomorrow", "what do i bring"},
	{"what do we need for tomorrow in den", "den: what do i bring"},
	{"bring tmrw", "what do i bring"},
	{"what do i need to bring", "what do i bring"},

	// Cuts and single pieces.
	{"whats the cuts", "cut list"},
	{"what are the cuts?", "cut list"},
	{"whats left to cut", "cut list"},
	{"what do i cut for row 2", "whats r2"},
	{"cuts r2", "whats r2"},
	{"cuts for r2.1", "whats r2.1"},
	{"cut size for r2.1", "whats r2.1"},
	{"how long is r2.1", "whats r2.1"},
	{"which board for r2.1", "whats r2.1"},
	{"size of r2.1", "whats r2.1"},
	{"whats r2", "whats r2"},
	{"what's row 2?", "whats r2"},
	{"whats r2.1 in den", "den: whats r2.1"},
	{"where does r2.1 go", "whats r2.1"},
	{"where is r2.1", "whats r2.1"},
	{"r2?", "whats r2"},
	{"r2.1?", "whats r2.1"},
	{"row 2?", "whats r2"},
	{"kitchen row 2?", "kitchen: whats r2"},
	{"is r2.1 up", "whats r2.1"},

	// What does not hang yet.
	{"whats left to hang", "whats left to hang"},
	{"what's left to hang in den?", "den: whats left to hang"},
	{"how many rows left", "whats left to hang"},
	{"whats left in den", "den: whats left to hang"},
	{"whats not up", "whats left to hang"},
}

// chatterAsked is talk that begins as a question of the plan does, or with a row.
var chatterAsked = []string{
	"row 2 looks good", "row 2 tomorrow", "row 2 next", "row 2 is bad?", "rows 1 and 2 look good", "kitchen row 2 looks good", "r2 looks good", "r2.1 looks short",
	"order lunch?", "order pizza for everyone", "ready for row 2", "are we short a guy", "are we short on time", "short of time", "enough already", "enough boards to sink a ship",
	"what do i need tomorrow for lunch", "what do i need to bring to the party", "how long is lunch", "how long is it", "how long is row 2 going to take", "what is row 2 waiting on",
	"size of that thing", "what do i need for lunch", "boards for sale", "cut for the day", "materials for the other job", "which board meeting", "whats r2 d2", "whats up", "what is this", "lay it out on the table", "need a layout guy", "can i get a coffee", "can i get a layout of the van",
	"take layout off the wall", "rows left and right", "left to hang out to dry", "whats left of the pizza", "how many rows of seats", "where does it go", "run em over",
	"turn the boards over", "boards the other side", "we note that down", "sheets across", "there open d1",
}
