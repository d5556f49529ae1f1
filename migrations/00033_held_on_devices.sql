-- What a device says it holds that the office does not have: sheets that are finished and
-- not sent, refused ones, and open ones. It is a report, not a record: the newest stands.
-- +goose Up
alter table device_use
    add column finished smallint,
    add column refused  smallint,
    add column opened   smallint,
    add column told_at  timestamptz,
    add constraint device_use_tells_all_or_nothing check (num_nulls(finished, refused, opened, told_at) in (0, 4)),
    add constraint device_use_counts_sheets check (finished >= 0 and finished <= 9999 and refused >= 0 and refused <= 9999 and opened >= 0 and opened <= 9999);
comment on table device_use is 'when a device was last used, which never goes back, and what it last said that it holds';
comment on column device_use.finished is 'sheets that are finished there and were not sent yet';
comment on column device_use.refused is 'sheets that the office did not take in';
comment on column device_use.opened is 'sheets that are being marked';
grant update (finished, refused, opened, told_at) on device_use to wellshown_service;

-- +goose Down
alter table device_use drop column finished, drop column refused, drop column opened, drop column told_at;
comment on table device_use is 'when a device was last used; it never goes back';
