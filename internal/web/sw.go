package web

import (
	"encoding/json"
	"net/http"
	"slices"
	"strconv"
)

// workerPage serves the worker that shows the last pages seen while the box is
// out of reach. It stands at the root, for a worker sees only what lies under
// it, and it begins with the build, its assets and the pages' policy: another build
// is another worker.
func (s *site) workerPage(w http.ResponseWriter, r *http.Request) {
	var shell []string
	for _, at := range s.assets.at {
		shell = append(shell, at)
	}
	slices.Sort(shell)
	list, err := json.Marshal(shell)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, "The worker could not be made", "Nothing is lost; pages are shown as long as the box is in reach.")
		return
	}
	w.Header().Set("Content-Type", kinds[".js"])
	w.Header().Set("Cache-Control", "no-cache")
	text := `const build = "` + s.assets.build + `", shell = ` + string(list) + ", policy = " + strconv.Quote(policy) + ";\n"
	_, err = w.Write(append([]byte(text), s.assets.by[s.assets.at["sw.js"]].plain...))
	gone(r, err)
}
