// Package pages walks a bbolt file with plain reads, and finds whatever in its structure is not as bbolt writes
// it. bbolt maps the file and follows its page numbers and offsets unchecked, so a file that was cut off or
// changed can end the process; one that this walk accepts cannot.
package pages

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
)

// What can be wrong with a file.
var (
	// ErrCutOff: the file is shorter than its own head page says.
	ErrCutOff = errors.New("the file is cut off")
	// ErrDamaged: something in the file is not what was written, or the file is not a job at all.
	ErrDamaged = errors.New("the file is damaged")
	// ErrNewer: a later version of the program wrote the file or a value in it.
	ErrNewer = errors.New("a newer strapline wrote this file")
)

// The layout is bbolt's format version 2, with numbers in the byte order of the machine:
//
//	page    id u64, flags u16, count u16, overflow u32, then the elements
//	head    magic u32, version u32, page size u32, flags u32, root page u64, sequence u64,
//	        freelist page u64, page count u64, transaction u64, FNV-1a of all that u64
//	branch  offset u32, key size u32, page u64
//	leaf    flags u32, offset u32, key size u32, value size u32
//	bucket  root page u64 (0: the page follows here), sequence u64
//
// Pages 0 and 1 are heads; the one with the higher transaction is current. Offsets are relative to the
// element itself.
const (
	magic         = 0xED0CDAED
	boltVersion   = 2
	pageHeader    = 16
	elementSize   = 16
	headSize      = 64
	bucketHeader  = 16
	branchPage    = 0x01
	leafPage      = 0x02
	headPage      = 0x04
	freelistPage  = 0x10
	bucketElement = 0x01
	maxDepth      = 32  // of a tree; a page holds at least two keys
	MaxFaults     = 100 // faults listed
)

var native = binary.NativeEndian

// head is a valid head page.
type head struct {
	pageSize, root, freelist, pages, txid uint64
}

// readHead reads the head page at off.
func readHead(r io.ReaderAt, off int64, id uint64) (h head, err error) {
	var p [pageHeader + headSize]byte
	if n, err := r.ReadAt(p[:], off); n < len(p) {
		return h, err
	}
	m := p[pageHeader:]
	f := fnv.New64a()
	f.Write(m[:headSize-8])
	switch {
	case native.Uint32(m) != magic || f.Sum64() != native.Uint64(m[56:]):
		return h, fmt.Errorf("head page %d does not match its checksum", id)
	case native.Uint32(m[4:]) != boltVersion:
		return h, ErrNewer
	case native.Uint64(p[:]) != id || native.Uint16(p[8:]) != headPage:
		return h, fmt.Errorf("head page %d is mislabelled", id)
	}
	return head{
		pageSize: uint64(native.Uint32(m[8:])),
		root:     native.Uint64(m[16:]),
		freelist: native.Uint64(m[32:]),
		pages:    native.Uint64(m[40:]),
		txid:     native.Uint64(m[48:]),
	}, nil
}

// Walk is what was found on a walk through a file.
type Walk struct {
	Faults  []error
	More    int      // faults found but not listed
	Torn    error    // fault of one head page; the walk used the other one
	Buckets []string // in the order of the file

	r     io.ReaderAt
	size  int64
	visit func(bucket string, key, value []byte)
	head
	seen []bool           // pages visited
	bufs [maxDepth][]byte // one page per level of a tree
}

// New returns a walk through a file of size bytes, to be begun with [Walk.Run]. It will visit the content of all
// buckets; the slices are valid only during the call.
func New(r io.ReaderAt, size int64, visit func(bucket string, key, value []byte)) *Walk {
	return &Walk{r: r, size: size, visit: visit}
}

// Fault adds a fault to the list.
func (w *Walk) Fault(err error) {
	if len(w.Faults) >= MaxFaults {
		w.More++
		return
	}
	w.Faults = append(w.Faults, err)
}

// Damage adds a fault that is an [ErrDamaged].
func (w *Walk) Damage(format string, args ...any) {
	w.Fault(fmt.Errorf("%w: "+format, append([]any{ErrDamaged}, args...)...))
}

