package wire

import (
	"bufio"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"strapline/bot/job"
	"strapline/bot/message"
)

// MaxLine is the longest line accepted, in bytes without the line end.
const MaxLine = message.Longest

// maxSkip limits how far the end of an overlong line is looked for, in bytes. A peer
// that sends more without a line end is disconnected.
const maxSkip = 64 << 10

// fault is a refusal of a line by the door.
type fault struct {
	col  int // in characters from 1; 0 if no word is at fault
	text string
}

func (f *fault) Error() string { return f.text }

// errEndless disconnects a peer whose line has no end within maxSkip.
var errEndless = errors.New("a line without an end")

// readLine reads one line. A *fault means that the line was read to its end but is not
// acceptable; any other error ends the connection. A last line without a line end was
// cut off and is discarded.
func readLine(in *bufio.Reader) (string, error) {
	b, err := in.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		for n := len(b); errors.Is(err, bufio.ErrBufferFull); n += len(b) {
			if n > maxSkip {
				return "", errEndless
			}
			b, err = in.ReadSlice('\n')
		}
		if err == nil {
			return "", tooLong()
		}
	}
	if err != nil {
		return "", err
	}
	line := strings.TrimSuffix(strings.TrimSuffix(string(b), "\n"), "\r")
	if len(line) > MaxLine {
		return "", tooLong()
	}
	return line, checkText(line)
}

func tooLong() error {
	return &fault{MaxLine + 1, fmt.Sprintf("not saved: a line has at most %d bytes; send it in parts", MaxLine)}
}

// checkText refuses invalid UTF-8 and control characters, since entries are shown to
// other people.
func checkText(line string) error {
	col := 0
	for i, r := range line {
		col++
		if r == utf8.RuneError {
			if _, n := utf8.DecodeRuneInString(line[i:]); n == 1 {
				return &fault{col, fmt.Sprintf("not saved: character %d of the line is no UTF-8; send plain text", col)}
			}
		}
		if message.Hostile(r) {
			return &fault{col, fmt.Sprintf("not saved: character %d of the line is a control character; send plain text", col)}
		}
	}
	return nil
}

// oneLine returns s cleaned, with line ends and tabs replaced by spaces.
func oneLine(s string) string {
	return strings.NewReplacer("\n", " ", "\t", " ").Replace(message.Clean(s))
}

// parsed is a parsed line.
type parsed struct {
	id   string    // "" for none
	sent time.Time // zero for now
	text string
}

// maxWord is the longest NAME and ID, in bytes.
const maxWord = 64

// maxAhead is how far a sender's clock may be ahead of the server's. A note from the
// future would override later corrections until its time comes.
const maxAhead = time.Hour

func parseMessage(line string, now time.Time, loc *time.Location) (parsed, error) {
	var m parsed
	rest := strings.TrimLeft(line, " \t")
	col := func() int { return utf8.RuneCountInString(line[:len(line)-len(rest)]) + 1 }
	if word, after, ok := cutMarked(rest, '#'); ok {
		if word == "" || len(word) > maxWord || after == "" {
			return m, &fault{col(), fmt.Sprintf("not saved: after # I expected an id of at most %d bytes and the message. Try: #17 covered", maxWord)}
		}
		m.id, rest = word, after
	}
	// A text may begin with @NAME. A time begins with a digit.
	if word, after, ok := cutMarked(rest, '@'); ok && word != "" && word[0] >= '0' && word[0] <= '9' {
		at, err := time.ParseInLocation("2006-01-02T15:04", word, loc)
		if err != nil {
			at, err = time.Parse(time.RFC3339, word)
		}
		switch {
		case err != nil || after == "":
			return m, &fault{col(), "not saved: after @ I expected a time and the message. Try: @2026-05-04T09:12 covered"}
		case at.After(now.Add(maxAhead)):
			return m, &fault{col(), "not saved: " + word + " is still to come. Try: the time it was sent, or none for now"}
		}
		m.sent, rest = at, after
	}
	m.text = rest
	return m, nil
}

// cutMarked cuts the first word off s if it begins with mark, and returns it without
// the mark.
func cutMarked(s string, mark byte) (word, after string, ok bool) {
	if s == "" || s[0] != mark {
		return "", s, false
	}
	word = s[1:]
	if i := strings.IndexAny(word, " \t"); i >= 0 {
		word, after = word[:i], strings.TrimLeft(word[i:], " \t")
	}
	return word, after, true
}

// hello is a peer's first line, parsed.
type hello struct {
	name, job, pass string
}

func parseHello(line string) (hello, error) {
	words := strings.Fields(line)
	if len(words) < 3 || len(words) > 4 || words[0] != "hello" {
		return hello{}, &fault{1, "say hello first: hello NAME JOB [PASS]"}
	}
	words = append(words, "")
	h := hello{words[1], words[2], words[3]}
	if len(h.name) > maxWord || strings.ContainsFunc(h.name, notInName) {
		return h, &fault{7, fmt.Sprintf("NAME is one word of letters and digits, at most %d bytes. Try: hello lead larkspur-upper-flat", maxWord)}
	}
	if slug, err := job.Named(h.job); err != nil || slug != h.job {
		return h, &fault{8 + utf8.RuneCountInString(h.name), "JOB is lower-case letters, digits and hyphens. Try: hello lead larkspur-upper-flat"}
	}
	return h, nil
}

func notInName(r rune) bool {
	return !unicode.In(r, unicode.L, unicode.M, unicode.Nd) && !strings.ContainsRune("-_.'", r)
}

// logID returns the ID of a message in the job's log, where it has to differ from the IDs
// of other senders and doors.
func (h hello) logID(id string) string {
	if id == "" {
		return ""
	}
	return "wire:" + strings.ToLower(h.name) + "#" + id
}

// reply formats a status and the text of a reply for the wire.
func reply(status string, text string) string {
	var b strings.Builder
	b.WriteString(status + "\n")
	if text != "" {
		for line := range strings.SplitSeq(text, "\n") {
			b.WriteString("| " + strings.TrimRight(oneLine(line), " ") + "\n")
		}
	}
	b.WriteString(".\n")
	return b.String()
}

func refuse(f *fault) string { return reply(fmt.Sprintf("no %d", f.col), f.text) }

// answer formats a reply of the job for the wire.
func answer(out message.Out) string {
	if out.Failed() {
		return reply("no 0", out.Text())
	}
	var seq uint64
	for _, a := range out.Answers {
		switch {
		case a.Error != nil:
			return reply(fmt.Sprintf("no %d", a.Error.Col), out.Text())
		case a.Saved:
			seq = a.Seq
		}
	}
	if out.Asks() {
		return reply("ask", out.Text())
	}
	return reply(fmt.Sprintf("ok %d", seq), out.Text())
}

// entryLine formats an entry for the wire.
func entryLine(e job.Entry) string {
	return fmt.Sprintf("+ %d %s %s\n", e.Seq, oneLine(e.Who), oneLine(e.Text))
}
