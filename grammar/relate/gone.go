package relate

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
)

// aside reads corrections that have no value: two numbers mixed up, a distance to the edge, a note taken back.
func aside(c *grammar.Context, text string) string {
	low := strings.ToLower(strings.TrimRight(text, " .!?"))
	fresh := c.Last.Now || c.Asked || c.Follows == grammar.Right
	if said := without(low, turnedRound); said != low && !valuesIn(said) {
		if of, ok := ofWhat(c, said); ok && (of != "" || fresh) {
			return strings.TrimSuffix("other way round, in "+of, ", in ")
		}
	}
	if said := without(low, wrongWall); said != low && !valuesIn(said) {
		if of, ok := ofWhat(c, said); ok && (of != "" || fresh) {
			return strings.TrimSuffix("wrong wall, in "+of, ", in ")
		}
	}
	if strings.Contains(low, "edge") && !valuesIn(low) {
		if said := without(low, toEdge); said != low && (taped.MatchString(low) || opens.MatchString(low) || speaksOf.MatchString(low)) {
			if of, ok := ofWhat(c, said); ok && (of != "" || fresh) {
				return strings.TrimSuffix("instead edge, in "+of, ", in ")
			}
		}
	}
	if m := takesBack.FindStringSubmatch(low); ignores.MatchString(low) || m != nil && lastNote.MatchString(grammar.WithoutArticles(strings.TrimSuffix(strings.TrimSuffix(m[1], " please"), " pls"))) {
		return "undo"
	}
	return ""
}

// valuesIn reports whether there are numbers in a line that are not part of a name.
func valuesIn(said string) bool {
	return strings.ContainsAny(numbered.ReplaceAllString(said, ""), "0123456789")
}

// without returns said without the first match of form.
func without(said string, form *pattern.Pattern) string {
	m := form.FindStringSubmatchIndex(said)
	if m == nil {
		return said
	}
	return strings.TrimSpace(said[:m[0]] + " " + said[m[1]:])
}

// ofWhat returns the name in what is left of a line, "" if it names nothing; ok is false if there are other
// words.
func ofWhat(c *grammar.Context, said string) (name string, ok bool) {
	words := slices.DeleteFunc(strings.Fields(said), func(w string) bool { return idle[strings.Trim(w, ",.:;!")] })
	for i, w := range words {
		words[i] = strings.Trim(w, ",.:;!")
	}
	if len(words) == 0 {
		return "", true
	}
	name = c.NameOf(strings.Join(words, " "))
	return name, c.KnowsOf(name)
}

var (
	// turnedRound says that two numbers, two walls or a direction were mixed up.
	turnedRound = pattern.Compile(`\b(?:(?:the )?(?:other|wrong|opposite) way (?:round|around|about)|back to front|backwards?|mixed up|(?:got |had )?(?:swapped|switched|flipped|reversed|crossed|mixed)(?: around| round)?|vice versa|` +
		`(?:swap|switch|flip|reverse|exchange|trade) (?:em|them|those|these|it|that|the two|those two|these two|the numbers|those numbers|the walls|the two numbers|the two|both|round|around)(?: around| round| over)?)\b`)
	wrongWall = pattern.Compile(`\b(?:(?:(?:off|from) )?(?:the )?wrong (?:wall|side|end)|(?:off|from) (?:the )?(?:other|opposite) (?:wall|side|end))\b`)
	toEdge    = pattern.Compile(`\b(?:to|from|off|at) (?:the |its |it's )?(?:near |nearest |nearer |outside |outer |close )?edge\b(?: of (?:it|that|the (?:hole|box|can|trim|opening)))?`)
	numbered  = regexp.MustCompile(`\b[a-z]+ ?\d{1,2}\b`)
	taped     = pattern.Compile(`\b(?:not|instead of|measured?|taped|pulled|went|was|were|is|numbers?)\b`)
	// idle are words that change nothing beside what was mixed up.
	idle = lex.Set(strings.Fields(`i we he she they you it its it's that thats that's this those these them both two the a an one ones last note is are was were had have has got get did said put wrote gave typed
		no nope sorry oops wait actually my bad mistake mine me so and ok yes yeah yep but on in for of with to not instead center centre middle centers centres measured measure measurement measurements distance distances number numbers
		dimension dimensions dims wall walls just all should be been shoulda shouldve have'd now then round around way wrong i've ive went taped pulled`)...)
	takesBack = pattern.Compile(`(?i)^(?:no |ok |sorry |oops |just |please |and |wait )*(?:forget|ignore|scratch|scrap|cancel|undo|delete|never ?mind|nvm|disregard|strike|drop|remove|take back|skip|kill)(?: about)? (.+)$`)
	ignores   = pattern.Compile(`^(?:scrap|forget|scratch|ignore)(?: that| the| this)?(?: last)?(?: one| note| text)?$`)
	lastNote  = pattern.Compile(`^(?:(?:very )?last|my last|last thing|(?:my |very )?last (?:one|note|message|text|entry|line|thing|bit|measurement)|what i (?:just )?(?:said|sent)(?: last)?|one before)$`)
)

