-- How long records are kept, and the erasure of what is held about somebody who has
-- left or a child who is no longer served: asked for by one person with a reason,
-- carried out by another. Content goes; ids, dates, verdicts and hashes stay, so that
-- the ledger goes on proving what was there and nobody else's standing changes.
-- Nothing is ever erased by the clock.
-- +goose Up
create table retention (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    years     integer,
    reason    text not null,
    set_at    timestamptz not null,
    set_by    uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint retention_has_a_floor check (years between 6 and 100),
    constraint retention_says_why check (btrim(reason) <> '')
);
create index retention_newest on retention (agency_id, set_at desc);
comment on table retention is 'from how many years on an erasure may be asked for; the newest row counts, no years and no row: never; append-only';

create table erasure (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    person_id uuid,
    client_id uuid,
    reason    text not null,
    asked_by  uuid not null,
    asked_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, asked_by) references person (agency_id, id),
    constraint erasure_is_of_one check (num_nonnulls(person_id, client_id) = 1),
    constraint erasure_says_why check (btrim(reason) <> ''),
    constraint erasure_is_not_of_oneself check (person_id <> asked_by)
);
create index erasure_of on erasure (agency_id, person_id, client_id);
comment on table erasure is 'who asked that what is held about whom be erased, and why; append-only';

create table erasure_end (
    agency_id  uuid not null,
    erasure_id uuid not null,
    verdict    text not null,
    ended_by   uuid not null,
    ended_at   timestamptz not null,
    primary key (agency_id, erasure_id),
    foreign key (agency_id, erasure_id) references erasure (agency_id, id),
    foreign key (agency_id, ended_by) references person (agency_id, id),
    constraint erasure_verdict_is_known check (verdict in ('carried out', 'refused', 'taken back'))
);
comment on table erasure_end is 'what became of it, and by whom; append-only';

-- +goose StatementBegin
create function erasure_needs_a_second_person() returns trigger
    language plpgsql as $$
begin
    if not exists (select from erasure e
                   where e.agency_id = new.agency_id and e.id = new.erasure_id and new.ended_at >= e.asked_at
                     and (new.verdict = 'taken back') = (new.ended_by = e.asked_by) and new.ended_by is distinct from e.person_id) then
        raise exception 'an erasure is carried out or refused by somebody else than asked for it, and taken back by who asked'
            using errcode = 'check_violation', constraint = 'erasure_needs_a_second_person';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger erasure_needs_a_second_person before insert on erasure_end for each row execute function erasure_needs_a_second_person();

create table erased_row (
    agency_id  uuid not null,
    erasure_id uuid not null,
    kind       text not null,
    subject    text not null,
    was_sha256 bytea not null,
    primary key (agency_id, erasure_id, kind, subject),
    foreign key (agency_id, erasure_id) references erasure_end (agency_id, erasure_id),
    constraint erased_row_hash_is_whole check (octet_length(was_sha256) = 32)
);
create index erased_row_of on erased_row (agency_id, kind, subject);
comment on table erased_row is 'each row whose content an erasure took, with its hash before; append-only';

alter table person add column erased_at timestamptz;
alter table client add column erased_at timestamptz;
alter table demonstration add column erased_at timestamptz,
    drop constraint demonstration_hash_is_of_its_body,
    add constraint demonstration_hash_is_of_its_body check (erased_at is not null or body_sha256 = sha256(convert_to(body, 'UTF8')));
alter table certificate add column erased_at timestamptz,
    drop constraint certificate_hash_is_of_its_bytes,
    add constraint certificate_hash_is_of_its_bytes check (erased_at is not null or pdf_sha256 = sha256(pdf));
comment on column demonstration.erased_at is 'since when names and free text of its body are gone; the hash is of what was signed';
comment on column certificate.erased_at is 'since when its bytes are gone; the hash is of what was issued';

-- +goose StatementBegin
create function erased_words(mark jsonb) returns jsonb
    language sql immutable
    return (select coalesce(jsonb_object_agg(key, case when key in ('note', 'reason') and value <> '""' then '"erased"' else value end), '{}') from jsonb_each(mark));
