package slip

// Kind is what went wrong with a note.
type Kind string

const (
	Elsewhere     Kind = "elsewhere"      // nothing: the hole was not made at the noted place
	NextSupport   Kind = "next support"   // off the strap next to the one named
	Mirror        Kind = "other wall"     // off the opposite wall
	OtherSide     Kind = "other side"     // on the other side of the strap, mark or thing
	Swapped       Kind = "x and y"        // the two distances swapped
	FootOut       Kind = "foot out"       // read at the wrong foot mark
	InchBurned    Kind = "inch burned"    // measured from the tape's 1 in mark, which was not subtracted
	TenBurned     Kind = "ten burned"     // the same with 10 in
	HundredBurned Kind = "hundred burned" // the same with 100 mm
	DigitsSwapped Kind = "digits swapped" // such as 26 for 62
	Sixteenths    Kind = "sixteenths"     // such as 3/8 for 5/8, 5/16 for 5/8
	MMForInch     Kind = "mm for in"      // right number, wrong unit
	Edge          Kind = "edge"           // to the thing's edge instead of its centre, or vice versa
	SupportEdge   Kind = "support edge"   // from the strap's edge instead of its centre, or vice versa
	Face          Kind = "stud or board"  // from the studs instead of the board face, or vice versa
	WrongRoom     Kind = "wrong room"     // noted for a similar room
)

// Row is a row of the table of weights.
type Row struct {
	Kind  Kind
	Per   float64 // per thousand distances that can have the slip; for Swapped and WrongRoom, per thousand notes
	Habit bool    // a person makes it repeatedly at a wall, so a thing found where they noted it is evidence against it
}

// Table weighs the slips against each other. The numbers are INVENTED, because no
// count of such slips is published. They follow what crews say about themselves
// (mirrored plans, wrong straps and swapped numbers often, burned inches now and
// then), and should be replaced by counts from real jobs. A slip with several
// outcomes (a foot more, a foot less) divides its weight among them.
var Table = []Row{
	{NextSupport, 60, false},
	{Mirror, 30, true},
	{OtherSide, 20, false},
	{Swapped, 20, false},
	{FootOut, 12, false},
	{Edge, 12, true},
	{Face, 12, true},
	{WrongRoom, 10, false},
	{InchBurned, 8, true},
	{DigitsSwapped, 8, false},
	{SupportEdge, 8, true},
	{Sixteenths, 5, false},
	{MMForInch, 3, true},
	{TenBurned, 2, true},
	{HundredBurned, 5, true},
}

// Before lists what to try before drilling, in order, since it costs nothing.
var Before = [3]string{
	"raking light: hold a lamp flat to the board and look for a hump or a shadow",
	"straightedge: it rocks over what stands proud behind the board",
	"tone: put a tone on the wire from the next box and follow it",
}

func row(k Kind) Row {
	for _, r := range Table {
		if r.Kind == k {
			return r
		}
	}
	return Row{}
}
