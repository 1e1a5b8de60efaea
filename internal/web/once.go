package web

import (
	"crypto/rand"
	"encoding/base64"
	"strconv"
	"sync/atomic"
)

// onceField carries a form's own word: the same form sent twice says it twice,
// and is kept once.
const onceField = "once"

// newOnce gives a source of words that no form had before: the random start of
// this program, and a count.
func newOnce() func() string {
	var start [12]byte
	rand.Read(start[:]) // never fails
	front := base64.RawURLEncoding.EncodeToString(start[:]) + "."
	var n atomic.Int64
	return func() string { return front + strconv.FormatInt(n.Add(1), 36) }
}
