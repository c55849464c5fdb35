package grammar

import (
	"strconv"
	"strings"
)

// Entry is one statement or question. String returns its canonical text, which parses back to an equal
// Entry.
type Entry interface {
	Kind() Kind
	String() string
}

// Kind is an entry's name in the log and in the command table: "room", "thing", "hung", ...
type Kind string

// Line is one entry with its frame.
type Line struct {
	Room   string // "kitchen: ...", "... in kitchen": the declared name, "" if not said
	At     string // "at 9:58": 24 h "15:04", "" if not said
	Exact  bool   // am or pm was said: At is not twelve hours later
	Before int    // "... before row 2": sent before that row went up, 0 if not said
	After  int    // "... after row 2"
	Sure   bool   // picked when a doubt about it was asked: do not ask again
	Loose  bool   // read by its words alone, so single sentences of it may be read better
	Entry  Entry
}

// String is the line in canonical form: its frame, then its entry.
func (l Line) String() string {
	var b strings.Builder
	if l.Room != "" {
		b.WriteString(l.Room + ": ")
	}
	if l.At != "" {
		b.WriteString("at " + l.At + " ")
		if l.Exact {
			b.WriteString("am ")
		}
	}
	switch l.Entry.Kind() {
	case "note", "snag", "job": // they keep the rest of their line
		return b.String() + l.Entry.String()
	}
	b.WriteString(l.Entry.String())
	if l.Before > 0 {
		b.WriteString(", before row " + strconv.Itoa(l.Before))
	}
	if l.After > 0 {
		b.WriteString(", after row " + strconv.Itoa(l.After))
	}
	return b.String()
}

// Doubtful is what was said in a line that leads to a question of its own.
type Doubtful struct {
	Said string
	Ask  Ask
}

func (e Doubtful) String() string { return e.Said }
func (Doubtful) Kind() Kind       { return "doubtful" }

// Choice is one answer to a question: its label, and the lines it stands for, none if nothing is to be
// done. Text is lines that are not read yet.
type Choice struct {
	Label string
	Text  string `json:",omitempty"`
	Lines []Line `json:",omitempty"`
}

// String returns what could be typed instead of picking it.
func (c Choice) String() string {
	if c.Text != "" || len(c.Lines) == 0 {
		return c.Text
	}
	all := make([]string, len(c.Lines))
	for i, l := range c.Lines {
		all[i] = l.String()
	}
	return strings.Join(all, "\n")
}

// KeepsNote reports whether a choice is to keep the line as a note and no more.
func (c Choice) KeepsNote() bool { return len(c.Lines) == 1 && c.Lines[0].Entry.Kind() == "note" }

// InRoom is lines as they are typed of a room, "" for the one at hand.
func InRoom(room, lines string) string {
	if room == "" {
		return lines
	}
	return room + ": " + strings.ReplaceAll(lines, "\n", "\n"+room+": ")
}

// OrAll puts the choice of all of them at once before the others, if that is one.
func OrAll(is bool, each []Choice) []Choice {
	all := Choice{Label: "all of them"}
	for _, one := range each {
		all.Lines = append(all.Lines, one.Lines...)
	}
	if !is {
		return each
	}
	return append([]Choice{all}, each...)
}

// Reads returns a choice with a line that is yet to be parsed.
func Reads(label, text string) Choice { return Choice{Label: label, Text: text} }
