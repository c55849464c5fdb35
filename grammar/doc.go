// Package grammar is the message language: what a crew texts, read into typed
// entries, and entries printed as canonical text that reads back to the same.
//
// A line goes through five steps. The frame ("kitchen: at 9:58 ... before row 2") is taken off (frame.go).
// Package lex cuts the rest into tokens, using the words of the language and the names declared on the
// job. The line is recognised by the words it begins with, which people say in many ways (asked.go), or by
// its first tokens (line.recognise); a few lines are matched whole by a pattern (whole.go). The rule of
// that kind parses the tokens (all rules are in testdata/ebnf.golden), and its entry method checks units
// and ranges; a number that can be read in two ways becomes a question. A line that fails is judged
// (refuse.go): it gets a refusal with the column, what fits and a line that parses, or silence, because
// most of what is said in a busy channel is not for us.
//
// Each subject has a file with its types and their canonical text, its rules and their entry methods, and
// the rows of its kinds. A new kind takes a type, a rule and a row in the file of its subject, and lines
// in the tables of the tests.
package grammar
