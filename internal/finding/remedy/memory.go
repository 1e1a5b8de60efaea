package remedy

import "encoding/binary"

// memory keeps what pieces of one problem cost, or the least they can cost, so
// that many searches that differ in a few acts need not solve the rest again.
// It is never read with another problem.
type memory map[string]found

// key tells a piece from all others of its problem: its needs with the act of
// their own and the value they stand at, and its acts with the jobs they would
// still pay for and the effects they would still have.
func (s *search) key(sc scope) string {
	b := make([]byte, 0, 8*(len(sc.needs)+len(sc.acts)))
	for _, n := range sc.needs {
		b = binary.AppendVarint(b, int64(n))
		b = binary.AppendVarint(b, int64(s.own[n].act))
		b = binary.AppendVarint(b, s.t.sum[n])
	}
	b = append(b, 0xff)
	for _, a := range sc.acts {
		b = binary.AppendVarint(b, int64(a))
		for _, j := range s.p.acts[a].jobs {
			b = append(b, flag(s.t.paid[j] > 0))
		}
		for _, e := range s.p.acts[a].effects {
			b = append(b, flag(s.t.active[e] > 0))
		}
	}
	return string(b)
}

func flag(on bool) byte {
	if on {
		return 1
	}
	return 0
}
