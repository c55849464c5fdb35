// Package canon assembles canonical text: the words in which an entry is printed, kept and read back.
package canon
