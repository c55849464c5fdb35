//go:build unix

package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// private refuses a data folder that others on this machine can look into; one that
// is not there will be made closed.
func private(dir string) error {
	info, err := os.Stat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("cannot look at the data folder: %w", err)
	}
	if mode := info.Mode().Perm(); info.IsDir() && mode&0o077 != 0 {
		return fmt.Errorf("others can look into the data folder (mode %o); try `chmod 700 %s`", mode, dir)
	}
	return nil
}
