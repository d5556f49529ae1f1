-- Knowledge checks: the items of each skill's bank as versions, the rule by which a check
-- is asked and judged, and what people answered. All of it is only ever added. Passing
-- a check makes nobody current: no standing is folded from any of this.
-- +goose Up
create table knowledge_item (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    skill_id  uuid not null,
    code      text not null,
    version   smallint not null,
    retired   boolean not null,
    body      text not null,
    added_by  uuid not null,
    added_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint knowledge_item_version_is_there_once unique (agency_id, skill_id, code, version),
    constraint knowledge_item_versions_count_from_one check (version >= 1)
);
comment on table knowledge_item is 'one version of one item of a skill''s bank; the newest version of a code counts; append-only';
comment on column knowledge_item.retired is 'from this version on no new form draws it';
comment on column knowledge_item.body is 'the item in its written form, as JSON';

create table knowledge_rule (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    skill_id   uuid not null,
    asked      text not null,
    length     smallint not null,
    mark_right smallint not null,
    mark_of    smallint not null,
    months     smallint not null,
    wait_hours smallint not null,
    tries      smallint not null,
    set_by     uuid not null,
    set_at     timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint knowledge_rule_asked_is_known check (asked in ('not asked', 'to learn', 'before it is shown')),
    constraint knowledge_rule_length_is_possible check (length between 1 and 100),
    constraint knowledge_rule_mark_is_a_share check (mark_of >= 1 and mark_of <= 1000 and mark_right >= 1 and mark_right <= mark_of),
    constraint knowledge_rule_times_are_possible check (months >= 0 and months <= 120 and wait_hours >= 0 and wait_hours <= 720 and tries >= 0 and tries <= 20)
);
create index knowledge_rule_newest on knowledge_rule (agency_id, skill_id, set_at desc);
comment on table knowledge_rule is 'how the check of a skill is asked and judged; the newest row counts, no row: not asked; append-only';
comment on column knowledge_rule.mark_right is 'the share that must be right is mark_right of mark_of, as an exact fraction';
comment on column knowledge_rule.months is 'how long a pass holds; 0: without end';
comment on column knowledge_rule.tries is 'in a row without a pass, before somebody teaches again; 0: as many as they like';

create table knowledge_sitting (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    person_id uuid not null,
    skill_id  uuid not null,
    rule_id   uuid not null,
    number    smallint not null,
    language  text not null,
    seed      text not null,
    items     uuid[] not null,
    begun_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, rule_id) references knowledge_rule (agency_id, id),
    constraint knowledge_sitting_is_there_once unique (agency_id, person_id, skill_id, number),
    constraint knowledge_sitting_has_items check (cardinality(items) between 1 and 100)
);
comment on table knowledge_sitting is 'one try of one person: which versions of which items were asked, in order, and by which rule it is judged; append-only';
comment on column knowledge_sitting.number is 'the how manieth of this person in this skill';
comment on column knowledge_sitting.seed is 'by which options are put in order, so that it can be shown again as it was';

create table knowledge_answer (
    agency_id  uuid not null,
    sitting_id uuid not null,
    place      smallint not null,
    nth        smallint not null,
    chosen     smallint[] not null,
    value      text not null,
    unit       text not null,
    given_at   timestamptz not null,
    primary key (agency_id, sitting_id, place, nth),
    foreign key (agency_id, sitting_id) references knowledge_sitting (agency_id, id),
    constraint knowledge_answer_has_a_place check (place >= 1 and nth >= 1),
    constraint knowledge_answer_is_short check (length(value) <= 40 and length(unit) <= 40 and cardinality(chosen) <= 8)
);
comment on table knowledge_answer is 'an answer as it was given; who thought again has several, and the last one given before handing in counts; append-only';
comment on column knowledge_answer.chosen is 'options as the item counts them, from 1';

create table knowledge_result (
    agency_id   uuid not null,
    sitting_id  uuid not null,
    handed_in_at timestamptz not null,
    right_count smallint not null,
    passed      boolean not null,
    missed      smallint[] not null,
    critical    smallint[] not null,
    primary key (agency_id, sitting_id),
    foreign key (agency_id, sitting_id) references knowledge_sitting (agency_id, id)
);
comment on table knowledge_result is 'that a sitting was handed in, and what came of it; append-only';
comment on column knowledge_result.missed is 'places of the items that were not right, from 1';
comment on column knowledge_result.critical is 'those of them that are critical';

create table knowledge_presence (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    sitting_id uuid not null,
    present    boolean not null,
    said_by    uuid not null,
    said_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, sitting_id) references knowledge_sitting (agency_id, id),
    foreign key (agency_id, said_by) references person (agency_id, id)
);
create index knowledge_presence_of on knowledge_presence (agency_id, sitting_id, said_at desc);
comment on table knowledge_presence is 'an educator says whether a trainer was there while a check was taken; the newest row counts, no row: not known; append-only';

-- +goose StatementBegin
create function knowledge_answer_comes_before_handing_in() returns trigger
    language plpgsql as $$
begin
    if exists (select from knowledge_result r where r.agency_id = new.agency_id and r.sitting_id = new.sitting_id) then
        raise exception 'a check that was handed in takes no more answers'
            using errcode = 'restrict_violation', constraint = 'knowledge_answer_comes_before_handing_in';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger knowledge_answer_comes_before_handing_in before insert on knowledge_answer
    for each row execute function knowledge_answer_comes_before_handing_in();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['knowledge_item', 'knowledge_rule', 'knowledge_sitting', 'knowledge_answer', 'knowledge_result', 'knowledge_presence'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        perform ledger_keeps(t::regclass);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table knowledge_presence, knowledge_result, knowledge_answer, knowledge_sitting, knowledge_rule, knowledge_item;
drop function knowledge_answer_comes_before_handing_in();
