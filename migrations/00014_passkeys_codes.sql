-- What people prove themselves with besides a password: passkeys (WebAuthn) and
-- one-time codes (RFC 6238) with recovery codes; and what lives for minutes only:
-- challenges, and sign-ins that wait for their second half.
-- +goose Up
create table passkey_owner (
    agency_id uuid not null,
    person_id uuid not null,
    handle    bytea not null,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint passkey_owner_handle_is_drawn check (octet_length(handle) = 32)
);
create unique index passkey_owner_by_handle on passkey_owner (handle);
comment on table passkey_owner is 'the random name that a person of an agency has in their passkeys; it tells nothing to who reads it';

create table passkey (
    agency_id       uuid not null,
    id              uuid not null,
    person_id       uuid not null,
    name            text not null,
    credential_id   bytea not null,
    public_key      bytea not null,
    sign_count      bigint not null,
    user_verified   boolean not null,
    backup_eligible boolean not null,
    backed_up       boolean not null,
    transports      text[] not null,
    aaguid          bytea not null,
    format          text not null,
    attestation     text not null,
    added_at        timestamptz not null,
    used_at         timestamptz,
    doubted_at      timestamptz,
    removed_at      timestamptz,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references passkey_owner (agency_id, person_id),
    constraint passkey_has_a_name check (btrim(name) <> '' and length(name) <= 60),
    constraint passkey_counts_up check (sign_count between 0 and 4294967295)
);
create unique index passkey_is_one_persons on passkey (agency_id, credential_id) where removed_at is null;
create index passkey_of on passkey (agency_id, person_id);
comment on table passkey is 'public halves of passkeys; one whose counter went back is doubted and no longer accepted';

create table passkey_challenge (
    agency_id      uuid not null,
    challenge_hash bytea not null,
    person_id      uuid,
    purpose        text not null,
    bound          bytea not null default '',
    state          text not null,
    expires_at     timestamptz not null,
    primary key (agency_id, challenge_hash),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint passkey_challenge_purpose_is_known check (purpose in ('sign-in', 'registration', 'signature')),
    constraint passkey_challenge_is_hashed check (octet_length(challenge_hash) = 32)
);
comment on table passkey_challenge is 'challenges not answered yet; deleted when answered, whatever the answer; sign-ins, whose agency is not known, are under the agency of nobody';

create table one_time_code (
    agency_id    uuid not null,
    person_id    uuid not null,
    sealed       text not null,
    last_step    bigint not null,
    set_at       timestamptz not null,
    confirmed_at timestamptz,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id)
);
comment on table one_time_code is 'secrets of one-time codes, sealed with a key outside the database; a step is used once; asked for only once confirmed';

create table recovery_code (
    agency_id uuid not null,
    person_id uuid not null,
    code_hash bytea not null,
    used_at   timestamptz,
    primary key (agency_id, person_id, code_hash),
    foreign key (agency_id, person_id) references one_time_code (agency_id, person_id) on delete cascade,
    constraint recovery_code_is_hashed check (octet_length(code_hash) = 32)
);
comment on table recovery_code is 'codes in place of a lost device, each good once; SHA-256 of 100 random bits';

create table sign_in_pending (
    agency_id  uuid not null,
    token_hash bytea not null,
    person_id  uuid not null,
    expires_at timestamptz not null,
    primary key (agency_id, token_hash),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint sign_in_pending_token_is_hashed check (octet_length(token_hash) = 32)
);
create index sign_in_pending_by_token on sign_in_pending (token_hash);
comment on table sign_in_pending is 'who gave the right password and still owes a one-time code';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['passkey_owner', 'passkey', 'passkey_challenge', 'one_time_code', 'recovery_code', 'sign_in_pending'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    perform ledger_keeps('passkey_owner');
    perform ledger_keeps('passkey');
    perform ledger_keeps('one_time_code', 'sealed');
    perform ledger_keeps('recovery_code');
end
$$;
-- +goose StatementEnd
grant update (sign_count, user_verified, backed_up, used_at, doubted_at, removed_at) on passkey to wellshown_service;
grant update (sealed, last_step, set_at, confirmed_at), delete on one_time_code to wellshown_service;
grant update (used_at), delete on recovery_code to wellshown_service;
grant delete on passkey_challenge, sign_in_pending to wellshown_service;

-- +goose StatementBegin
create function door_passkey(wanted bytea)
    returns table (agency_id uuid, person_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select o.agency_id, o.person_id from passkey_owner o where o.handle = wanted;
    end;
-- +goose StatementEnd
comment on function door_passkey(bytea) is 'asked before the agency is known: whose passkey names its owner so';

-- +goose StatementBegin
create function door_pending(wanted bytea)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select p.agency_id from sign_in_pending p where p.token_hash = wanted;
    end;
-- +goose StatementEnd
comment on function door_pending(bytea) is 'asked before the agency is known: which agency holds this half of a sign-in';
revoke all on function door_passkey(bytea), door_pending(bytea) from public;
grant execute on function door_passkey(bytea), door_pending(bytea) to wellshown_service;

-- +goose Down
drop function door_pending(bytea), door_passkey(bytea);
drop table sign_in_pending, recovery_code, one_time_code, passkey_challenge, passkey, passkey_owner;
