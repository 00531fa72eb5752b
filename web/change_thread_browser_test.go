//go:build !quick

package web_test

import (
	"slices"
	"strings"
	"testing"

	"breakwright/web/browser"
)

// From the proposal to the result, what each state says is read where people read it:
// the coach at a laptop, the student on a phone, with all scripts.
func TestChangeThread_InTheBrowser(t *testing.T) {
	coach, student := browser.OpenWindow(t, browser.Laptop), browser.OpenWindow(t, browser.Phone)
	read := 0
	for _, state := range slices.Concat(decisionStates, resultStates(), leftStates()) {
		h := newThread(t)
		state.arrive(t, h)
		coach.UseCookies(h.URL, h.coach.Cookies(t))
		student.UseCookies(h.URL, h.student.Cookies(t))
		for place, words := range state.want {
			path := h.places()[place]
			if place == "file" {
				continue // no browser shows it
			}
			w := coach
			if isOfStudent(path) {
				w = student
			}
			w.Navigate(h.URL + path)
			if text := w.Text("main"); !strings.Contains(withoutSpaces(text), withoutSpaces(words)) {
				t.Errorf("%s: %s does not show %q: %s", state.name, place, words, text)
			}
			read++
		}
		if state.table != "" {
			student.Navigate(h.URL + h.places()["drill"])
			student.WaitFor("bw.held()")
			student.Tap(student.CenterOf("form[data-start] button"))
			student.WaitFor(`location.pathname === "/table" && document.querySelector("#table")?.innerText.includes(` + browser.QuoteScript(state.table) + `)`)
			coach.Navigate(h.URL + h.places()["board"])
			coach.WaitFor(`document.querySelector(".board .answer")?.innerText.includes("1 breaking, 0 done")`) // what the phone sent comes by itself
			read += 2
		}
	}
	if read < 80 {
		t.Errorf("only %d places were read", read)
	}
}

// withoutSpaces makes what a browser lays out in lines comparable.
func withoutSpaces(s string) string { return strings.Join(strings.Fields(s), "") }
