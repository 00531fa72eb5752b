package account

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestKeeper_MatchesOnlyTheSecret(t *testing.T) {
	ctx := context.Background()
	k, err := NewHasher(TestCost(), 2)
	if err != nil {
		t.Fatal(err)
	}
	hash, err := k.HashSecret(ctx, "chalk the cue first")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(hash, "$argon2id$v=19$") { // RFC 9106's version 0x13
		t.Errorf("hash %q is not argon2id", hash)
	}
	for secret, want := range map[string]bool{"chalk the cue first": true, "Chalk the cue first": false, "": false} {
		if same, err := k.Matches(ctx, secret, hash); err != nil || same != want {
			t.Errorf("%q matches: %v (%v)", secret, same, err)
		}
	}
	if same, err := k.Matches(ctx, "nobody has this secret", ""); err != nil || same {
		t.Errorf("a person without a secret was let in (%v, %v)", same, err)
	}
	full := &Hasher{cost: TestCost(), slots: make(chan struct{})}
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := full.HashSecret(gone, "x"); err == nil {
		t.Error("no seat was free, yet it hashed")
	}
}

func TestCheckPIN(t *testing.T) {
	for pin, ok := range map[string]bool{"4821": true, "482": false, "0000": false, "1234": false, "4321": false,
		"blue chalk": true, "ééé": false, "aaaa": false, strings.Repeat("9", 201): false} {
		if err := CheckPIN(pin); (err == nil) != ok {
			t.Errorf("PIN %.10q: %v", pin, err)
		}
	}
	if CheckPassphrase("short") == nil || CheckPassphrase("three plain words") != nil {
		t.Error("a passphrase needs ten characters and no more than that")
	}
}

func TestCode_ReadsBackHoweverTyped(t *testing.T) {
	seen := map[string]bool{}
	for range 2000 {
		code := NewCode()
		if seen[code] {
			t.Fatalf("%s came twice in two thousand", code)
		}
		seen[code] = true
		for _, typed := range []string{code, FormatCode(code), strings.ToLower(FormatCode(code)), " " + code[:3] + " " + code[3:] + " ",
			code[:1] + "-" + code[1:], code[:2] + "\u2013" + code[2:], code[:4] + "\u00a0\u2014\u200b" + code[4:], wideLetters(code)} {
			if read, ok := ParseCode(typed); !ok || read != code {
				t.Fatalf("%q was read as %q (%v)", typed, read, ok)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.String().Draw(t, "typed")
		if code, ok := ParseCode(typed); ok && len(code) != codeLength {
			t.Fatalf("%q was read as %q", typed, code)
		}
	})
}

// FIPS 180-4 example: SHA-256 of "abc".
func TestHashToken(t *testing.T) {
	want := []byte{0xba, 0x78, 0x16, 0xbf}
	if got := HashToken("abc"); !bytes.Equal(got[:4], want) {
		t.Errorf("hash %x", got)
	}
	token, hash := NewToken()
	if !bytes.Equal(hash, HashToken(token)) || len(token) != 43 {
		t.Errorf("token of %d letters", len(token))
	}
}

// wideLetters writes as an East Asian keyboard may.
func wideLetters(code string) string {
	return strings.Map(func(r rune) rune { return r - '!' + '！' }, code)
}

func TestParseCode_LookAlikes(t *testing.T) {
	for typed, want := range map[string]string{
		"КВСН-МРТХ": "KBCHMPTX", // Cyrillic
		"κβηm-nρτχ": "KBHMNPTX", // Greek, and Latin among it
	} {
		if code, ok := ParseCode(typed); !ok || code != want {
			t.Errorf("%q was read as %q (%v), want %s", typed, code, ok, want)
		}
	}
	if _, ok := ParseCode(strings.Repeat(" ", 1<<20) + "K7QF9TRW"); ok {
		t.Error("a megabyte was read as a code")
	}
}
