-- The way home as an agency plans it: a template of its own, who may say what is so, the
-- days of the meeting and of going home, and a clinician's signature under a whole plan.
-- +goose Up
create table plan_line (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    kind       text not null,
    title      text not null,
    title_es   text not null,
    skills     text[] not null,
    people     integer not null,
    hours      integer not null,
    items      text[] not null,
    items_es   text[] not null,
    says       text not null,
    licence    text not null,
    source     text not null,
    position   integer not null,
    added_at   timestamptz not null,
    added_by   uuid not null,
    removed_at timestamptz,
    primary key (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint plan_line_has_a_title check (btrim(title) <> ''),
    constraint plan_line_numbers_are_plain check (people >= 0 and people <= 20 and hours >= 0 and hours <= 2000),
    constraint plan_line_says_is_known check (says in ('', 'clinician', 'educator', 'coordinator'))
);
create index plan_line_in_order on plan_line (agency_id, position) where removed_at is null;
comment on table plan_line is 'a line of the agency''s own template of plans for going home; none: the standard template';
comment on column plan_line.skills is 'none: what family caregivers must hold for the child on the day that the plan begins';
comment on column plan_line.says is 'who may say that it is so; empty: whoever keeps the plan';

-- What a line of a child's plan took from the template, and what is planned for it.
alter table criterion
    add column title_es    text,
    add column items_es    text[],
    add column says        text,
    add column licence     text,
    add column source      text,
    add column by_on       date,
    add column responsible text,
    add constraint criterion_says_is_known check (says in ('clinician', 'educator', 'coordinator'));
comment on column criterion.by_on is 'last day for it; null: the day of the plan';
comment on column criterion.responsible is 'who sees to it, by name; null: the family, the agency or a clinician, by kind';

create table plan_day (
    agency_id  uuid not null,
    id         uuid not null,
    client_id  uuid not null,
    meeting_on date,
    home_on    date,
    set_at     timestamptz not null,
    set_by     uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint plan_day_of_the_meeting_is_first check (meeting_on <= home_on)
);
create index plan_day_newest on plan_day (agency_id, client_id, set_at desc, id desc);
comment on table plan_day is 'when the discharge meeting is and when a child is to go home; the newest row counts; append-only';

create table plan_signature (
    agency_id    uuid not null,
    id           uuid not null,
    client_id    uuid not null,
    body         text not null,
    body_sha256  bytea not null,
    meaning      text not null,
    licence      text not null,
    at           timestamptz not null,
    signed_by    uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint plan_signature_is_of_its_body check (body = 'erased' or body_sha256 = sha256(convert_to(body, 'UTF8'))),
    constraint plan_signature_has_a_licence check (btrim(licence) <> '')
);
create index plan_signature_newest on plan_signature (agency_id, client_id, at desc, id desc);
comment on table plan_signature is 'a licensed clinician''s signature that all of a plan was in place, over what it rested on then; append-only';
comment on column plan_signature.body is 'people by id alone';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['plan_line', 'plan_day', 'plan_signature'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
    end loop;
    grant update on plan_line to wellshown_service;
    foreach t in array array['plan_day', 'plan_signature'] loop
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose StatementBegin
do $do$
declare
    plan text := (select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure);
    more text := $more$
        ('person', 'plan_signature', $$printed_name = 'erased', licence = 'erased'$$, 't.signed_by = $2'),
        ('client', 'plan_signature', $$body = 'erased'$$, 't.client_id = $2'),$more$;
    first text := $first$('client', 'criterion', $$title = 'erased', $first$;
    longer text := $longer$('client', 'criterion', $$title = 'erased', title_es = case when t.title_es is null then null else 'erased' end, responsible = case when t.responsible is null then null else 'erased' end, items_es = case when t.items_es is null then null else array(select 'erased ' || n from generate_subscripts(t.items_es, 1) n order by n) end, $longer$;
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace(replace(plan, first, longer), 'values', 'values' || replace(more, '\', '\\')));
end
$do$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $do$
declare
    plan text := (select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure);
begin
    plan := regexp_replace(plan, '\n *\(''(person|client)'', ''plan_signature''[^\n]*', '', 'g');
    plan := regexp_replace(plan, $was$(\('client', 'criterion', \$\$title = 'erased', )title_es = .*? end, (items = )$was$, '\1\2');
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as ' || quote_literal(plan);
end
$do$;
-- +goose StatementEnd
drop table plan_signature, plan_day;
alter table criterion
    drop constraint criterion_says_is_known,
    drop column title_es,
    drop column items_es,
    drop column says,
    drop column licence,
    drop column source,
    drop column by_on,
    drop column responsible;
drop table plan_line;
