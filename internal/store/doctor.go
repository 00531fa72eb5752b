package store

import (
	"context"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
)

// LastBackup is what is known of backups; At is zero when there was none.
type LastBackup struct {
	At        time.Time
	Bytes     int64
	Clubs     int
	FirstClub time.Time
}

// FindLastBackup asks the owner's database when it was backed up last:
// [ErrOlderSchema] for one that keeps no such record.
func FindLastBackup(ctx context.Context, ownerDSN string) (last LastBackup, err error) {
	err = asOwner(ctx, ownerDSN, "look for the last backup", func(owner *pgx.Conn) error {
		var kept bool
		if err := owner.QueryRow(ctx, "select to_regclass('keeper.backup_made') is not null").Scan(&kept); err != nil {
			return err
		}
		if !kept {
			return ErrOlderSchema
		}
		var at, first *time.Time
		err := owner.QueryRow(ctx, `select (select max(at) from keeper.backup_made), coalesce((select bytes from keeper.backup_made order by at desc limit 1), 0),
			(select count(*) from club), (select min(created_at) from club)`).Scan(&at, &last.Bytes, &last.Clubs, &first)
		last.At, last.FirstClub = utcOrZero(at), utcOrZero(first)
		return err
	})
	return last, err
}

// ServerLimits are what a PostgreSQL allows, and how far its clock is ahead of ours.
type ServerLimits struct {
	Connections int
	ClockAhead  time.Duration
}

// FindServerLimits asks the owner's server.
func FindServerLimits(ctx context.Context, ownerDSN string) (limits ServerLimits, err error) {
	err = asOwner(ctx, ownerDSN, "ask for the server's limits", func(owner *pgx.Conn) error {
		var there time.Time
		asked := time.Now()
		err := owner.QueryRow(ctx, "select current_setting('max_connections')::int, clock_timestamp()").Scan(&limits.Connections, &there)
		limits.ClockAhead = there.Sub(asked.Add(time.Since(asked) / 2)) // the answer was made half-way
		return err
	})
	return limits, err
}

func asOwner(ctx context.Context, ownerDSN, doing string, query func(*pgx.Conn) error) error {
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err == nil {
		defer owner.Close(context.WithoutCancel(ctx))
		err = query(owner)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	return nil
}
