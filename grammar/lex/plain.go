package lex

import "strings"

// Plain returns s without case, signs and filler.
func Plain(s string) string { return plainOf(Pieces(s)) }

// Plain returns the [Plain] text from piece i on, without the frame.
func (l *Reader) Plain(i int) string { return plainOf(l.Pieces[i:]) }

func plainOf(pieces []Piece) string {
	var b strings.Builder
	for _, p := range pieces {
		if p.Kind == '.' || p.Gone || Filler[p.Low] {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(p.Low)
	}
	return b.String()
}
