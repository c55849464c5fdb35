// Package markup words a reply as the chat server shows it.
package markup

import (
	"fmt"
	"regexp"
	"strings"

	"strapline/bot/message"
)

// everybody matches mentions that notify everybody in a channel, which a reply must not do.
var everybody = regexp.MustCompile(`(?i)@(channel|all|here)\b`)

// What the server would read as markup, within a line and at its beginning, and URLs, in
// which nothing may be escaped.
var (
	markup    = regexp.MustCompile("[\\\\`*_~\\[\\]]")
	lineBegin = regexp.MustCompile(`(?m)^( *)(?:([#>+-])|(\d+)([.)] ))`)
	address   = regexp.MustCompile(`https?://[^\s*\[\]()<>]+`)
)

// plain escapes markup, so that names and notes are shown as they were texted.
func plain(s string) string {
	var b strings.Builder
	at := 0
	for _, a := range append(address.FindAllStringIndex(s, -1), []int{len(s), len(s)}) {
		b.WriteString(markup.ReplaceAllString(s[at:a[0]], `\$0`))
		b.WriteString(s[a[0]:a[1]])
		at = a[1]
	}
	return lineBegin.ReplaceAllStringFunc(b.String(), func(m string) string {
		i := strings.IndexAny(m, "#>+-.)")
		return m[:i] + `\` + m[i:]
	})
}

// choice matches the gap before a choice of a question. Each choice gets its own line,
// since the server collapses consecutive spaces.
var choice = regexp.MustCompile(`(\S) {2,}(\d: )`)

// Text is the reply as it is posted: markup is escaped, people who were given a value that
// it corrects are mentioned, and it is cut to limit runes.
func Text(out message.Out, limit int) string {
	s := plain(choice.ReplaceAllString(out.Text(), "$1\n$2"))
	s = everybody.ReplaceAllString(s, "@\u200b$1")
	var mentions []string
	for _, a := range out.Answers {
		for _, who := range a.Tell {
			if at := "@" + who; !strings.Contains(strings.Join(mentions, " ")+" ", at+" ") {
				mentions = append(mentions, at)
			}
		}
	}
	if len(mentions) > 0 {
		s += "\n" + strings.Join(mentions, " ")
	}
	runes := []rune(s)
	if len(runes) <= limit {
		return s
	}
	note := fmt.Sprintf("\n… cut off: a post holds %d characters. Ask for less, such as `log today`", limit)
	s = string(runes[:limit-len([]rune(note))])
	if i := strings.LastIndexByte(s, '\n'); i > len(s)/2 {
		s = s[:i]
	}
	return s + note
}
