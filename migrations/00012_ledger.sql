-- The ledger: every row that is signed or changed leaves an entry with the hash of
-- the whole row, in the transaction that wrote it. Writers only add to a waiting
-- list and never wait for each other; a sealer gives the entries their places in
-- one Merkle tree per agency (RFC 6962) and signs its heads.
-- +goose Up
create table ledger_waiting (
    agency_id     uuid not null,
    number        bigint generated always as identity,
    at            timestamptz not null,
    actor_id      uuid,
    act           text not null,
    kind          text not null,
    subject       text not null,
    record_sha256 bytea,
    primary key (agency_id, number),
    constraint ledger_waiting_hash_is_whole check (octet_length(record_sha256) = 32)
);
comment on table ledger_waiting is 'entries that have no place in the tree yet; kind is the table, subject the key of the row, no hash: the row was deleted';

create table ledger_leaf (
    agency_id     uuid not null references agency (id),
    position      bigint not null,
    at            timestamptz not null,
    actor_id      uuid,
    act           text not null,
    kind          text not null,
    subject       text collate "C" not null,
    record_sha256 bytea,
    hash          bytea not null,
    primary key (agency_id, position),
    constraint ledger_leaf_position_counts check (position >= 0),
    constraint ledger_leaf_hashes_are_whole check (octet_length(hash) = 32 and octet_length(record_sha256) = 32)
);
create index ledger_leaf_of on ledger_leaf (agency_id, kind, subject, position);
comment on table ledger_leaf is 'the leaves of the tree in their order; append-only';

create table ledger_node (
    agency_id uuid not null references agency (id),
    level     smallint not null,
    place     bigint not null,
    hash      bytea not null,
    primary key (agency_id, level, place),
    constraint ledger_node_is_above_the_leaves check (level between 1 and 62 and place >= 0),
    constraint ledger_node_hash_is_whole check (octet_length(hash) = 32)
);
comment on table ledger_node is 'complete subtrees, so that a proof needs few rows; append-only';

create table ledger_head (
    agency_id uuid not null references agency (id),
    size      bigint not null,
    signed    text not null,
    sealed_at timestamptz not null,
    primary key (agency_id, size),
    constraint ledger_head_has_leaves check (size > 0)
);
comment on table ledger_head is 'signed heads of the tree; append-only';

-- +goose StatementBegin
create function ledger_record(columns jsonb, by_hash text[]) returns bytea
    language sql immutable
    return (
        select sha256(convert_to('{' || string_agg(to_json(key)::text || ':' ||
            case when key = any(by_hash) then to_json(encode(sha256(convert_to(value, 'UTF8')), 'hex'))::text
                 else to_json(value)::text end, ',' order by key collate "C") || '}', 'UTF8'))
        from jsonb_each_text(columns)
        where value is not null);
-- +goose StatementEnd
comment on function ledger_record(jsonb, text[]) is 'hash of a row: SHA-256 of its canonical JSON (RFC 8785), each column a text; columns that are large or secret count by their own hash; what is null is left out, so that a column added later changes no hash';

-- +goose StatementBegin
create function ledger_subject(columns jsonb, key_columns text) returns text
    language sql immutable
    return (select string_agg(columns ->> k, '/' order by n) from unnest(string_to_array(key_columns, ',')) with ordinality u (k, n));
-- +goose StatementEnd
comment on function ledger_subject(jsonb, text) is 'the key of a row within its agency, its columns joined by strokes';

-- The trigger writes ledger_record out once more: called from here, a function costs
-- three times as much as all the rest.
-- +goose StatementBegin
create function ledger_enter() returns trigger
    language plpgsql as $$
declare
    columns jsonb;
