package wording

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/relate"
)

// chosenBy are words beside those that choose a thing: u it is cut, n it is not, 1 and 2 how many, e all, _ nothing.
var chosenBy = lex.ByWord(map[byte]string{
	'u': "cut opened open cutting", 'n': "not isnt arent wasnt havent hasnt cant couldnt didnt nobody uncut missed", '1': "one other", '2': "both", 'e': "ones all them em those these",
	'_': "the a of at by near beside next to on closest nearest off side wall end just i ive we weve got is are was now too already also as well ok okay so only still yet find found it have has left over there behind in from",
})

// Chosen reads what is told cut, or not cut, of some things that board is over by where they are, their order or their
// count: "cut the 27 one and the third", "2 of the 3 cut, can't find the one by the pantry". It returns "" if each word
// has no part in that.
func Chosen(c *grammar.Context, text string) string {
	if c.Spoken == nil || len(text) > 120 || len(strings.Fields(text)) < 3 || strings.HasSuffix(text, "?") || !uncut.MatchString(text) {
		return ""
	}
	of, kind := c.Spoken(), "thing"
	if len(of.Names) > 0 {
		what, _, _ := strings.Cut(of.Names[0], " ")
		kind = cmp.Or(lex.ThingOf[what], kind)
	}
	var lists [2][]string // those that are cut, and those that are not
	fate, chosen := 0, false
	for _, clause := range signs.Split(butFor.ReplaceAllString(strings.ToLower(text), ", not"), -1) {
		if holes.MatchString(clause) { // "4 in holes"
			continue
		}
		var names []string
		told, not := false, false
		for _, said := range ands.Split(clause, -1) {
			what, nth, at, off, n, any := kind, "", "", "", 0, false
			for w := range strings.FieldsSeq(strings.ReplaceAll(said, "'", "")) {
				wall, tag := relate.WallSaid(c, w), chosenBy[w]
				many := max(lex.Counts[w], strings.Index("0123456789", w)) // how many, if it is so short
				switch {
				case lex.ThingOf[w] != "":
					if what, any = lex.ThingOf[w], true; w == what || !strings.HasSuffix(w, "s") {
						n = max(n, 1)
					}
				case lex.Ordinal[w] > 0 || w == "last" || w == lex.Middle:
					nth = w
				case wall != "":
					at = " at " + string(wall)
				case many > 1 && n == 0 && len(of.Names) == 1 && what == kind: // more than were spoken of
					return ""
				case many > 1 && n == 0:
					n, chosen = many, true
				case many > 1: // "2 of the 3"
				case tag == '1', tag == '2':
					n, chosen = max(n, int(tag-'0')), chosen || w != "one"
				case tag == 0 && len(w) > 1 && c.IsLength(w):
					off, n = " off "+w, max(n, 1)
				case tag == 0:
					return ""
				}
				told, not, any = told || tag == 'u', not || tag == 'n', any || tag == 'e'
			}
			chosen = chosen || nth+at+off != ""
			if off != "" {
				at = off
			}
			switch all := "all " + lex.Plural(what); {
			case nth == "first" && n > 1 && n < len(lex.Ordinals):
				for _, o := range lex.Ordinals[:n] {
					names = append(names, o+" "+what)
				}
			case nth != "":
				names = append(names, nth+" "+what)
			case n > 0:
				names = append(names, fmt.Sprintf("%s x %d%s", all, n, at))
			case at != "" || any:
				names = append(names, all+at)
			}
		}
		if told || not {
			fate = map[bool]int{true: 1}[not]
		}
		lists[fate] = append(lists[fate], names...)
	}
	line := "open " + strings.Join(lists[0], ", ")
	switch last := len(lists[0]) - 1; {
	case !chosen || len(of.Names) == 0 && slices.ContainsFunc(slices.Concat(lists[0], lists[1]), func(n string) bool { return strings.Contains(n, "things") }):
		return ""
	case last < 0:
		line = "buried " + strings.Join(lists[1], ", ")
	case len(lists[1]) > 0 && strings.HasPrefix(lists[0][last], "all ") && !strings.Contains(lists[0][last], " off "):
		for _, n := range lists[1] {
			line += " but " + strings.Replace(strings.TrimPrefix(n, "all "), lex.Plural(kind)+" x 1", "one", 1)
		}
	}
	return grammar.InRoom(of.Room, line)
}

var (
	uncut  = regexp.MustCompile(`(?i)\b(?:cut|opened)\b`)
	signs  = regexp.MustCompile(`[,;]|\.(?: |$)`)
	butFor = regexp.MustCompile(` (?:but|except)\b`)
	ands   = regexp.MustCompile(` (?:and|&|n|plus) `)
	holes  = regexp.MustCompile(`^ *\d[\w"/ ]* holes?$|^$`)
)
