package account

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"strings"
)

// codeLetters has no 0 O, 1 I L, and no vowels, so that a code can be read out
// across a room and spells nothing.
const codeLetters = "23456789BCDFGHJKMNPQRSTVWXZ"

// codeLength letters of 27 make about 282 thousand million codes: with the
// tries limited, guessing one is hopeless.
const codeLength = 8

// NewCode makes a join code, without its dash.
func NewCode() string {
	code := make([]byte, 0, codeLength)
	var raw [32]byte
	for len(code) < codeLength {
		rand.Read(raw[:])
		for _, b := range raw {
			// Dropping the tail of the byte's range keeps every letter equally likely.
			if int(b) < 256/len(codeLetters)*len(codeLetters) && len(code) < codeLength {
				code = append(code, codeLetters[int(b)%len(codeLetters)])
			}
		}
	}
	return string(code)
}

// FormatCode writes a code as it is printed: "K7QF-9TRW".
func FormatCode(code string) string {
	if len(code) != codeLength {
		return code
	}
	return code[:4] + "-" + code[4:]
}

// ParseCode takes what a person typed: small letters, spaces and dashes do not
// matter. It gives false for what cannot be a code.
func ParseCode(typed string) (string, bool) {
	code := strings.Map(func(r rune) rune {
		if r == '-' || r == ' ' || r == '–' {
			return -1
		}
		return r
	}, strings.ToUpper(strings.TrimSpace(typed)))
	if len(code) != codeLength || strings.Trim(code, codeLetters) != "" {
		return "", false
	}
	return code, true
}

// NewToken makes the secret of a session or of a one-time link, and the hash
// under which it is stored: who reads the database cannot sign in with it.
func NewToken() (token string, hash []byte) {
	var raw [32]byte
	rand.Read(raw[:])
	token = base64.RawURLEncoding.EncodeToString(raw[:])
	return token, HashToken(token)
}

// HashToken gives the hash under which a token is stored. Tokens are random
// and long, so a plain SHA-256 is enough.
func HashToken(token string) []byte {
	sum := sha256.Sum256([]byte(token))
	return sum[:]
}
