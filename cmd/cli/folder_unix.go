//go:build unix

package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// private fails if group or others have any permission on dir. A missing folder is
// fine: it is created with mode 0700.
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
