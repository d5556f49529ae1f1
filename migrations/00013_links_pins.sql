-- Secrets that belong to one person: links by which they choose a password
-- themselves, who vouched that it was them, a PIN for signing, and what a session
-- is known by to its owner.
-- +goose Up
create table secret_link (
    agency_id  uuid not null,
    id         uuid not null,
    person_id  uuid not null,
    purpose    text not null,
    token_hash bytea not null,
    issued_by  uuid not null,
    issued_at  timestamptz not null,
    expires_at timestamptz not null,
    ended_at   timestamptz,
    used_at    timestamptz,
    proven_by  text not null default '',
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, issued_by) references person (agency_id, id),
    constraint secret_link_is_taken unique (token_hash),
    constraint secret_link_token_is_hashed check (length(token_hash) = 32),
    constraint secret_link_purpose_is_known check (purpose in ('invitation', 'reset')),
    constraint secret_link_expires_after_it_was_issued check (expires_at > issued_at),
    constraint secret_link_is_used_in_its_time check (used_at >= issued_at and used_at < expires_at and (ended_at is null or ended_at >= used_at))
);
create index secret_link_of on secret_link (agency_id, person_id, issued_at);
comment on table secret_link is 'single-use links by which somebody chooses a password of their own; the link itself is never stored; proven_by: the second secret that was shown with it';

-- +goose StatementBegin
create function secret_link_changes_once() returns trigger
    language plpgsql as $$
begin
    if to_jsonb(new) - array['used_at', 'ended_at', 'proven_by'] <> to_jsonb(old) - array['used_at', 'ended_at', 'proven_by']
        or old.used_at is not null and (new.used_at, new.proven_by) is distinct from (old.used_at, old.proven_by)
        or old.ended_at is not null and (new.ended_at, new.used_at) is distinct from (old.ended_at, old.used_at) then
        raise exception 'a link is used once or ended once, and nothing else of it changes'
            using errcode = 'check_violation', constraint = 'secret_link_changes_once';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger secret_link_changes_once before update on secret_link for each row execute function secret_link_changes_once();

create table vouching (
    agency_id  uuid not null,
    link_id    uuid not null,
    vouched_by uuid not null,
    vouched_at timestamptz not null,
    primary key (agency_id, link_id),
    foreign key (agency_id, link_id) references secret_link (agency_id, id),
    foreign key (agency_id, vouched_by) references person (agency_id, id)
);
comment on table vouching is 'who has seen that it is them who used a link; append-only';

-- +goose StatementBegin
create function vouching_needs_another_person() returns trigger
    language plpgsql as $$
begin
    if not exists (select from secret_link l
                   where l.agency_id = new.agency_id and l.id = new.link_id and l.used_at is not null
                     and new.vouched_by not in (l.person_id, l.issued_by)) then
        raise exception 'who vouches neither made the link nor used it'
            using errcode = 'check_violation', constraint = 'vouching_needs_another_person';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger vouching_needs_another_person before insert on vouching for each row execute function vouching_needs_another_person();
create trigger vouching_is_append_only before update or delete on vouching for each row execute function refuse_change();
create trigger vouching_is_never_emptied before truncate on vouching for each statement execute function refuse_change();

create table signing_pin (
    agency_id uuid not null,
    person_id uuid not null,
    pin_hash  text not null,
    set_at    timestamptz not null,
    shut_at   timestamptz,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint signing_pin_is_argon2id check (pin_hash like '$argon2id$%')
);
comment on table signing_pin is 'argon2id hashes of PINs, good for nothing but signing; shut: guessed at too often';

create table signing_pin_try (
    agency_id uuid not null,
    person_id uuid not null,
    wrong     smallint not null,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references signing_pin (agency_id, person_id) on delete cascade,
    constraint signing_pin_tries_are_counted check (wrong >= 0)
);
comment on table signing_pin_try is 'how often in a row a wrong PIN was entered';

alter table session add column device text not null default '',
    add column signed_at timestamptz,
    add column news integer not null default 0;
comment on column session.signed_at is 'when its owner last signed in it; null: not yet';
comment on column session.news is 'how much happened to the account before it that its owner has not done and not yet put away';

create index journal_of_account on journal (agency_id, actor_id, at) where act = 'keep one''s own account';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['secret_link', 'vouching', 'signing_pin', 'signing_pin_try'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    grant update on secret_link, signing_pin, signing_pin_try to wellshown_service;
    grant delete on signing_pin to wellshown_service;
    perform ledger_keeps('secret_link', 'token_hash');
    perform ledger_keeps('vouching');
    perform ledger_keeps('signing_pin', 'pin_hash');
end
$$;
-- +goose StatementEnd

-- +goose StatementBegin
create function door_link(wanted bytea)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select l.agency_id from secret_link l where l.token_hash = wanted;
    end;
-- +goose StatementEnd
comment on function door_link(bytea) is 'asked before the agency is known: which agency made this link';
revoke all on function door_link(bytea) from public;
grant execute on function door_link(bytea) to wellshown_service;

-- +goose Down
drop index journal_of_account;
drop function door_link(bytea);
alter table session drop column news, drop column signed_at, drop column device;
drop table signing_pin_try, signing_pin, vouching, secret_link;
drop function vouching_needs_another_person(), secret_link_changes_once();
