package relate

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
)

// fateOf are words beside those of tagOf: u it is cut, d board is over it, l it will be cut, ! it is about something else.
var fateOf = lex.ByWord(map[byte]string{
	'u': "cut opened open cutting", 'd': "covered buried hidden under behind uncut over", 'l': "ill will gonna going later tomorrow after need needs gotta",
	'!': "dont do leave keep can could should would when who where how what why if unless hang cover anything any everything nothing which",
	'n': "havent hasnt never nobody forgot without couldnt cant", 'y': "bingo aha gotcha success", '_': "there today morning found by accident mistake lunch break paint still sry one been clean",
})

// Fated reads what is told, or asked, of the things that were spoken of last: "no, covered it, cutting it after lunch".
// It asks if it does not know each word.
func Fated(c *grammar.Context, text string) (string, *grammar.Ask) {
	words, tags := strings.Fields(text), ""
	if c.Spoken == nil || len(words) == 0 || len(words) > 14 || strings.ContainsAny(text, "0123456789:") {
		return "", nil
	}
	for i, n := 0, 1; i < len(words); i += n {
		said := plainWord(words[i])
		tag := fateOf[said]
		if herself[said] && i > 0 && found[plainWord(words[i-1])] {
			tag = 'i'
		}
		if n = 1; tag == 0 {
			w, ok := phrase(words[i:])
			if tag, n = w.tag, max(w.n, 1); !ok && (kindOf(said) != "" || WallSaid(c, said) != "" || lex.Phrases.Whole(said).Type == lex.Service) {
				tag = '!'
			} else if !ok && said != "" {
				tag = '?'
			}
		}
		if tags += string(tag); said == "cutting" {
			tags += "l"
		}
	}
	asks, lost := strings.HasSuffix(text, "?") || asking[plainWord(words[0])] && (len(words) < 2 || words[1] != "it" || words[0] != "did"), strings.Count(tags, "?")
	told, shut, not := strings.Contains(tags, "u"), strings.Contains(tags, "d"), strings.ContainsAny(tags, "nN")
	if !strings.Contains(tags, "i") && strings.IndexAny(tags, "oynN") != 0 || !told && !shut || lost > 2 || strings.ContainsAny(tags, "!tmsevwhzkFfqEC") {
		return "", nil
	}
	of := c.Spoken()
	if len(of.Names) == 0 || asks && len(of.Names) > 1 {
		return "", nil
	}
	line := of.Room + ": open "
	switch later := strings.Contains(tags, "l"); {
	case asks:
		line = of.Room + ": find "
	case shut && (not || told && !later):
		return "", nil
	case shut || not || later:
		line = of.Room + ": buried "
	}
	line += strings.Join(of.Names, ", ")
	if lost > 0 && !asks {
		return "", &grammar.Ask{Col: 1, Word: words[0], Why: "did you mean this?", Choices: []grammar.Choice{grammar.Reads(line, line), grammar.Reads("no: keep it as a note", "note "+text)}}
	}
	return line, nil
}

// herself is a thing behind the words of who found it: "there she is, cut", "got her". Anywhere else it is somebody.
var herself, found = lex.Set("she", "her", "him", "he"), lex.Set("there", "found", "got")

var asking = lex.Set("did", "is", "was", "are", "have", "has")
