package grammar

import (
	"strings"

	"strapline/calc/place"
)

// Corrections as people say them, put into the words of a correction.
var (
	sorry = compile(`(?i)^(?:no|nope|sorry|oops|whoops|correction|wait|actually|i mean|i meant|my bad|make that|make it|should be|should have been)[, ]+` +
		`(?:(?:no|sorry|wait|actually|i mean|i meant|make that|make it|should be|its|it's|it is|that's|thats|was|it was)[, ]+)*(.+)$`)
	brought = compile(`(?i)^(?:(?:no|sorry|actually),? )*(?:it was|there were|there was|we got|they (?:only )?(?:brought|delivered|sent|dropped)|only got) ` +
		`(?:only )?(\d{1,4})(?: of (?:them|those))?(?:,? not (\d{1,4}))?(?: (?:they brought|they sent|that came|came|delivered|on the truck))?$`)
	takeOff = compile(`(?i)^(?:delete|remove|scrap|kill|take (?:out|off)|cancel|get rid of|lose) (?:the )?(.+?)(?: off the list| please| pls)?$`)
	entryNo = compile(`^(?:note |entry |number |no\.? |#)?(\d{1,9})$`)
	moveIt  = compile(`(?i)^(?:move|shift|slide|bump|nudge) (?:the )?(.+)$`)
	firstIs = compile(`(?i)^((?:straps?|strapping|joists?|studs?|channels?|furring)\b.*\bfirst) (?:strap|joist|stud|channel|one) (?:is |at |sits |its |it's )+`)
	another = compile(`(?i)^(?:another|one more|a second|also an?|and an?|plus an?|then an?) (.+)$`)
)

// reword puts what corrects, takes off, moves or adds to an entry into the words that
// the rules read: "no sorry 42" is "*42". Words that are none of these stay.
func reword(text string, c *Context) string {
	head, rest := roomBefore(text, c)
	if m := brought.FindStringSubmatch(rest); m != nil {
		if m[2] != "" {
			return head + m[1] + " not " + m[2]
		}
		return head + "*" + m[1]
	}
	if m := sorry.FindStringSubmatch(rest); m != nil {
		right, wrong, not := strings.Cut(m[1], " not ")
		switch {
		case not && c.isLength(right) && c.isLength(wrong):
			return head + m[1]
		case !not && c.isLength(m[1]):
			return head + "*" + m[1]
		}
	}
	if m := firstIs.FindStringSubmatch(rest); m != nil {
		return head + m[1] + " " + rest[len(m[0]):]
	}
	if m := takeOff.FindStringSubmatch(rest); m != nil {
		if n := entryNo.FindStringSubmatch(strings.ToLower(m[1])); n != nil {
			return head + "strike " + n[1]
		}
		if name := canonicalThing(strings.ToLower(m[1])); c.declared(name) {
			return head + "delete " + name
		}
	}
	if m := moveIt.FindStringSubmatch(rest); m != nil {
		if said := c.moved(m[1]); said != "" {
			return head + said
		}
	}
	if m := another.FindStringSubmatch(rest); m != nil {
		if line, err := parse(m[1], c, true); err == nil {
			if _, ok := line.Entry.(Thing); ok {
				return head + m[1]
			}
		}
	}
	return text
}

// moved is "l1 to 26 off north" as a correction of l1, "l1 6 further east" as one by
// where it is now; "" when it is none.
func (c *Context) moved(rest string) string {
	words := strings.Fields(rest)
	for n := min(len(words)-1, max(c.MaxWords, 1)+1); n > 0; n-- {
		name := canonicalThing(strings.ToLower(strings.Join(words[:n], " ")))
		if !c.declared(name) && !(c.Noun != nil && c.Noun(name)) {
			continue
		}
		to := strings.Join(words[n:], " ")
		if m := shifted.FindStringSubmatch(to); m != nil && c.isLength(m[1]) {
			w := wall(m[2])
			if across(w) || w == place.East || w == place.West {
				return "fix " + name + " " + m[1] + " " + string(w) + " of " + place.Of{Name: name}.String()
			}
		}
		return "fix " + name + " " + to
	}
	return ""
}

var shifted = compile(`(?i)^(.{1,40}?) ` + toward + `$`)

// declared reports whether words are the name of something noted.
func (c *Context) declared(name string) bool { return c.Name != nil && c.Name(name) }
