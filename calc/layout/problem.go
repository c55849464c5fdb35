package layout

import (
	"fmt"

	"strapline/calc/length"
)

// Kind is the reason why there is no layout.
type Kind string

const (
	BadSize    Kind = "size"      // a size out of range
	NoSupports Kind = "supports"  // no supports noted
	NoBoards   Kind = "boards"    // no board size noted, or none that gets into the room
	TooFar     Kind = "too far"   // no board reaches from Problem.From to the next support or end
	NoLongEdge Kind = "long edge" // boards along: no support for a long joint within a board's width
	BadHung    Kind = "hung"      // a hung piece does not lie in its row
	TooComplex Kind = "complex"   // more supports or rows than the planner takes
)

// Problem is the error that there is no layout, because of something in the input that a person can
// correct.
type Problem struct {
	Kind     Kind
	Row      int           // from 1; 0 = all
	From, To length.Length // the stretch in question
	Longest  length.Length // of the boards that get in
}

func (p *Problem) Error() string {
	return fmt.Sprintf("no layout (%s): row %d, %s to %s", p.Kind, p.Row, length.Canon(p.From), length.Canon(p.To))
}

// About is the subject of a note.
type About string

const (
	EdgeNear    About = "edge"       // a butt closer to the edge of an opening than the rule
	StaggerLow  About = "stagger"    // butts closer to each other than the rule
	ShortPiece  About = "short"      // a piece shorter than the rule
	SliverRow   About = "sliver"     // a row narrower than the rule
	CornerJoint About = "corner"     // a long joint in line with a corner of a notch or opening
	FieldCut    About = "field cut"  // a cut edge that is not at a wall
	LooseButt   About = "loose"      // a hung butt that is not on a support
	OffCentre   About = "centre"     // a hung butt more than 1/4 in off the middle of its support
	CornerOff   About = "corner off" // a wall beside the rows bends within a piece
	OpenGap     About = "gap"        // a stretch beside a hung piece too narrow for another piece
	Spacing     About = "spacing"    // supports too far apart for the board
	Thin        About = "thin"       // board not allowed at any spacing
	NarrowFace  About = "face"       // supports too narrow to take a joint
	CutDown     About = "cut down"   // boards that are longer than what gets in are used
)

// Note is a warning that comes with the layout.
type Note struct {
	About About
	Row   int           // from 1; 0 = all
	At    length.Length // where it is, or the value found
	Limit length.Length // the rule's value
	Rule  string        // the published rule, where there is one
}
