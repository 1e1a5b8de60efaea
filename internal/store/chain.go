package store

import (
	"crypto/sha256"
	"encoding/hex"

	"matchmark/internal/machine"
)

// link is a member of the chain of sums over one machine's log. Each is the
// SHA-256 of the one before and the line, so that a line changed, lost,
// doubled or moved breaks the chain from there on. The newest is kept with
// the machine as well, so that a lost tail is found too.
type link [sha256.Size]byte

// firstLink begins the chain of a machine.
func firstLink(id machine.MachineID) link {
	return sha256.Sum256([]byte("matchmark log of " + string(id)))
}

// next is the link of a line that follows.
func (l link) next(text []byte) link {
	h := sha256.New()
	h.Write(l[:])
	h.Write(text)
	return link(h.Sum(nil))
}

// sumOf is the name of an attachment.
func sumOf(data []byte) machine.Sum {
	s := sha256.Sum256(data)
	return machine.Sum(hex.EncodeToString(s[:]))
}
