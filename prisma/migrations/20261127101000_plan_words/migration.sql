-- Sentences about a plan run and an intake file are kept as what they say and with which values, so that each reader gets them in
-- their own language. The text is the English sentence: with values it is their pattern, without it is the sentence itself, which
-- is what stood here before.
alter table plan_run
  add column reason_values jsonb,
  add column failure_values jsonb;
alter table intake_import
  add column failure_values jsonb;
