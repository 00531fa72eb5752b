package static

import (
	"bytes"
	"path"
	"regexp"
	"strings"
)

// bundledScripts are scripts served as one file: a phone on a slow network asks less
// often, and like is packed with like. They are kept apart here because each
// has one subject.
var bundledScripts = map[string][]string{
	// Keeps a phone and the server in step; on every page of a student's.
	"js/phone.js": {
		"vendor/idb-8.0.4.umd.js", "js/record-element.js", "js/record-words.js", "js/record-store.js", "js/record-queue.js", "js/record-phone.js",
	},
	// What the page at the table adds.
	"js/table.js": {
		"js/record-picture.js", "js/record-tap.js", "js/record-details.js", "js/record-list.js", "js/record-ways.js", "js/record-set.js",
		"js/record-leave.js", "js/record-rest.js", "js/record-entry.js", "js/record-table.js",
	},
}

// bundleScripts returns the parts of a script one after another.
func bundleScripts(parts []string) ([]byte, error) {
	var all bytes.Buffer
	for _, name := range parts {
		plain, err := ReadFile(name)
		if err != nil {
			return nil, err
		}
		all.WriteString(stripComments(name, string(plain)))
	}
	return all.Bytes(), nil
}

// ReadScript returns a script of our own as it is served, for one that is served under a
// name of its own.
func ReadScript(name string) ([]byte, error) { return bundleScripts([]string{name}) }

// What a reader alone needs of a script: types on a line of their own, and what stands
// behind the code of a line.
var (
	typeLine        = regexp.MustCompile(`^/\*\*.*\*/\n`)
	trailingComment = regexp.MustCompile(`([;,(){}\]]) // .*`)
)

// stripComments leaves out what only a reader needs, comments, types and indents, of a
// script of our own. It knows nothing of the language: no line of a text over several
// lines may begin with white space or "//", nor a text have " // " in it, which a test
// sees to.
func stripComments(name, script string) string {
	if !strings.HasPrefix(name, "js/") {
		return script
	}
	var b strings.Builder
	for line := range strings.Lines(script) {
		line = strings.TrimLeft(line, " \t")
		if strings.HasPrefix(line, "//") || typeLine.MatchString(line) {
			continue
		}
		b.WriteString(trailingComment.ReplaceAllString(line, "$1"))
	}
	return b.String()
}

var styleComment = regexp.MustCompile(`(?s)/\*.*?\*/`)

// stripStyleComments leaves out of a stylesheet of our own what only a reader
// needs: comments, indents and empty lines. None of our styles has a text with
// such a sign or over several lines, which a test sees to.
func stripStyleComments(name string, style []byte) []byte {
	if path.Ext(name) != ".css" {
		return style
	}
	var b bytes.Buffer
	for line := range bytes.Lines(styleComment.ReplaceAll(style, nil)) {
		if line = bytes.TrimSpace(line); len(line) > 0 {
			b.Write(line)
			b.WriteByte('\n')
		}
	}
	return b.Bytes()
}
