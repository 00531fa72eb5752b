-- A proposal that a newer set made again gave way to no other change: its end says so.

-- +goose Up
alter table prescription
    drop constraint prescription_because,
    add constraint prescription_because check (superseded_because in
        ('a newer change', 'the same change again', 'a newer set', 'another setup', 'another table', 'a decision waits to be played'));
update prescription r set superseded_because = 'the same change again'
from prescription n
where n.club_id = r.club_id and n.id = r.superseded_by and r.superseded_because = 'a newer change' and r.decision is null
    and n.from_setup_id = r.from_setup_id and n.to_setup_id = r.to_setup_id;

-- +goose Down
update prescription set superseded_because = 'a newer change' where superseded_because = 'the same change again';
alter table prescription
    drop constraint prescription_because,
    add constraint prescription_because check (superseded_because in
        ('a newer change', 'a newer set', 'another setup', 'another table', 'a decision waits to be played'));
