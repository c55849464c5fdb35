// Package grammar is what the message language is about: an entry, the line it stands in, what is answered
// to a line that has two readings or none, and what a line is read against.
//
// The packages below read the lines, each importing those before it:
//
//	lex       the tokens of a line, and the words for walls, supports and things
//	pattern   expressions that are tried only where they can match
//	canon     canonical text: what an entry prints, and reads back
//	read      a line as typed: its frame, its first words, the table of the kinds
//	numbers   lengths and counts
//	places    distances and what they are measured from; surfaces, supports
//	boards, rooms, things, hanging, record
//	          the kinds by subject, one file a subject: type, canonical text, rule and row of the table
//	relate    lines that refer to what was said before: same again, moved, should be, taken back
//	wording   other words for lines that the rules read
//	unread    what is answered to a line that nothing reads
//	question  questions, sorted by their words in any order
//	sense     what a line is about, by its words alone
//	parse     all of it together: Line, Split and Cut
//
// A line goes through five steps in package parse. The frame ("kitchen: at 9:58 ... before row 2") is taken
// off, and the rest is cut into tokens, using the words of the language and the names declared on the job.
// The line is recognised by the words it begins with, which people say in many ways (read/asked.go), or by
// its first tokens; a few lines are matched whole by a pattern (parse/whole.go). The rule of that kind
// parses the tokens (all rules are in testdata/ebnf.golden), and its Entry method checks units and ranges; a
// number that can be read in two ways becomes a question. A line that fails is looked for in other words
// (parse/heard.go, parse/sensed.go), else it is judged (package unread): it gets a refusal with the column,
// what fits and a line that parses, or silence, because most of what is said in a busy channel is not for us.
package grammar
