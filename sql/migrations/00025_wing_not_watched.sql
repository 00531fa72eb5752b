-- A drill may ask for the cue ball alone. Of its breaks nobody says what became of
-- the wing ball, so sums and cards keep how many breaks were watched: what is
-- counted of the wing ball, and dry breaks, are of those.

-- +goose Up
alter table drill
    add column watch_cue_only boolean not null default false,
    add constraint drill_watch_cue_only check (not (watch_cue_only and watch_wing));
grant insert (watch_cue_only), update (watch_cue_only) on drill to breakwright_app;

alter table break drop constraint break_wing_miss_check;
alter table break add constraint break_wing_miss_check check (wing_miss in
    ('', 'side-rail', 'foot-rail', 'kissed', 'jaws', 'unknown', 'not-watched'));

alter table set_tally add column watched int not null default 0;
update set_tally set watched = breaks;
alter table set_tally add constraint set_tally_watched check (wing_made <= watched and watched <= breaks);
grant update (watched) on set_tally to breakwright_app;

alter table stint add column watched int not null default 0;
update stint set watched = breaks;
grant update (watched) on stint to breakwright_app;

alter table break_card add column watched int not null default 0;
update break_card set watched = breaks;
alter table break_card add constraint break_card_watched check (wing_made <= watched and watched <= breaks);
grant insert (watched) on break_card to breakwright_app;

-- +goose Down
alter table break_card drop column watched;
alter table stint drop column watched;
alter table set_tally drop column watched;
update break set wing_miss = '' where wing_miss = 'not-watched';
alter table break drop constraint break_wing_miss_check;
alter table break add constraint break_wing_miss_check check (wing_miss in
    ('', 'side-rail', 'foot-rail', 'kissed', 'jaws', 'unknown'));
alter table drill drop column watch_cue_only;
