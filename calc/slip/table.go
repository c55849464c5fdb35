package slip

// Kind is what went wrong with a note.
type Kind string

const (
	Elsewhere     Kind = "elsewhere"      // nothing: the hole was not made at the noted place
	NextSupport   Kind = "next support"   // off the strap beside the one named
	Mirror        Kind = "other wall"     // off the other wall of the pair
	OtherSide     Kind = "other side"     // the other side of the strap, mark or thing
	Swapped       Kind = "x and y"        // the two distances swapped
	FootOut       Kind = "foot out"       // read at the wrong foot mark
	InchBurned    Kind = "inch burned"    // tape held at its 1 in mark, and not taken off
	TenBurned     Kind = "ten burned"     // the same with 10 in
	HundredBurned Kind = "hundred burned" // the same with 100 mm
	DigitsSwapped Kind = "digits swapped" // 26 for 62
	Sixteenths    Kind = "sixteenths"     // 3/8 for 5/8, 5/16 for 5/8
	MMForInch     Kind = "mm for in"      // the number is right, its unit is not
	Edge          Kind = "edge"           // to the thing's edge for its centre, or the other way
	SupportEdge   Kind = "support edge"   // from the strap's edge for its centre
	Face          Kind = "stud or board"  // held to the studs for the board face, or the other way
	WrongRoom     Kind = "wrong room"     // noted for the room that is alike
)

// Row is one line of the table of weights.
type Row struct {
	Kind Kind
	// Per is how many of a thousand distances carry the slip, where it can happen
	// at all; of a thousand notes for Swapped and WrongRoom.
	Per float64
	// Habit marks a slip that a person makes of a wall time after time, so that a
	// thing of theirs found where they noted it speaks against it.
	Habit bool
}

// Table is what slips weigh against each other. The numbers are INVENTED: there is
// no published count of such slips. They follow what crews say of themselves
// (mirrored plans, the wrong strap and swapped numbers often; burned inches now
// and then) and are to be replaced by counts from real jobs. Where a slip has
// several outcomes (a foot more, a foot less) they share its weight.
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

// Before is what to try before any hole, in order: it costs nothing.
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
