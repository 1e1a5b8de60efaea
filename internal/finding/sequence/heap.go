package sequence

// heap gives the step of lowest rank first; a nil rank takes steps by number.
type heap struct {
	rank  []int
	items []int
}

func newHeap(rank []int) *heap { return &heap{rank: rank} }

func (h *heap) len() int { return len(h.items) }

func (h *heap) less(a, b int) bool {
	if h.rank != nil && h.rank[a] != h.rank[b] {
		return h.rank[a] < h.rank[b]
	}
	return a < b
}

func (h *heap) push(s int) {
	h.items = append(h.items, s)
	for i := len(h.items) - 1; i > 0; {
		up := (i - 1) / 2
		if !h.less(h.items[i], h.items[up]) {
			return
		}
		h.items[i], h.items[up] = h.items[up], h.items[i]
		i = up
	}
}

func (h *heap) pop() int {
	top := h.items[0]
	last := len(h.items) - 1
	h.items[0] = h.items[last]
	h.items = h.items[:last]
	for i := 0; ; {
		least := i
		for _, c := range [2]int{2*i + 1, 2*i + 2} {
			if c < last && h.less(h.items[c], h.items[least]) {
				least = c
			}
		}
		if least == i {
			return top
		}
		h.items[i], h.items[least] = h.items[least], h.items[i]
		i = least
	}
}
