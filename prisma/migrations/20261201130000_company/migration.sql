-- A word of an owner that came after the thing went to a partner network, or back from it: told there, and somebody sees to it.
-- The kinds that stand so far and this one.
do $$
declare
  kinds text;
begin
  select pg_get_expr(conbin, conrelid) into strict kinds from pg_constraint where conrelid = 'family_matter'::regclass and conname = 'family_matter_kind_check';
  alter table family_matter drop constraint family_matter_kind_check;
  execute format('alter table family_matter add constraint family_matter_kind_check check (%s or kind in (''partner-word'', ''partner-not-told''))', kinds);
end
$$;
