// Package sentences cuts a message into what it says one after another. What reads a text it is given by its caller.
package sentences
