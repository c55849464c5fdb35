// Package wiretest is a peer of the wire, for tests.
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

// Peer is a peer of the wire.
type Peer struct {
	Conn net.Conn
	in   *bufio.Reader
	// Seen are the entries of others that came so far, as they came.
	Seen []string
}

// Reply is what came back for one line.
type Reply struct {
	Status string // "ok 17", "ask", "no 5"
	Lines  []string
}

// Seq is the number in the status, 0 when there is none.
func (r Reply) Seq() uint64 {
	_, n, _ := strings.Cut(r.Status, " ")
	seq, _ := strconv.ParseUint(n, 10, 64)
	return seq
}

// New makes a Peer of a connection.
func New(conn net.Conn) *Peer { return &Peer{Conn: conn, in: bufio.NewReader(conn)} }

// patience is how long a Peer waits for a reply.
const patience = 20 * time.Second

// Dial connects to a server and says hello.
func Dial(addr, name, job string) (*Peer, error) {
	conn, err := net.DialTimeout("tcp", addr, patience)
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
	if err := p.Conn.SetDeadline(time.Now().Add(patience)); err != nil {
		return Reply{}, err
	}
	if _, err := io.WriteString(p.Conn, line+"\n"); err != nil {
		return Reply{}, err
	}
	return p.Reply()
}

// Reply waits for a reply to a line that was sent.
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

// Next waits for an entry of somebody else's.
func (p *Peer) Next() (string, error) {
	if err := p.Conn.SetReadDeadline(time.Now().Add(patience)); err != nil {
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
