package grammar

import (
	"io"
	"slices"
	"strapline/calc/length"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// Entry is one thing said. String is its canonical text, which parses back
// to an equal Entry.
type Entry interface {
	Kind() Kind
	String() string
}

// Kind is an entry's name in the log and in the command table: "room", "thing", "hung", ...
type Kind string

// Line is one entry with what stood around it.
type Line struct {
	Room   string // "kitchen: ...", "... in kitchen": the declared name, "" when not said
	At     string // "at 9:58": 24 h "15:04", "" when not said
	Exact  bool   // am was said: At is not twelve hours later
	Before int    // "... before row 2": sent before that row went up, 0 when not said
	After  int    // "... after row 2"
	Entry  Entry
}

// String is the line in canonical form: its frame, then its entry.
func (l Line) String() string {
	var b strings.Builder
	if l.Room != "" {
		b.WriteString(l.Room + ": ")
	}
	if l.At != "" {
		b.WriteString("at " + l.At + " ")
		if l.Exact {
			b.WriteString("am ")
		}
	}
	switch l.Entry.(type) {
	case Note, Snag, Job: // they keep the rest of their line
		return b.String() + l.Entry.String()
	}
	b.WriteString(l.Entry.String())
	if l.Before > 0 {
		b.WriteString(", before row " + strconv.Itoa(l.Before))
	}
	if l.After > 0 {
		b.WriteString(", after row " + strconv.Itoa(l.After))
	}
	return b.String()
}

// Choice is one answer to a question: what is shown, and the lines it stands for;
// none when nothing is to be done. Text stands in for Lines where reading it asks
// once more.
type Choice struct {
	Label string
	Text  string `json:",omitempty"`
	Lines []Line `json:",omitempty"`
}

// String is what would be typed instead of picking it.
func (c Choice) String() string {
	if c.Text != "" || len(c.Lines) == 0 {
		return c.Text
	}
	all := make([]string, len(c.Lines))
	for i, l := range c.Lines {
		all[i] = l.String()
	}
	return strings.Join(all, "\n")
}

// reads is a choice that stands for a line yet to be read.
func reads(label, text string) Choice { return Choice{Label: label, Text: text} }

// Command is one row of the command table. Help, hints and tests read it;
// another language is another language value.
type Command struct {
	Kind    Kind
	Words   []string // how a line that says it begins; empty when it begins with its subject
	Talk    []string // the same in more words: as good, but not shown by help
	About   string   // one line: what it is for
	Example string   // a line that parses with nothing declared
	Metric  string   // the same in a metric job, where that differs
	Fits    string   // what fits after the word, for whoever got stuck there

	// Strict words are no everyday English: a line that begins with one is for us.
	Strict bool
}

// Say is the example for a job in these units.
func (c Command) Say(u length.Units) string {
	if u == length.Metric && c.Metric != "" {
		return c.Metric
	}
	return c.Example
}

// Commands returns the command table in the order that help shows it.
func Commands() []Command { return slices.Clone(english.commands) }

// Topic returns the commands that the word begins, whose kind it is, or that are
// shown with it.
func Topic(word string) []Command {
	var rows []Command
	for _, c := range english.commands {
		if string(c.Kind) == word || slices.Contains(c.Words, word) || strings.HasPrefix(c.Example, word+" ") {
			rows = append(rows, c)
		}
	}
	if len(rows) > 0 {
		return rows
	}
	if words.thing[word] != "" {
		return Topic("thing")
	}
	for _, p := range words.phrases[word] {
		if p.typ == tService {
			return Topic("run")
		}
		if p.typ == tSupport && word != "straps" {
			return Topic("straps")
		}
	}
	return nil
}

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

var whole = participle.MustBuild[languageSyntax](participle.Lexer(symbols{}), participle.UseLookahead(0))

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

// symbols is participle's view of the lexer. It lexes a line that nothing is
// declared for; Parse hands participle its tokens itself.
type symbols struct{}

func (symbols) Symbols() map[string]tokenType {
	return map[string]tokenType{
		"EOF": lexer.EOF, "Cmd": tCmd, "Thing": tThing, "Service": tService, "Support": tSupport, "Wall": tWall, "Run": tRun,
		"Room": tRoom, "Name": tName, "Number": tNumber, "Tag": tTag, "Place": tPlace, "Key": tKey, "Word": tWord, "Text": tText, "Punct": tPunct, "Other": tOther,
	}
}

func (symbols) Lex(_ string, r io.Reader) (lexer.Lexer, error) {
	b, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	l := lexLine(string(b), &Context{Units: length.Imperial})
	return &tokenReader{l.tokens}, nil
}

type tokenReader struct{ left []lexer.Token }

func (r *tokenReader) Next() (lexer.Token, error) {
	t := r.left[0]
	if !t.EOF() {
		r.left = r.left[1:]
	}
	return t, nil
}
