-- Whoever can write in the database can also claim to be anybody: what the trigger
-- believes comes from settings of the transaction. So the program vouches for the
-- entries of each of its transactions with a key that is not in the database, and the
-- sealer calls all others written outside the program.
-- +goose Up
-- +goose StatementBegin
do $$
begin
    if exists (select from ledger_waiting where act <> 'begin the ledger') then
        raise exception 'entries of the ledger still wait to be sealed: run "wellshown seal" of the version before, then migrate again';
    end if;
end
$$;
-- +goose StatementEnd
alter table ledger_waiting add column written_in xid8;
create index ledger_waiting_written_in on ledger_waiting (agency_id, written_in);
comment on column ledger_waiting.written_in is 'the transaction that wrote it; none for rows that were there before the ledger began';

create table ledger_vouching (
    agency_id  uuid not null,
    written_in xid8 not null,
    tag        bytea not null,
    primary key (agency_id, written_in),
    constraint ledger_vouching_is_whole check (octet_length(tag) = 32)
);
comment on table ledger_vouching is 'that the entries of a transaction were written by the program: a code over all of them, made with a key outside the database; gone once they are sealed';
alter table ledger_vouching enable row level security;
create policy by_agency on ledger_vouching using (agency_id = app_agency()) with check (agency_id = app_agency());
grant select, insert, delete on ledger_vouching to wellshown_service;

-- +goose StatementBegin
create or replace function ledger_enter() returns trigger
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
    insert into ledger_waiting (agency_id, at, actor_id, act, kind, subject, written_in, record_sha256)
    select case tg_table_name when 'agency' then columns ->> 'id' else columns ->> 'agency_id' end::uuid,
           coalesce(nullif(current_setting('app.at', true), '')::timestamptz, clock_timestamp()),
           case tg_table_name when 'journal' then columns ->> 'actor_id' else nullif(current_setting('app.actor', true), '') end::uuid,
           case tg_table_name when 'journal' then columns ->> 'act' else coalesce(nullif(current_setting('app.act', true), ''), 'outside the program') end,
           tg_table_name,
           case when strpos(tg_argv[0], ',') = 0 then columns ->> tg_argv[0] else ledger_subject(columns, tg_argv[0]) end,
           pg_current_xact_id(),
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

-- +goose Down
-- +goose StatementBegin
create or replace function ledger_enter() returns trigger
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
drop table ledger_vouching;
alter table ledger_waiting drop column written_in;
