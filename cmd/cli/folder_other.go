//go:build !unix

package cli

// private does nothing where folders have no Unix mode; the system's own access
// rules apply.
func private(string) error { return nil }
