package web

import (
	"net/http"
	"strings"
	"sync"

	"matchmark/internal/machine"
	"matchmark/internal/web/picture"
)

// thumbs keeps the thumbnails made last; each is made from its photo when
// first asked for.
type thumbs struct {
	mu    sync.Mutex
	data  map[machine.Sum][]byte
	order []machine.Sum
}

// mostThumbs of about 30 KB each are kept.
const mostThumbs = 200

func (t *thumbs) get(sum machine.Sum, full []byte) ([]byte, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if small, ok := t.data[sum]; ok {
		return small, nil
	}
	small, err := picture.Small(full)
	if err != nil {
		return nil, err
	}
	if t.data == nil {
		t.data = map[machine.Sum][]byte{}
	}
	if len(t.order) >= mostThumbs {
		delete(t.data, t.order[0])
		t.order = t.order[1:]
	}
	t.data[sum], t.order = small, append(t.order, sum)
	return small, nil
}

// showPicture serves a stored photo or drawing of this machine. It is content
// from outside, so it gets no rights of the site.
func showPicture(v *visit) error {
	sum := machine.Sum(v.r.PathValue("sum"))
	named := false
	for _, p := range v.view.Machine.Photos {
		named = named || p.Sum == sum
	}
	if !named {
		return plight{http.StatusNotFound, "There is no such photo", "Nothing was changed. Go back to the page it stood on."}
	}
	data, kind, err := v.shop.Log().Blob(v.r.Context(), sum)
	if err != nil {
		return plight{http.StatusNotFound, "That photo is named in the book but is not in the box", "The entry is safe. Run the check of the store, or bring the photo back from a backup."}
	}
	if !strings.HasPrefix(kind, "image/") {
		return plight{http.StatusUnsupportedMediaType, "That attachment is no picture", "It is kept as it came. The archive holds it."}
	}
	if strings.HasSuffix(v.r.URL.Path, "/small") && kind != "image/svg+xml" {
		small, err := v.thumbs.get(sum, data)
		if err == nil {
			data, kind = small, "image/jpeg"
		}
	}
	head := v.w.Header()
	head.Set("Content-Security-Policy", "sandbox; default-src 'none'; style-src 'unsafe-inline'")
	head.Set("Content-Type", kind)
	head.Set("Cache-Control", "private, max-age=31536000, immutable")
	_, err = v.w.Write(data)
	gone(v.r, err)
	return nil
}
