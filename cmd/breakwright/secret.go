package main

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/jackc/pgx/v5"
)

// secretSize is in bytes: as much as the hash that uses it.
const secretSize = 32

// loadOrMakeSecret returns the key of the data folder, made at the first call.
func loadOrMakeSecret(data string) ([]byte, error) {
	path := filepath.Join(data, secretFile)
	secret, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		secret = makeSecret()
		err = os.WriteFile(path, secret, 0o600)
	}
	if err != nil {
		return nil, fmt.Errorf("keep the key of the cookies: %w", err)
	}
	if len(secret) < secretSize {
		return nil, fmt.Errorf("%s is damaged. Delete it: everyone signs in again, and nothing else is lost", path)
	}
	return secret, nil
}

// deriveSecret makes the key from the password of the database, so that all
// processes on one database have the same and a restart changes nothing. False
// means that there is no password, and the key is good for this run only.
func deriveSecret(database string) (secret []byte, lasting bool, err error) {
	config, err := pgx.ParseConfig(database)
	if err != nil {
		return nil, false, fmt.Errorf("read DATABASE_URL: %w", err)
	}
	if config.Password == "" {
		return makeSecret(), false, nil
	}
	mac := hmac.New(sha256.New, []byte(config.Password))
	mac.Write([]byte("breakwright cookies"))
	return mac.Sum(nil), true, nil
}

func makeSecret() []byte {
	secret := make([]byte, secretSize)
	rand.Read(secret)
	return secret
}
