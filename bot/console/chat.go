// Package console is the door for one person at a prompt, and for conversations
// played from a file.
package console

import (
	"bufio"
	"fmt"
	"io"
	"strapline/bot/message"
	"strings"
	"time"
)

// Step is a message in a conversation file with its expected reply, or a comment.
type Step struct {
	Line    int    // in the file, from 1
	Comment string // a "#" or blank line, verbatim; then only Line is set besides
	Stamp   string // "[2026-05-04 09:12]", verbatim; "" if the line has none
	Sent    time.Time
	Who     string
	Text    string
	Want    []string // the lines of the expected reply; empty for silence
}

// startTime is when a conversation starts if its first message has no time.
var startTime = time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC)

// ReadChat reads a conversation:
//
//	# a comment
//	[2026-05-04 09:12] lead> room kitchen 13' 4 x 11' 9
//	| noted 1: ...
//	hanger> light 26 off west 41 off north
//
// A message without a time is sent a minute after the one before it.
func ReadChat(r io.Reader) ([]Step, error) {
	var steps []Step
	at := startTime
	in := bufio.NewScanner(r)
	in.Buffer(nil, 1<<20)
	for n := 1; in.Scan(); n++ {
		line := message.Clean(strings.TrimRight(in.Text(), "\r"))
		switch {
		case strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#"):
			steps = append(steps, Step{Line: n, Comment: line})
			continue
		case line == "|" || strings.HasPrefix(line, "| "):
			if len(steps) == 0 || steps[len(steps)-1].Who == "" {
				return nil, fmt.Errorf("line %d: a reply with no message before it", n)
			}
			last := &steps[len(steps)-1]
			last.Want = append(last.Want, strings.TrimPrefix(strings.TrimPrefix(line, "|"), " "))
			continue
		}
		s := Step{Line: n}
		rest := line
		at = at.Add(time.Minute)
		if strings.HasPrefix(line, "[") {
			stamp, after, ok := strings.Cut(line[1:], "]")
			when, err := time.ParseInLocation("2006-01-02 15:04", stamp, time.UTC)
			if !ok || err != nil {
				return nil, fmt.Errorf("line %d: %q is no time like [2026-05-04 09:12]", n, line)
			}
			s.Stamp, at, rest = "["+stamp+"]", when, strings.TrimPrefix(after, " ")
		}
		who, text, ok := strings.Cut(rest, ">")
		if who = strings.TrimSpace(who); !ok || who == "" || strings.ContainsAny(who, " \t|") {
			return nil, fmt.Errorf("line %d: expected `who> text`, not %q", n, line)
		}
		s.Who, s.Text, s.Sent = who, strings.TrimPrefix(text, " "), at
		steps = append(steps, s)
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	return steps, nil
}

// String is the message or comment as written in a file, without the reply.
func (s Step) String() string {
	if s.Who == "" {
		return s.Comment
	}
	line := s.Who + "> " + s.Text
	if s.Stamp != "" {
		line = s.Stamp + " " + line
	}
	return line
}

// writeReply writes a reply as it is written in a file.
func writeReply(w io.Writer, lines []string) {
	for _, l := range lines {
		fmt.Fprintln(w, strings.TrimRight("| "+l, " "))
	}
}
