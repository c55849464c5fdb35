// Package grammar is the message language: what a crew texts, read into typed
// entries, and entries printed as canonical text that reads back to the same.
//
// A line goes through five steps, a file each. The frame ("kitchen: at 9:58 ...
// before row 2") is taken off. The lexer cuts the rest into tokens against the
// tables of the language and the names declared on the job. The rule that the
// first token picks parses them (the rules are in testdata/ebnf.golden). A
// second pass checks units and ranges and makes the entry; a number that can
// be read in two ways becomes a question. Whatever fails is judged: a refusal
// with the column, what fits and a line that parses, or silence, because most
// of what is said in a busy channel is not for us.
//
// To add a kind: its type, Kind and String; a row in the command table; a rule
// with its entry method, named in languageSyntax and in rules; lines in the
// tables of the tests. Nothing else knows the kinds.
package grammar
