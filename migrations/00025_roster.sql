-- The roster: shifts, weekly patterns of shifts with exceptions for single days, and the
-- rest that is asked between two shifts of one person. A shift makes nobody current and
-- nothing here is signed. Why somebody is on one with too little rest is one of four
-- words, so that nothing in here tells of anybody's health.
-- +goose Up
create table shift (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    client_id  uuid not null,
    person_id  uuid,
    kind       text not null,
    starts_at  timestamptz not null,
    ends_at    timestamptz not null,
    short_rest text not null,
    added_by   uuid not null,
    added_at   timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint shift_ends_after_it_starts check (ends_at > starts_at),
    constraint shift_is_at_most_a_day check (ends_at <= starts_at + interval '25 hours'),
    constraint shift_kind_is_known check (kind in ('', 'family', 'nurse', 'aide')),
    constraint shift_short_rest_is_known check (short_rest in ('', 'nobody else could', 'they asked for it', 'handed over late', 'emergency'))
);
create index shift_at on shift (agency_id, starts_at);
create index shift_of on shift (agency_id, client_id, starts_at);
create index shift_on on shift (agency_id, person_id, starts_at) where person_id is not null;
create index plan_shift_at on plan_shift (agency_id, starts_at);
comment on table shift is 'one stretch of time at a child''s home; no person: nobody is on it yet; no kind: whoever is competent';
comment on column shift.short_rest is 'why somebody is on it with less rest than is asked; empty: they have it';

create table shift_pattern (
    agency_id   uuid not null references agency (id),
    id          uuid not null,
    client_id   uuid not null,
    person_id   uuid,
    kind        text not null,
    weekdays    smallint[] not null,
    from_clock  smallint not null,
    until_clock smallint not null,
    from_on     date not null,
    through_on  date,
    short_rest  text not null,
    added_by    uuid not null,
    added_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint shift_pattern_has_weekdays check (cardinality(weekdays) >= 1 and cardinality(weekdays) <= 7 and weekdays <@ '{1,2,3,4,5,6,7}'::smallint[]),
    constraint shift_pattern_is_by_the_clock check (from_clock >= 0 and from_clock <= 1439 and until_clock >= 0 and until_clock <= 1439),
    constraint shift_pattern_ends_after_it_begins check (through_on >= from_on),
    constraint shift_pattern_kind_is_known check (kind in ('', 'family', 'nurse', 'aide')),
    constraint shift_pattern_short_rest_is_known check (short_rest in ('', 'nobody else could', 'they asked for it', 'handed over late', 'emergency'))
);
create index shift_pattern_of on shift_pattern (agency_id, client_id, from_on);
create index shift_pattern_on on shift_pattern (agency_id, person_id) where person_id is not null;
comment on table shift_pattern is 'a shift that comes again each week; what changes from a day on is a pattern of its own, so that what was stays';
comment on column shift_pattern.weekdays is 'on which it begins: 1 is Monday, 7 is Sunday (ISO 8601)';
comment on column shift_pattern.from_clock is 'minutes after midnight on the agency''s clocks';
comment on column shift_pattern.until_clock is 'the same; not after from_clock: on the next day';

create table shift_pattern_exception (
    agency_id   uuid not null,
    pattern_id  uuid not null,
    falls_on    date not null,
    left_out    boolean not null,
    person_id   uuid,
    from_clock  smallint not null,
    until_clock smallint not null,
    short_rest  text not null,
    set_by      uuid not null,
    set_at      timestamptz not null,
    primary key (agency_id, pattern_id, falls_on),
    foreign key (agency_id, pattern_id) references shift_pattern (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint shift_pattern_exception_is_by_the_clock check (from_clock >= 0 and from_clock <= 1439 and until_clock >= 0 and until_clock <= 1439),
    constraint shift_pattern_exception_short_rest_is_known check (short_rest in ('', 'nobody else could', 'they asked for it', 'handed over late', 'emergency'))
);
create index shift_pattern_exception_on on shift_pattern_exception (agency_id, falls_on);
comment on table shift_pattern_exception is 'how it is on one day of a pattern: no shift, or one with this person and these times';

create table shift_rest (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    hours     smallint,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint shift_rest_is_hours check (hours between 1 and 24)
);
create index shift_rest_newest on shift_rest (agency_id, set_at desc);
comment on table shift_rest is 'how many hours lie between two shifts of one person at least; the newest row counts, no hours and no row: none asked; append-only';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['shift', 'shift_pattern', 'shift_pattern_exception', 'shift_rest'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
    end loop;
    foreach t in array array['shift', 'shift_pattern', 'shift_pattern_exception'] loop
        execute format('grant update, delete on %I to wellshown_service', t);
        execute format('create trigger what_was_erased_stays_erased before insert or update of person_id on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
    create trigger shift_rest_is_append_only before update or delete on shift_rest for each row execute function refuse_change();
    create trigger shift_rest_is_never_emptied before truncate on shift_rest for each statement execute function refuse_change();
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table shift_rest, shift_pattern_exception, shift_pattern, shift;
drop index plan_shift_at;
