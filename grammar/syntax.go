package grammar

import (
	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// languageSyntax is the whole language, an alternative for each way an entry
// begins. Parse knows by its first token which one to try. Inside, too, one
// token decides: a rule that has begun must end, so that an error stands where
// the line went wrong.
type languageSyntax struct {
	Room    *roomSyntax    `parser:"  @@"`
	Alias   *aliasSyntax   `parser:"| @@"`
	Support *supportSyntax `parser:"| @@"`
	Board   *boardSyntax   `parser:"| @@"`
	Rows    *rowsSyntax    `parser:"| @@"`
	Value   *valueSyntax   `parser:"| @@"`
	Thing   *thingSyntax   `parser:"| @@"`
	Mark    *markSyntax    `parser:"| @@"`
	Gap     *gapSyntax     `parser:"| @@"`
	Hung    *hungSyntax    `parser:"| @@"`
	Row     *rowSyntax     `parser:"| @@"`
	Surface *surfaceSyntax `parser:"| @@"`
	Boarded *boardedSyntax `parser:"| @@"`
	Open    *openSyntax    `parser:"| @@"`
	Find    *findSyntax    `parser:"| @@"`
	Ask     *askSyntax     `parser:"| @@"`
	Any     *anySyntax     `parser:"| @@"`
	Who     *whoSyntax     `parser:"| @@"`
	Log     *logSyntax     `parser:"| @@"`
	Text    *textSyntax    `parser:"| @@"`
	Hit     *hitSyntax     `parser:"| @@"`
	Undo    *undoSyntax    `parser:"| @@"`
	Strike  *strikeSyntax  `parser:"| @@"`
	Fix     *fixSyntax     `parser:"| @@"`
	Units   *unitsSyntax   `parser:"| @@"`
	Built   *builtSyntax   `parser:"| @@"`
	Help    *helpSyntax    `parser:"| @@"`
	Run     *runSyntax     `parser:"| @@"`
	Plate   *plateSyntax   `parser:"| @@"`
	Code    *codeSyntax    `parser:"| @@"`
	Set     *setSyntax     `parser:"| @@"`
	Reach   *reachSyntax   `parser:"| @@"`
	Screws  *screwsSyntax  `parser:"| @@"`
	PlanAsk *planAskSyntax `parser:"| @@"`
	Ready   *readySyntax   `parser:"| @@"`
	Check   *checkSyntax   `parser:"| @@"`
	Handoff *handoffSyntax `parser:"| @@"`
	Coat    *coatSyntax    `parser:"| @@"`
	Layout  *layoutSyntax  `parser:"| @@"`
	Stock   *stockSyntax   `parser:"| @@"`
	Left    *leftSyntax    `parser:"| @@"`
	Longest *longestSyntax `parser:"| @@"`
	Pieces  *piecesSyntax  `parser:"| @@"`
	Piece   *pieceSyntax   `parser:"| @@"`
	Swap    *swapSyntax    `parser:"| @@"`
	Bare    *bareSyntax    `parser:"| @@"`
}

type roomSyntax struct {
	Pos  lexer.Position
	Name roomName     `parser:"'room' @@"`
	A    needLength   `parser:"@@"`
	ARun string       `parser:"@Run?"`
	By   needX        `parser:"@@"`
	B    needLength   `parser:"@@"`
	BRun string       `parser:"@Run?"`
	More []roomExtras `parser:"@@*"`
}

type roomExtras struct {
	Pos  lexer.Position
	High *needLength  `parser:"  ('high' | 'height' | 'ceiling') @@"`
	Tall *oneLength   `parser:"| @@ ('high' | 'ceiling')"`
	Less *notchSyntax `parser:"| 'less' @@"`
}

type notchSyntax struct {
	Pos     lexer.Position
	A       needAmong   `parser:"@@"`
	By      needX       `parser:"@@"`
	B       needAmong   `parser:"@@"`
	Corner  string      `parser:"(  'in'? @('ne' | 'nw' | 'se' | 'sw') 'corner'?"`
	Wall    string      `parser:" | @Wall"`
	Off     *needLength `parser:"   @@ 'off'"`
	OffWall needWall    `parser:"   @@"`
	None    *noCorner   `parser:" | @@ )"`
}

type aliasSyntax struct {
	Pos  lexer.Position
	Wall string   `parser:"( @Wall"`
	Room string   `parser:"| @Room )"`
	Is   string   `parser:"@('is' | 'aka')"`
	Name anything `parser:"@@"`
}

type supportSyntax struct {
	Pos   lexer.Position
	What  string         `parser:"@Support"`
	One   *oneSupport    `parser:"(  (?= Number ('at' | 'off' | 'stops' | 'ends')) @@"`
	Items []*supportItem `parser:" | @@+ )"`
}

type oneSupport struct {
	Pos   lexer.Position
	N     count        `parser:"@@"`
	At    *needLength  `parser:"( 'at' @@"`
	From  *needWall    `parser:"  ('off' @@)?"`
	Start *needAmong   `parser:"| 'off' @@"`
	End   *needAmong   `parser:"  'to' @@"`
	Wall  *needWall    `parser:"  'off' @@"`
	Stop  *needLength  `parser:"| ('stops' | 'ends') 'at'? @@"`
	Short *needWall    `parser:"  'off' @@ )"`
	On    *whereSyntax `parser:"( 'on'? @@ )?"`
}

type supportItem struct {
	Pos   lexer.Position
	Run   string       `parser:"  ('run' | 'runs' | 'running')? @Run"`
	First *needLength  `parser:"| 'first' 'at'? @@"`
	FWall *needWall    `parser:"  ('off' @@)?"`
	At    []*needAmong `parser:"| 'at' @@"`
	And   []*aLength   `parser:"  @@*"`
	OC    bool         `parser:"  ( @'oc'"`
	AWall *needWall    `parser:"  | 'off' @@ )?"`
	Space *needLength  `parser:"| ('@' | 'every') @@ 'oc'?"`
	L     *aLength     `parser:"| @@"`
	Is    string       `parser:"  @('oc' | 'thick' | 'wide')?"`
	On    *whereSyntax `parser:"| 'on'? @@"`
}

type whereSyntax struct {
	Pos     lexer.Position
	Ceiling bool   `parser:"( @'ceiling'"`
	Wall    string `parser:"| @Wall )"`
}

type boardSyntax struct {
	Pos   lexer.Position
	Head  string       `parser:"@('board' | 'boards')"`
	Dir   string       `parser:"(  ('run' | 'running')? ( @'along' | @('across' | 'ew' | 'ns') ) Support?"`
	Items []*boardItem `parser:" | @@+ )"`
}

type boardItem struct {
	Pos     lexer.Position
	Lengths []*needAmong `parser:"  ('lengths' | 'length' | 'long') @@ 'oc'?"`
	And     []*aLength   `parser:"  ( @@ 'oc'? )*"`
	A       *aLength     `parser:"| @@"`
	B       *needAmong   `parser:"  ( 'x' @@ )?"`
	Is      string       `parser:"  @('thick' | 'wide')?"`
}

type rowsSyntax struct {
	Pos  lexer.Position
	Wall needWall `parser:"'rows' ('start' | 'count' | 'run')? 'off' @@"`
}

// valueSyntax is a setting that is one length.
type valueSyntax struct {
	Pos  lexer.Position
	What string     `parser:"@('clearance' | 'screw') 'length'?"`
	L    needLength `parser:"@@ ('in' 'all')?"`
}

type thingSyntax struct {
	Pos   lexer.Position
	Size  *aLength     `parser:"@@?"`
	SizeB *needAmong   `parser:"( 'x' @@ )?"`
	Lead  *lead        `parser:"@@?"`
	What  string       `parser:"@Thing"`
	Items []*placeItem `parser:"@@*"`
}

type markSyntax struct {
	Pos   lexer.Position
	Name  string       `parser:"'mark' @Name"`
	Items []*placeItem `parser:"@@*"`
}

type fixSyntax struct {
	Pos   lexer.Position
	Name  string       `parser:"'fix' ( 'mark'? @Name"`
	Said  *label       `parser:"| @@ ) 'to'?"`
	Items []*placeItem `parser:"@@*"`
}

// placeItem is one part of where a thing is, in any order.
type placeItem struct {
	Pos     lexer.Position
	Num     *distance     `parser:"  @@"`
	Label   *label        `parser:"| @@"`
	OnWhat  *supportN     `parser:"| 'on' ( @@"`
	On      *whereSyntax  `parser:"       | @@"`
	OnSide  string        `parser:"       | @Place"`
	OnNone  *noSurface    `parser:"       | @@ )"`
	Where   *whereSyntax  `parser:"| @@"`
	Name    string        `parser:"| @Name"`
	Support *supportN     `parser:"| @@"`
	Along   *targetSyntax `parser:"| 'along' @@"`
	Room    string        `parser:"| @Room"`
	Even    bool          `parser:"| @'even'"`
	Paint   bool          `parser:"| @'after paint'"`
	At      *distance     `parser:"| 'at' @@"`
}

// distance is a number and what it is held to. Tags stand before or after that.
type distance struct {
	L     aLength       `parser:"@@"`
	B     *needAmong    `parser:"( 'x' @@ )?"`
	Tag   string        `parser:"@Tag?"`
	Off   bool          `parser:"(  @'off'"`
	Wall  string        `parser:"   ( @Wall"`
	Place string        `parser:"   | @( Place | 'ceiling' ) )?"`
	Up    string        `parser:" | @( 'up' | 'down' | 'high' )"`
	Dir   string        `parser:" | (?= Wall 'of') @Wall 'of'"`
	Of    *targetSyntax `parser:"   @@"`
	Along *targetSyntax `parser:" | 'along' @@"`
	From  *needWall     `parser:"   ( 'off' @@ )?"`
	Side  string        `parser:" | @Place )?"`
	Tags  []string      `parser:"@Tag*"`
}

type supportN struct {
	Pos  lexer.Position
	What string `parser:"@Support"`
	N    count  `parser:"@@"`
	Edge bool   `parser:"@'edge'?"`
}

type targetSyntax struct {
	Pos     lexer.Position
	Support *supportN `parser:"  @@"`
	Name    string    `parser:"| 'mark'? @Name"`
	Wall    string    `parser:"| @Wall"`
	None    *noTarget `parser:"| @@"`
}

type gapSyntax struct {
	Pos lexer.Position
	A   needAmong `parser:"'gap' @@"`
	B   *aLength  `parser:"@@?"`
}

// surfaceSyntax begins with a surface: what became of it.
type surfaceSyntax struct {
	Pos      lexer.Position
	Ceiling  bool       `parser:"( @'ceiling'"`
	Wall     string     `parser:"| @Wall )"`
	Up       bool       `parser:"( @('up' | 'hung')"`
	Boarded  bool       `parser:"| @'boarded'"`
	Thick    *oneLength `parser:"  @@?"`
	Painted  bool       `parser:"| @'painted'"`
	Finished bool       `parser:"| @'finished' )"`
}

type boardedSyntax struct {
	Pos   lexer.Position
	Wall  needWall   `parser:"'boarded' @@"`
	Thick *oneLength `parser:"@@?"`
}

type openSyntax struct {
	Pos   lexer.Position
	Names names `parser:"'open' @@"`
}

type findSyntax struct {
	Pos     lexer.Position
	Mark    string    `parser:"'find' (  (?= 'mark' Name) 'mark' @Name"`
	Support *supportN `parser:"        | @@"`
	What    *noted    `parser:"        | @@ ) ('at' | 'to')*"`
}

// askSyntax is a question that needs nothing more.
type askSyntax struct {
	Pos  lexer.Position
	What string `parser:"@('covered' | 'status' | 'snags')"`
}

type anySyntax struct {
	Pos  lexer.Position
	What string `parser:"'any'? @(Thing | Service)"`
	Over bool   `parser:"( @('over' | 'in' | 'above' | 'behind' | 'under' | 'at')"`
	Row  *count `parser:"  'row' @@ )?"`
	Said bool   `parser:"@('noted' | 'logged')?"`
}

type whoSyntax struct {
	Pos lexer.Position
	Row *count       `parser:"'who' ( 'row' @@ )?"`
	On  *whereSyntax `parser:"( 'on'? @@ )?"`
}

type logSyntax struct {
	Pos   lexer.Position
	Items []*logItem `parser:"'log' @@*"`
}

type logItem struct {
	Pos   lexer.Position
	Today bool   `parser:"  @'today'"`
	Since *count `parser:"| 'since' @@"`
	Room  string `parser:"| @Room"`
	Of    string `parser:"| 'of'? ( @Name"`
	Who   *label `parser:"        | @@ )"`
}

// textSyntax keeps what follows word for word.
type textSyntax struct {
	Pos  lexer.Position
	What string `parser:"@('note' | 'snag' | 'job')"`
	Text string `parser:"@Text"`
}

type hitSyntax struct {
	Pos  lexer.Position
	What []string `parser:"'hit' @(Service | 'line' | 'main' | 'live' | 'electric' | 'power')*"`
	At   []*spot  `parser:"@@*"`
}

// spot is roughly where: "in row 2", "at strap 4".
type spot struct {
	Row     *count    `parser:"( 'in' | 'at' | 'on' | 'over' | 'near' | 'by' )? ( 'row' @@"`
	Support *supportN `parser:"| @@"`
	Wall    string    `parser:"| @Wall )"`
}

type undoSyntax struct {
	Pos lexer.Position
	New *oneLength  `parser:"'undo' ( @@"`
	Old *needLength `parser:"( 'not' @@ )? )?"`
}

type strikeSyntax struct {
	Pos lexer.Position
	Seq count `parser:"'strike' ('note' | 'number' | 'no')? @@"`
}

type unitsSyntax struct {
	Pos   lexer.Position
	Units string `parser:"'units' @Word"`
}

type builtSyntax struct {
	Pos  lexer.Position
	Year count `parser:"'built' 'in'? @@"`
}

type helpSyntax struct {
	Pos   lexer.Position
	Topic *anything `parser:"'help' @@?"`
}

// swapSyntax puts one number right: "84 not 48", "not 48, 84", "make that 84".
type swapSyntax struct {
	Pos   lexer.Position
	Wrong *needAmong   `parser:"(  'not' @@"`
	Then  *needLength  `parser:"   'but'? @@"`
	New   *needLength  `parser:" | ('*' | 'swap') @@"`
	Not   *needLength  `parser:"   ( 'not' @@ )?"`
	Right *rightSyntax `parser:" | @@ )"`
}

type rightSyntax struct {
	Pos lexer.Position
	New oneLength  `parser:"@@"`
	Old needLength `parser:"'not' @@"`
}

type bareSyntax struct {
	Pos lexer.Position
	L   oneLength `parser:"@@"`
}

var whole = participle.MustBuild[languageSyntax](participle.Lexer(symbols{}), participle.UseLookahead(0))

// syntax is a parsed line that is not checked yet.
type syntax interface{ entry(l *line) (Entry, error) }

type production func(*lexer.PeekingLexer) (syntax, error)

func rule[S any, P interface {
	*S
	syntax
}]() production {
	p, err := participle.ParserForProduction[S](whole)
	if err != nil {
		panic(err) // a rule that languageSyntax does not reach
	}
	return func(lex *lexer.PeekingLexer) (syntax, error) {
		s, err := p.ParseFromLexer(lex)
		return P(s), err
	}
}

// rules are the productions by what a line begins with.
var rules = map[string]production{
	"room": rule[roomSyntax](), "alias": rule[aliasSyntax](), "support": rule[supportSyntax](),
	"board": rule[boardSyntax](), "boards": rule[boardSyntax](), "rows": rule[rowsSyntax](),
	"clearance": rule[valueSyntax](), "screw": rule[valueSyntax](),
	"thing": rule[thingSyntax](), "mark": rule[markSyntax](), "fix": rule[fixSyntax](),
	"gap": rule[gapSyntax](), "hung": rule[hungSyntax](), "row": rule[rowSyntax](), "surface": rule[surfaceSyntax](),
	"boarded": rule[boardedSyntax](), "open": rule[openSyntax](),
	"find": rule[findSyntax](), "covered": rule[askSyntax](), "status": rule[askSyntax](), "snags": rule[askSyntax](), "any": rule[anySyntax](),
	"who": rule[whoSyntax](), "log": rule[logSyntax](),
	"note": rule[textSyntax](), "snag": rule[textSyntax](), "job": rule[textSyntax](), "hit": rule[hitSyntax](),
	"undo": rule[undoSyntax](), "strike": rule[strikeSyntax](), "swap": rule[swapSyntax](),
	"units": rule[unitsSyntax](), "built": rule[builtSyntax](), "help": rule[helpSyntax](), "bare": rule[bareSyntax](),
	"run": rule[runSyntax](), "plate": rule[plateSyntax](), "code": rule[codeSyntax](), "set": rule[setSyntax](), "reach": rule[reachSyntax](),
	"screws": rule[screwsSyntax](), "ready": rule[readySyntax](), "check": rule[checkSyntax](), "handoff": rule[handoffSyntax](), "coat": rule[coatSyntax](),
	"painted": rule[planAskSyntax](), "texture": rule[planAskSyntax](), "cuts": rule[planAskSyntax](), "order": rule[planAskSyntax](), "bring": rule[planAskSyntax](),
	"layout": rule[layoutSyntax](), "stock": rule[stockSyntax](), "left": rule[leftSyntax](), "longest": rule[longestSyntax](), "pieces": rule[piecesSyntax](), "piece": rule[pieceSyntax](),
	"rest": rule[planAskSyntax](), "otherway": rule[planAskSyntax](),
}