-- +goose StatementEnd
comment on function erased_words(jsonb) is 'a part of a record without its free text';

-- +goose StatementBegin
create function erased_list(all_of jsonb) returns jsonb
    language sql immutable
    return (select coalesce(jsonb_agg(erased_words(m) order by n), '[]') from jsonb_array_elements(case jsonb_typeof(all_of) when 'array' then all_of else '[]' end) with ordinality u (m, n));
-- +goose StatementEnd
comment on function erased_list(jsonb) is 'parts of a record without their free text';

-- +goose StatementBegin
create function erased_body(body text, part text) returns text
    language sql immutable
    return (
        select (case part when 'observer' then b else b || jsonb_build_object('place', 'erased', 'marks', erased_list(b -> 'marks'))
                || case when b ? 'stop_reason' then '{"stop_reason": "erased"}' else '{}'::jsonb end
                || case when b ? 'taken_back_while_open' then jsonb_build_object('taken_back_while_open', erased_list(b -> 'taken_back_while_open')) else '{}' end
                || case part when 'client' then jsonb_build_object('parameters_in_words',
                       (select coalesce(jsonb_object_agg(key, '"erased"'::jsonb), '{}') from jsonb_each(case jsonb_typeof(b -> 'parameters_in_words') when 'object' then b -> 'parameters_in_words' else '{}' end)))
                   else '{}' end
            end || jsonb_build_object(part, coalesce(b -> part, '{}') || '{"name": "erased"}'))::text
        from (select body::jsonb as b) x);
-- +goose StatementEnd
comment on function erased_body(text, text) is 'the body of a record without the name of its learner, observer or client, and but for the observer without what was written about them; marks, readings and what they were judged by stay';

