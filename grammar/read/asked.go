package read

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// People ask the same thing in many words. The start of a line is matched word by word in a plain form:
// contractions are expanded, synonyms are unified, and small words may stand between the words of a row.

// small are words that may stand between those of a row.
var small = lex.Set(strings.Fields(`the a an and please pls is do does did have has had got can should will we you my our me to that just
	there think somebody someone somewhere`)...)

// leads are the small words that may precede a row: those of a statement ("~ hung": "i just hung"), or of a
// request. A question is sorted by its words instead, in any order (grammar/question).
var leads = map[string]map[string]bool{
	"~": lex.Set("we", "just", "think", "somebody", "someone"),
	"!": lex.Set("can", "could", "will", "you", "we", "i", "please", "pls", "just", "send", "give", "show", "get", "gets", "see", "text", "draw", "pull", "need", "want", "me", "us", "the", "a", "that", "to", "up"),
}

// Requested are the kinds that people ask us for: those of "!" ("send me the sketch").
var Requested = map[grammar.Kind]bool{"sketch": true, "layout": true, "cuts": true, "order": true, "bring": true, "status": true, "snags": true, "handoff": true}

// headAt finds the words of a command at piece i, those of the most specific row, and returns how many
// pieces they take.
func (l *Source) headAt(i int) (kind grammar.Kind, n int) {
	most := 0
	for _, lead := range []string{"", "~", "!"} {
		k := i
		for k < len(l.Pieces) && !l.Pieces[k].Gone && leads[lead][topic.Plainly(l.Pieces[k].Low)[0]] {
			k++
		}
		if k == len(l.Pieces) || lead != "" && k == i {
			continue
		}
		for _, a := range askedBy[topic.Plainly(l.Pieces[k].Low)[0]] {
			if lead != "" && a.lead != lead && !(lead == "!" && a.lead == "" && Requested[a.kind]) || len(a.words) < most || len(a.words) == most && lead == "" {
				continue
			}
			if took := l.asked(k, a.words); took > 0 {
				kind, n, most = a.kind, k+took-i, len(a.words)
			}
		}
	}
	return kind, n
}

// asked returns how many pieces from i on match a row, 0 if they do not.
func (l *Source) asked(i int, row []string) int {
	if len(row) == 1 { // as it is: "sheets" is not "boards"
		if l.Pieces[i].Low == row[0] {
			return 1
		}
		return 0
	}
	k := 0
	for n := i; n < len(l.Pieces) && !l.Pieces[n].Gone; n++ {
		for _, w := range topic.Plainly(l.Pieces[n].Low) {
			switch {
			case k < len(row) && w == row[k]:
				k++
			case k == 0 || !small[w]:
				return 0
			}
		}
		if k == len(row) {
			return n + 1 - i
		}
	}
	return 0
}

// HeadWord reports whether some command begins with the word.
func HeadWord(w string) bool { return askedBy[topic.Plainly(w)[0]] != nil }

// HeadOf returns the kind of the command that a word alone begins.
func HeadOf(w string) grammar.Kind {
	for _, a := range askedBy[topic.Plainly(w)[0]] {
		if len(a.words) == 1 && a.words[0] == w {
			return a.kind
		}
	}
	return ""
}
