-- Skills and the revisions of their checklists. A revision is text, not columns:
-- it is read whole, compared whole and never changed once it is in force.
-- +goose Up
create table skill (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    code       text not null,
    scope      text not null,
    position   integer not null,
    created_at timestamptz not null,
    primary key (agency_id, id),
    constraint skill_code_is_taken unique (agency_id, code),
    constraint skill_scope_is_known check (scope in ('general', 'client-specific'))
);
comment on table skill is 'something to be shown; general, or held per child and equipment';

create table revision (
    agency_id   uuid not null,
    id          uuid not null,
    skill_id    uuid not null,
    number      integer not null,
    state       text not null,
    title       text not null,
    body        text not null,
    body_sha256 bytea not null,
    drafted_at  timestamptz not null,
    drafted_by  uuid not null,
    in_force_at timestamptz,
    in_force_by uuid,
    statement   text,
    retired_at  timestamptz,
    retired_by  uuid,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, in_force_by) references person (agency_id, id),
    constraint revision_number_is_taken unique (agency_id, skill_id, number),
    constraint revision_state_is_known check (state in ('draft', 'in force', 'retired')),
    constraint revision_counts_from_one check (number >= 1),
    constraint revision_body_is_json check (body::jsonb is not null),
    constraint revision_hash_is_of_its_body check (body_sha256 = sha256(convert_to(body, 'UTF8'))),
    constraint revision_in_force_names_who_and_why check
        (state = 'draft' or (in_force_at is not null and in_force_by is not null and btrim(statement) <> '')),
    constraint revision_draft_was_never_in_force check (state <> 'draft' or in_force_at is null),
    constraint revision_retired_says_when check ((state = 'retired') = (retired_at is not null))
);
create unique index revision_only_one_is_in_force on revision (agency_id, skill_id) where state = 'in force';
create unique index revision_only_one_is_a_draft on revision (agency_id, skill_id) where state = 'draft';
comment on table revision is 'one version of a skill''s checklist; draft, in force, retired, never back';

-- +goose StatementBegin
create function revision_is_immutable_once_in_force() returns trigger
    language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        if old.state = 'draft' then return old; end if;
    elsif old.state = 'draft' then
        if (new.agency_id, new.id, new.skill_id, new.number) = (old.agency_id, old.id, old.skill_id, old.number)
           and new.state in ('draft', 'in force') then return new; end if;
    elsif old.state = 'in force' and new.state = 'retired'
        and (new.agency_id, new.id, new.skill_id, new.number, new.title, new.body, new.body_sha256, new.drafted_at, new.drafted_by,
             new.in_force_at, new.in_force_by, new.statement)
          = (old.agency_id, old.id, old.skill_id, old.number, old.title, old.body, old.body_sha256, old.drafted_at, old.drafted_by,
             old.in_force_at, old.in_force_by, old.statement) then
        return new;
    end if;
    raise exception 'a revision that is or was in force never changes: draft a new one'
        using errcode = 'restrict_violation', constraint = 'revision_is_immutable_once_in_force';
end
$$;
-- +goose StatementEnd
create trigger revision_is_immutable_once_in_force before update or delete on revision
    for each row execute function revision_is_immutable_once_in_force();

create table recheck (
    agency_id    uuid not null,
    id           uuid not null,
    skill_id     uuid not null,
    revision     integer not null,
    by_on        date not null,
    announced_at timestamptz not null,
    announced_by uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id, revision) references revision (agency_id, skill_id, number)
);
comment on table recheck is 'a revision that everybody must have shown by a day; append-only';

-- +goose Down
drop table recheck, revision, skill;
drop function revision_is_immutable_once_in_force();
