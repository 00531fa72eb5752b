package main

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"

	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// Names of the databases in a private PostgreSQL. The demo has one of its own,
// so that starting it over can never touch a club.
const (
	clubDatabase = "breakwright"
	demoDatabase = "breakwright_demo"
)

// databaseOwner is the role that a private PostgreSQL is made with.
const databaseOwner = "postgres"

// openedDatabase is where the club's data is: a server that is given, or a private
// one that lives as long as we do.
type openedDatabase struct {
	dsn    string // of the owner
	data   string // the data folder; empty for a server that is given
	secret []byte // the key of the cookies
	server *localpg.Server
}

// openDatabase finds the database; say is called with what takes its time.
func openDatabase(ctx context.Context, config Config, name string, log *slog.Logger, say func(string)) (*openedDatabase, error) {
	if config.Database != "" {
		return useGivenDatabase(config, log)
	}
	d := &openedDatabase{}
	if err := d.startPrivate(ctx, config, name, say); err != nil {
		d.Close()
		return nil, err
	}
	return d, nil
}

func useGivenDatabase(config Config, log *slog.Logger) (*openedDatabase, error) {
	d := &openedDatabase{dsn: config.Database, secret: []byte(config.Secret)}
	if config.Secret != "" {
		return d, nil
	}
	secret, lasting, err := deriveSecret(config.Database)
	if err != nil {
		return nil, err
	}
	if !lasting {
		log.Warn("the database has no password to make the key of the cookies from: after a restart everyone signs in again, unless BREAKWRIGHT_SECRET is set")
	}
	d.secret = secret
	return d, nil
}

func (d *openedDatabase) startPrivate(ctx context.Context, config Config, name string, say func(string)) (err error) {
	if d.data, err = dataFolder(config.Data); err != nil {
		return err
	}
	if err := localpg.CheckReachable(filepath.Join(d.data, postgresFolder)); err != nil {
		return fmt.Errorf("use %s: %w\nName one with --data DIR", d.data, err)
	}
	if err := localpg.EnsureInstalled(ctx, say); err != nil {
		return err
	}
	if err := makeDataFolder(d.data); err != nil {
		return err
	}
	if d.secret = []byte(config.Secret); config.Secret == "" {
		if d.secret, err = loadOrMakeSecret(d.data); err != nil {
			return err
		}
	}
	d.server, err = localpg.Start(ctx, localpg.Config{Dir: filepath.Join(d.data, postgresFolder), Durable: true, Log: say})
	if err != nil {
		return err
	}
	if err := d.server.EnsureDatabase(ctx, name); err != nil {
		return err
	}
	d.dsn = d.server.DSN(databaseOwner, name)
	return nil
}

// migrateSchema brings the schema up to date.
func (d *openedDatabase) migrateSchema(ctx context.Context, log *slog.Logger) error {
	done, err := store.Migrate(ctx, d.dsn, "")
	if err != nil {
		return err
	}
	if done.From != done.To {
		log.Info("the schema was brought up to date", "from", done.From, "to", done.To)
	}
	return nil
}

// openStore opens the store as the role that is held to the walls.
func (d *openedDatabase) openStore(ctx context.Context, options ...store.Option) (*store.Store, error) {
	dsn, err := store.AppDSN(d.dsn, "")
	if err != nil {
		return nil, err
	}
	return store.Open(ctx, dsn, options...)
}

// serverDone is closed when a private server has ended; nil, which never is, for one
// that is given.
func (d *openedDatabase) serverDone() <-chan struct{} {
	if d.server == nil {
		return nil
	}
	return d.server.Done()
}

// Close stops a private server. A second call does nothing.
func (d *openedDatabase) Close() {
	if d.server != nil {
		d.server.Stop()
	}
}
