-- Lessons that teach a skill, one text a language, versioned like checklists: written as a
-- draft, signed into force by a licensed clinician who reviewed it, and never changed after
-- that. What was translated names the qualified translator who reviewed it (45 CFR 92.201).
-- And the line drawings of the agency. None of it says anything about anybody's standing.
-- +goose Up
create table lesson (
    agency_id     uuid not null,
    id            uuid not null,
    skill_id      uuid not null,
    language      text not null,
    number        integer not null,
    state         text not null,
    title         text not null,
    source        text not null,
    source_sha256 bytea not null,
    written_in    text not null,
    starter       boolean not null,
    drafted_at    timestamptz not null,
    drafted_by    uuid not null,
    in_force_at   timestamptz,
    in_force_by   uuid,
    reviewer  text,
    licence       text,
    statement     text,
    translator    text,
    retired_at    timestamptz,
    retired_by    uuid,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, drafted_by) references person (agency_id, id),
    foreign key (agency_id, in_force_by) references person (agency_id, id),
    foreign key (agency_id, retired_by) references person (agency_id, id),
    constraint lesson_number_is_taken unique (agency_id, skill_id, language, number),
    constraint lesson_language_is_known check (language in ('en', 'es') and written_in in ('en', 'es')),
    constraint lesson_state_is_known check (state in ('draft', 'in force', 'retired')),
    constraint lesson_counts_from_one check (number >= 1),
    constraint lesson_hash_is_of_its_source check (source_sha256 = sha256(convert_to(source, 'UTF8'))),
    constraint lesson_in_force_names_who_reviewed_it check
        (state = 'draft' or (in_force_at is not null and in_force_by is not null and btrim(reviewer) <> '' and btrim(licence) <> '' and btrim(statement) <> '')),
    constraint lesson_in_force_names_its_translator check (state = 'draft' or language = written_in or btrim(coalesce(translator, '')) <> ''),
    constraint lesson_draft_was_never_in_force check (state <> 'draft' or num_nonnulls(in_force_at, in_force_by, reviewer, licence, statement, translator) = 0),
    constraint lesson_retired_says_when check ((state = 'retired') = (retired_at is not null) and (retired_at is null) = (retired_by is null))
);
create unique index lesson_only_one_is_in_force on lesson (agency_id, skill_id, language) where state = 'in force';
create unique index lesson_only_one_is_a_draft on lesson (agency_id, skill_id, language) where state = 'draft';
comment on table lesson is 'one version of what teaches a skill in one language; draft, in force, retired, never back';
comment on column lesson.source is 'Markdown, as assessment/lesson reads it';
comment on column lesson.written_in is 'the language in which it was first written: another than its own makes it a translation';
comment on column lesson.starter is 'it began as the starter lesson that comes with the program';
comment on column lesson.translator is 'the qualified translator who reviewed it, and what qualifies them';

-- +goose StatementBegin
create function lesson_is_immutable_once_in_force() returns trigger
    language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        if old.state = 'draft' then return old; end if;
    elsif old.state = 'draft' then
        if (new.agency_id, new.id, new.skill_id, new.language, new.number) = (old.agency_id, old.id, old.skill_id, old.language, old.number)
           and new.state in ('draft', 'in force') then return new; end if;
    elsif old.state = 'in force' and new.state = 'retired'
        and to_jsonb(new) - array['state', 'retired_at', 'retired_by'] = to_jsonb(old) - array['state', 'retired_at', 'retired_by'] then
        return new;
    end if;
    raise exception 'a lesson that is or was in force never changes: draft a new one'
        using errcode = 'restrict_violation', constraint = 'lesson_is_immutable_once_in_force';
end
$$;
-- +goose StatementEnd
create trigger lesson_is_immutable_once_in_force before update or delete on lesson
    for each row execute function lesson_is_immutable_once_in_force();

-- +goose StatementBegin
create function lesson_begins_as_a_draft() returns trigger
    language plpgsql as $$
begin
    if new.state <> 'draft' then
        raise exception 'a lesson begins as a draft'
            using errcode = 'restrict_violation', constraint = 'lesson_begins_as_a_draft';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger lesson_begins_as_a_draft before insert on lesson
    for each row execute function lesson_begins_as_a_draft();

create table drawing (
    agency_id  uuid not null references agency (id),
    name       text not null,
    svg        text not null,
    svg_sha256 bytea not null,
    added_by   uuid not null,
    added_at   timestamptz not null,
    primary key (agency_id, name),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint drawing_is_named_like_a_file check (name ~ '^[a-z0-9]+(-[a-z0-9]+)*$' and length(name) <= 60),
    constraint drawing_hash_is_of_its_svg check (svg_sha256 = sha256(convert_to(svg, 'UTF8')))
);
comment on table drawing is 'a line drawing that lessons show by its name, written anew by the program; starter drawings are kept here with the first lesson in force that shows them; append-only';

-- +goose StatementBegin
do $$
begin
    alter table lesson enable row level security;
    create policy by_agency on lesson using (agency_id = app_agency()) with check (agency_id = app_agency());
    grant select, insert, update, delete on lesson to wellshown_service;
    perform ledger_keeps('lesson', 'source');
    alter table drawing enable row level security;
    create policy by_agency on drawing using (agency_id = app_agency()) with check (agency_id = app_agency());
    grant select, insert on drawing to wellshown_service;
    create trigger drawing_is_append_only before update or delete on drawing for each row execute function refuse_change();
    create trigger drawing_is_never_emptied before truncate on drawing for each statement execute function refuse_change();
    perform ledger_keeps('drawing', 'svg');
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table drawing, lesson;
drop function lesson_begins_as_a_draft(), lesson_is_immutable_once_in_force();
