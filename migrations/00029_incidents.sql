-- Incidents: something that was seen to go wrong in a skill on a day, and the withdrawals
-- that it made. And a pack of rules that an agency may use: what an incident withdraws,
-- in-service hours, and the supervision of aides. None of it makes anybody current.
-- +goose Up
create table practice_pack (
    agency_id           uuid not null references agency (id),
    id                  uuid not null,
    incident_withdraws  text not null,
    incident_by_itself  boolean not null,
    in_service          boolean not null,
    in_service_minutes  integer not null,
    in_service_year     text not null,
    orientation_counts  boolean not null,
    supervision         boolean not null,
    set_by              uuid not null,
    set_at              timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint practice_pack_incident_withdraws_is_known check (incident_withdraws in ('skill and related', 'skill alone')),
    constraint practice_pack_in_service_year_is_known check (in_service_year in ('calendar year', 'employment anniversary')),
    constraint practice_pack_asks_for_hours check (in_service_minutes between 60 and 12000)
);
create index practice_pack_newest on practice_pack (agency_id, set_at desc);
comment on table practice_pack is 'which rules of practice the agency uses; the newest row counts, no row: incidents withdraw the skill and all related ones by themselves, the rest is off; append-only';
comment on column practice_pack.incident_by_itself is 'false: whoever records an incident says what it withdraws, if anything';

create table incident (
    agency_id    uuid not null,
    id           uuid not null,
    person_id    uuid not null,
    skill_id     uuid not null,
    client_id    uuid,
    happened_at  timestamptz not null,
    seen         text not null,
    withdraws    text not null,
    at           timestamptz not null,
    signed_by    uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint incident_is_recorded_after_it_happened check (at >= happened_at),
    constraint incident_says_what_was_seen check (btrim(seen) <> ''),
    constraint incident_withdraws_is_known check (withdraws in ('skill and related', 'skill alone', 'nothing'))
);
create index incident_of on incident (agency_id, person_id, happened_at);
comment on table incident is 'what was seen to go wrong in a skill, when and with whom; append-only';
create trigger held_per_child_names_the_child before insert on incident for each row execute function held_per_child_names_the_child();

create table incident_closing (
    agency_id        uuid not null,
    incident_id      uuid not null,
    demonstration_id uuid not null,
    note             text not null,
    at               timestamptz not null,
    signed_by        uuid not null,
    printed_name     text not null,
    primary key (agency_id, incident_id),
    foreign key (agency_id, incident_id) references incident (agency_id, id),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint incident_closing_says_how check (btrim(note) <> '')
);
comment on table incident_closing is 'by which record and with which words an incident was closed; makes nobody current; append-only';

alter table withdrawal
    add column incident_id uuid,
    add column recorded_at timestamptz,
    add constraint withdrawal_is_of_an_incident foreign key (agency_id, incident_id) references incident (agency_id, id);
create index withdrawal_of_incident on withdrawal (agency_id, incident_id) where incident_id is not null;
comment on column withdrawal.incident_id is 'the incident that made it; null: none';
comment on column withdrawal.recorded_at is 'when it was signed, where it acts from an earlier day; null: at the instant from which it acts';

alter table correction
    drop constraint correction_kind_is_known,
    add constraint correction_kind_is_known check
        (of_kind in ('demonstration', 'withdrawal', 'reinstatement', 'waiver', 'recheck', 'practice', 'teaching', 'card', 'licence', 'incident'));

create table employment (
    agency_id uuid not null,
    person_id uuid not null,
    hired_on  date not null,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id)
);
comment on table employment is 'since when somebody has worked for the agency';

create table in_service_session (
    agency_id     uuid not null,
    id            uuid not null,
    held_on       date not null,
    minutes       integer not null,
    topic         text not null,
    trainer       text not null,
    counts        boolean not null,
    orientation   boolean not null,
    written_by    uuid not null,
    written_at    timestamptz not null,
    taken_back_by uuid,
    taken_back_at timestamptz,
    why           text,
    primary key (agency_id, id),
    foreign key (agency_id, written_by) references person (agency_id, id),
    foreign key (agency_id, taken_back_by) references person (agency_id, id),
    constraint in_service_session_has_minutes check (minutes between 1 and 1440),
    constraint in_service_session_says_what_and_by_whom check (btrim(topic) <> '' and btrim(trainer) <> ''),
    constraint in_service_session_is_taken_back_with_a_reason check (num_nonnulls(taken_back_by, taken_back_at, why) in (0, 3))
);
create index in_service_session_on on in_service_session (agency_id, held_on);
comment on table in_service_session is 'training at work that was held; taken back it counts for nothing and stays readable';

create table in_service_attendance (
    agency_id  uuid not null,
    session_id uuid not null,
    person_id  uuid not null,
    primary key (agency_id, session_id, person_id),
    foreign key (agency_id, session_id) references in_service_session (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id)
);
create index in_service_attendance_of on in_service_attendance (agency_id, person_id);
comment on table in_service_attendance is 'who took part in a session';

