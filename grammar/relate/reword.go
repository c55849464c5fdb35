package relate

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/measure"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/things"
)

// Corrections as people say them are rewritten here in the words that the rules read.
var (
	brought = pattern.Compile(`(?i)^(?:(?:no|sorry|actually),? )*(?:it was|there were|there was|we got|they (?:only )?(?:brought|delivered|sent|dropped)|only got) ` +
		`(?:only )?(\d{1,4})(?: of (?:them|those))?(?:,? not (\d{1,4}))?(?: (?:they brought|they sent|that came|came|delivered|on the truck))?$`)
	takeOff = pattern.Compile(`(?i)^(delete|remove|erase|scrap|kill|take|take (?:out|off)|cancel|get rid of|lose)(?: the)?(?: note of| that)?(?: the)? (.+?)( off (?:the )?list)?(?: please| pls)?$`)
	entryNo = pattern.Compile(`^(?:note |entry |number |no\.? |#)?(\d{1,9})$`)
	leadIn  = pattern.Compile(`(?i)^(?:(?:can|could|would|will) (?:u|you|ya|somebody|someone|we|i) (?:please |pls )?(?:log|note|record|write down|jot down|put down|mark down)(?: down)?(?: that)? |for the (?:record|log),? )`)
	another = pattern.Compile(`(?i)^(?:(?:i|we|they|he|electrician|sparky|sparks|plumber|hvac)(?:'ve|'s)? )?(?:(?:just|also|now|and|plus|then|got|have|has|put|added|add|adding|placed|marked|installed|installing|another|one more|a second|extra|new|there's|theres|there is|there's also)(?: in)? )+(?:an? |one |1 |new |extra )*(.+)$|^(?:an? |one |1 )(?:new |extra )?([a-z]{3}.+)$`)
)

// Reword rewrites what corrects, removes, moves or adds to an entry: "no sorry 42" becomes "*42". Other
// words are returned unchanged.
func Reword(text string, c *grammar.Context) string {
	text = places.Way(c, text)
	text = hair(c, text)
	head, rest := RoomBefore(text, c)
	if m := leadIn.FindStringSubmatch(rest); m != nil { // what is asked for is to note the rest
		if rest = strings.TrimRight(rest[len(m[0]):], "?. "); strings.ContainsAny(rest, "0123456789") {
			text = head + rest
		} else {
			return head + "note " + rest
		}
	}
	if m := brought.FindStringSubmatch(rest); m != nil {
		if m[2] != "" {
			return head + m[1] + " not " + m[2]
		}
		return head + "*" + m[1]
	}
	if m := takeOff.FindStringSubmatch(rest); m != nil && (m[3] != "" || !strings.EqualFold(m[1], "take")) {
		if n := entryNo.FindStringSubmatch(strings.ToLower(m[2])); n != nil {
			return head + "strike " + n[1]
		}
		if name := c.NameOf(m[2]); c.KnowsOf(name) {
			return head + "delete " + name
		}
	}
	if m := another.FindStringSubmatch(rest); m != nil && !strings.HasPrefix(m[1], "the ") {
		if line, err := read.Nested(m[1]+m[2], c); err == nil {
			if _, ok := line.Entry.(things.Thing); ok {
				return head + m[1] + m[2]
			}
		}
	}
	return text
}

// hairs are words for a little more or less than the number after them.
var hairs = pattern.Compile(`(?i)\b(?:just|(?:a |an )?(?:hair|touch|bit|shade|tad|whisker|little)|slightly|barely) (?:(over|past|above|more than|better than)|(under|below|shy of|short of|less than)) (?:[0-9]|[a-z])`)

// hair rewrites "just over 96" and "a hair under 26" as "96 strong" and "26 shy".
func hair(c *grammar.Context, text string) string {
	m := hairs.FindStringSubmatchIndex(text)
	if m == nil {
		return text
	}
	at, tag := m[1]-1, " strong"
	if m[2] < 0 {
		tag = " shy"
	}
	_, n, _ := measure.Scan(text[at:], c.Units, measure.One)
	if n == 0 {
		return text
	}
	return text[:m[0]] + strings.TrimRight(text[at:at+n], " ") + tag + text[at+n:]
}
