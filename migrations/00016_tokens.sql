-- Tokens by which programs come in, how lately each was used, and which lines of
-- the journal are a program's doing.
-- +goose Up
create table api_token (
    agency_id  uuid not null,
    id         uuid not null,
    name       text not null,
    token_hash bytea not null,
    acts       text[] not null,
    reading    boolean not null,
    made_by    uuid not null,
    made_at    timestamptz not null,
    expires_at timestamptz not null,
    revoked_at timestamptz,
    revoked_by uuid,
    primary key (agency_id, id),
    foreign key (agency_id, made_by) references person (agency_id, id),
    foreign key (agency_id, revoked_by) references person (agency_id, id),
    constraint api_token_is_one_agencys unique (token_hash),
    constraint api_token_is_hashed check (octet_length(token_hash) = 32),
    constraint api_token_has_a_name check (length(name) between 1 and 80),
    constraint api_token_allows_something check (cardinality(acts) > 0),
    constraint api_token_is_no_persons check (not acts && array['sign a record', 'give roles', 'keep one''s own account']),
    constraint api_token_lasts_a_year_at_most check (expires_at > made_at and expires_at <= made_at + interval '366 days'),
    constraint api_token_is_revoked_by_somebody check ((revoked_at is null) = (revoked_by is null))
);
comment on table api_token is 'tokens of programs; the token itself is never stored';

-- +goose StatementBegin
create function api_token_is_revoked_once() returns trigger
    language plpgsql as $$
begin
    if to_jsonb(new) - array['revoked_at', 'revoked_by'] <> to_jsonb(old) - array['revoked_at', 'revoked_by'] or old.revoked_at is not null then
        raise exception 'a token is revoked once, and nothing else of it changes'
            using errcode = 'check_violation', constraint = 'api_token_is_revoked_once';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger api_token_is_revoked_once before update on api_token for each row execute function api_token_is_revoked_once();

create table api_token_use (
    agency_id uuid not null,
    token_id  uuid not null,
    used_at   timestamptz not null,
    primary key (agency_id, token_id),
    foreign key (agency_id, token_id) references api_token (agency_id, id)
);
comment on table api_token_use is 'when a token was last used, to the minute; it never goes back';

create table program_deed (
    agency_id  uuid not null,
    journal_id uuid not null,
    token_id   uuid not null,
    primary key (agency_id, journal_id),
    foreign key (agency_id, journal_id) references journal (agency_id, id),
    foreign key (agency_id, token_id) references api_token (agency_id, id)
);
comment on table program_deed is 'which lines of the journal a program is behind, by which token; append-only';
create trigger program_deed_is_append_only before update or delete on program_deed for each row execute function refuse_change();
create trigger program_deed_is_never_emptied before truncate on program_deed for each statement execute function refuse_change();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['api_token', 'api_token_use', 'program_deed'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    perform ledger_keeps('api_token', 'token_hash');
    perform ledger_keeps('program_deed');
end
$$;
-- +goose StatementEnd
grant update (revoked_at, revoked_by) on api_token to wellshown_service;
grant update (used_at) on api_token_use to wellshown_service;

-- +goose StatementBegin
create function door_token(wanted bytea)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select t.agency_id from api_token t where t.token_hash = wanted;
    end;
-- +goose StatementEnd
comment on function door_token(bytea) is 'asked before the agency is known: which agency made this token';
revoke all on function door_token(bytea) from public;
grant execute on function door_token(bytea) to wellshown_service;

-- +goose Down
drop function door_token(bytea);
drop table program_deed, api_token_use, api_token;
drop function api_token_is_revoked_once();
