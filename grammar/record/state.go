package record

import (
	"strings"

	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/read"
)

// Questions about how the work stands, and about a thing beside the framing and the board.

// It is the thing that the sender noted last.
const It = "it"

// Next: `todo`: what there is to do in a room, the first thing first. `todo who`: and who does it, by what the crew noted.
type Next struct{ Who bool }

func (e Next) String() string   { return canon.Say("todo", canon.Tail(e.Who, "who")) }
func (Next) Kind() grammar.Kind { return "next" }

// Reachable: `stays reachable d1`: whether it may be covered for good. Of "" asks for all that may not.
type Reachable struct{ Of string }

func (e Reachable) String() string {
	if e.Of == "" {
		return "what stays reachable"
	}
	return "stays reachable " + e.Of
}
func (Reachable) Kind() grammar.Kind { return "reachable" }

// Clear: `how clear is d1`: how far it is from the nearest framing and the nearest run.
type Clear struct{ Of string }

func (e Clear) String() string   { return "how clear is " + e.Of }
func (Clear) Kind() grammar.Kind { return "clear" }

// Between: `what lies between d1, d2`.
type Between struct{ From, To string }

func (e Between) String() string   { return canon.Say("what lies between", e.From, canon.Clause{e.To}) }
func (Between) Kind() grammar.Kind { return "between" }

// Passed: `state of insulation`: how a check of a room's list stands.
type Passed struct{ What string }

func (e Passed) String() string   { return "state of " + e.What }
func (Passed) Kind() grammar.Kind { return "passed" }

// Holds: `what holds`: the backing and the framing, which a weight hangs from.
type Holds struct{}

func (e Holds) String() string   { return "what holds" }
func (Holds) Kind() grammar.Kind { return "holds" }

// Up: `how many boards up`.
type Up struct{}

func (e Up) String() string   { return "how many boards up" }
func (Up) Kind() grammar.Kind { return "boardsup" }

func (s *nextSyntax) Entry(*read.Source) (grammar.Entry, error)  { return Next{s.Who}, nil }
func (s *upSyntax) Entry(*read.Source) (grammar.Entry, error)    { return Up{}, nil }
func (s *holdsSyntax) Entry(*read.Source) (grammar.Entry, error) { return Holds{}, nil }

type (
	nextSyntax struct {
		Who bool `parser:"'next' @'who'?"`
	}
	holdsSyntax struct {
		What bool `parser:"@'holds'"`
	}
	upSyntax struct {
		What bool `parser:"@'boardsup'"`
	}
)

func (s *reachableSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Of == nil {
		return Reachable{}, nil
	}
	of, err := named(l, s.Of)
	return Reachable{of}, err
}

type reachableSyntax struct {
	Of *read.Noted `parser:"'reachable' @@?"`
}

func (s *clearSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	of, err := named(l, s.Of)
	return Clear{of}, err
}

type clearSyntax struct {
	Of *read.Noted `parser:"'clear' @@"`
}

// named returns the name of a noted thing, or "it".
func named(l *read.Source, s *read.Noted) (string, error) {
	of := grammar.CanonicalThing(s.Text)
	if s.Text != It && !l.MayName(of) {
		return "", l.Refuse(s.Pos, "a noted thing")
	}
	return of, nil
}

func (s *betweenSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	list, err := exactly(l, s.Names, 2, "two noted things")
	if err != nil {
		return nil, err
	}
	return Between{list[0], list[1]}, nil
}

type betweenSyntax struct {
	Names *read.Names `parser:"'between' @@"`
}

func (s *passedSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if len(strings.Fields(s.What.Text)) > 3 {
		return nil, l.Refuse(s.What.Pos, "a check of the list")
	}
	return Passed{s.What.Text}, nil
}

type passedSyntax struct {
	What *read.Anything `parser:"'passed' @@"`
}

var StateKinds = []read.Row{
	{Command: read.Command{Kind: "next", Words: []string{"todo", "to-do"}, Talk: []string{"now what"}, About: "what there is to do in the room, the first thing first, and who does it", Example: "todo", Fits: `nothing, "who" or a room`},
		Rule: read.Rule[nextSyntax](), Makes: []grammar.Entry{Next{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "reachable", Words: []string{"what stays reachable", "stays reachable"}, About: "what may not be covered for good, or whether a thing may", Example: "what stays reachable", Fits: "nothing, or a noted thing"},
		Rule: read.Rule[reachableSyntax](), Makes: []grammar.Entry{Reachable{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "clear", Words: []string{"how clear is"}, About: "how far a thing is from the nearest framing and the nearest run", Example: "how clear is d1", Fits: "a noted thing"},
		Rule: read.Rule[clearSyntax](), Makes: []grammar.Entry{Clear{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "between", Words: []string{"what lies between"}, About: "what is noted between two things", Example: "what lies between d1 d2", Fits: "two noted things"},
		Rule: read.Rule[betweenSyntax](), Makes: []grammar.Entry{Between{}}, Asks: true, Chat: read.Always},
	{Command: read.Command{Kind: "passed", Words: []string{"state of"}, About: "how a check of the room's list stands", Example: "state of insulation", Fits: "a check of the list"},
		Rule: read.Rule[passedSyntax](), Makes: []grammar.Entry{Passed{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "holds", Words: []string{"what holds"}, About: "what something heavy may hang from: the backing and the framing", Example: "what holds", Fits: "nothing, or a room"},
		Rule: read.Rule[holdsSyntax](), Makes: []grammar.Entry{Holds{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "boardsup", Words: []string{"how many boards up"}, About: "how many boards hang", Example: "how many boards up", Fits: "nothing, or a room"},
		Rule: read.Rule[upSyntax](), Makes: []grammar.Entry{Up{}}, Asks: true, OfRoom: true, Chat: read.Always},
}
