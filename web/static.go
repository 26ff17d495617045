package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"time"

	"ampstead/look"
	"ampstead/sheet"
)

//go:embed static
var staticFiles embed.FS

// asset is one file of the pages, served from memory.
type asset struct {
	kind string
	tag  string
	body []byte
}

var assetKinds = map[string]string{
	".css": "text/css; charset=utf-8",
	".js":  "text/javascript; charset=utf-8",
	".svg": "image/svg+xml",
	".png": "image/png",
}

// loadAssets reads the embedded files; style.css gets the shared style before it.
func loadAssets() (map[string]asset, error) {
	entries, err := fs.ReadDir(staticFiles, "static")
	if err != nil {
		return nil, err
	}
	assets := map[string]asset{}
	for _, e := range entries {
		body, err := staticFiles.ReadFile(path.Join("static", e.Name()))
		if err != nil {
			return nil, err
		}
		if e.Name() == "style.css" {
			body = append([]byte(look.CSS+"\n"+sheet.CSS+"\n"), body...)
		}
		sum := sha256.Sum256(body)
		assets[e.Name()] = asset{kind: assetKinds[path.Ext(e.Name())], tag: `"` + hex.EncodeToString(sum[:8]) + `"`, body: body}
	}
	return assets, nil
}

// static serves one asset by its exact name: no path reaches the disk.
func (h *hall) static(w http.ResponseWriter, r *http.Request) {
	a, ok := h.assets[r.PathValue("name")]
	if !ok { // a bare line: whoever has not given the passphrase may ask, too
		http.Error(w, "There is no such file.", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("ETag", a.tag)
	w.Header().Set("Cache-Control", "no-cache") // kept, but asked about each time
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(a.body))
}
