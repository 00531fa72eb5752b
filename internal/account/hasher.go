package account

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/alexedwards/argon2id"
)

// Cost is how hard a secret is to guess from its stored hash.
type Cost struct{ params argon2id.Params }

// DefaultCost is OWASP's first choice for small servers: 19 MiB, two passes, one
// lane (password storage cheat sheet, from memory); about 30 ms.
func DefaultCost() Cost {
	return Cost{argon2id.Params{Memory: 19 * 1024, Iterations: 2, Parallelism: 1, SaltLength: 16, KeyLength: 32}}
}

// TestCost is quick and weak: for tests only.
func TestCost() Cost {
	return Cost{argon2id.Params{Memory: 64, Iterations: 1, Parallelism: 1, SaltLength: 16, KeyLength: 32}}
}

// Hasher hashes and checks secrets, a few at a time, since each takes its
// memory while it runs.
type Hasher struct {
	cost  Cost
	slots chan struct{}
	decoy string
}

// NewHasher makes a hasher that works on at most atOnce secrets at a time.
func NewHasher(cost Cost, atOnce int) (*Hasher, error) {
	decoy, err := argon2id.CreateHash("nobody has this secret", &cost.params)
	if err != nil {
		return nil, fmt.Errorf("account: make a hasher: %w", err)
	}
	return &Hasher{cost: cost, slots: make(chan struct{}, atOnce), decoy: decoy}, nil
}

// HashSecret returns what to store for a secret.
func (k *Hasher) HashSecret(ctx context.Context, secret string) (string, error) {
	if err := k.acquireSlot(ctx); err != nil {
		return "", err
	}
	defer k.releaseSlot()
	hash, err := argon2id.CreateHash(secret, &k.cost.params)
	if err != nil {
		return "", fmt.Errorf("account: hash a secret: %w", err)
	}
	return hash, nil
}

// Matches reports whether secret is the one behind hash. With an empty hash (no
// such person, or no secret yet) it does the same work and says no, so that
// time does not tell who exists.
func (k *Hasher) Matches(ctx context.Context, secret, hash string) (bool, error) {
	if err := k.acquireSlot(ctx); err != nil {
		return false, err
	}
	defer k.releaseSlot()
	known := hash != ""
	if !known {
		hash = k.decoy
	}
	same, err := argon2id.ComparePasswordAndHash(secret, hash)
	if err != nil {
		return false, fmt.Errorf("account: check a secret: %w", err)
	}
	return same && known, nil
}

func (k *Hasher) acquireSlot(ctx context.Context) error {
	select {
	case k.slots <- struct{}{}:
		return nil
	case <-ctx.Done():
		return fmt.Errorf("account: too busy: %w", ctx.Err())
	}
}

func (k *Hasher) releaseSlot() { <-k.slots }

// Lengths of secrets, in characters.
const (
	ShortestPassphrase = 10
	ShortestPIN        = 4
	LongestSecret      = 200
)

// CheckPassphrase says why a coach's passphrase will not do, or nil.
func CheckPassphrase(s string) error {
	switch n := utf8.RuneCountInString(s); {
	case n < ShortestPassphrase:
		return fmt.Errorf("use at least %d characters; a few words in a row are good", ShortestPassphrase)
	case n > LongestSecret:
		return fmt.Errorf("use at most %d characters", LongestSecret)
	}
	return nil
}

// CheckPIN says why a student's PIN or passphrase will not do, or nil. Tries
// are few (see Tries), so a short one is enough, but not the first that anyone
// would try.
func CheckPIN(s string) error {
	n := utf8.RuneCountInString(s)
	switch {
	case n < ShortestPIN:
		return fmt.Errorf("use at least %d digits or letters", ShortestPIN)
	case n > LongestSecret:
		return fmt.Errorf("use at most %d characters", LongestSecret)
	case n <= 6 && (strings.Count(s, s[:1]) == len(s) || strings.Contains("01234567890", s) || strings.Contains("09876543210", s)):
		return errors.New("that one is the first anybody would try; choose another")
	}
	return nil
}