// Run walks the file. It visits whatever can be reached in spite of faults.
func (w *Walk) Run() {
	if !w.findHead() {
		return
	}
	if need := w.pages * w.pageSize; uint64(w.size) < need {
		w.Fault(fmt.Errorf("%w: it has %d bytes of %d", ErrCutOff, w.size, need))
	}
	w.seen = make([]bool, min(w.pages, uint64(w.size)/w.pageSize+1))
	w.tree("", w.root, 0, nil, nil)
	if len(w.Faults) == 0 {
		w.freePages()
	}
}

// findHead returns the newer head page. A fault in either is recorded in Torn: with the newer one spoiled,
// bbolt would go on from the older one and silently lose the last commit.
func (w *Walk) findHead() bool {
	if w.size == 0 {
		w.Damage("it is empty")
		return false
	}
	h0, err0 := readHead(w.r, 0, 0)
	var h1 head
	var err1 error
	if err0 == nil {
		h1, err1 = readHead(w.r, int64(h0.pageSize), 1)
	} else {
		for size := int64(1024); size <= 1<<16; size *= 2 { // 64 KiB is the largest page size in use
			if h1, err1 = readHead(w.r, size, 1); err1 == nil {
				break
			}
		}
	}
	switch {
	case errors.Is(err0, ErrNewer) || errors.Is(err1, ErrNewer):
		w.Fault(ErrNewer)
		return false
	case err0 != nil && err1 != nil:
		w.Damage("it is not a strapline job")
		return false
	case errors.Is(err1, io.EOF):
		w.Fault(fmt.Errorf("%w: it has %d bytes", ErrCutOff, w.size))
		return false
	case err0 != nil || err1 != nil:
		w.Torn = fmt.Errorf("%w; the newest entries may be missing", errors.Join(err0, err1))
	}
	w.head = h0
	if err0 != nil || err1 == nil && h1.txid > h0.txid {
		w.head = h1
	}
	if w.pageSize < 1024 || w.pageSize > 1<<16 || w.pageSize&(w.pageSize-1) != 0 || w.pages > 1<<40 {
		w.Damage("its head page makes no sense")
		return false
	}
	return true
}

// page reads page id and its overflow into the buffer of depth.
func (w *Walk) page(id uint64, depth int) ([]byte, bool) {
	if depth >= maxDepth || id < 2 || id >= uint64(len(w.seen)) {
		w.Damage("page %d is out of place", id)
		return nil, false
	}
	p, ok := w.readPage(id, 1, depth)
	if !ok {
		return nil, false
	}
	n := uint64(native.Uint32(p[12:])) + 1
	if native.Uint64(p) != id || id+n > uint64(len(w.seen)) {
		w.Damage("page %d is mislabelled", id)
		return nil, false
	}
	for i := id; i < id+n; i++ {
		if w.seen[i] {
			w.Damage("page %d is used twice", i)
			return nil, false
		}
		w.seen[i] = true
	}
	if n == 1 {
		return p, true
	}
	return w.readPage(id, n, depth)
}

func (w *Walk) readPage(id, n uint64, depth int) ([]byte, bool) {
	if size := int(n * w.pageSize); size > cap(w.bufs[depth]) {
		w.bufs[depth] = make([]byte, size)
	}
	p := w.bufs[depth][:n*w.pageSize]
	if got, err := w.r.ReadAt(p, int64(id*w.pageSize)); got < len(p) {
		w.Damage("page %d cannot be read: %w", id, err)
		return nil, false
	}
	return p, true
}

// tree visits the pages under id, whose keys must be at least low and less than high; nil means no limit.
// The bucket "" is the one that holds the buckets.
func (w *Walk) tree(bucket string, id uint64, depth int, low, high []byte) {
	p, ok := w.page(id, depth)
	if !ok {
		return
	}
	switch native.Uint16(p[8:]) {
	case leafPage:
		w.leaf(bucket, p, id, depth, low, high)
	case branchPage:
		w.branch(bucket, p, id, depth, low, high)
	default:
		w.Damage("page %d has an unknown type", id)
	}
}

