// Package session knows who is asking: it keeps the cookie, finds the session
// behind it, and carries a sentence from one page to the next.
//
// The cookie holds nothing but a random token, signed and encrypted; the row
// in the store holds the person and the end of the session, so that a session
// can be ended on the server. The token changes at every sign-in.
package session
