package kit

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// ways lists the alternatives of what must be open before a joint.
func (j *Joint) ways() [][]string {
	var out [][]string
	if len(j.Behind) > 0 {
		out = append(out, j.Behind)
	}
	return append(out, j.Or...)
}

// stuck lists the joints that no order of opening ever reaches, each with the
// joints it waits for in its first way in. A way is through when all its
// joints are open; one way through is enough. Joints that are not among the
// given ones are in nobody's way, and neither is a joint in its own.
func stuck(joints map[string]*Joint) map[string][]string {
	open := map[string]bool{}
	shut := slices.Sorted(maps.Keys(joints))
	for again := true; again; {
		again = false
		shut = slices.DeleteFunc(shut, func(id string) bool {
			if waiting(joints, open, id) != nil {
				return false
			}
			open[id], again = true, true
			return true
		})
	}
	out := map[string][]string{}
	for _, id := range shut {
		out[id] = waiting(joints, open, id)
	}
	return out
}

// waiting lists what keeps a joint shut by its first way, nil where a way is
// through.
func waiting(joints map[string]*Joint, open map[string]bool, id string) []string {
	var first []string
	for _, way := range joints[id].ways() {
		var wait []string
		for _, k := range way {
			if joints[k] != nil && !open[k] && k != id {
				wait = append(wait, k)
			}
		}
		if len(wait) == 0 {
			return nil
		}
		if first == nil {
			first = wait
		}
	}
	return first
}

// circle follows the waits from a joint until they come round, and returns the
// ring, beginning with its first id by the alphabet.
func circle(waits map[string][]string, from string) []string {
	var path []string
	for at := from; ; at = waits[at][0] {
		if i := slices.Index(path, at); i >= 0 {
			ring := path[i:]
			k := slices.Index(ring, slices.Min(ring))
			return slices.Concat(ring[k:], ring[:k])
		}
		path = append(path, at)
	}
}

// circles names the joints that wait for one another in a ring which no other
// way in escapes. Joints that never stand on one machine, by their `only`, do
// not make one.
func (c *checker) circles() {
	all := map[string]*Joint{}
	for id, it := range c.index.first[aJoint] {
		all[id] = &it.sheet.Joints[it.at]
	}
	waits := stuck(all)
	if len(waits) == 0 {
		return
	}
	told := map[string]bool{}
	for _, there := range c.together(all, slices.Sorted(maps.Keys(waits))) {
		waits := stuck(there)
		for _, id := range slices.Sorted(maps.Keys(waits)) {
			ring := circle(waits, id)
			if key := strings.Join(ring, " "); !told[key] {
				told[key] = true
				c.ring(ring)
			}
		}
	}
}

// ring says a circle of joints in words.
func (c *checker) ring(ids []string) {
	c.fault(c.index.first[aJoint][ids[0]], "behind", "a circle: "+ringWords(ids, "waits for"),
		"take one of these out of behind, or write another way in under or_behind")
}

// ringWords says a ring: "a waits for b, b waits for a".
func ringWords(ids []string, verb string) string {
	var words []string
	for i, id := range ids {
		words = append(words, fmt.Sprintf("%s %s %s", id, verb, ids[(i+1)%len(ids)]))
	}
	return strings.Join(words, ", ")
}
