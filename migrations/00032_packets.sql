-- Packets for surveyors: what was asked, how far it is, and the two files while they are
-- kept. All of it is worked out from records and can be worked out again; nothing rests on it.
-- +goose Up
create table packet (
    agency_id   uuid not null references agency (id),
    id          uuid not null,
    kind        text not null,
    person_id   uuid,
    skill_id    uuid,
    client_id   uuid,
    shift       text not null,
    from_on     date not null,
    through_on  date not null,
    asked_by    uuid not null,
    asked_at    timestamptz not null,
    reach       text not null,
    head_size   bigint not null default 0,
    state       text not null,
    attempt     integer not null default 0,
    beat_at     timestamptz,
    done        integer not null default 0,
    total       integer not null default 0,
    refused     text not null default '',
    made_at     timestamptz,
    pages       integer not null default 0,
    data_sha256 bytea,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, asked_by) references person (agency_id, id),
    constraint packet_kind_is_known check (kind in ('incident', 'person', 'child', 'period')),
    constraint packet_state_is_known check (state in ('waiting', 'making', 'ready', 'refused')),
    constraint packet_ends_after_it_begins check (through_on >= from_on),
    constraint packet_is_ready_once_it_is_made check ((state = 'ready') = (made_at is not null))
);
create index packet_lately on packet (agency_id, asked_at desc, id desc);
comment on table packet is 'a question of a surveyor, and how far the papers are that answer it';
comment on column packet.reach is 'what a surveyor was let in for when they asked, as a hash; empty: the whole agency';
comment on column packet.head_size is 'of the ledger''s head that its proofs are under; 0: not chosen yet';
comment on column packet.attempt is 'who works at it: only the newest may keep what it made';

create table packet_piece (
    agency_id uuid not null references agency (id),
    packet_id uuid not null,
    attempt   integer not null,
    file      text not null,
    number    integer not null,
    content   bytea not null,
    primary key (agency_id, packet_id, attempt, file, number),
    foreign key (agency_id, packet_id) references packet (agency_id, id) on delete cascade,
    constraint packet_piece_is_of_a_file check (file in ('pdf', 'json'))
);
comment on table packet_piece is 'the files of a packet that is ready, in pieces';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['packet', 'packet_piece'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert, update, delete on %I to wellshown_service', t);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table packet_piece, packet;
