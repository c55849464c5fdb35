package lex_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strapline/calc/place"
	"strapline/grammar/lex"
)

// TestSpanish: what the words of another tongue are in English, from memory.
func TestSpanish(t *testing.T) {
	names := lex.Names{Rooms: map[string]string{"sala norte": "sala norte"}, Walls: map[string]place.Wall{}}
	for _, c := range []struct{ said, english string }{
		{"luz 26 del oeste", "light 26 off west"},
		{"caja 2x4 en la pared norte 52 del oeste 16 arriba", "box 2x4 on the north wall 52 off west 16 up"},
		{"luz treinta y dos y tres cuartos del este", "light thirty two and three quarters off east"},
		{"luz veintiséis y medio de la pared sur", "light twenty six and a half off south"},
		{"luz once del norte", "light eleven off north"},
		{"once and only", "once and only"},
		{"use 14 footers in the canal", "use 14 footers in the canal"},
		{"¿dónde está la luz?", " where is the light?"},
		{"sala norte: luz 26 del oeste", "sala norte: light 26 off west"},
		{"cuarto pasillo sur 12' x 4'", "room pasillo sur 12' x 4'"},
		{"nota la luz del norte no prende", "note la luz del norte no prende"},
		{"job calle norte 12", "job calle norte 12"},
		{"cocina: note luz del norte", "cocina: note luz del norte"},
		{"7 al sur de la tira 3", "7 south of the strap 3"},
		{"tubo p1 40 del oeste de la tira 2 a la tira 7", "pipe p1 40 off west from strap 2 to the strap 7"},
	} {
		got, shifts := lex.Spanish.English(c.said, names)
		if got != c.english || (shifts == nil) != (got == c.said) {
			t.Errorf("%q: got %q, want %q", c.said, got, c.english)
		}
	}
}

// TestSpanishColumns: a place in the English text is found in what was typed.
func TestSpanishColumns(t *testing.T) {
	said := "¿luz über 26 del oeste xx 30 del norte"
	english, shifts := lex.Spanish.English(said, lex.Names{})
	for _, c := range []struct {
		english string
		from    int
		said    string
	}{{"light", 2, "luz"}, {"über", 6, ""}, {"26", 11, ""}, {"off west", 14, "del oeste"}, {"xx", 24, ""}, {"30", 27, ""}, {"off north", 30, "del norte"}} {
		col := len([]rune(english[:strings.Index(english, c.english)])) + 1
		if from, typed := lex.Source(shifts, col); from != c.from || typed != c.said {
			t.Errorf("%q: got column %d, %q; want %d, %q", c.english, from, typed, c.from, c.said)
		}
	}
}

// TestEnglishStaysEnglish: no line of the kept lists, and none of another
// conversation, is taken for Spanish.
func TestEnglishStaysEnglish(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.chat")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range append(files, "../testdata/heard.txt", "../testdata/chatter.txt") {
		if strings.HasSuffix(file, "spanish.chat") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			_, said, told := strings.Cut(line, "> ")
			if !told {
				said = line
			}
			if english, shifts := lex.Spanish.English(said, lex.Names{}); shifts != nil {
				t.Errorf("%s: %q became %q", file, said, english)
			}
		}
	}
}
