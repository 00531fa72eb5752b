package progress

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"net/http"
	"slices"
	"strings"
	"sync"
)

// maxKeptPages is how many pages are kept: a club's coaches look at a handful of
// classes, each packed in some tens of kilobytes.
const maxKeptPages = 64

// keptPages are the pages made last, each under a key that names all it depends on,
// so that none is ever out of date. The zero value is ready.
type keptPages struct {
	mu sync.Mutex
	// latest are the keys, the one asked for last at the end.
	latest []string
	pages  map[string]keptPage
}

// keptPage is a page plain and packed, with its tag.
type keptPage struct {
	plain, packed []byte
	tag           string
}

// findOrMake returns the page of a key, and makes it where it is not kept.
func (k *keptPages) findOrMake(key string, build func(io.Writer) error) (keptPage, error) {
	if kept, found := k.find(key); found {
		return kept, nil
	}
	var plain bytes.Buffer
	if err := build(&plain); err != nil {
		return keptPage{}, err
	}
	kept := keptPage{plain: plain.Bytes()}
	sum := sha256.Sum256(kept.plain)
	kept.tag = `"` + hex.EncodeToString(sum[:12]) + `"`
	packed, err := packPage(kept.plain)
	if err != nil {
		return keptPage{}, err
	}
	kept.packed = packed
	k.keep(key, kept)
	return kept, nil
}

func (k *keptPages) find(key string) (keptPage, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	kept, found := k.pages[key]
	if found {
		k.moveToEnd(key)
	}
	return kept, found
}

// keep adds a page; the one that was not asked for longest goes.
func (k *keptPages) keep(key string, kept keptPage) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.pages == nil {
		k.pages = map[string]keptPage{}
	}
	k.pages[key] = kept
	k.moveToEnd(key)
	if len(k.latest) > maxKeptPages {
		delete(k.pages, k.latest[0])
		k.latest = k.latest[1:]
	}
}

func (k *keptPages) moveToEnd(key string) {
	k.latest = append(slices.DeleteFunc(k.latest, func(one string) bool { return one == key }), key)
}

func packPage(plain []byte) ([]byte, error) {
	var packed bytes.Buffer
	to, err := gzip.NewWriterLevel(&packed, gzip.DefaultCompression)
	if err != nil {
		return nil, err
	}
	if _, err := to.Write(plain); err != nil {
		return nil, err
	}
	if err := to.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// serve answers with the page, or says that the reader has it already. The reader's
// browser asks each time: what is kept is theirs alone.
func (k keptPage) serve(w http.ResponseWriter, r *http.Request) error {
	h := w.Header()
	h.Set("Cache-Control", "private, no-cache")
	h.Set("ETag", k.tag)
	h.Add("Vary", "HX-Request, Accept-Encoding, Cookie")
	if strings.TrimPrefix(r.Header.Get("If-None-Match"), "W/") == k.tag {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	h.Set("Content-Type", "text/html; charset=utf-8")
	body := k.plain
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		body = k.packed
	}
	_, err := w.Write(body)
	return err
}
