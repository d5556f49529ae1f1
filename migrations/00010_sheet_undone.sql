-- What stood on an open sheet against the learner and was taken back before it was
-- recorded: a stop for safety, a step marked unsafe. A slip of the finger is mended
-- so, and nothing that was seen is lost by it.
-- +goose Up
create table sheet_undone (
    agency_id uuid not null,
    id        uuid not null,
    sheet_id  uuid not null,
    at        timestamptz not null,
    step      integer,
    reason    text not null default '',
    primary key (agency_id, id),
    foreign key (agency_id, sheet_id) references sheet (agency_id, id) on delete cascade,
    constraint sheet_undone_names_a_step check (step is null or step > 0)
);
create index sheet_undone_of on sheet_undone (agency_id, sheet_id);
comment on table sheet_undone is 'what stood on an open sheet against the learner and was taken back; goes into the record; no step: the stop';

alter table sheet_undone enable row level security;
create policy by_agency on sheet_undone using (agency_id = app_agency()) with check (agency_id = app_agency());
grant select, insert on sheet_undone to wellshown_service;

-- +goose Down
drop table sheet_undone;
