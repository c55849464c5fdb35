// Package hanging has the kinds about the work: what hangs, the size to cut, checks, coats and screws.
package hanging
