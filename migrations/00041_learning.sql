-- What is chosen in somebody's learning plan, what was taught, and what was practised. The
-- plan itself is worked out each time. None of it makes anybody current: no standing is
-- folded from these tables. A teaching session writes what a history already knows as
-- teaching (exposure), and teaching_entry says which.
-- +goose Up
create table learning_target (
    agency_id uuid not null,
    id        uuid not null,
    person_id uuid not null,
    goal      text not null,
    target_on date,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint learning_target_goal_is_known check (goal in ('going home', 'first shift', 'other'))
);
create index learning_target_of on learning_target (agency_id, person_id, set_at desc, id desc);
comment on table learning_target is 'by when somebody is to have learnt what they need; the newest row counts; append-only';
comment on column learning_target.target_on is 'null: as the plan for going home or the roster has it';

create table learning_choice (
    agency_id  uuid not null,
    id         uuid not null,
    person_id  uuid not null,
    skill_id   uuid not null,
    client_id  uuid,
    teacher_id uuid,
    by_on      date,
    set_by     uuid not null,
    set_at     timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, teacher_id) references person (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint learning_choice_is_of_somebody_else check (teacher_id <> person_id)
);
create index learning_choice_of on learning_choice (agency_id, person_id, set_at desc, id desc);
comment on table learning_choice is 'who teaches somebody a skill, and by which day instead of the one that is worked out; the newest row of a person, skill and child counts; append-only';

create table learning_days (
    agency_id uuid not null,
    id        uuid not null,
    skill_id  uuid not null,
    days      integer not null,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint learning_days_are_planned check (days between 1 and 365)
);
create index learning_days_of on learning_days (agency_id, skill_id, set_at desc, id desc);
comment on table learning_days is 'how many days the agency plans for learning a skill; the newest row counts; append-only';

create table teaching_session (
    agency_id  uuid not null,
    id         uuid not null,
    client_id  uuid,
    held_on    date not null,
    minutes    integer not null,
    trainer_id uuid not null,
    note       text not null,
    in_service boolean not null,
    corrects   uuid,
    why        text not null default '',
    written_by uuid not null,
    written_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, trainer_id) references person (agency_id, id),
    foreign key (agency_id, corrects) references teaching_session (agency_id, id),
    foreign key (agency_id, written_by) references person (agency_id, id),
    constraint teaching_session_has_minutes check (minutes between 1 and 1440),
    constraint teaching_session_is_corrected_once unique (agency_id, corrects),
    constraint teaching_session_is_corrected_with_a_reason check ((corrects is null) = (btrim(why) = ''))
);
create index teaching_session_on on teaching_session (agency_id, held_on);
comment on table teaching_session is 'teaching that was held; append-only: one that corrects another stands in its place, and one of nobody says that there was none';
comment on column teaching_session.in_service is 'its minutes count toward the in-service hours of the aides who took part';

create table teaching_session_skill (
    agency_id  uuid not null,
    session_id uuid not null,
    skill_id   uuid not null,
    primary key (agency_id, session_id, skill_id),
    foreign key (agency_id, session_id) references teaching_session (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id)
);
comment on table teaching_session_skill is 'what was taught in a session';

