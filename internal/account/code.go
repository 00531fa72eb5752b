package account

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"strings"
	"time"
	"unicode"
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

// CodeLife is how long a code lets somebody in who has not joined.
const CodeLife = 30 * 24 * time.Hour

// longestTyped bounds what is read at all, in bytes.
const longestTyped = 200

// ParseCode takes what a person typed: small letters, spaces, dashes and
// letters that only look alike do not matter. It returns false for what cannot
// be a code. There is one code behind all its spellings, so that tries are
// counted under that one.
func ParseCode(typed string) (string, bool) {
	if len(typed) > longestTyped {
		return "", false
	}
	code := foldCode(typed)
	if len(code) != codeLength || strings.Trim(code, codeLetters) != "" {
		return "", false
	}
	return code, true
}

// foldCode brings all spellings of a code to one: capital letters, no spaces,
// dashes, dots or marks that are not seen, and Latin for what looks like it.
func foldCode(typed string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.Is(unicode.Pd, r), unicode.Is(unicode.Cf, r), strings.ContainsRune("._·•−'", r):
			return -1
		case r >= '！' && r <= '～': // the wide forms of East Asian keyboards
			return unicode.ToUpper(r - '！' + '!')
		}
		r = unicode.ToUpper(r)
		if latin, alike := lookAlikes[r]; alike {
			return latin
		}
		return r
	}, typed)
}

// lookAlikes are Cyrillic and Greek capitals that look like letters of a code.
// The letters of a code itself are never taken for one another: 8 and B, 5 and
// S, 2 and Z all stand in it.
var lookAlikes = map[rune]rune{
	'В': 'B', 'С': 'C', 'Н': 'H', 'К': 'K', 'М': 'M', 'Р': 'P', 'Т': 'T', 'Х': 'X', 'Ј': 'J', 'Ѕ': 'S',
	'Β': 'B', 'Η': 'H', 'Κ': 'K', 'Μ': 'M', 'Ν': 'N', 'Ρ': 'P', 'Τ': 'T', 'Χ': 'X', 'Ζ': 'Z',
}

// NewToken makes the secret of a session or of a one-time link, and the hash
// under which it is stored: who reads the database cannot sign in with it.
func NewToken() (token string, hash []byte) {
	var raw [32]byte
	rand.Read(raw[:])
	token = base64.RawURLEncoding.EncodeToString(raw[:])
	return token, HashToken(token)
}

// HashToken returns the hash under which a token is stored. Tokens are random
// and long, so a plain SHA-256 is enough.
func HashToken(token string) []byte {
	sum := sha256.Sum256([]byte(token))
	return sum[:]
}
