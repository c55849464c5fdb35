package grammar

import (
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
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
	Sure   bool   // picked where its doubt was asked about
	Loose  bool   // read by its words alone: of several sentences each may be read better
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

// kind is all that is to know of one; its row stands in the file of its subject.
type kind struct {
	Command
	rule   production         // nil where another kind's rule makes it too
	makes  []Entry            // of each type it makes, one
	asks   bool               // it changes nothing that was measured: a question mark may stand behind it
	ofRoom bool               // it is said of a room, which may stand anywhere in the line
	text   bool               // the rest of its line is kept word for word
	talk   func(l *line) bool // reports whether a line that cannot be read is of something else
}

func always(*line) bool { return true }

// kinds is the language, in the order that help shows it.
var kinds = slices.Concat(roomKinds, shapeKinds, supportKinds, boardKinds, thingKinds, openingKinds, floorKinds, relativeKinds, squareKinds, hungKinds, askKinds, listKinds, noteKinds, correctKinds, jobKinds,
	runKinds, closeKinds, planKinds, stockKinds, hangKinds, setKinds)

// rules are the productions by what a line begins with: a command, or a subject.
var rules = func() map[string]production {
	all := map[string]production{"row": rule[rowSyntax](), "surface": rule[surfaceSyntax](), "pieces": rule[piecesSyntax](), "bare": rule[bareSyntax]()}
	for _, k := range kinds {
		if k.rule != nil {
			all[string(k.Kind)] = k.rule
		}
	}
	return all
}()

// Commands returns the command table in the order that help shows it.
func Commands() []Command {
	all := make([]Command, len(kinds))
	for i, k := range kinds {
		all[i] = k.Command
	}
	return all
}

// Topic returns the commands that the word begins, whose kind it is, or that are
// shown with it.
func Topic(word string) []Command {
	var rows []Command
	for _, k := range kinds {
		if string(k.Kind) == word || slices.Contains(k.Words, word) || strings.HasPrefix(k.Example, word+" ") {
			rows = append(rows, k.Command)
		}
	}
	if len(rows) > 0 {
		return rows
	}
	switch typ := lex.Phrases.Whole(word).Type; {
	case lex.ThingOf[word] != "":
		return Topic("thing")
	case typ == lex.Service:
		return Topic("run")
	case typ == lex.Support && word != "straps":
		return Topic("straps")
	}
	return nil
}

// syntax is a parsed line that is not checked yet. Inside a rule one token
// decides: a part that has begun must end, so that an error stands where the line
// went wrong.
type syntax interface{ entry(l *line) (Entry, error) }

type production func(*lexer.PeekingLexer) (syntax, error)

// written are the rules as participle prints them, for testdata/ebnf.golden.
var written []string

func rule[S any, P interface {
	*S
	syntax
}]() production {
	p := participle.MustBuild[S](participle.Lexer(lex.Symbols{}), participle.UseLookahead(0))
	written = append(written, p.String())
	return func(in *lexer.PeekingLexer) (syntax, error) {
		s, err := p.ParseFromLexer(in)
		return P(s), err
	}
}
