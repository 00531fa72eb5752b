package session

import (
	"context"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
)

// SecretCheck asks somebody who is signed in for their present passphrase or PIN once
// more, before something that cannot be taken back. Wrong ones count as they do at
// the sign-in.
type SecretCheck struct {
	Store   *store.Store
	Secrets *account.Hasher
	// TooMany is the error that package web turns into "wait a few minutes".
	TooMany error
	Now     func() time.Time
}

// IsRight reports whether what was typed is the person's secret. deviceHash is that of
// [Manager.DeviceHash].
func (c SecretCheck) IsRight(ctx context.Context, who store.Actor, deviceHash []byte, typed string) (bool, error) {
	if len(typed) > 4*account.LongestSecret {
		return false, nil
	}
	kind, err := c.Store.TakeTry(ctx, who, deviceHash, c.Now())
	if err != nil {
		return false, err
	}
	if kind == store.TryLocked {
		return false, c.TooMany
	}
	hash, err := c.Store.GetOwnSecret(ctx, who)
	if err != nil {
		return false, err
	}
	right, err := c.Secrets.Matches(ctx, typed, hash)
	if err != nil || !right {
		return false, err
	}
	return true, c.Store.SettleTry(ctx, who, deviceHash, kind, c.Now())
}
