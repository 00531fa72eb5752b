package store_test

import (
	"bytes"
	"errors"
	"testing"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A second step is asked for once it is confirmed. New recovery codes take the place of
// the old ones and leave the secret as it is; a code that was used brings none.
func TestSecondStep_AndNewRecoveryCodes(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, secret := t.Context(), sc.Store, account.NewTOTPSecret()
	hashes := func(codes ...string) (all [][]byte) {
		for _, code := range codes {
			all = append(all, account.HashRecoveryCode(code))
		}
		return all
	}
	if err := s.ConfirmSecondStep(ctx, sc.Coach, 6, nil); !errors.Is(err, store.ErrConflict) {
		t.Errorf("confirmed before it was begun: %v", err)
	}
	if err := s.BeginSecondStep(ctx, sc.Coach, secret); err != nil {
		t.Fatal(err)
	}
	if asked := must(s.FindSecondStep(ctx, sc.Coach))(t); asked != nil {
		t.Error("one that was only begun is asked for")
	}
	if err := s.ConfirmSecondStep(ctx, sc.Coach, 7, hashes("old one", "old two")); err != nil {
		t.Fatal(err)
	}
	if err := s.BeginSecondStep(ctx, sc.Coach, account.NewTOTPSecret()); !errors.Is(err, store.ErrConflict) {
		t.Errorf("another beside one in use: %v", err)
	}
	for step, want := range map[int64]error{7: store.ErrConflict, 8: nil} {
		if err := s.ReplaceRecoveryCodes(ctx, sc.Coach, step, hashes("new one", "new two", "new three")); !errors.Is(err, want) {
			t.Errorf("new codes for the code of step %d: %v", step, err)
		}
	}
	own := must(s.GetSecondStep(ctx, sc.Coach))(t)
	if !own.Confirmed || own.RecoveryCodes != 3 || !bytes.Equal(own.Secret, secret) || !bytes.Equal(must(s.FindSecondStep(ctx, sc.Coach))(t), secret) {
		t.Errorf("with new codes the second step is %+v", own)
	}
	for i, try := range []struct {
		code string
		good bool
	}{{"old one", false}, {"new one", true}, {"new one", false}} {
		if used := must(s.UseRecoveryCode(ctx, sc.Coach, account.HashRecoveryCode(try.code)))(t); used != try.good {
			t.Errorf("try %d, %q: %v", i, try.code, used)
		}
	}
	if must(s.UseSecondStep(ctx, sc.Coach, 8))(t) || !must(s.UseSecondStep(ctx, sc.Coach, 9))(t) {
		t.Error("a time step is good once, and then only a later one")
	}
}
