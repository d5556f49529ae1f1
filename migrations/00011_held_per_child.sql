-- A skill that is held per child says for which child in everything that standings
-- are folded from: a withdrawal or a failure without one would be found in nobody's
-- history, and would hold nobody back.
-- +goose Up

-- +goose StatementBegin
create function held_per_child_names_the_child() returns trigger
    language plpgsql as $$
begin
    if new.client_id is null and exists (select from skill s
                                         where s.agency_id = new.agency_id and s.id = new.skill_id and s.scope = 'client-specific') then
        raise exception 'what is known of a skill that is held per child names the child'
            using errcode = 'check_violation', constraint = 'held_per_child_names_the_child';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger held_per_child_names_the_child before insert on demonstration
    for each row execute function held_per_child_names_the_child();
create trigger held_per_child_names_the_child before insert on withdrawal
    for each row execute function held_per_child_names_the_child();
create trigger held_per_child_names_the_child before insert on waiver
    for each row execute function held_per_child_names_the_child();
create trigger held_per_child_names_the_child before insert on exposure
    for each row execute function held_per_child_names_the_child();

-- +goose Down
drop trigger held_per_child_names_the_child on exposure;
drop trigger held_per_child_names_the_child on waiver;
drop trigger held_per_child_names_the_child on withdrawal;
drop trigger held_per_child_names_the_child on demonstration;
drop function held_per_child_names_the_child();
