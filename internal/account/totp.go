package account

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/binary"
	"fmt"
	"net/url"
	"strings"
	"time"
)

// One-time codes of an authenticator program: TOTP, RFC 6238, with the values
// that all such programs know: SHA-1, six digits, a step of 30 seconds.
const (
	totpStep   = 30 * time.Second
	totpDigits = 6
	// totpSecretSize is in bytes: RFC 4226, 4, asks for 160 bits.
	totpSecretSize = 20
)

// NewTOTPSecret makes the secret that a program and the server share.
func NewTOTPSecret() []byte {
	secret := make([]byte, totpSecretSize)
	rand.Read(secret)
	return secret
}

// TOTPStep is the number of the time step at a moment.
func TOTPStep(at time.Time) int64 { return at.Unix() / int64(totpStep/time.Second) }

// TOTPCode is the code of a time step (RFC 4226, 5.3).
func TOTPCode(secret []byte, step int64) string {
	mac := hmac.New(sha1.New, secret)
	var counter [8]byte
	binary.BigEndian.PutUint64(counter[:], uint64(step))
	mac.Write(counter[:])
	sum := mac.Sum(nil)
	offset := sum[len(sum)-1] & 0x0f
	number := binary.BigEndian.Uint32(sum[offset:]) & 0x7fffffff
	return fmt.Sprintf("%0*d", totpDigits, number%1_000_000)
}

// MatchTOTP looks for the step that a typed code belongs to: now, or one before
// or after, since clocks differ (RFC 6238, 5.2). Spaces in the code do not
// matter. False for a code of none of them.
func MatchTOTP(secret []byte, typed string, at time.Time) (step int64, ok bool) {
	typed = strings.Join(strings.Fields(typed), "")
	for near := TOTPStep(at) - 1; near <= TOTPStep(at)+1; near++ {
		if subtle.ConstantTimeCompare([]byte(TOTPCode(secret, near)), []byte(typed)) == 1 {
			return near, true
		}
	}
	return 0, false
}

// TOTPAddress is what a program reads from a QR code. The format is common
// practice among authenticator programs, no standard.
func TOTPAddress(secret []byte, club, login string) string {
	label := url.PathEscape("Breakwright " + club + ":" + login)
	return "otpauth://totp/" + label + "?secret=" + FormatTOTPSecret(secret) + "&issuer=" + url.QueryEscape("Breakwright "+club)
}

// FormatTOTPSecret writes the secret as it is typed into a program by hand.
func FormatTOTPSecret(secret []byte) string {
	return base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(secret)
}

// RecoveryCodes is how many are made.
const RecoveryCodes = 10

// NewRecoveryCodes makes the codes for who has lost the program, as they are
// printed. Each is good once.
func NewRecoveryCodes() []string {
	codes := make([]string, RecoveryCodes)
	for i := range codes {
		codes[i] = NewCode() + NewCode()
		codes[i] = FormatCode(codes[i][:codeLength]) + "-" + FormatCode(codes[i][codeLength:])
	}
	return codes
}

// HashRecoveryCode returns the hash under which one is kept, however it was typed.
// With 75 random bits a plain SHA-256 is enough.
func HashRecoveryCode(typed string) []byte {
	sum := sha256.Sum256([]byte(foldCode(typed)))
	return sum[:]
}
