package grammar

import "slices"

// english is the language, in the order of help.
var english = slices.Concat(roomKinds, shapeKinds, supportKinds, boardKinds, thingKinds, openingKinds, floorKinds, relativeKinds, squareKinds, hungKinds, askKinds, listKinds, noteKinds, correctKinds, jobKinds,
	runKinds, closeKinds, planKinds, stockKinds, hangKinds, setKinds)

// rules are the productions by the start of a line: a command, or a subject.
var rules = func() map[string]production {
	all := map[string]production{"row": rule[rowSyntax](), "surface": rule[surfaceSyntax](), "pieces": rule[piecesSyntax](), "bare": rule[bareSyntax]()}
	for _, k := range english {
		if k.rule != nil {
			all[string(k.Kind)] = k.rule
		}
	}
	return all
}()

func init() {
	teach(english, func(text string, c *Context) (Line, error) { return parse(text, c, true) })
	register(InRoom{}, Pick{}, Bare{})
	for _, k := range english {
		register(k.makes...)
	}
}
