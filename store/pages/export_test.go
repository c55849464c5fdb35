package pages

// Where the walk found what the tests spoil.
func (w *Walk) PageSize() uint64 { return w.pageSize }
func (w *Walk) Root() uint64     { return w.root }
func (w *Walk) Freelist() uint64 { return w.freelist }
func (w *Walk) Pages() uint64    { return w.pages }
