package kit

import "slices"

const mostCombinations = 4096

// together lists the sets of joints that stand on one machine, one for each
// combination of answers to the choices that the doubtful joints depend on.
// Where there are too many combinations it gives one set with all joints.
func (c *checker) together(all map[string]*Joint, doubtful []string) []map[string]*Joint {
	asked, total := c.asked(doubtful)
	if total > mostCombinations {
		return []map[string]*Joint{all}
	}
	var out []map[string]*Joint
	for n := range total {
		given := c.given(asked, n)
		there := map[string]*Joint{}
		for id, it := range c.index.first[aJoint] {
			list, err := conditions(all[id].Only)
			if err != nil || holds(list, given[it.sheet]) {
				there[id] = all[id]
			}
		}
		out = append(out, there)
	}
	return out
}

// question is a choice and the sheet that declares it.
type question struct {
	sheet *Sheet
	Choice
}

// asked lists the choices that the `only` of some joints name, and how many
// combinations of answers there are, at most one above mostCombinations.
func (c *checker) asked(joints []string) (list []question, combinations int) {
	combinations = 1
	for _, s := range c.sheets {
		for _, v := range s.Choices {
			if len(v.Answers) > 0 && c.dependOn(joints, s, v.ID) {
				list = append(list, question{s, v})
				combinations = min(combinations*len(v.Answers), mostCombinations+1)
			}
		}
	}
	return list, combinations
}

// dependOn tells whether one of the joints names a choice of a sheet.
func (c *checker) dependOn(joints []string, s *Sheet, choice string) bool {
	return slices.ContainsFunc(joints, func(id string) bool {
		it := c.index.first[aJoint][id]
		list, _ := conditions(it.sheet.Joints[it.at].Only)
		return visible(it.sheet, s) && slices.ContainsFunc(list, func(d condition) bool { return d.Choice == choice })
	})
}

// given is the n-th combination of answers, as each sheet sees it: its own
// choice goes before one of the same name in a kit it uses.
func (c *checker) given(asked []question, n int) map[*Sheet]map[string]string {
	out := map[*Sheet]map[string]string{}
	for _, s := range c.sheets {
		out[s] = map[string]string{}
	}
	for _, q := range asked {
		answer := q.Answers[n%len(q.Answers)]
		n /= len(q.Answers)
		for _, s := range c.sheets {
			if _, taken := out[s][q.ID]; s == q.sheet || visible(s, q.sheet) && !taken {
				out[s][q.ID] = answer
			}
		}
	}
	return out
}
