-- name: GetClub :one
select id, name, zone, units from club;

-- name: UpdateClub :execrows
update club set name = @name, zone = @zone, units = @units where id = @id;
