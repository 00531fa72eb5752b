// Package static embeds the stylesheets, scripts and icons and serves them
// under names that change with their content, so that browsers may keep them
// for good.
package static

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"sync"
)

//go:embed css js vendor icons fonts/*.woff2
var files embed.FS

// Prefix is the path under which Handler is mounted.
const Prefix = "/static/"

type servedFile struct {
	plain     []byte
	zipped    func() []byte // when it is first asked for: most commands serve no files
	mediaType string
}

var (
	// filesByURL holds each file under its hashed name, urls the hashed name of each.
	filesByURL = map[string]servedFile{}
	urlsByName = map[string]string{}
)

func init() {
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		plain, err := files.ReadFile(name)
		if err != nil {
			return err
		}
		if name != typefaceStyle { // names files that must be known before it
			addFile(name, stripStyleComments(name, plain))
		}
		return nil
	})
	if err != nil {
		panic("static: " + err.Error())
	}
	typeface, err := nameFontFiles(typefaceStyle)
	if err != nil {
		panic("static: " + err.Error())
	}
	addFile(typefaceStyle, stripStyleComments(typefaceStyle, typeface))
	for name, parts := range bundledScripts {
		whole, err := bundleScripts(parts)
		if err != nil {
			panic("static: " + err.Error())
		}
		addFile(name, whole)
	}
}

// typefaceStyle is the stylesheet that brings the bundled type.
const typefaceStyle = "css/typeface.css"

// nameFontFiles returns a stylesheet with the fonts under the names they are served as.
func nameFontFiles(style string) ([]byte, error) {
	plain, err := files.ReadFile(style)
	if err != nil {
		return nil, err
	}
	for name, url := range urlsByName {
		if strings.HasPrefix(name, "fonts/") {
			plain = bytes.ReplaceAll(plain, []byte(`"`+name+`"`), []byte(`"`+url+`"`))
		}
	}
	return plain, nil
}

// addFile serves a file under a name made of its own and its content.
func addFile(name string, plain []byte) {
	sum := sha256.Sum256(plain)
	ext := path.Ext(name)
	url := Prefix + strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:5]) + ext
	urlsByName[name] = url
	filesByURL[url] = servedFile{plain, sync.OnceValue(func() []byte { return gzipOrNil(plain) }), mediaTypeOf(ext)}
}

func mediaTypeOf(ext string) string {
	switch ext {
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".webmanifest":
		return "application/manifest+json"
	case ".woff2":
		return "font/woff2"
	}
	return mime.TypeByExtension(ext)
}

// gzipOrNil returns the gzipped bytes, or nil where that saves nothing.
func gzipOrNil(plain []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		panic("static: " + err.Error())
	}
	if _, err := w.Write(plain); err != nil {
		panic("static: " + err.Error())
	}
	if err := w.Close(); err != nil {
		panic("static: " + err.Error())
	}
	if b.Len() >= len(plain) {
		return nil
	}
	return b.Bytes()
}

// URL returns the address of a file by its name under static/, for example
// "css/breakwright.css". It panics for a file that is not there: that is a
// programmer's mistake.
func URL(name string) string {
	url, found := urlsByName[name]
	if !found {
		panic(fmt.Sprintf("static: no file %q", name))
	}
	return url
}

// ReadFile returns what is in a file, for the few that are served under a name of
// their own.
func ReadFile(name string) ([]byte, error) {
	b, err := files.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("static: %w", err)
	}
	return b, nil
}

// Handler serves the files.
func Handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f, found := filesByURL[r.URL.Path]
		if !found {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		h.Set("Content-Type", f.mediaType)
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
		h.Set("Vary", "Accept-Encoding")
		body := f.plain
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			if zipped := f.zipped(); zipped != nil {
				h.Set("Content-Encoding", "gzip")
				body = zipped
			}
		}
		h.Set("Content-Length", fmt.Sprint(len(body)))
		if r.Method != http.MethodHead {
			// A reader that went away is no failure of ours.
			_, _ = w.Write(body)
		}
	})
}
