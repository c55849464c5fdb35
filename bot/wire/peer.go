package wire

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"strconv"
	"strings"
	"time"

	"golang.org/x/time/rate"

	"strapline/bot/job"
)

// What one peer may hold in memory, besides the message and the reply in hand.
const (
	readBuffer  = MaxLine + 2 // and a line end
	writeBuffer = 4 << 10
	watchBuffer = 64  // entries of others that wait to be sent
	page        = 256 // entries of a replay
)

// peer is one connection. Two goroutines serve it: one reads lines and answers
// them, the other writes replies and the entries of others.
type peer struct {
	s    *Server
	conn net.Conn
	in   *bufio.Reader
	out  *bufio.Writer
	who  hello
	job  *job.Job
	done func() // gives the job back; nil: it has none

	settled bool          // it said hello and has a peer's place
	next    uint64        // the first entry not yet shown; the writer's
	pace    *rate.Limiter // of the lines that are read
}

// said is what the reader hands to the writer.
type said struct {
	reply string
	since uint64 // with it, the entries from here on go first
}

// deadliner gives each write to a connection its time.
type deadliner struct {
	net.Conn
	limit time.Duration
}

func (d deadliner) Write(b []byte) (int, error) {
	if err := d.SetWriteDeadline(time.Now().Add(d.limit)); err != nil {
		return 0, err
	}
	return d.Conn.Write(b)
}

// serve serves one connection to its end.
func (s *Server) serve(ctx context.Context, conn net.Conn) {
	defer conn.Close()
	addr := addrOf(conn)
	p := &peer{
		s: s, conn: conn, in: bufio.NewReaderSize(conn, readBuffer),
		out:  bufio.NewWriterSize(deadliner{conn, s.cfg.Limits.Write}, writeBuffer),
		pace: rate.NewLimiter(rate.Limit(s.cfg.Limits.Rate), s.cfg.Limits.Burst),
	}
	if full := s.enter(addr, p); full != "" {
		_ = p.send(refuse(&fault{0, full}))
		return
	}
	defer s.leave(addr, p)
	// When the stop comes, a peer that sends nothing must not be waited for, and
	// one that reads slowly not for long.
	defer context.AfterFunc(ctx, func() {
		_ = conn.SetReadDeadline(time.Unix(1, 0))
		time.AfterFunc(s.cfg.Limits.Write, func() { conn.Close() })
	})()
	entries, stop, last, err := p.greet(ctx, addr)
	defer func() {
		if p.done != nil {
			p.done()
		}
	}()
	if f, ok := errors.AsType[*fault](err); ok {
		s.log.Info("a peer was refused", "from", addr, "why", f.text)
		_ = p.send(refuse(f))
	}
	if err != nil {
		return
	}
	s.log.Info("a peer came", "from", addr, "who", p.who.name, "job", p.who.job)
	p.next = last + 1
	if err := p.send(reply(fmt.Sprintf("ok %d", last), p.who.job+": you are "+p.who.name)); err != nil {
		stop()
		return
	}
	replies := make(chan said)
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		// Unblocks the reader if writing failed.
		defer conn.Close()
		err = p.write(replies, entries, stop)
	}()
	why := p.read(ctx, replies, gone)
	close(replies)
	<-gone
	s.log.Info("a peer left", "from", addr, "who", p.who.name, "job", p.who.job, "why", errors.Join(why, err))
}

// greet reads the first line, and watches the job from then on.
func (p *peer) greet(ctx context.Context, addr netip.Addr) (entries <-chan job.Entry, stop func(), last uint64, err error) {
	line, err := p.line(ctx, p.s.cfg.Limits.Hello)
	if err != nil {
		return nil, nil, 0, err
	}
	if p.who, err = parseHello(line); err != nil {
		return nil, nil, 0, err
	}
	if p.s.cfg.Pass != "" {
		wait, ok := p.s.turn(addr)
		switch {
		case !ok:
			return nil, nil, 0, &fault{0, "too many wrong pass words from your address; try again in a few minutes"}
		case !sleep(ctx, wait):
			return nil, nil, 0, ctx.Err()
		}
		right := p.s.right(p.who.pass)
		if p.s.looked(addr, right); !right {
			return nil, nil, 0, &fault{0, "wrong pass word"}
		}
	}
	p.who.pass = ""
	if err := p.s.settle(p); err != nil {
		return nil, nil, 0, err
	}
	p.settled = true
	if p.job, p.done, err = p.s.job(p.who.job); err != nil {
		return nil, nil, 0, err
	}
	entries, stop = p.job.Watch(watchBuffer)
	return entries, stop, p.job.Figures().Last, nil
}

// line reads a line that begins within the given time.
func (p *peer) line(ctx context.Context, within time.Duration) (string, error) {
	if err := p.conn.SetReadDeadline(time.Now().Add(within)); err != nil {
		return "", err
	}
	if err := ctx.Err(); err != nil { // it may have come before the deadline was set
		return "", err
	}
	if _, err := p.in.Peek(1); err != nil {
		return "", err
	}
	if err := p.conn.SetReadDeadline(time.Now().Add(min(within, p.s.cfg.Limits.Line))); err != nil {
		return "", err
	}
	if err := ctx.Err(); err != nil {
		return "", err
	}
	return readLine(p.in)
}

