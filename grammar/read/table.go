package read

import (
	"slices"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// soft are words of the grammar that may also be part of a label.
var soft = strings.Fields(`
	air rated depth deep notched into inside through margin stagger sliver short rip waste compound per canada yet sqft taper electrician painter hanger near
	line live electric power above across aka all corner count every go start but opened behind boarded cut ends finished first fixed height high hung in
	is length lengths less logged long mark ne no note noted number nw over run running runs se since only nothing longer than fit fits get gets got have
	came arrived broken counted need total everything stops sw thick today under went wide with piece pieces both already now type looking below
	standing upright vertical level horizontal add take throughout begun using partly another area here`)

// Talk are words of ordinary talk, which are in no name and no label.
var Talk = lex.Set(strings.Fields(`
	i me my you your we us our he she they them it this that today tomorrow tmrw tonight yesterday lol haha ok okay yes yeah no not done did do does well
	so but was were will would could should can need needs want get got go going here now later when why how who what good great bad late finished starts
	site help mess put move moved set check cut gone if because then again still every hey hi thanks morning lunch coffee break meeting only best new few
	some sign offer interview security about into just looks or maybe approx approximately around roughly almost nearly isn't isnt wasn't another other
	probably think guess theres there's wrong should mistake except like too very has have had be been`)...)

// Words is the inverse of the table: the rows by their kind, and the words that may be suggested for a
// misspelt one.
var Words struct {
	Rows  map[grammar.Kind]*Row
	Vocab []string
}

// Nested reads other words for a line, a choice or a hint, within the line that is being read.
var Nested func(text string, c *grammar.Context) (grammar.Line, error)

// Anew reads other words for a line as a message of its own, whatever it may mean.
var Anew func(text string, c *grammar.Context) (grammar.Line, error)

// Subject is the part of the table about one subject, as help lists it: `help boards`.
type Subject struct {
	Name string
	Rows []Row
}

// Subjects is the table by subject, in the order of help.
var Subjects []Subject

// Teach sets the table of the language, and what reads a line within another: once, by what knows all rules.
func Teach(table []Subject, read func(string, *grammar.Context) (grammar.Line, error)) {
	Subjects, Nested, Kinds = table, read, nil
	for _, of := range table {
		Kinds = append(Kinds, of.Rows...)
	}
	askedBy = askedRows(Kinds)
	Words.Rows, Words.Vocab = map[grammar.Kind]*Row{}, nil
	offer := func(said ...string) {
		for _, w := range said {
			if len(w) > 2 {
				Words.Vocab = append(Words.Vocab, w)
			}
		}
	}
	for _, table := range lex.Phrases {
		for _, p := range table {
			if len(p.Words) == 1 {
				offer(p.Words...)
			}
		}
	}
	for i := range Kinds {
		c := &Kinds[i]
		Words.Rows[c.Kind] = c
		for _, said := range c.Words {
			offer(strings.Fields(said)...)
		}
	}
	offer(soft...)
	slices.Sort(Words.Vocab)
	Words.Vocab = slices.Compact(Words.Vocab)
}

// Reserved reports whether all of said is one word of the language: a command, a wall, a thing.
func Reserved(said string) bool {
	words := strings.Fields(said)
	return lex.Phrases.Whole(said) != lex.Symbol{} || len(words) > 0 &&
		slices.ContainsFunc(askedBy[words[0]], func(a asked) bool { return slices.Equal(a.words, words) })
}

// Row is everything known about a kind of line. Its row is in the file of its subject.
type Row struct {
	Command
	Rule   Production                  // nil if another kind's rule makes it too
	Makes  []grammar.Entry             // one of each type it makes
	Asks   bool                        // it changes nothing: a question mark may follow it
	OfRoom bool                        // it is about a room, which may be anywhere in the line
	Text   bool                        // the rest of its line is kept word for word
	Chat   func(l *Source) bool        // reports whether a line that cannot be read is about something else
	Begins func(l *Source, i int) bool // reports whether its words, which end before piece i, begin it; nil if they always do
}

// Command is one row of the command table, which help, hints and tests use. Another language is another
// table.
type Command struct {
	Kind    grammar.Kind
	Words   []string // how a line of it begins; empty if it begins with its subject
	Talk    []string // more ways to say it, equally good but not shown by help
	About   string   // what it is for, in one line
	Example string   // a line that parses with nothing declared
	Metric  string   // the same for a metric job, if that differs
	Fits    string   // what fits after the word, for refusals

	// Strict words are not everyday English: a line that begins with one is for us.
	Strict bool
}

type Production func(*lexer.PeekingLexer) (syntax, error)

// syntax is a parsed line that is not checked yet. Within a rule one token decides: a part that has begun
// must end, so that an error is reported where the line went wrong.
type syntax interface {
	Entry(l *Source) (grammar.Entry, error)
}

// Rule makes a production of the type of its syntax.
func Rule[S any, P interface {
	*S
	syntax
}]() Production {
	p := sync.OnceValue(func() *participle.Parser[S] { // most programs need few rules, and start the quicker
		return participle.MustBuild[S](participle.Lexer(lex.Symbols{}), participle.UseLookahead(0))
	})
	Written = append(Written, func() string { return p().String() })
	return func(in *lexer.PeekingLexer) (syntax, error) {
		s, err := p().ParseFromLexer(in)
		return P(s), err
	}
}

// Kinds is the table of the language, in the order of help.
var Kinds []Row

// Always says that such a line, if it cannot be read, is about something else.
func Always(*Source) bool { return true }

// Commands returns the command table in the order of help.
func Commands() []Command {
	all := make([]Command, len(Kinds))
	for i, k := range Kinds {
		all[i] = k.Command
	}
	return all
}

// Topic returns the commands that the word begins, whose kind it is, or that are shown with it.
func Topic(word string) []Command {
	var rows []Command
	for _, of := range Subjects {
		if of.Name == word {
			for _, k := range of.Rows {
				rows = append(rows, k.Command)
			}
			return rows
		}
	}
	for _, k := range Kinds {
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

// Written returns each rule as participle prints it, for testdata/ebnf.golden.
var Written []func() string

// asked is a row of the table in plain form.
type asked struct {
	words []string
	lead  string // which leads may precede it
	kind  grammar.Kind
}

// askedBy indexes the rows by their first word.
var askedBy map[string][]asked

func askedRows(table []Row) map[string][]asked {
	all := map[string][]asked{}
	for _, k := range table {
		for _, said := range append(k.Words[:len(k.Words):len(k.Words)], k.Talk...) {
			a, fields := asked{kind: k.Kind}, strings.Fields(said)
			if leads[fields[0]] != nil {
				a.lead, fields = fields[0], fields[1:]
			}
			first := topic.Plainly(fields[0])[0]
			for _, w := range fields {
				a.words = append(a.words, topic.Plainly(w)...)
			}
			if len(a.words) == 1 {
				a.words = fields
			}
			for i := len(a.words) - 2; i > 0; i-- {
				if w := a.words[i]; small[w] && w != "can" && w != "you" {
					a.words = slices.Delete(a.words, i, i+1)
				}
			}
			all[first] = append(all[first], a)
		}
	}
	return all
}

// Say returns the example for a job in these units.
func (c Command) Say(u length.Units) string {
	if u == length.Metric && c.Metric != "" {
		return c.Metric
	}
	return c.Example
}
