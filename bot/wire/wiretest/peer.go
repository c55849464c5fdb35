// Package wiretest is a client of the wire, for tests.
package wiretest

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"strconv"
	"strings"
	"time"
)

// Peer is a client's connection to the wire.
type Peer struct {
	Conn net.Conn
	in   *bufio.Reader
	Seen []string // entries received from other people so far, as "+" lines
}

// Reply is the reply to one line.
type Reply struct {
	Status string   // "ok 17", "ask", "no 5"
	Lines  []string // without the "| "
}

// Seq returns the number in the status, 0 if there is none.
func (r Reply) Seq() uint64 {
	_, n, _ := strings.Cut(r.Status, " ")
	seq, _ := strconv.ParseUint(n, 10, 64)
	return seq
}

// New makes a Peer from a connection.
func New(conn net.Conn) *Peer { return &Peer{Conn: conn, in: bufio.NewReader(conn)} }

// timeout is how long a Peer waits for a reply.
const timeout = 20 * time.Second

// Dial connects to a server and says hello.
func Dial(addr, name, job string) (*Peer, error) {
	conn, err := net.DialTimeout("tcp", addr, timeout)
	if err != nil {
		return nil, err
	}
	p := New(conn)
	r, err := p.Say("hello " + name + " " + job)
	if err == nil && !strings.HasPrefix(r.Status, "ok ") {
		err = fmt.Errorf("hello was answered %q %q", r.Status, r.Lines)
	}
	if err != nil {
		conn.Close()
		return nil, err
	}
	return p, nil
}

// Say sends a line and waits for its reply.
func (p *Peer) Say(line string) (Reply, error) {
	defer p.Conn.SetDeadline(time.Time{})
	if err := p.Conn.SetDeadline(time.Now().Add(timeout)); err != nil {
		return Reply{}, err
	}
	if _, err := io.WriteString(p.Conn, line+"\n"); err != nil {
		return Reply{}, err
	}
	return p.Reply()
}

// Reply waits for the reply to a line that was sent.
func (p *Peer) Reply() (r Reply, err error) {
	for {
		line, err := p.line()
		switch {
		case err != nil:
			return r, err
		case r.Status == "" && strings.HasPrefix(line, "+ "):
			p.Seen = append(p.Seen, line)
		case r.Status == "":
			r.Status = line
		case line == ".":
			return r, nil
		case strings.HasPrefix(line, "| "):
			r.Lines = append(r.Lines, line[2:])
		default:
			return r, fmt.Errorf("%q stands inside a reply", line)
		}
	}
}

// Next waits for an entry of another person.
func (p *Peer) Next() (string, error) {
	if err := p.Conn.SetReadDeadline(time.Now().Add(timeout)); err != nil {
		return "", err
	}
	line, err := p.line()
	if err == nil && !strings.HasPrefix(line, "+ ") {
		err = fmt.Errorf("%q is no entry", line)
	}
	return line, err
}

func (p *Peer) line() (string, error) {
	line, err := p.in.ReadString('\n')
	return strings.TrimSuffix(line, "\n"), err
}
