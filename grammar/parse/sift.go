package parse

import (
	"errors"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/sentences"
	"strapline/grammar/topic"
)

// sifted reads a line without the words that carry nothing, if that is an entry or leads to a question. With direct only what
// a rule reads counts, and nothing is left out that may put something right.
func (l *unreadLine) sifted(direct bool) (got grammar.Line, err error, ok bool) {
	text := l.Text
	plain, turns := l.plain()
	if plain == "" || len(plain) == len(text) || direct && (turns || strings.HasSuffix(text, " now")) || read.KeepsAll(text) {
		return got, nil, false
	}
	got, err = parse(plain, l.Context, direct && !l.AsksSomething() && !read.AsksAtStart(plain))
	if err == nil {
		row := read.Words.Rows[got.Entry.Kind()]
		tells := row != nil && !row.Asks
		switch {
		case !sentences.Stands(got, err), row != nil && row.Text && !strings.HasSuffix(text, plain), got.Entry.Kind() == "job", direct && tells && l.AsksSomething(),
			got.Entry.Kind() == "alias" && topic.Day[lex.Lower(text[strings.LastIndexByte(text, ' ')+1:])]: // "north is wet wall today"
			return got, nil, false
		case turns && tells:
			return l.Line, orNote(l.Source, meant(l.Source, got.String(), got)), true
		}
		return got, nil, true
	}
	ask, asks := errors.AsType[*grammar.Ask](err)
	if turns || !asks || direct && ask.Base != "" || !direct && len(ask.Choices) == 0 && ask.Base == "" || len(ask.Choices) > 0 && strings.HasPrefix(ask.Choices[0].String(), "snag ") {
		return got, nil, false
	}
	notesInOwnWords(ask, plain, text, l.Context)
	return got, ask, true
}
