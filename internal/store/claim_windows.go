package store

import (
	"errors"
	"os"
	"syscall"
)

// sharingViolation is ERROR_SHARING_VIOLATION of the Windows API.
const sharingViolation = syscall.Errno(32)

// lockFile opens or makes a file that others may read but not open to write,
// or returns errLocked.
func lockFile(name string) (*os.File, error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(path, syscall.GENERIC_READ|syscall.GENERIC_WRITE, syscall.FILE_SHARE_READ, nil,
		syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if errors.Is(err, sharingViolation) {
		return nil, errLocked
	}
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(h), name), nil
}
