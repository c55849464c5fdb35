// Package pattern has regular expressions that are quick to pass over a text they cannot match.
package pattern
