package grammar

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// soft are words of the grammar that may also be part of a label.
var soft = strings.Fields(`
	rated depth deep notched into inside through margin stagger sliver short rip waste compound per canada yet sqft taper electrician painter hanger near
	line live electric power above across aka all corner count every go start but opened behind boarded cut ends finished first fixed height high hung in
	is length lengths less logged long mark ne no note noted number nw over run running runs se since only nothing longer than fit fits get gets got have
	came arrived broken stops sw thick today under went wide with piece pieces both already now type looking below
	standing upright vertical level horizontal`)

// talk are words of ordinary talk, which are in no name and no label.
var talk = lex.Set(strings.Fields(`
	i me my you your we us our he she they them it this that today tomorrow tmrw tonight yesterday lol haha ok okay yes yeah no not done did do does well
	so but was were will would could should can need needs want get got go going here now later when why how who what good great bad late finished starts
	site help mess put move moved set check cut gone if because then again still every hey hi thanks morning lunch coffee break meeting only best new few
	some sign offer interview security about into just looks or maybe approx approximately around roughly almost nearly isn't isnt wasn't another other
	probably think guess theres there's wrong should mistake except like too very has have had be been`)...)

// words is the inverse of the table: the rows by their kind, and the words that may be suggested for a
// misspelt one.
var words struct {
	rows  map[Kind]*kind
	vocab []string
}

// nested reads other words for a line, a choice or a hint, within the line that is being read.
var nested func(text string, c *Context) (Line, error)

// teach sets the table of the language, and what reads a line within another: once, by what knows all rules.
func teach(table []kind, read func(string, *Context) (Line, error)) {
	kinds, nested, askedBy = table, read, askedRows(table)
	words.rows, words.vocab = map[Kind]*kind{}, nil
	offer := func(said ...string) {
		for _, w := range said {
			if len(w) > 2 {
				words.vocab = append(words.vocab, w)
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
	for i := range kinds {
		c := &kinds[i]
		words.rows[c.Kind] = c
		for _, said := range c.Words {
			offer(strings.Fields(said)...)
		}
	}
	offer(soft...)
	slices.Sort(words.vocab)
	words.vocab = slices.Compact(words.vocab)
}

// reserved reports whether all of said is one word of the language: a command, a wall, a thing.
func reserved(said string) bool {
	words := strings.Fields(said)
	return lex.Phrases.Whole(said) != lex.Symbol{} || len(words) > 0 &&
		slices.ContainsFunc(askedBy[words[0]], func(a asked) bool { return slices.Equal(a.words, words) })
}
