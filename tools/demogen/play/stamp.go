package play

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"time"

	"matchmark/internal/machine"
)

// person is one of the two at the machine.
type person struct{ name, device string }

var (
	ansa = person{"Ansa", "bench tablet"}
	per  = person{"Per", "Per's phone"}
)

// seed makes the story's figures and ids what they are.
const seed = 180418

// entryID makes the id of an entry: a UUID of version 7 by its form, whose
// first part is the time, to the microsecond, and whose last part is a sum of
// what the entry says. So ids sort by time, and the same id means the same
// entry in every edition of the demo. Form: RFC 9562, 5.7 and method 3 of 6.2.
func entryID(at time.Time, who person, body machine.Body) (machine.EntryID, error) {
	text, err := json.Marshal(body)
	if err != nil {
		return "", fmt.Errorf("%s at %s: %w", body.Kind(), at, err)
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%d %d %s %s %s %s", seed, at.UnixMicro(), who.name, who.device, body.Kind(), text))
	var id [16]byte
	binary.BigEndian.PutUint64(id[:8], uint64(at.UnixMilli())<<16|0x7000|uint64(at.UnixMicro()%1000))
	copy(id[8:], sum[:8])
	id[8] = id[8]&0x3f | 0x80
	return machine.EntryID(fmt.Sprintf("%x-%x-%x-%x-%x", id[:4], id[4:6], id[6:8], id[8:10], id[10:])), nil
}
