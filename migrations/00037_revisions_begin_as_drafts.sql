-- A revision begins as a draft, so that none is in force, or retired after having been, but
-- by way of the two people whom revision_comes_in_force_by_two asks for.
-- +goose Up
-- +goose StatementBegin
create function revision_begins_as_a_draft() returns trigger
    language plpgsql as $$
begin
    if new.state <> 'draft' then
        raise exception 'a revision begins as a draft'
            using errcode = 'restrict_violation', constraint = 'revision_begins_as_a_draft';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger revision_begins_as_a_draft before insert on revision
    for each row execute function revision_begins_as_a_draft();

-- +goose Down
drop trigger revision_begins_as_a_draft on revision;
drop function revision_begins_as_a_draft();
