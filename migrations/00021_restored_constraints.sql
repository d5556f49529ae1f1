-- Two constraints, said so that a database that was dumped and restored says them
-- alike: PostgreSQL reads "between … and" back in another shape than it wrote it.
-- +goose Up
alter table criterion drop constraint criterion_numbers_are_plain,
    add constraint criterion_numbers_are_plain check (people >= 0 and people <= 20 and hours >= 0 and hours <= 2000);
alter table ledger_node drop constraint ledger_node_is_above_the_leaves,
    add constraint ledger_node_is_above_the_leaves check (level >= 1 and level <= 62 and place >= 0);

-- +goose Down
alter table criterion drop constraint criterion_numbers_are_plain,
    add constraint criterion_numbers_are_plain check (people between 0 and 20 and hours between 0 and 2000);
alter table ledger_node drop constraint ledger_node_is_above_the_leaves,
    add constraint ledger_node_is_above_the_leaves check (level between 1 and 62 and place >= 0);
