// Package component shows the nouns of the job wherever a page needs them: a setup
// with its pictures, breaks in words, advice with the numbers behind it. It
// takes nouns and gives components; it knows no page, no form and no store.
package component