// Gone returns a line about a thing that is said to be there no more, "" if said is none. It asks which one if
// none of that number is noted.
func Gone(l *read.Source, said string) (string, *grammar.Ask) {
	for _, form := range []*pattern.Pattern{isGone, tookOut, noMore} {
		m := form.FindStringSubmatch(said)
		if m == nil {
			continue
		}
		for _, words := range []string{m[1], placed.ReplaceAllString(m[1], "")} {
			name := l.NameOf(many.ReplaceAllString(grammar.WithoutArticles(strings.TrimSuffix(strings.Trim(words, " ,"), "'s")), ""))
			if l.Context.KnowsOf(name) {
				return "gone " + name, nil
			}
			if kind, to := unknownFirst(words + " "); strings.Contains(kind, " ") && to == "" {
				return "", l.Asks(kind + " is not noted. Which one is it?")
			}
		}
	}
	return "", nil
}

const (
	dropped = `(?:removed|deleted|cancell?ed|scrapped|scratched|ditched|nixed|axed|pulled|yanked|ripped out|taken out|taken off|taken down|eliminated|abandoned|dropped|killed|capped|deep ?sixed|value engineered|ve'?d)`
	already = `(?: (?:now|anymore|any more|no more|any longer|after all|at all|completely|altogether|already|today|please|pls|out|off|up|there|here|in|for good|by now|yet|then|either|and|removed|gone))*(?:[,.] .*| (?:cause|because|cuz|since|so|per|as|customer|owner) .*)?$`
)

var (
	isGone = pattern.Compile(`^` + somebody + `(.+?) (?:(?:is|are|was|were|got|gets|getting|has|have|had|been|be|being|just|all|now|completely|will|'s) )*` +
		`(?:(?:not|isnt|isn't|aint|ain't|arent|aren't|wasnt|wasn't|wont|won't|no longer)(?: be)?(?: going| happening| there| here| needed| required| wanted| used| in| on the plan| on the list| part of it)+|` + dropped + `|gone|history|a mistake|off the list|out of the job|off the job)` + already)
	tookOut = pattern.Compile(`^` + somebody + `(?:(?:just|now|had|have|has|got|to|went|and|also|finally|gonna|going to) )*(?:removed?|deleted?|cancell?ed|cancel|scrap(?:ped)?|ditch(?:ed)?|nix(?:ed)?|axed?|pull(?:ed)?|yank(?:ed)?|ripped out|rip out|took out|took off|took down|tore out|take out|take off|` +
		`got rid of|get rid of|getting rid of|lost|lose|drop(?:ped)?|kill(?:ed)?|skip(?:ped|ping)?|eliminated?|abandon(?:ed)?|forget(?: about)?|scratch|strike|cross(?:ed)?(?: off)?|(?:decided|going|went|voted) against|backed out of|never ?mind(?: about)?|capped(?: off)?|(?:dont|don't|do not|doesnt|doesn't|didnt|wont|won't|no longer)(?: need| needs| want| wants| be needing)+(?: any)?) (?:the |that |this |my |all |both )*(.+?)` + already)
	noMore = pattern.Compile(`^(?:` + somebody + `(?:says|said|wants|want) )?(?:there's |theres |there is |there are |we have |we got )?(?:no more|no|no need for) (?:the |any |a )?(.+?)(?: (?:in here|here|there|in there|in this room|in the room))?(?: (?:anymore|any more|after all|now|needed|required|any longer|going in|happening))*$`)
	// placed is where a thing is, behind its name.
	placed = regexp.MustCompile(` (?:on|in|at|near|by|off|from) .+$`)
	// many are words for how many.
	many = regexp.MustCompile(`^(?:all |both |those |these |the |two |three |four |five |six |\d+ |of )+`)
)
