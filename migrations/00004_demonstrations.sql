-- A sheet is working paper: it changes while the observer marks it. Once it is
-- recorded it becomes a demonstration, and from then on nothing of it changes.
-- +goose Up
create table sheet (
    agency_id    uuid not null,
    id           uuid not null,
    learner_id   uuid not null,
    observer_id  uuid not null,
    skill_id     uuid not null,
    revision_id  uuid not null,
    client_id    uuid,
    place        text not null,
    real_client  boolean not null,
    formal       boolean not null,
    stopped      boolean not null default false,
    stop_reason  text not null default '',
    performed_at timestamptz not null,
    opened_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, learner_id) references person (agency_id, id),
    foreign key (agency_id, observer_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, revision_id) references revision (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint sheet_is_not_of_oneself check (learner_id <> observer_id)
);
create index sheet_of_observer on sheet (agency_id, observer_id);
comment on table sheet is 'a demonstration being marked; gone once recorded';

create table sheet_mark (
    agency_id      uuid not null,
    sheet_id       uuid not null,
    step           integer not null,
    mark           text not null default '',
    not_applicable boolean not null default false,
    reason         text not null default '',
    readings       jsonb not null default '{}',
    note           text not null default '',
    marked_at      timestamptz not null,
    primary key (agency_id, sheet_id, step),
    foreign key (agency_id, sheet_id) references sheet (agency_id, id) on delete cascade,
    constraint sheet_mark_is_known check (mark in ('', 'independent', 'cued', 'assisted', 'not met', 'unsafe')),
    constraint sheet_mark_or_not_applicable check (not (not_applicable and mark <> ''))
);
comment on table sheet_mark is 'what stands at one step of a sheet';

create table demonstration (
    agency_id    uuid not null,
    id           uuid not null,
    learner_id   uuid not null,
    observer_id  uuid not null,
    skill_id     uuid not null,
    revision_id  uuid not null,
    revision     integer not null,
    client_id    uuid,
    place        text not null,
    real_client  boolean not null,
    formal       boolean not null,
    equipment    text not null,
    performed_at timestamptz not null,
    recorded_at  timestamptz not null,
    outcome      text not null,
    score        text,
    body         text not null,
    body_sha256  bytea not null,
    primary key (agency_id, id),
    foreign key (agency_id, learner_id) references person (agency_id, id),
    foreign key (agency_id, observer_id) references person (agency_id, id),
    foreign key (agency_id, skill_id, revision) references revision (agency_id, skill_id, number),
    foreign key (agency_id, revision_id) references revision (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint demonstration_is_not_of_oneself check (learner_id <> observer_id),
    constraint demonstration_outcome_is_known check (outcome in ('competent', 'not yet competent', 'stopped for safety')),
    constraint demonstration_is_recorded_after_it_was_performed check (recorded_at >= performed_at),
    constraint demonstration_hash_is_of_its_body check (body_sha256 = sha256(convert_to(body, 'UTF8')))
);
create index demonstration_of_learner on demonstration (agency_id, learner_id, skill_id);
create index demonstration_of_skill on demonstration (agency_id, skill_id);
create index demonstration_of_observer on demonstration (agency_id, observer_id, performed_at);
comment on table demonstration is 'one observed performance, as recorded; append-only';

create table signature (
    agency_id        uuid not null,
    demonstration_id uuid not null,
    part             text not null,
    person_id        uuid not null,
    printed_name     text not null,
    licence          text not null default '',
    meaning          text not null,
    signed_at        timestamptz not null,
    zone             text not null,
    body_sha256      bytea not null,
    primary key (agency_id, demonstration_id, part),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint signature_part_is_known check (part in ('observer', 'learner')),
    constraint signature_prints_a_name check (btrim(printed_name) <> ''),
    constraint signature_states_its_meaning check (btrim(meaning) <> ''),
    constraint signature_of_an_observer_shows_a_licence check (part <> 'observer' or btrim(licence) <> '')
);
comment on table signature is 'the two signatures that make a demonstration count; append-only';

-- +goose StatementBegin
create function signature_fits_its_record() returns trigger
    language plpgsql as $$
begin
    if not exists (select from demonstration d
                   where d.agency_id = new.agency_id and d.id = new.demonstration_id
                     and d.body_sha256 = new.body_sha256
                     and new.person_id = case new.part when 'observer' then d.observer_id else d.learner_id end
                     and new.signed_at >= d.recorded_at) then
        raise exception 'a signature is of the record as it stands, by its own observer or learner, after it was recorded'
            using errcode = 'check_violation', constraint = 'signature_fits_its_record';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger signature_fits_its_record before insert on signature
    for each row execute function signature_fits_its_record();

-- +goose Down
drop table signature, demonstration, sheet_mark, sheet;
drop function signature_fits_its_record();
