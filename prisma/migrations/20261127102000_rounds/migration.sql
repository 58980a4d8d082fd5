-- Rounds of work: a thing that gets wet again, thaws or comes back from a specialist is worked on anew.

-- What was done before this result and counts as done no longer. The rule that fills it is code (care/done-steps.ts,
-- care/wet-again.ts); whoever reads only looks whether a later result of the thing names the step.
alter table step_result add column undoes text[] collate "C" not null default '{}';

-- Found by a look at a thing that had been dried.
alter table step_result drop constraint step_result_outcome_check;
alter table step_result add constraint step_result_outcome_check check (outcome in ('done', 'failed', 'dye-moved', 'mould-found', 'owner-must-decide', 'wetted-again'));

-- So far a thaw and a stay with a specialist began a new round by what they are. The owner is bound by the policies too, so they
-- are lifted for this statement.
alter table step_result no force row level security;
update step_result
   set undoes = '{tag,photograph,assess,colour-test,stabilise,rinse,blot,dry,check,surface-clean,wrap,freeze,thaw,refer,release,pack,hand-back}'
 where outcome = 'done' and step in ('thaw', 'refer');
alter table step_result force row level security;
