package topic

import (
	"strings"

	"strapline/grammar/lex"
)

// BesideSize are words beside a size that say no more than that.
var BesideSize = lex.Set(strings.Fields("rectangular rect big fat little tall small large wide single double square inch flat metal plastic old round deep standard regular")...)

// Numbered are words that a number stands behind as a name: "bay 5 from the west".
var Numbered = lex.Set(strings.Fields("bay sheet unit room circuit breaker piece level lot suite apartment section")...)

// Negates are words that deny or change what is said, so that no place can be told by its words.
var Negates = lex.Set(strings.Fields(`no each every both maybe only not wrong moved move moving shift shifted slide slid bump bumped change changed make nudge nudged should instead missed except minus take remove pull pulled kill capped lose gone dead abandoned cancel swap replace relocate
	delete sorry oops wasnt wasn't isnt isn't dont don't correction ignore scratch was were had can't cant won't wont rest if until till unless ago nobody never none didnt didn't hasnt hasn't
	havent haven't aint without hung boarded screwed or either/or less dozen half-dozen further farther`)...)

// Day are words for a day.
var Day = lex.Set(strings.Fields(`yesterday today tomorrow tmrw tonight monday tuesday wednesday thursday friday saturday sunday mon tues tue wed thurs thur thu fri morning weekend`)...)

// Heading are words for the way a row goes.
var Heading = lex.Set("going", "heading", "towards", "toward")
