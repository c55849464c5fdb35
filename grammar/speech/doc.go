// Package speech gives each word of a line a tag by its part of speech, and finds what belongs together, such
// as a distance and its wall, as expressions over the tags.
package speech