begin
    if tg_op = 'UPDATE' and new is not distinct from old then
        return null;
    end if;
    if current_setting('TimeZone') <> 'UTC' or current_setting('bytea_output') <> 'hex' then
        perform set_config('TimeZone', 'UTC', true), set_config('bytea_output', 'hex', true); -- a row has one text only
    end if;
    columns := case tg_op when 'DELETE' then to_jsonb(old) else to_jsonb(new) end;
    insert into ledger_waiting (agency_id, at, actor_id, act, kind, subject, record_sha256)
    select case tg_table_name when 'agency' then columns ->> 'id' else columns ->> 'agency_id' end::uuid,
           coalesce(nullif(current_setting('app.at', true), '')::timestamptz, clock_timestamp()),
           case tg_table_name when 'journal' then columns ->> 'actor_id' else nullif(current_setting('app.actor', true), '') end::uuid,
           case tg_table_name when 'journal' then columns ->> 'act' else coalesce(nullif(current_setting('app.act', true), ''), 'outside the program') end,
           tg_table_name,
           case when strpos(tg_argv[0], ',') = 0 then columns ->> tg_argv[0] else ledger_subject(columns, tg_argv[0]) end,
           case when tg_op <> 'DELETE' then (
               select sha256(convert_to('{' || string_agg(to_json(key)::text || ':' ||
                   case when key = any(string_to_array(tg_argv[1], ',')) then to_json(encode(sha256(convert_to(value, 'UTF8')), 'hex'))::text
                        else to_json(value)::text end, ',' order by key collate "C") || '}', 'UTF8'))
               from jsonb_each_text(columns)
               where value is not null) end;
    return null;
end
$$;
-- +goose StatementEnd
comment on function ledger_enter() is 'enters a row that was written into the ledger; who, what and when come from the settings of the transaction';

-- +goose StatementBegin
create function ledger_keeps(kept regclass, by_hash text default '') returns void
    language plpgsql set timezone = 'UTC' set bytea_output = 'hex' as $$
declare
    key_columns text;
    tenant text := case kept::text when 'agency' then 'id' else 'agency_id' end;
begin
    select string_agg(a.attname, ',' order by array_position(i.indkey::int2[], a.attnum)) into key_columns
    from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any(i.indkey)
    where i.indrelid = kept and i.indisprimary and (a.attname <> 'agency_id' or i.indnkeyatts = 1);
    execute format('create trigger ledger_enters after insert or update or delete on %s for each row execute function ledger_enter(%L, %L)', kept, key_columns, by_hash);
    execute format('insert into ledger_waiting (agency_id, at, act, kind, subject, record_sha256)
        select t.%I, clock_timestamp(), ''begin the ledger'', %L, ledger_subject(to_jsonb(t), %L), ledger_record(to_jsonb(t), string_to_array(%L, '',''))
        from %s t order by 5', tenant, kept::text, key_columns, by_hash, kept);
end
$$;
-- +goose StatementEnd
comment on function ledger_keeps(regclass, text) is 'puts a table under the ledger, with the rows it has; by_hash names columns that are large or secret, with commas';
revoke all on function ledger_keeps(regclass, text) from public;

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['agency', 'person', 'person_role', 'licence', 'resuscitation_card', 'appointment', 'appointment_agreement', 'appointment_end',
                             'journal', 'client', 'client_parameter', 'client_equipment', 'care_team', 'skill', 'revision', 'recheck', 'demonstration',
                             'signature', 'withdrawal', 'reinstatement', 'waiver', 'exposure', 'correction', 'requirement', 'criterion', 'evidence',
                             'plan_shift'] loop
        perform ledger_keeps(t::regclass);
    end loop;
    perform ledger_keeps('certificate', 'pdf');
    perform ledger_keeps('credential', 'password_hash');
    foreach t in array array['ledger_waiting', 'ledger_leaf', 'ledger_node', 'ledger_head'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    foreach t in array array['ledger_leaf', 'ledger_node', 'ledger_head'] loop
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
    end loop;
    grant delete on ledger_waiting to wellshown_service;
end
$$;
-- +goose StatementEnd

-- +goose StatementBegin
create function door_waiting()
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select a.id from agency a where exists (select from ledger_waiting w where w.agency_id = a.id);
    end;
-- +goose StatementEnd
comment on function door_waiting() is 'for the sealer: which agencies have entries without a place';
revoke all on function door_waiting() from public;
grant execute on function door_waiting() to wellshown_service;

-- +goose Down
drop function door_waiting();
-- +goose StatementBegin
do $$
declare t text;
begin
    for t in select c.relname from pg_trigger g join pg_class c on c.oid = g.tgrelid where g.tgfoid = 'ledger_enter'::regproc loop
        execute format('drop trigger ledger_enters on %I', t);
    end loop;
end
$$;
-- +goose StatementEnd
drop table ledger_head, ledger_node, ledger_leaf, ledger_waiting;
drop function ledger_keeps(regclass, text), ledger_enter(), ledger_subject(jsonb, text), ledger_record(jsonb, text[]);