func (w *Walk) branch(bucket string, p []byte, id uint64, depth int, low, high []byte) {
	count := int(native.Uint16(p[10:]))
	if count == 0 || pageHeader+count*elementSize > len(p) {
		w.Damage("page %d has a wrong count", id)
		return
	}
	key := func(i int) ([]byte, bool) {
		at := pageHeader + i*elementSize
		return cut(p, at, count, native.Uint32(p[at:]), native.Uint32(p[at+4:]))
	}
	for i := range count {
		k, ok := key(i)
		next := high
		if ok && i+1 < count {
			next, ok = key(i + 1)
		}
		if !ok || !between(k, low, next) || i > 0 && bytes.Equal(k, low) {
			w.Damage("page %d has a wrong key", id)
			return
		}
		w.tree(bucket, native.Uint64(p[pageHeader+i*elementSize+8:]), depth+1, k, next)
		low = k
	}
}

func (w *Walk) leaf(bucket string, p []byte, id uint64, depth int, low, high []byte) {
	count := int(native.Uint16(p[10:]))
	if pageHeader+count*elementSize > len(p) {
		w.Damage("page %d has a wrong count", id)
		return
	}
	for i := range count {
		at := pageHeader + i*elementSize
		pos, ksize, vsize := native.Uint32(p[at+4:]), native.Uint32(p[at+8:]), native.Uint32(p[at+12:])
		item, ok := cut(p, at, count, pos, ksize+vsize)
		if !ok || ksize+vsize < ksize {
			w.Damage("page %d has an entry outside itself", id)
			return
		}
		key, value := item[:ksize], item[ksize:]
		if !between(key, low, high) || i > 0 && bytes.Equal(key, low) {
			w.Damage("page %d has a wrong key", id)
			return
		}
		low = key
		isBucket := native.Uint32(p[at:]) == bucketElement
		switch {
		case isBucket != (bucket == ""), !isBucket && native.Uint32(p[at:]) != 0:
			w.Damage("page %d has an entry of the wrong kind", id)
		case isBucket:
			w.bucket(string(key), value, id, depth)
		default:
			w.visit(bucket, key, value)
		}
	}
}

// bucket visits the tree that a bucket's element points to, or the page within it if the bucket is small.
func (w *Walk) bucket(name string, value []byte, id uint64, depth int) {
	w.Buckets = append(w.Buckets, name)
	if len(value) < bucketHeader {
		w.Damage("page %d has a bucket that is too short", id)
		return
	}
	if root := native.Uint64(value); root != 0 {
		w.tree(name, root, depth+1, nil, nil)
		return
	}
	inline := value[bucketHeader:]
	if len(inline) < pageHeader || native.Uint16(inline[8:]) != leafPage {
		w.Damage("page %d has a bucket without a page", id)
		return
	}
	w.leaf(name, inline, id, depth, nil, nil)
}

// freePages checks that each page is either in use or on the list of free ones, because bbolt writes over
// those.
func (w *Walk) freePages() {
	p, ok := w.page(w.freelist, 0)
	if !ok {
		return
	}
	ids := p[pageHeader:]
	count := uint64(native.Uint16(p[10:]))
	if count == 0xFFFF { // too many for 16 bits: the first element is the count
		count, ids = native.Uint64(ids), ids[8:]
	}
	if native.Uint16(p[8:]) != freelistPage || count > uint64(len(ids)/8) {
		w.Damage("the list of free pages cannot be read")
		return
	}
	for i := range count {
		id := native.Uint64(ids[8*i:])
		if id >= uint64(len(w.seen)) || id < 2 || w.seen[id] {
			w.Damage("the list of free pages has page %d, which is in use", id)
			return
		}
		w.seen[id] = true
	}
	for id := uint64(2); id < uint64(len(w.seen)); id++ {
		if id < w.pages && !w.seen[id] {
			w.Damage("page %d is neither in use nor free", id)
			return
		}
	}
}

// cut returns size bytes at pos from the element at p[at:], if they are inside p and after its count
// elements.
func cut(p []byte, at, count int, pos, size uint32) ([]byte, bool) {
	from := uint64(at) + uint64(pos)
	to := from + uint64(size)
	if from < uint64(pageHeader+count*elementSize) || to > uint64(len(p)) {
		return nil, false
	}
	return p[from:to:to], true
}

func between(key, low, high []byte) bool {
	return bytes.Compare(key, low) >= 0 && (high == nil || bytes.Compare(key, high) < 0)
}
