package account

import (
	"encoding/base32"
	"net/url"
	"strings"
	"testing"
	"time"
)

// RFC 6238, appendix B, the rows for SHA-1, of which the last six of the eight
// digits are ours.
func TestTOTP_RFC6238Vectors(t *testing.T) {
	secret := []byte("12345678901234567890")
	for seconds, want := range map[int64]string{
		59: "94287082", 1111111109: "07081804", 1111111111: "14050471",
		1234567890: "89005924", 2000000000: "69279037", 20000000000: "65353130",
	} {
		at := time.Unix(seconds, 0)
		if got := TOTPCode(secret, TOTPStep(at)); got != want[2:] {
			t.Errorf("at %d: %s, want %s", seconds, got, want[2:])
		}
		if step, ok := MatchTOTP(secret, want[2:5]+" "+want[5:], at); !ok || step != TOTPStep(at) {
			t.Errorf("at %d: the code is not known (%d, %v)", seconds, step, ok)
		}
	}
}

// RFC 4226, appendix D.
func TestTOTP_RFC4226Vectors(t *testing.T) {
	want := []string{"755224", "287082", "359152", "969429", "338314", "254676", "287922", "162583", "399871", "520489"}
	for counter, code := range want {
		if got := TOTPCode([]byte("12345678901234567890"), int64(counter)); got != code {
			t.Errorf("counter %d: %s, want %s", counter, got, code)
		}
	}
}

func TestTOTP_OneStepEitherWay(t *testing.T) {
	secret, now := NewTOTPSecret(), time.Date(2026, 3, 2, 18, 0, 10, 0, time.UTC)
	for steps, ok := range map[int64]bool{-2: false, -1: true, 0: true, 1: true, 2: false} {
		if _, known := MatchTOTP(secret, TOTPCode(secret, TOTPStep(now)+steps), now); known != ok {
			t.Errorf("a code %d steps away is known: %v", steps, known)
		}
	}
	if _, known := MatchTOTP(secret, "", now); known {
		t.Error("no code at all is known")
	}
}

func TestTOTPAddress_HoldsTheSecret(t *testing.T) {
	secret := NewTOTPSecret()
	address, err := url.Parse(TOTPAddress(secret, "Harbour & Lane", "ines@example.com"))
	if err != nil {
		t.Fatal(err)
	}
	read, err := base32.StdEncoding.WithPadding(base32.NoPadding).DecodeString(address.Query().Get("secret"))
	if err != nil || string(read) != string(secret) {
		t.Errorf("%s holds %x (%v), want %x", address, read, err, secret)
	}
	if issuer := address.Query().Get("issuer"); issuer != "Breakwright Harbour & Lane" {
		t.Errorf("the issuer is %q", issuer)
	}
}

func TestRecoveryCodes_HoweverTyped(t *testing.T) {
	codes := NewRecoveryCodes()
	seen := map[string]bool{}
	for _, code := range codes {
		hash := string(HashRecoveryCode(code))
		if seen[hash] {
			t.Errorf("%s came twice", code)
		}
		seen[hash] = true
		if string(HashRecoveryCode(" "+strings.ToLower(strings.ReplaceAll(code, "-", " ")))) != hash {
			t.Errorf("%s in small letters is another", code)
		}
	}
}
