package wire

import (
	"bufio"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"strapline/bot/job"
	"strapline/bot/message"
)

// FuzzLine passes arbitrary bytes through everything that reads a line and prints it.
func FuzzLine(f *testing.F) {
	for _, s := range []string{
		"hello lead larkspur-upper-flat pass\n", "#17 @2026-05-04T09:12 covered\r\n", "@2026-05-04T09:12:00+02:00 x\n",
		"@lead hey\n", "#\n", "@9\n", "# @\n", "note \xff\n", "note \u2028\u202e\x1b\n", "no line end", strings.Repeat("é", 2049) + "\n",
		strings.Repeat("x", MaxLine) + "\r\n", strings.Repeat("x", 2*maxSkip) + "\n", "\n",
	} {
		f.Add(s)
	}
	now := time.Date(2026, 5, 4, 9, 30, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, s string) {
		in := bufio.NewReaderSize(strings.NewReader(s), readBuffer)
		line, err := readLine(in)
		if fault, ok := errors.AsType[*fault](err); ok {
			oneReply(t, refuse(fault))
			return
		}
		if err != nil {
			return // the connection ends
		}
		if len(line) > MaxLine || !utf8.ValidString(line) || strings.ContainsAny(line, "\n\x00\x1b") {
			t.Fatalf("took %q", line)
		}
		if h, err := parseHello(line); err == nil && (strings.ContainsAny(h.name, "# \t") || job.Slug(h.job) != h.job) {
			t.Fatalf("took hello %+v", h)
		}
		m, err := parseMessage(line, now, time.UTC)
		if fault, ok := errors.AsType[*fault](err); ok {
			oneReply(t, refuse(fault))
			if n := utf8.RuneCountInString(line); fault.col < 1 || fault.col > n {
				t.Fatalf("column %d of %q", fault.col, line)
			}
			return
		}
		if !strings.HasSuffix(line, m.text) || strings.ContainsAny(m.id, " \t") {
			t.Fatalf("%q was taken apart as %+v", line, m)
		}
		oneReply(t, reply("ok 1", s))
		if e := entryLine(job.Entry{Seq: 1, Who: s, Text: s}); strings.Count(e, "\n") != 1 || !utf8.ValidString(e) {
			t.Fatalf("shown as %q", e)
		}
	})
}

// oneReply checks that s is exactly one complete reply.
func oneReply(t *testing.T, s string) {
	t.Helper()
	lines := strings.Split(s, "\n")
	n := len(lines)
	if n < 3 || lines[n-1] != "" || lines[n-2] != "." {
		t.Fatalf("no reply: %q", s)
	}
	for _, line := range lines[1 : n-2] {
		if !strings.HasPrefix(line, "| ") || strings.ContainsFunc(line, message.Hostile) {
			t.Fatalf("line %q in %q", line, s)
		}
	}
}
