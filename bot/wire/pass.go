package wire

import (
	"crypto/sha256"
	"crypto/subtle"
	"net/netip"
	"time"
)

// Each wrong pass word delays the check of the next one from the same address, by
// firstWait at first and then twice as long each time, up to maxWait. Several at once are
// checked one after another.
const (
	firstWait   = time.Second
	maxWait     = 30 * time.Second
	maxQueue    = time.Minute      // a pass word that would wait longer is refused
	forgetAfter = 10 * time.Minute // since the last wrong one; then the address starts afresh
	maxTracked  = 10_000           // addresses; when there are more, all are forgotten
)

// failures are the wrong pass words of an address.
type failures struct {
	n    int       // since the last right one
	next time.Time // when the next one may be checked
}

func (f *failures) wait() time.Duration {
	if f.n == 0 {
		return 0
	}
	return min(firstWait<<min(f.n-1, 10), maxWait)
}

// passKey returns the address under which pass words are counted: the address itself, or
// for IPv6 its /64 network, which is commonly a single site.
func passKey(addr netip.Addr) netip.Addr {
	if p, err := addr.Prefix(64); addr.Is6() && err == nil {
		return p.Addr()
	}
	return addr
}

// passDelay returns how long to wait before checking a pass word from addr. ok is false if
// that exceeds maxQueue.
func (s *Server) passDelay(addr netip.Addr) (wait time.Duration, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := time.Now()
	f := s.failed[passKey(addr)]
	if f == nil || now.Sub(f.next) > forgetAfter {
		return 0, true
	}
	at := f.next
	if at.Before(now) {
		at = now
	}
	if at.Sub(now) > maxQueue {
		return 0, false
	}
	f.next = at.Add(f.wait())
	return at.Sub(now), true
}

// passChecked records whether a pass word from addr was right.
func (s *Server) passChecked(addr netip.Addr, right bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	key, now := passKey(addr), time.Now()
	if right {
		delete(s.failed, key)
		return
	}
	f := s.failed[key]
	if f == nil || now.Sub(f.next) > forgetAfter {
		if len(s.failed) >= maxTracked {
			clear(s.failed)
		}
		f = new(failures)
		s.failed[key] = f
	}
	f.n++
	if next := now.Add(f.wait()); next.After(f.next) {
		f.next = next
	}
}

// passOK compares a pass word with the configured one in constant time.
func (s *Server) passOK(pass string) bool {
	sum := sha256.Sum256([]byte(pass))
	return subtle.ConstantTimeCompare(sum[:], s.pass[:]) == 1
}