-- What an erasure does, row by row. $1 is the agency, $2 who is erased, $3 when.
-- What sets nothing is deleted. Each row is named by one line at most.
-- +goose StatementBegin
create function erasure_plan() returns table (of_what text, kind text, sets text, whose text)
    language sql immutable as $plan$
    values
        ('person', 'credential', null, 't.person_id = $2'),
        ('person', 'signing_pin', null, 't.person_id = $2'),
        ('person', 'recovery_code', null, 't.person_id = $2'),
        ('person', 'one_time_code', null, 't.person_id = $2'),
        ('person', 'passkey', null, 't.person_id = $2'),
        ('person', 'passkey_owner', null, 't.person_id = $2'),
        ('person', 'licence', $$number = 'erased'$$, 't.person_id = $2'),
        ('person', 'resuscitation_card', $$issuer = 'erased'$$, 't.person_id = $2'),
        ('person', 'appointment', $$evidence = 'erased'$$, 't.person_id = $2'),
        ('person', 'appointment_end', $$reason = 'erased'$$, 't.appointment_id in (select a.id from appointment a where a.agency_id = $1 and a.person_id = $2)'),
        ('person', 'survey_access', $$reason = 'erased'$$, 't.person_id = $2'),
        ('person', 'demonstration', $$body = erased_body(t.body, case t.learner_id when $2 then 'learner' else 'observer' end),
            place = case t.learner_id when $2 then 'erased' else t.place end, erased_at = $3$$, '$2 in (t.learner_id, t.observer_id)'),
        ('person', 'signature', $$printed_name = 'erased', licence = case t.licence when '' then '' else 'erased' end$$, 't.person_id = $2'),
        ('person', 'withdrawal', $$reason = case t.person_id when $2 then 'erased' else t.reason end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$, '$2 in (t.person_id, t.signed_by)'),
        ('person', 'reinstatement', $$reason = case t.signed_by when $2 then t.reason else 'erased' end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$,
            't.signed_by = $2 or t.withdrawal_id in (select w.id from withdrawal w where w.agency_id = $1 and w.person_id = $2)'),
        ('person', 'waiver', $$reason = case t.person_id when $2 then 'erased' else t.reason end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$, '$2 in (t.person_id, t.signed_by)'),
        ('person', 'exposure', $$note = 'erased'$$, $$t.person_id = $2 and t.note <> ''$$),
        ('person', 'correction', $$reason = case when t.of_id in (select of_record from records_about($1, $2)) then 'erased' else t.reason end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$,
            't.signed_by = $2 or t.of_id in (select of_record from records_about($1, $2))'),
        ('person', 'evidence', $$printed_name = 'erased'$$, 't.signed_by = $2'),
        ('person', 'certificate', $$pdf = '', erased_at = $3$$, 't.person_id = $2 or t.rests_on && array(select d.id from demonstration d where d.agency_id = $1 and d.observer_id = $2)'),
        ('person', 'person', $$name = 'erased', relation = '', email = '', language = 'en', erased_at = $3$$, 't.id = $2'),
        ('client', 'client_parameter', $$value = null, words = 'erased'$$, 't.client_id = $2 and num_nonnulls(t.value, t.words) > 0'),
        ('client', 'evidence', $$note = case t.note when '' then '' else 'erased' end, item = case t.item when '' then '' else
            'erased ' || coalesce((select array_position(c.items, t.item) from criterion c where c.agency_id = $1 and c.id = t.criterion_id)::text, '') end$$,
            't.criterion_id in (select c.id from criterion c where c.agency_id = $1 and c.client_id = $2)'),
        ('client', 'criterion', $$title = 'erased', items = array(select 'erased ' || n from generate_subscripts(t.items, 1) n order by n)$$, 't.client_id = $2'),
        ('client', 'demonstration', $$body = erased_body(t.body, 'client'), place = 'erased', erased_at = $3$$, 't.client_id = $2'),
        ('client', 'withdrawal', $$reason = 'erased'$$, 't.client_id = $2'),
        ('client', 'reinstatement', $$reason = 'erased'$$, 't.withdrawal_id in (select w.id from withdrawal w where w.agency_id = $1 and w.client_id = $2)'),
        ('client', 'waiver', $$reason = 'erased'$$, 't.client_id = $2'),
        ('client', 'exposure', $$note = 'erased'$$, $$t.client_id = $2 and t.note <> ''$$),
        ('client', 'correction', $$reason = 'erased'$$, 't.of_id in (select of_record from records_about($1, $2))'),
        ('client', 'certificate', $$pdf = '', erased_at = $3$$, 't.client_id = $2'),
        ('client', 'client', $$code = unused_code($1), first_name = 'erased', erased_at = $3$$, 't.id = $2')
    $plan$;
-- +goose StatementEnd
comment on function erasure_plan() is 'which rows an erasure touches and what it leaves of them';

-- +goose StatementBegin
create function records_about(agency uuid, about uuid) returns table (of_record uuid)
    language sql stable as $$
    select id from demonstration where agency_id = agency and about in (learner_id, client_id)
    union all select id from withdrawal where agency_id = agency and about in (person_id, client_id)
    union all select r.id from reinstatement r join withdrawal w on w.agency_id = r.agency_id and w.id = r.withdrawal_id where r.agency_id = agency and about in (w.person_id, w.client_id)
    union all select id from waiver where agency_id = agency and about in (person_id, client_id)
    union all select id from exposure where agency_id = agency and about in (person_id, client_id)
    union all select id from licence where agency_id = agency and person_id = about
    union all select id from resuscitation_card where agency_id = agency and person_id = about
    $$;
-- +goose StatementEnd
comment on function records_about(uuid, uuid) is 'what can be taken back and is about a person or a client';

-- +goose StatementBegin
create function unused_code(agency uuid) returns text
    language sql stable
    return (select 'ERASED-' || n from generate_series(1, 99999) n
            where not exists (select from client c where c.agency_id = agency and c.code = 'ERASED-' || n) order by n limit 1);
-- +goose StatementEnd
comment on function unused_code(uuid) is 'a code for a client whose own is erased';

-- Whether a row of an append-only table may change after all: within the transaction
-- that carries out an erasure, and only in tables that one touches.
-- +goose StatementBegin
create or replace function refuse_change() returns trigger
    language plpgsql as $$
