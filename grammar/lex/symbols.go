package lex

import (
	"io"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
)

// Symbols is participle's view of the lexer. It lexes a line for which nothing is declared; Parse hands
// participle its tokens itself.
type Symbols struct{}

func (Symbols) Symbols() map[string]Type {
	return map[string]Type{
		"EOF": lexer.EOF, "Cmd": Cmd, "Thing": Thing, "Service": Service, "Support": Support, "Wall": Wall, "Direction": Direction,
		"Room": Room, "Name": Name, "Number": Number, "Tag": Tag, "Place": Place, "Face": Face, "Key": Key, "Word": Word, "Text": Text, "Punct": Punct, "Other": Other,
	}
}

// Lex lexes a text for which nothing is declared; Parse hands participle its tokens itself.
func (Symbols) Lex(_ string, r io.Reader) (lexer.Lexer, error) {
	b, err := io.ReadAll(r)
	l := Read(string(b), Names{Units: length.Imperial})
	l.Cut(0)
	return &tokens{l.Tokens}, err
}

// Stream hands participle the tokens.
func (l *Reader) Stream() (*lexer.PeekingLexer, error) { return lexer.Upgrade(&tokens{l.Tokens}) }

type tokens struct{ left []lexer.Token }

func (r *tokens) Next() (lexer.Token, error) {
	t := r.left[0]
	if !t.EOF() {
		r.left = r.left[1:]
	}
	return t, nil
}
