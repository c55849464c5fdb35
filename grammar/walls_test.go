package grammar_test

// Walls: their openings, floors, boards and plans.
func init() { accepted = append(accepted, onWalls...) }

var onWalls = []struct{ in, canon string }{
	{"door 36 x 80 on north wall 40 off west", `door 36" x 80", on north wall, 40" off west`},
	{"the door 32x80 on south wall 20 from the east wall", `door 32" x 80", on south wall, 20" off east`},
	{"patio door 6' x 80 south wall 24 off west to centre", `door 72" x 80", on south wall, 24" off west to centre`},
	{"window 36 x 48 on west wall 50 off north 36 up", `window 36" x 48", on west wall, 50" off north, 36" up`},
	{"window over sink 36 x 48 on window wall 50 off west 36 up", `window over sink 36" x 48", on north wall, 50" off west, 36" up`},
	{"skylight 24 x 48 40 off west 30 off north", `skylight 24" x 48", 40" off west, 30" off north`},
	{"list doors", "list doors"},
	{"finished floor 3/4", `finished floor 3/4"`},
	{"box 2x4 on north wall 52 off west 16 up off finished floor", `box 2" x 4", on north wall, 52" off west, 16" up off finished floor`},
	{"box 2x4 on north wall 52 off west 16 off the subfloor", `box 2" x 4", on north wall, 52" off west, 16" up off subfloor`},
	{"boards standing", "boards standing"},
	{"boards upright on the north wall", "boards standing on north wall"},
	{"boards running horizontal on east wall", "boards level on east wall"},
	{"rows from east on north wall", "rows from east on north wall"},
	{"cuts north wall", "cut list on north wall"},
	{"whats r2.1 on the north wall", "whats r2.1 on north wall"},
	{"how many screws on north wall", "how many screws on north wall"},
	{"what windows are on the west wall", "list windows on west wall"},
}
