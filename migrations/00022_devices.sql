-- Devices at the bedside: the public half of a key that was made on a device while it
-- was online, and the sheets that were finished on one without a network, exactly as
-- they were signed there. Whatever the office made of a sheet is a demonstration; here
-- stays what it was made from.
-- +goose Up
create table device (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    name        text not null,
    public_key  bytea not null,
    enrolled_at timestamptz not null,
    revoked_at  timestamptz,
    revoked_by  uuid,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, revoked_by) references person (agency_id, id),
    constraint device_key_is_one_devices unique (agency_id, public_key),
    constraint device_key_is_of_p256 check (octet_length(public_key) = 91),
    constraint device_has_a_name check (length(name) >= 1 and length(name) <= 60),
    constraint device_is_revoked_by_somebody check ((revoked_at is null) = (revoked_by is null))
);
create index device_of on device (agency_id, person_id);
comment on table device is 'devices that sign sheets at the bedside, by the public half of their key (SubjectPublicKeyInfo, RFC 5480)';

-- +goose StatementBegin
create function device_is_revoked_once() returns trigger
    language plpgsql as $$
begin
    if to_jsonb(new) - 'name' = to_jsonb(old) - 'name' and exists (select from erasure_end d
            where d.agency_id = new.agency_id and d.verdict = 'carried out' and d.xmin = pg_current_xact_id_if_assigned()::xid) then
        return new;
    end if;
    if to_jsonb(new) - array['revoked_at', 'revoked_by'] <> to_jsonb(old) - array['revoked_at', 'revoked_by'] or old.revoked_at is not null then
        raise exception 'a device is revoked once, and nothing else of it changes'
            using errcode = 'check_violation', constraint = 'device_is_revoked_once';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger device_is_revoked_once before update on device for each row execute function device_is_revoked_once();

create table device_use (
    agency_id uuid not null,
    device_id uuid not null,
    used_at   timestamptz not null,
    primary key (agency_id, device_id),
    foreign key (agency_id, device_id) references device (agency_id, id)
);
comment on table device_use is 'when a device was last used; it never goes back';

create table received_sheet (
    agency_id        uuid not null,
    demonstration_id uuid not null,
    device_id        uuid not null,
    sheet            text not null,
    sheet_sha256     bytea not null,
    signature        bytea not null,
    finished_at      timestamptz not null,
    sent_at          timestamptz not null,
    received_at      timestamptz not null,
    outcome          text not null,
    score            text,
    differs          boolean not null,
    erased_at        timestamptz,
    primary key (agency_id, demonstration_id),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    foreign key (agency_id, device_id) references device (agency_id, id),
    constraint received_sheet_hash_is_of_its_text check (erased_at is not null or sheet_sha256 = sha256(convert_to(sheet, 'UTF8'))),
    constraint received_sheet_is_signed check (octet_length(signature) = 64),
    constraint received_sheet_outcome_is_known check (outcome in ('competent', 'not yet competent', 'stopped for safety'))
);
create index received_sheet_by_device on received_sheet (agency_id, device_id);
comment on table received_sheet is 'sheets as they were signed on a device, and what it made of them; finished_at and sent_at by its clock; append-only';
comment on column received_sheet.erased_at is 'since when its text is gone; the hash is of what was signed';

-- +goose StatementBegin
create function received_sheet_fits_its_record() returns trigger
    language plpgsql as $$
begin
    if not exists (select from demonstration d join device v on v.agency_id = d.agency_id and v.id = new.device_id and v.person_id = d.observer_id
                   where d.agency_id = new.agency_id and d.id = new.demonstration_id and d.recorded_at = new.received_at
                     and v.enrolled_at <= new.received_at and v.revoked_at is null) then
        raise exception 'a sheet comes from a device of its own observer that is not revoked, and is recorded when it is received'
            using errcode = 'check_violation', constraint = 'received_sheet_fits_its_record';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger received_sheet_fits_its_record before insert on received_sheet for each row execute function received_sheet_fits_its_record();

-- +goose StatementBegin
create function erased_device(device jsonb, part text) returns jsonb
    language sql immutable
    return device || case part when 'observer' then '{"name": "erased"}' else
               case when device ? 'talked_over' then '{"talked_over": {"note": "erased"}}'::jsonb else '{}' end
               || case when part = 'learner' and device ? 'drawn' then '{"drawn": {}}'::jsonb else '{}' end end;
-- +goose StatementEnd
comment on function erased_device(jsonb, text) is 'what a record has of the device it came from, without the name an observer gave it, what was talked over, or what a learner drew';

-- +goose StatementBegin
create or replace function erased_body(body text, part text) returns text
    language sql immutable
    return (
        select (case part when 'observer' then b else b || jsonb_build_object('place', 'erased', 'marks', erased_list(b -> 'marks'))
                || case when b ? 'stop_reason' then '{"stop_reason": "erased"}' else '{}'::jsonb end
                || case when b ? 'taken_back_while_open' then jsonb_build_object('taken_back_while_open', erased_list(b -> 'taken_back_while_open')) else '{}' end
                || case part when 'client' then jsonb_build_object('parameters_in_words',
                       (select coalesce(jsonb_object_agg(key, '"erased"'::jsonb), '{}') from jsonb_each(case jsonb_typeof(b -> 'parameters_in_words') when 'object' then b -> 'parameters_in_words' else '{}' end)))
                   else '{}' end
            end || case jsonb_typeof(b -> 'device') when 'object' then jsonb_build_object('device', erased_device(b -> 'device', part)) else '{}' end
            || jsonb_build_object(part, coalesce(b -> part, '{}') || '{"name": "erased"}'))::text
        from (select body::jsonb as b) x);
-- +goose StatementEnd

-- +goose StatementBegin
create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text)
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
        ('person', 'device', $$name = 'erased'$$, 't.person_id = $2'),
        ('person', 'received_sheet', $$sheet = 'erased', erased_at = $3$$, 't.demonstration_id in (select d.id from demonstration d where d.agency_id = $1 and d.learner_id = $2)'),
        ('client', 'received_sheet', $$sheet = 'erased', erased_at = $3$$, 't.demonstration_id in (select d.id from demonstration d where d.agency_id = $1 and d.client_id = $2)'),
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

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['device', 'device_use', 'received_sheet'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    foreach t in array array['device', 'demonstration'] loop
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
    perform ledger_keeps('device');
    perform ledger_keeps('received_sheet', 'sheet');
end
$$;
-- +goose StatementEnd
create trigger received_sheet_is_append_only before update or delete on received_sheet for each row execute function refuse_change();
create trigger received_sheet_is_never_emptied before truncate on received_sheet for each statement execute function refuse_change();
grant update (revoked_at, revoked_by) on device to wellshown_service;
grant update (used_at) on device_use to wellshown_service;

-- +goose Down
drop trigger what_was_erased_stays_erased on demonstration;
-- +goose StatementBegin
create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text)
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
-- +goose StatementBegin
create or replace function erased_body(body text, part text) returns text
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
drop function erased_device(jsonb, text);
drop table received_sheet, device_use, device;
drop function received_sheet_fits_its_record(), device_is_revoked_once();
