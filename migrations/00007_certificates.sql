-- A certificate is kept as the bytes that were issued and never drawn again.
-- +goose Up
create table certificate (
    agency_id        uuid not null,
    id               uuid not null,
    number           integer not null,
    code             text not null,
    demonstration_id uuid not null,
    person_id        uuid not null,
    skill_id         uuid not null,
    client_id        uuid,
    held_on          date not null,
    through_on       date not null,
    issued_at        timestamptz not null,
    pdf              bytea not null,
    pdf_sha256       bytea not null,
    primary key (agency_id, id),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint certificate_number_is_taken unique (agency_id, number),
    constraint certificate_is_issued_once unique (agency_id, demonstration_id),
    constraint certificate_code_is_well_formed check (code ~ '^[0-9A-HJKMNP-TV-Z]{12}$'),
    constraint certificate_hash_is_of_its_bytes check (pdf_sha256 = sha256(pdf))
);
create unique index certificate_code_is_taken on certificate (agency_id, code);
create index certificate_by_code on certificate (code);
create index certificate_of_person on certificate (agency_id, person_id);
comment on table certificate is 'certificates as issued, with their bytes; append-only';

-- +goose Down
drop table certificate;
