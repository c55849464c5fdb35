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

// Entry is one statement or question. String returns its canonical text, which parses back to an equal
// Entry.
type Entry interface {
	Kind() Kind
	String() string
}

// Kind is an entry's name in the log and in the command table: "room", "thing", "hung", ...
type Kind string

// Line is one entry with its frame.
type Line struct {
	Room   string // "kitchen: ...", "... in kitchen": the declared name, "" if not said
	At     string // "at 9:58": 24 h "15:04", "" if not said
	Exact  bool   // am or pm was said: At is not twelve hours later
	Before int    // "... before row 2": sent before that row went up, 0 if not said
	After  int    // "... after row 2"
	Sure   bool   // picked when a doubt about it was asked: do not ask again
	Loose  bool   // read by its words alone, so single sentences of it may be read better
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
	switch l.Entry.Kind() {
	case "note", "snag", "job": // they keep the rest of their line
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

// Choice is one answer to a question: its label, and the lines it stands for, none if nothing is to be
// done. Text replaces Lines if reading it leads to another question.
type Choice struct {
	Label string
	Text  string `json:",omitempty"`
	Lines []Line `json:",omitempty"`
}

// String returns what could be typed instead of picking it.
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

// reads returns a choice with a line that is yet to be parsed.
func reads(label, text string) Choice { return Choice{Label: label, Text: text} }

// Command is one row of the command table, which help, hints and tests use. Another language is another
// table.
type Command struct {
	Kind    Kind
	Words   []string // how a line of it begins; empty if it begins with its subject
	Talk    []string // more ways to say it, equally good but not shown by help
	About   string   // what it is for, in one line
	Example string   // a line that parses with nothing declared
	Metric  string   // the same for a metric job, if that differs
	Fits    string   // what fits after the word, for refusals

	// Strict words are not everyday English: a line that begins with one is for us.
	Strict bool
}

// Say returns the example for a job in these units.
func (c Command) Say(u length.Units) string {
	if u == length.Metric && c.Metric != "" {
		return c.Metric
	}
	return c.Example
}

// kind is everything known about a kind of line. Its row is in the file of its subject.
type kind struct {
	Command
	rule   production                // nil if another kind's rule makes it too
	makes  []Entry                   // one of each type it makes
	asks   bool                      // it changes nothing: a question mark may follow it
	ofRoom bool                      // it is about a room, which may be anywhere in the line
	text   bool                      // the rest of its line is kept word for word
	talk   func(l *line) bool        // reports whether a line that cannot be read is about something else
	begins func(l *line, i int) bool // reports whether its words, which end before piece i, begin it; nil if they always do
}

func always(*line) bool { return true }

// kinds is the table of the language, in the order of help.
var kinds []kind

// Commands returns the command table in the order of help.
func Commands() []Command {
	all := make([]Command, len(kinds))
	for i, k := range kinds {
		all[i] = k.Command
	}
	return all
}

// Topic returns the commands that the word begins, whose kind it is, or that are shown with it.
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

// syntax is a parsed line that is not checked yet. Within a rule one token decides: a part that has begun
// must end, so that an error is reported where the line went wrong.
type syntax interface{ entry(l *line) (Entry, error) }

type production func(*lexer.PeekingLexer) (syntax, error)

// written returns the rules as participle prints them, for testdata/ebnf.golden.
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
