package grammar

import (
	"regexp"
	"strings"

	"strapline/grammar/lex"
)

// NameOf returns the name of a thing by its description: "duct d1" is d1, "the 2nd pots" the second light.
func (c *Context) NameOf(said string) string {
	said = WithoutArticles(said)
	if name := c.DeclaredIn(said); name != "" {
		return name
	}
	return c.Numbered(CanonicalThing(WithOrdinals(said)))
}

// DeclaredIn returns the declared name in words, with or without its kind: "valve v1" is v1; "" if there
// is none.
func (c *Context) DeclaredIn(words string) string {
	if name := CanonicalThing(words); c.Knows(name) {
		return name
	}
	kind, name := words, ""
	if i := strings.LastIndex(words, " "); i > 0 {
		kind, name = words[:i], words[i+1:]
	}
	if (lex.ThingOf[kind] != "" || lex.Phrases.Whole(kind).Type == lex.Service) && c.Knows(name) {
		return name
	}
	return ""
}

// Numbered returns l2 for "light 2", if that was noted.
func (c *Context) Numbered(name string) string {
	what, n, ok := strings.Cut(name, " ")
	if ok && !c.Knows(name) && lex.ThingOf[what] != "" && strings.Trim(n, "0123456789") == "" && c.Knows(what[:1]+n) {
		return what[:1] + n
	}
	return name
}

// ByNumber returns text with the names of numbered things for their kind and number: "move light 9 a foot" is about l9, and so
// is "fix light l9".
// In "light 9 off west" the number is a distance, unless nothing else reads it.
func (c *Context) ByNumber(text string, loosely bool) string {
	if c.Name == nil || !strings.ContainsAny(text, "0123456789") {
		return text
	}
	words := strings.Fields(text)
	for i := 1; i < len(words); i++ {
		what := lex.ThingOf[lex.Lower(words[i-1])]
		if what != "" && lex.Shape(words[i]) && c.Knows(words[i]) && (i > 1 && puts[lex.Lower(words[0])] || i+1 < len(words) && words[i+1] == "now") {
			text = strings.Replace(text, words[i-1]+" "+words[i], words[i], 1)
		}
		if what == "" || len(words[i]) > 2 || strings.Trim(words[i], "0123456789") != "" {
			continue
		}
		if i+1 < len(words) && !loosely && !(puts[lex.Lower(words[0])] && i > 1 && whole.MatchString(words[i+1])) && (measured[lex.Lower(words[i+1])] || strings.ContainsAny(words[i+1][:1], "0123456789'\"½¼¾&+-/")) {
			continue
		}
		if name := c.Numbered(what + " " + words[i]); c.Knows(name) {
			text = strings.Replace(text, words[i-1]+" "+words[i], name, 1)
		}
	}
	return text
}

// whole matches a length that is no fraction, so that the number before it is none of it: "fix light 9 92 off west".
var whole = regexp.MustCompile(`^\d+(?:['"].*)?$`)

// puts are verbs by which what was noted is put elsewhere.
var puts = lex.Set("fix", "make", "move", "change", "correct", "shift", "put")

// measured are words behind a number that is a measure.
var measured = lex.Set(strings.Fields("off from in inch inches ft foot feet up down x by mm cm m high wide deep long to and or gang oc apart of out away back above below")...)

// KnowsOf reports whether words may name something that was noted.
func (c *Context) KnowsOf(name string) bool {
	if c.Knows(name) {
		return true
	}
	kind := false
	for w := range strings.FieldsSeq(name) {
		if lex.Ordinal[w] == 0 && (c.Noun == nil || !c.Noun(w)) {
			return false
		}
		kind = kind || lex.ThingOf[w] != ""
	}
	return kind
}

// Knows reports whether words are the name of something noted.
func (c *Context) Knows(name string) bool { return c.Name != nil && c.Name(name) }

// WithOrdinals returns said with "2nd" as "second".
func WithOrdinals(said string) string {
	words := strings.Fields(said)
	for i, w := range words {
		if len(w) == 3 && '1' <= w[0] && w[0] <= '6' && (w[1:] == "st" || w[1:] == "nd" || w[1:] == "rd" || w[1:] == "th") {
			words[i] = lex.Ordinals[w[0]-'1']
		}
	}
	return strings.Join(words, " ")
}

// WithoutArticles returns said without the small words before it.
func WithoutArticles(said string) string {
	said = strings.ToLower(said)
	for {
		w, rest, ok := strings.Cut(said, " ")
		if !ok || w != "a" && w != "an" && w != "the" && w != "that" && w != "in" && w != "actually" {
			return said
		}
		said = rest
	}
}

// CanonicalThing replaces the thing at the end of a name by its canonical kind: "sink pot light" and "sink
// lights" are the "sink light".
func CanonicalThing(said string) string {
	fields := strings.Fields(said)
	for i := max(0, len(fields)-2); i < len(fields); i++ {
		if what := lex.ThingOf[strings.Join(fields[i:], " ")]; what != "" {
			return strings.TrimSpace(strings.Join(fields[:i], " ") + " " + what)
		}
	}
	return said
}

// CanonicalThings is the canonical text of a thing, or of all of a kind: "lights", "both lights", "everything".
func CanonicalThings(said string) string {
	kind, both := strings.CutPrefix(said, "both ")
	what := CanonicalThing(kind)
	switch many := lex.ThingOf[kind] != "" && lex.Plural(kind) == kind; {
	case said == "everything":
		return "all things"
	case many && both:
		return "all " + what + " x 2"
	case many && what != kind:
		return "all " + what
	}
	return CanonicalThing(said)
}