begin
    if tg_op = 'UPDATE' and exists (select from erasure_plan() p where p.kind = tg_table_name) then
        if exists (select from erasure_end d
                   where d.agency_id = new.agency_id and d.verdict = 'carried out' and d.xmin = pg_current_xact_id_if_assigned()::xid) then
            return new;
        end if;
    end if;
    raise exception '% is append-only: a correction is a new record', tg_table_name
        using errcode = 'restrict_violation', constraint = tg_table_name || '_is_append_only';
end
$$;
-- +goose StatementEnd

-- +goose StatementBegin
create function erase_held(wanted uuid) returns bigint
    language plpgsql security definer set timezone = 'UTC' set bytea_output = 'hex' set search_path from current as $$
declare
    agency uuid := app_agency();
    at     timestamptz;
    about  uuid;
    what   text;
    p      record;
    args   text[];
    before text;
    after  text;
begin
    select coalesce(e.person_id, e.client_id), case when e.person_id is null then 'client' else 'person' end, d.ended_at into about, what, at
    from erasure e join erasure_end d on d.agency_id = e.agency_id and d.erasure_id = e.id
    where e.agency_id = agency and e.id = wanted and d.verdict = 'carried out' and d.xmin = pg_current_xact_id_if_assigned()::xid;
    if about is null or at is distinct from nullif(current_setting('app.at', true), '')::timestamptz then
        raise exception 'an erasure is carried out with the row that says so' using errcode = 'check_violation', constraint = 'erasure_is_carried_out_once';
    end if;
    if what = 'person' then
        perform from person t where t.agency_id = agency and t.id = about and t.erased_at is null and t.left_on + interval '6 years' < at for update;
    else
        perform from client t where t.agency_id = agency and t.id = about and t.erased_at is null and t.left_on + interval '6 years' < at for update;
    end if;
    if not found then
        raise exception 'what is erased has been over for longer than the floor' using errcode = 'check_violation', constraint = 'erasure_keeps_the_floor';
    end if;
    for p in select * from erasure_plan() where of_what = what loop
        select string_to_array(encode(g.tgargs, 'escape'), '\000') into strict args from pg_trigger g where g.tgrelid = p.kind::regclass and g.tgname = 'ledger_enters';
        before := format('select ledger_subject(to_jsonb(t), %L) as subject, ledger_record(to_jsonb(t), %L::text[]) as hash from %I t where t.agency_id = $1 and (%s)',
                         args[1], string_to_array(args[2], ','), p.kind, p.whose);
        after := case when p.sets is null then format('delete from %I t where t.agency_id = $1 and (%s) returning ledger_subject(to_jsonb(t), %L) as subject, null::bytea as hash', p.kind, p.whose, args[1])
                 else format('update %I t set %s where t.agency_id = $1 and (%s) returning ledger_subject(to_jsonb(t), %L) as subject, ledger_record(to_jsonb(t), %L::text[]) as hash',
                             p.kind, p.sets, p.whose, args[1], string_to_array(args[2], ',')) end;
        execute format('with was as materialized (%s), now as (%s) insert into erased_row (agency_id, erasure_id, kind, subject, was_sha256)
                        select $1, $4, %L, w.subject, w.hash from was w join now n on n.subject = w.subject where n.hash is distinct from w.hash',
                       before, after, p.kind)
        using agency, about, at, wanted;
    end loop;
    if what = 'person' then
        delete from session where agency_id = agency and person_id = about;
        delete from sign_in_try where agency_id = agency and person_id = about;
        delete from sign_in_pending where agency_id = agency and person_id = about;
        delete from passkey_challenge where agency_id = agency and person_id = about;
    end if;
    delete from sheet where agency_id = agency and about in (learner_id, observer_id, client_id);
    if exists (select from erased_row r
               where r.agency_id = agency and r.erasure_id = wanted and r.was_sha256 is distinct from coalesce(
                   (select w.record_sha256 from ledger_waiting w where w.agency_id = agency and w.kind = r.kind and w.subject = r.subject
                        and w.xmin <> pg_current_xact_id_if_assigned()::xid order by w.number desc limit 1),
                   (select l.record_sha256 from ledger_leaf l where l.agency_id = agency and l.kind = r.kind and l.subject = r.subject order by l.position desc limit 1))) then
        raise exception 'a row that would be erased is not as it was when it was written' using errcode = 'check_violation', constraint = 'erasure_finds_all_as_written';
    end if;
    return (select count(*) from erased_row r where r.agency_id = agency and r.erasure_id = wanted);