create table teaching_session_learner (
    agency_id   uuid not null,
    session_id  uuid not null,
    person_id   uuid not null,
    shown       boolean not null,
    explained   boolean not null,
    practised   boolean not null,
    taught_back boolean not null,
    primary key (agency_id, session_id, person_id),
    foreign key (agency_id, session_id) references teaching_session (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint teaching_session_learner_was_taught check (shown or explained or practised or taught_back)
);
create index teaching_session_learner_of on teaching_session_learner (agency_id, person_id);
comment on table teaching_session_learner is 'who was taught in a session, and how: shown, explained, practised with help, taught back';

create table teaching_entry (
    agency_id   uuid not null,
    session_id  uuid not null,
    exposure_id uuid not null,
    primary key (agency_id, session_id, exposure_id),
    foreign key (agency_id, session_id) references teaching_session (agency_id, id),
    foreign key (agency_id, exposure_id) references exposure (agency_id, id)
);
create index teaching_entry_of on teaching_entry (agency_id, exposure_id);
comment on table teaching_entry is 'what a session wrote into the histories of those who were taught';

create table practice_run (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    skill_id    uuid not null,
    revision_id uuid not null,
    client_id   uuid,
    done_on     date not null,
    alone       boolean not null,
    helper_id   uuid,
    note        text not null,
    written_by  uuid not null,
    written_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, revision_id) references revision (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, helper_id) references person (agency_id, id),
    foreign key (agency_id, written_by) references person (agency_id, id),
    constraint practice_run_has_help_or_none check (alone = (helper_id is null)),
    constraint practice_run_is_helped_by_somebody_else check (helper_id <> person_id)
);
create index practice_run_of on practice_run (agency_id, person_id, done_on);
comment on table practice_run is 'a checklist that somebody did to practise, with help or alone: never signed, never a demonstration, never folded into a standing; append-only';

create table practice_mark (
    agency_id uuid not null,
    run_id    uuid not null,
    step      integer not null,
    went      text not null,
    primary key (agency_id, run_id, step),
    foreign key (agency_id, run_id) references practice_run (agency_id, id),
    constraint practice_mark_is_of_a_step check (step >= 1),
    constraint practice_mark_is_known check (went in ('alone', 'with help', 'not yet'))
);
comment on table practice_mark is 'how a step went in a practice run; no verdict';

create table practice_run_back (
    agency_id uuid not null,
    run_id    uuid not null,
    reason    text not null,
    by_id     uuid not null,
    at        timestamptz not null,
    primary key (agency_id, run_id),
    foreign key (agency_id, run_id) references practice_run (agency_id, id),
    foreign key (agency_id, by_id) references person (agency_id, id),
    constraint practice_run_back_says_why check (btrim(reason) <> '')
);
comment on table practice_run_back is 'a practice run that was written down by mistake, and why; append-only';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['learning_target', 'learning_choice', 'learning_days', 'teaching_session', 'teaching_session_skill', 'teaching_session_learner', 'teaching_entry', 'practice_run', 'practice_mark', 'practice_run_back'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
    end loop;
    foreach t in array array['learning_target', 'learning_choice', 'teaching_session', 'teaching_session_learner', 'practice_run'] loop
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
        ('person', 'teaching_session', $$note = case t.note when '' then '' else 'erased' end, why = case t.why when '' then '' else 'erased' end$$, $$(t.note <> '' or t.why <> '') and t.id in (select l.session_id from teaching_session_learner l where l.agency_id = $1 and l.person_id = $2)$$),
        ('person', 'practice_run', $$note = 'erased'$$, $$t.person_id = $2 and t.note <> ''$$),
        ('person', 'practice_run_back', $$reason = 'erased'$$, 't.run_id in (select r.id from practice_run r where r.agency_id = $1 and r.person_id = $2)'),
        ('client', 'teaching_session', $$note = case t.note when '' then '' else 'erased' end, why = case t.why when '' then '' else 'erased' end$$, $$t.client_id = $2 and (t.note <> '' or t.why <> '')$$),
        ('client', 'practice_run', $$note = 'erased'$$, $$t.client_id = $2 and t.note <> ''$$),
        ('client', 'practice_run_back', $$reason = 'erased'$$, 't.run_id in (select r.id from practice_run r where r.agency_id = $1 and r.client_id = $2)'),$more$;
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace(plan, 'values', 'values' || replace(more, '\', '\\')));
end
$do$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $do$
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace((select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure), '\n *\(''(person|client)'', ''(teaching_session|practice_run|practice_run_back)''[^\n]*', '', 'g'));
end
$do$;
-- +goose StatementEnd
drop table practice_run_back, practice_mark, practice_run, teaching_entry, teaching_session_learner, teaching_session_skill, teaching_session, learning_days, learning_choice, learning_target;
