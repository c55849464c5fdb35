package wire

import (
	"crypto/sha256"
	"crypto/subtle"
	"net/netip"
	"time"
)

// What a wrong pass word costs: the address it came from has its next one looked at so
// much later, twice as late each time. Of several at once each waits for the one before.
const (
	firstWait = time.Second
	mostWait  = 30 * time.Second
	patience  = time.Minute      // who would have to wait longer is refused
	forgotten = 10 * time.Minute // after its last wrong one an address begins anew
	mostWrong = 10_000           // addresses that are remembered
)

// wrong is how an address has fared with pass words.
type wrong struct {
	n    int       // wrong ones on end
	next time.Time // when the next one is looked at
}

func (w *wrong) wait() time.Duration {
	if w.n == 0 {
		return 0
	}
	return min(firstWait<<min(w.n-1, 10), mostWait)
}

// line is whose pass words are counted together: an address, of IPv6 a whole network.
func line(addr netip.Addr) netip.Addr {
	if p, err := addr.Prefix(64); addr.Is6() && err == nil {
		return p.Addr()
	}
	return addr
}

// turn is how long a pass word from addr waits until it is looked at; ok is false when
// that is too long.
func (s *Server) turn(addr netip.Addr) (wait time.Duration, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := time.Now()
	w := s.wrong[line(addr)]
	if w == nil || now.Sub(w.next) > forgotten {
		return 0, true
	}
	at := w.next
	if at.Before(now) {
		at = now
	}
	if at.Sub(now) > patience {
		return 0, false
	}
	w.next = at.Add(w.wait())
	return at.Sub(now), true
}

// looked notes whether a pass word from addr was right.
func (s *Server) looked(addr netip.Addr, right bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	key, now := line(addr), time.Now()
	if right {
		delete(s.wrong, key)
		return
	}
	w := s.wrong[key]
	if w == nil || now.Sub(w.next) > forgotten {
		if len(s.wrong) >= mostWrong {
			clear(s.wrong)
		}
		w = new(wrong)
		s.wrong[key] = w
	}
	w.n++
	if next := now.Add(w.wait()); next.After(w.next) {
		w.next = next
	}
}

// right compares a pass word in a time that tells nothing of it.
func (s *Server) right(pass string) bool {
	sum := sha256.Sum256([]byte(pass))
	return subtle.ConstantTimeCompare(sum[:], s.pass[:]) == 1
}
