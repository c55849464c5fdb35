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

	"strapline/bot/backoff"
	"strapline/bot/job"
	"strapline/bot/message"
)

// The memory of a peer, besides its current message and reply.
const (
	readBuffer  = MaxLine + 2 // bytes; a line and its line end
	writeBuffer = 4 << 10     // bytes
	watchBuffer = 64          // entries of others waiting to be sent
	page        = 256         // entries of a replay read at a time
)

// peer is one connection. One goroutine reads lines and answers them, another writes the
// replies and other people's entries.
type peer struct {
	s    *Server
	conn net.Conn
	in   *bufio.Reader
	out  *bufio.Writer
	who  hello
	job  *job.Job
	done func() // releases the job; nil if none is open

	settled bool          // it said hello and counts as a peer
	next    uint64        // the first entry not yet sent; used by the writer only
	pace    *rate.Limiter // of the lines read
}

// output is what the reader hands to the writer: a reply, or a replay if since is not 0.
type output struct {
	reply string
	since uint64 // the first entry to replay
}

// deadlineConn is a connection whose writes each have to finish within limit.
type deadlineConn struct {
	net.Conn
	limit time.Duration
}

func (d deadlineConn) Write(b []byte) (int, error) {
	if err := d.SetWriteDeadline(time.Now().Add(d.limit)); err != nil {
		return 0, err
	}
	return d.Conn.Write(b)
}

// serve serves a connection until it closes or ctx is done.
func (s *Server) serve(ctx context.Context, conn net.Conn) {
	defer conn.Close()
	addr := addrOf(conn)
	p := &peer{
		s: s, conn: conn, in: bufio.NewReaderSize(conn, readBuffer),
		out:  bufio.NewWriterSize(deadlineConn{conn, s.cfg.Limits.Write}, writeBuffer),
		pace: rate.NewLimiter(rate.Limit(s.cfg.Limits.Rate), s.cfg.Limits.Burst),
	}
	if full := s.enter(addr, p); full != "" {
		_ = p.send(refuse(&fault{0, full}))
		return
	}
	defer s.leave(addr, p)
	// On shutdown, do not wait for a silent peer, and only briefly for a slow reader.
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
	replies := make(chan output)
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		// Unblock the reader if writing failed.
		defer conn.Close()
		err = p.write(replies, entries, stop)
	}()
	why := p.read(ctx, replies, gone)
	close(replies)
	<-gone
	s.log.Info("a peer left", "from", addr, "who", p.who.name, "job", p.who.job, "why", errors.Join(why, err))
}

// greet reads the hello line, checks the pass word, opens the job and starts watching it.
// last is the job's last entry.
func (p *peer) greet(ctx context.Context, addr netip.Addr) (entries <-chan job.Entry, stop func(), last uint64, err error) {
	line, err := p.line(ctx, p.s.cfg.Limits.Hello)
	if err != nil {
		return nil, nil, 0, err
	}
	if p.who, err = parseHello(line); err != nil {
		return nil, nil, 0, err
	}
	if p.s.cfg.Pass != "" {
		wait, ok := p.s.passDelay(addr)
		switch {
		case !ok:
			return nil, nil, 0, &fault{0, "too many wrong pass words from your address; try again in a few minutes"}
		case !backoff.Sleep(ctx, wait):
			return nil, nil, 0, ctx.Err()
		}
		right := p.s.passOK(p.who.pass)
		if p.s.passChecked(addr, right); !right {
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

// line reads a line, whose first byte must come within the given time.
func (p *peer) line(ctx context.Context, within time.Duration) (string, error) {
	if err := p.conn.SetReadDeadline(time.Now().Add(within)); err != nil {
		return "", err
	}
	if err := ctx.Err(); err != nil { // shutdown may have set its deadline before ours
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

// read answers lines until the peer disconnects or ctx is done. A line already read is
// still answered.
func (p *peer) read(ctx context.Context, replies chan<- output, gone <-chan struct{}) error {
	for {
		if err := p.pace.Wait(ctx); err != nil {
			return err
		}
		line, err := p.line(ctx, p.s.cfg.Limits.Idle)
		f, bad := errors.AsType[*fault](err)
		var r output
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

// answer answers one line. An error disconnects the peer.
func (p *peer) answer(ctx context.Context, line string) (output, error) {
	switch words := strings.Fields(line); {
	case len(words) == 2 && words[0] == "since":
		if from, err := strconv.ParseUint(words[1], 10, 64); err == nil {
			return output{since: max(from, 1)}, nil
		}
	case len(words) == 1 && words[0] == "backup":
		return output{reply: p.s.backup(ctx, p.who.job)}, nil
	}
	m, err := parseMessage(line, p.s.cfg.Now(), p.s.cfg.Loc)
	if f, ok := errors.AsType[*fault](err); ok {
		return output{reply: refuse(f)}, nil
	}
	out, err := p.job.Handle(ctx, message.In{ID: p.who.logID(m.id), Who: p.who.name, Sent: m.sent, Text: m.text})
	switch {
	case errors.Is(err, message.ErrOtherText):
		return output{reply: refuse(&fault{0, "not saved: #" + m.id + " was another message; send this one with an id of its own"})}, nil
	case errors.Is(err, job.ErrClosed):
		return output{}, err
	case err != nil:
		p.s.log.Error("a message was not answered", "job", p.who.job, "who", p.who.name, "err", err)
		return output{reply: refuse(&fault{0, "NOT confirmed as saved: " + job.Plain(err) + ". Send it again."})}, nil
	}
	return output{reply: answer(out)}, nil
}

// write sends replies until the channel is closed, and other people's entries between them.
func (p *peer) write(replies <-chan output, entries <-chan job.Entry, stop func()) error {
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
			// The peer fell behind and the watch was closed: catch up from the log.
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

// send writes text and flushes it.
func (p *peer) send(text string) error {
	if _, err := p.out.WriteString(text); err != nil {
		return err
	}
	return p.out.Flush()
}

// showRun sends e and the entries waiting behind it with a single flush.
func (p *peer) showRun(e job.Entry, entries <-chan job.Entry) error {
	for {
		if err := p.showOther(e); err != nil {
			return err
		}
		select {
		case next, more := <-entries:
			if !more { // write sees the closed channel next
				return p.out.Flush()
			}
			e = next
		default:
			return p.out.Flush()
		}
	}
}

// showOther writes an entry, unless it was sent before or is the peer's own.
func (p *peer) showOther(e job.Entry) error {
	if e.Seq < p.next {
		return nil
	}
	p.next = e.Seq + 1
	if strings.EqualFold(e.Who, p.who.name) {
		return nil
	}
	_, err := p.out.WriteString(entryLine(e))
	return err
}

// showAny writes an entry, whoever sent it.
func (p *peer) showAny(e job.Entry) error {
	p.next = max(p.next, e.Seq+1)
	_, err := p.out.WriteString(entryLine(e))
	return err
}

// replay passes the entries from seq from on to show, and returns the seq of the last one,
// or 0 if there is none. It holds one page in memory, however slowly the peer reads.
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
