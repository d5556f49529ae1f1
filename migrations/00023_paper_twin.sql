-- What was marked on paper at the bedside and typed in later: the sheet says so, and a
-- photo or scan of each page is kept with the record, whose hash binds them. They are
-- what a program made anew from what was sent (assessment/scan), never what was sent.
-- +goose Up
alter table sheet add column from_paper boolean not null default false;
comment on column sheet.from_paper is 'it was marked on paper before and is being typed in';

create table sheet_page (
    agency_id   uuid not null,
    sheet_id    uuid not null,
    number      integer not null,
    media_type  text not null,
    content     bytea not null,
    sheets      integer not null,
    attached_at timestamptz not null,
    primary key (agency_id, sheet_id, number),
    foreign key (agency_id, sheet_id) references sheet (agency_id, id) on delete cascade,
    constraint sheet_page_is_one_of_ten check (number >= 1 and number <= 10),
    constraint sheet_page_has_content check (octet_length(content) > 0)
);
comment on table sheet_page is 'photos and scans of the paper that a sheet is typed in from; they go into the record';

create table paper_page (
    agency_id        uuid not null,
    demonstration_id uuid not null,
    number           integer not null,
    media_type       text not null,
    content          bytea not null,
    content_sha256   bytea not null,
    sheets           integer not null,
    attached_at      timestamptz not null,
    erased_at        timestamptz,
    primary key (agency_id, demonstration_id, number),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    constraint paper_page_is_one_of_ten check (number >= 1 and number <= 10),
    constraint paper_page_type_is_known check (media_type in ('image/jpeg', 'image/png', 'application/pdf')),
    constraint paper_page_hash_is_of_its_content check (erased_at is not null or content_sha256 = sha256(content))
);
comment on table paper_page is 'photos and scans of the paper that a record was typed in from; append-only';
comment on column paper_page.erased_at is 'since when its content is gone; the hash is of what was attached';

-- +goose StatementBegin
create function paper_page_fits_its_record() returns trigger
    language plpgsql as $$
begin
    if not exists (select from demonstration d
                   where d.agency_id = new.agency_id and d.id = new.demonstration_id and new.attached_at <= d.recorded_at and d.erased_at is null
                     and d.body::jsonb -> 'paper' -> 'pages' @> jsonb_build_array(jsonb_build_object('number', new.number, 'sha256', encode(new.content_sha256, 'hex')))) then
        raise exception 'a page of paper is kept with the record that names it by its hash'
            using errcode = 'check_violation', constraint = 'paper_page_fits_its_record';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger paper_page_fits_its_record before insert on paper_page for each row execute function paper_page_fits_its_record();
create trigger paper_page_is_append_only before update or delete on paper_page for each row execute function refuse_change();
create trigger paper_page_is_never_emptied before truncate on paper_page for each statement execute function refuse_change();

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
        ('person', 'paper_page', $$content = '', erased_at = $3$$, 't.demonstration_id in (select d.id from demonstration d where d.agency_id = $1 and $2 in (d.learner_id, d.observer_id))'),
        ('client', 'paper_page', $$content = '', erased_at = $3$$, 't.demonstration_id in (select d.id from demonstration d where d.agency_id = $1 and d.client_id = $2)'),
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
    foreach t in array array['sheet_page', 'paper_page'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    perform ledger_keeps('paper_page', 'content');
end
$$;
-- +goose StatementEnd
grant update, delete on sheet_page to wellshown_service;

-- +goose Down
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
drop table paper_page, sheet_page;
drop function paper_page_fits_its_record();
alter table sheet drop column from_paper;