create table skilled_care (
    agency_id     uuid not null,
    id            uuid not null,
    client_id     uuid not null,
    from_on       date not null,
    skilled       boolean not null,
    episodes_from date,
    set_by        uuid not null,
    set_at        timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id)
);
create index skilled_care_of on skilled_care (agency_id, client_id, from_on);
comment on table skilled_care is 'whether a child gets skilled care besides an aide''s from a day on; of two for one day the later counts; append-only';
comment on column skilled_care.episodes_from is 'the first day of one of the child''s 60-day episodes; null: not known';

create table supervisory_visit (
    agency_id     uuid not null,
    id            uuid not null,
    client_id     uuid not null,
    person_id       uuid not null,
    supervisor_id uuid not null,
    made_on       date not null,
    how           text not null,
    watched       boolean not null,
    why           text not null,
    found         text not null,
    deficient     boolean not null,
    written_by    uuid not null,
    written_at    timestamptz not null,
    taken_back_by uuid,
    taken_back_at timestamptz,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, supervisor_id) references person (agency_id, id),
    foreign key (agency_id, written_by) references person (agency_id, id),
    foreign key (agency_id, taken_back_by) references person (agency_id, id),
    constraint supervisory_visit_is_of_somebody_else check (person_id <> supervisor_id),
    constraint supervisory_visit_how_is_known check (how in ('on site', 'audio-video')),
    constraint supervisory_visit_by_video_says_why check (how = 'on site' or btrim(why) <> '' and not watched),
    constraint supervisory_visit_is_taken_back_by_somebody check ((taken_back_by is null) = (taken_back_at is null))
);
create index supervisory_visit_of on supervisory_visit (agency_id, client_id, person_id, made_on);
comment on table supervisory_visit is 'an assessment of an aide''s services with a child';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['practice_pack', 'incident', 'incident_closing', 'employment', 'in_service_session', 'in_service_attendance', 'skilled_care', 'supervisory_visit'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
    end loop;
    foreach t in array array['practice_pack', 'incident', 'incident_closing', 'in_service_attendance', 'skilled_care'] loop
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
    end loop;
    foreach t in array array['employment', 'in_service_session', 'supervisory_visit'] loop
        execute format('grant update on %I to wellshown_service', t);
    end loop;
    foreach t in array array['incident', 'employment', 'in_service_attendance', 'skilled_care', 'supervisory_visit'] loop
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
        ('person', 'incident', $$seen = case t.person_id when $2 then 'erased' else t.seen end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$, '$2 in (t.person_id, t.signed_by)'),
        ('person', 'incident_closing', $$note = case when t.incident_id in (select i.id from incident i where i.agency_id = $1 and i.person_id = $2) then 'erased' else t.note end, printed_name = case t.signed_by when $2 then 'erased' else t.printed_name end$$, 't.signed_by = $2 or t.incident_id in (select i.id from incident i where i.agency_id = $1 and i.person_id = $2)'),
        ('person', 'supervisory_visit', $$why = case t.why when '' then '' else 'erased' end, found = case t.found when '' then '' else 'erased' end$$, $$t.person_id = $2 and (t.why <> '' or t.found <> '')$$),
        ('client', 'incident', $$seen = 'erased'$$, 't.client_id = $2'),
        ('client', 'incident_closing', $$note = 'erased'$$, 't.incident_id in (select i.id from incident i where i.agency_id = $1 and i.client_id = $2)'),
        ('client', 'supervisory_visit', $$why = case t.why when '' then '' else 'erased' end, found = case t.found when '' then '' else 'erased' end$$, $$t.client_id = $2 and (t.why <> '' or t.found <> '')$$),$more$;
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace(plan, 'values', 'values' || replace(more, '\', '\\')));
end
$do$;
-- +goose StatementEnd

-- +goose StatementBegin
create or replace function records_about(agency uuid, about uuid) returns table (of_record uuid)
    language sql stable as $$
    select id from demonstration where agency_id = agency and about in (learner_id, client_id)
    union all select id from withdrawal where agency_id = agency and about in (person_id, client_id)
    union all select r.id from reinstatement r join withdrawal w on w.agency_id = r.agency_id and w.id = r.withdrawal_id where r.agency_id = agency and about in (w.person_id, w.client_id)
    union all select id from waiver where agency_id = agency and about in (person_id, client_id)
    union all select id from exposure where agency_id = agency and about in (person_id, client_id)
    union all select id from licence where agency_id = agency and person_id = about
    union all select id from resuscitation_card where agency_id = agency and person_id = about
    union all select id from incident where agency_id = agency and about in (person_id, client_id)
    $$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $do$
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace((select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure), '\n *\(''(person|client)'', ''(incident|incident_closing|supervisory_visit)''[^\n]*', '', 'g'));
end
$do$;
-- +goose StatementEnd

-- +goose StatementBegin
create or replace function records_about(agency uuid, about uuid) returns table (of_record uuid)
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
drop table supervisory_visit, skilled_care, in_service_attendance, in_service_session, employment;
alter table correction
    drop constraint correction_kind_is_known,
    add constraint correction_kind_is_known check
        (of_kind in ('demonstration', 'withdrawal', 'reinstatement', 'waiver', 'recheck', 'practice', 'teaching', 'card', 'licence'));
alter table withdrawal drop column recorded_at, drop column incident_id;
drop table incident_closing, incident, practice_pack;