// read answers lines until the peer goes or ctx ends. A message that was read
// is answered even so.
func (p *peer) read(ctx context.Context, replies chan<- said, gone <-chan struct{}) error {
	for {
		if err := p.pace.Wait(ctx); err != nil {
			return err
		}
		line, err := p.line(ctx, p.s.cfg.Limits.Idle)
		f, bad := errors.AsType[*fault](err)
		var r said
		switch {
		case bad:
			r.reply = refuse(f)
		case err != nil:
			return err
		case strings.TrimSpace(line) == "":
			continue
		default:
			if r, err = p.answer(context.WithoutCancel(ctx), line); err != nil {
				return err
			}
		}
		select {
		case replies <- r:
			p.s.lines.Add(1)
		case <-gone:
			return nil
		}
	}
}

// answer answers one line.
func (p *peer) answer(ctx context.Context, line string) (said, error) {
	switch words := strings.Fields(line); {
	case len(words) == 2 && words[0] == "since":
		if from, err := strconv.ParseUint(words[1], 10, 64); err == nil {
			return said{since: max(from, 1)}, nil
		}
	case len(words) == 1 && words[0] == "backup":
		return said{reply: p.s.backup(ctx, p.who.job)}, nil
	}
	m, err := parseMessage(line, p.s.cfg.Now(), p.s.cfg.Loc)
	if f, ok := errors.AsType[*fault](err); ok {
		return said{reply: refuse(f)}, nil
	}
	out, err := p.job.Handle(ctx, job.In{ID: p.who.id(m.id), Who: p.who.name, Sent: m.sent, Text: m.text})
	switch {
	case errors.Is(err, job.ErrOtherText):
		return said{reply: refuse(&fault{0, "not saved: #" + m.id + " was another message; send this one with an id of its own"})}, nil
	case errors.Is(err, job.ErrClosed):
		return said{}, err
	case err != nil:
		p.s.log.Error("a message was not answered", "job", p.who.job, "who", p.who.name, "err", err)
		return said{reply: refuse(&fault{0, "NOT confirmed as saved: " + job.Plain(err) + ". Send it again."})}, nil
	}
	return said{reply: answer(out)}, nil
}

// write sends replies until there are no more, and entries of others between them.
func (p *peer) write(replies <-chan said, entries <-chan job.Entry, stop func()) error {
	defer func() { stop() }()
	for {
		var err error
		select {
		case r, more := <-replies:
			if !more {
				return nil
			}
			if r.since > 0 {
				var last uint64
				last, err = p.replay(r.since, p.showAny)
				r.reply = reply(fmt.Sprintf("ok %d", last), "")
			}
			if err == nil {
				err = p.send(r.reply)
			}
		case e, more := <-entries:
			if more {
				err = p.showRun(e, entries)
				break
			}
			// It fell behind, and goes on from where it was.
			stop()
			entries, stop = p.job.Watch(watchBuffer)
			if _, err = p.replay(p.next, p.showOther); err == nil {
				err = p.out.Flush()
			}
		}
		if err != nil {
			return err
		}
	}
}

// send sends a reply.
func (p *peer) send(text string) error {
	if _, err := p.out.WriteString(text); err != nil {
		return err
	}
	return p.out.Flush()
}

// showRun sends e, and what waits behind it in one go.
func (p *peer) showRun(e job.Entry, entries <-chan job.Entry) error {
	for {
		if err := p.showOther(e); err != nil {
			return err
		}
		select {
		case next, more := <-entries:
			if !more { // write will find that too
				return p.out.Flush()
			}
			e = next
		default:
			return p.out.Flush()
		}
	}
}

// showOther shows an entry of another sender that was not yet shown.
func (p *peer) showOther(e job.Entry) error {
	if e.Seq < p.next {
		return nil
	}
	p.next = e.Seq + 1
	if strings.EqualFold(e.Who, p.who.name) {
		return nil
	}
	_, err := p.out.WriteString(shown(e))
	return err
}

func (p *peer) showAny(e job.Entry) error {
	p.next = max(p.next, e.Seq+1)
	_, err := p.out.WriteString(shown(e))
	return err
}

// replay shows the entries from a seq on and returns the last one's, 0 for none.
// It holds one page of them at a time, however slowly the peer reads.
func (p *peer) replay(from uint64, show func(job.Entry) error) (last uint64, err error) {
	for {
		list, err := p.job.Entries(context.Background(), from, page)
		if err != nil {
			return last, err
		}
		for _, e := range list {
			if err := show(e); err != nil {
				return last, err
			}
			last, from = e.Seq, e.Seq+1
		}
		if len(list) < page {
			return last, nil
		}
	}
}
