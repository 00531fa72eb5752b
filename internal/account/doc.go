// Package account knows how people prove who they are: passphrases and PINs
// (argon2id), join codes, session tokens, and how often one may try. It keeps
// nothing itself; the store does.
package account
