// Package question sorts a question by its words, in any order, and puts it into one of our lines.
package question
