-- What the papers that go home with a child say besides what is ordered: whom to call, who
-- supplies and checks each piece of equipment, and where the emergency kit is. Offices and
-- their telephones only: no address, no person. Like ordered values, these are dated rows:
-- the newest of its kind counts, and one that says nothing unsets it.
-- +goose Up
create table client_contact (
    agency_id uuid not null,
    id        uuid not null,
    client_id uuid not null,
    role      text not null,
    name      text not null,
    telephone text not null,
    place     smallint not null,
    set_at    timestamptz not null,
    set_by    uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint client_contact_role_is_known check (role in ('emergency number', 'home-care agency', 'equipment company', 'hospital team', 'power company', 'fire service')),
    constraint client_contact_is_short check (length(name) <= 80 and length(telephone) <= 40),
    constraint client_contact_is_called_in_turn check (place between 0 and 9)
);
create index client_contact_newest on client_contact (agency_id, client_id, role, set_at desc);
comment on table client_contact is 'the offices that a child''s family calls; the newest row of a role counts, one without name and telephone unsets it; append-only';
comment on column client_contact.place is 'in which turn it is called in an emergency, from 1; 0: not then';

create table client_supplier (
    agency_id    uuid not null,
    id           uuid not null,
    client_id    uuid not null,
    kind         text not null,
    supplier     text not null,
    telephone    text not null,
    checked_by   text not null,
    checked_when text not null,
    set_at       timestamptz not null,
    set_by       uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint client_supplier_is_of_a_kind check (btrim(kind) <> '' and length(kind) <= 40),
    constraint client_supplier_is_short check (length(supplier) <= 80 and length(telephone) <= 40)
);
create index client_supplier_newest on client_supplier (agency_id, client_id, kind, set_at desc);
comment on table client_supplier is 'who supplies a kind of a child''s equipment, and who checks it how often; the newest row of a kind counts; append-only';

create table client_kit_place (
    agency_id uuid not null,
    id        uuid not null,
    client_id uuid not null,
    english   text not null,
    spanish   text not null,
    set_at    timestamptz not null,
    set_by    uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint client_kit_place_is_short check (length(english) <= 80 and length(spanish) <= 80)
);
create index client_kit_place_newest on client_kit_place (agency_id, client_id, set_at desc);
comment on table client_kit_place is 'where a child''s emergency kit is kept; the newest row counts; append-only';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['client_contact', 'client_supplier', 'client_kit_place'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
        perform ledger_keeps(t);
    end loop;
end
$$;
-- +goose StatementEnd

-- What an erasure of a child takes besides.
-- +goose StatementBegin
do $$
declare
    plan text := (select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure);
    more text := $more$
        ('client', 'client_contact', $s$name = '', telephone = ''$s$, $w$t.client_id = $2 and t.name || t.telephone <> ''$w$),
        ('client', 'client_supplier', $s$supplier = '', telephone = ''$s$, $w$t.client_id = $2 and t.supplier || t.telephone <> ''$w$),
        ('client', 'client_kit_place', $s$english = '', spanish = ''$s$, $w$t.client_id = $2 and t.english || t.spanish <> ''$w$),$more$;
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace(plan, 'values', 'values' || replace(more, '\', '\\')));
end
$$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $$
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace((select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure), '\n *\(''client'', ''client_(contact|supplier|kit_place)''[^\n]*', '', 'g'));
end
$$;
-- +goose StatementEnd
drop table client_kit_place, client_supplier, client_contact;
