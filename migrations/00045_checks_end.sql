-- A knowledge check that was begun comes to an end: what is handed in later is no pass. The
-- rule says how long it is open, and each result keeps by how long it was judged, so that
-- what was handed in before there were ends is judged again as it was then.
-- +goose Up
alter table knowledge_rule add column open_minutes smallint;
alter table knowledge_rule add constraint knowledge_rule_open_is_possible check (open_minutes >= 10 and open_minutes <= 1440);
comment on column knowledge_rule.open_minutes is 'from beginning to handing in; null: set before checks had an end, and the usual time holds for what is not handed in yet';
alter table knowledge_result add column open_minutes smallint;
alter table knowledge_result add constraint knowledge_result_open_is_possible check (open_minutes >= 10 and open_minutes <= 1440);
comment on column knowledge_result.open_minutes is 'by how long an open time it was judged; null: handed in before checks had an end';
-- what asked an item is looked for among the sittings of its skill alone
create index knowledge_sitting_of_skill on knowledge_sitting (agency_id, skill_id);

-- +goose Down
drop index knowledge_sitting_of_skill;
alter table knowledge_result drop column open_minutes;
alter table knowledge_rule drop column open_minutes;
