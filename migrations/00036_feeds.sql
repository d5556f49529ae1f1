-- Private calendars: addresses that a calendar program asks without anybody signing in.
-- The address holds a secret that is kept as its hash; whoever makes another one ends the
-- first.
-- +goose Up
create table feed (
    agency_id   uuid not null references agency (id),
    id          uuid not null,
    person_id   uuid not null,
    whole       boolean not null,
    secret_hash bytea not null,
    made_at     timestamptz not null,
    revoked_at  timestamptz,
    revoked_by  uuid,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, revoked_by) references person (agency_id, id),
    constraint feed_is_one_agencys unique (secret_hash),
    constraint feed_is_hashed check (octet_length(secret_hash) = 32),
    constraint feed_is_revoked_by_somebody check ((revoked_at is null) = (revoked_by is null))
);
create unique index feed_is_one_a_person on feed (agency_id, person_id, whole) where revoked_at is null;
comment on table feed is 'whose calendar can be read at a secret address; the secret itself is never stored';
comment on column feed.whole is 'of the agency, as whoever made it may see it; else their own';

-- +goose StatementBegin
create function feed_is_revoked_once() returns trigger
    language plpgsql as $$
begin
    if to_jsonb(new) - array['revoked_at', 'revoked_by'] <> to_jsonb(old) - array['revoked_at', 'revoked_by'] or old.revoked_at is not null then
        raise exception 'a calendar is revoked once, and nothing else of it changes'
            using errcode = 'check_violation', constraint = 'feed_is_revoked_once';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger feed_is_revoked_once before update on feed for each row execute function feed_is_revoked_once();

alter table feed enable row level security;
create policy by_agency on feed using (agency_id = app_agency()) with check (agency_id = app_agency());
grant select, insert on feed to wellshown_service;
grant update (revoked_at, revoked_by) on feed to wellshown_service;
-- +goose StatementBegin
do $$ begin perform ledger_keeps('feed', 'secret_hash'); end $$;
-- +goose StatementEnd

-- +goose StatementBegin
create function door_feed(wanted bytea)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select f.agency_id from feed f where f.secret_hash = wanted and f.revoked_at is null;
    end;
-- +goose StatementEnd
comment on function door_feed(bytea) is 'asked before the agency is known: whose calendar is this';
revoke all on function door_feed(bytea) from public;
grant execute on function door_feed(bytea) to wellshown_service;

-- +goose Down
drop function door_feed(bytea);
drop table feed;
drop function feed_is_revoked_once();