end
$$;
-- +goose StatementEnd
comment on function erase_held(uuid) is 'takes the content of what an erasure is about; run in the transaction that writes down that it is carried out';
revoke all on function erase_held(uuid) from public;
grant execute on function erase_held(uuid) to wellshown_service;

-- What was erased stays so, and nothing is added to it.
-- +goose StatementBegin
create function what_was_erased_stays_erased() returns trigger
    language plpgsql as $$
declare
    r jsonb := to_jsonb(new);
begin
    if tg_table_name in ('person', 'client') then
        if old.erased_at is null then return new; end if;
    elsif not exists (select from person p where p.agency_id = new.agency_id and p.erased_at is not null
                          and p.id in ((r ->> 'person_id')::uuid, (r ->> 'learner_id')::uuid, (r ->> 'observer_id')::uuid))
        and not exists (select from client c where c.agency_id = new.agency_id and c.erased_at is not null
                            and c.id = coalesce((r ->> 'client_id')::uuid, (select k.client_id from criterion k where k.agency_id = new.agency_id and k.id = (r ->> 'criterion_id')::uuid))) then
        return new;
    end if;
    raise exception 'what was held here has been erased' using errcode = 'check_violation', constraint = 'what_was_erased_stays_erased';
end
$$;
-- +goose StatementEnd
create trigger what_was_erased_stays_erased before update on person for each row execute function what_was_erased_stays_erased();
create trigger what_was_erased_stays_erased before update on client for each row execute function what_was_erased_stays_erased();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['credential', 'secret_link', 'licence', 'resuscitation_card', 'appointment', 'exposure', 'withdrawal', 'waiver', 'sheet',
                             'care_team', 'plan_shift', 'client_parameter', 'client_equipment', 'criterion', 'evidence', 'requirement', 'survey_access'] loop
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
    create trigger what_was_erased_stays_erased_too before update on criterion for each row execute function what_was_erased_stays_erased();
    foreach t in array array['retention', 'erasure', 'erasure_end', 'erased_row'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select on %I to wellshown_service', t);
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        perform ledger_keeps(t::regclass);
    end loop;
    grant insert on retention, erasure, erasure_end to wellshown_service;
end
$$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $$
declare t text;
begin
    for t in select c.relname from pg_trigger g join pg_class c on c.oid = g.tgrelid where g.tgname = 'what_was_erased_stays_erased' loop
        execute format('drop trigger what_was_erased_stays_erased on %I', t);
    end loop;
    drop trigger what_was_erased_stays_erased_too on criterion;
end
$$;

create or replace function refuse_change() returns trigger
    language plpgsql as $$
begin
    raise exception '% is append-only: a correction is a new record', tg_table_name
        using errcode = 'restrict_violation', constraint = tg_table_name || '_is_append_only';
end
$$;
-- +goose StatementEnd
drop function what_was_erased_stays_erased(), erase_held(uuid), unused_code(uuid), records_about(uuid, uuid), erasure_plan(), erased_body(text, text), erased_list(jsonb), erased_words(jsonb);
alter table certificate drop column erased_at, add constraint certificate_hash_is_of_its_bytes check (pdf_sha256 = sha256(pdf));
alter table demonstration drop column erased_at, add constraint demonstration_hash_is_of_its_body check (body_sha256 = sha256(convert_to(body, 'UTF8')));
alter table client drop column erased_at;
alter table person drop column erased_at;
drop table erased_row, erasure_end, erasure, retention;
drop function erasure_needs_a_second_person();
