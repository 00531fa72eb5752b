-- name: GetClub :one
select id, name, zone from club;

-- name: UpdateClub :execrows
update club set name = @name, zone = @zone where id = @id;
