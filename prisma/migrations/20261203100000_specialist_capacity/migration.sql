-- What a specialist can take, as a coordinator was told it; nothing said is not known, and then no plan reckons with them.
alter table specialist
  -- Things on the bench at once.
  add column pieces_at_once integer check (pieces_at_once between 1 and 500),
  -- Hours of work that a thing takes there until the next can have its place.
  add column hours_per_piece double precision check (hours_per_piece > 0 and hours_per_piece <= 720),
  -- Classes of material that they take; none for all.
  add column material_classes text[] not null default '{}',
  -- When they can take things, `[{"from": ms, "to": ms}]`, always read and written as a whole; none for whenever.
  add column openings jsonb not null default '[]' check (jsonb_typeof(openings) = 'array'),
  add column version integer not null default 1,
  add constraint specialist_capacity check ((pieces_at_once is null) = (hours_per_piece is null));

-- With whom a planned step is, where that is nobody of the hall: a specialist, or what carries it. Of two kinds, so no key stands on it.
alter table plan_assignment add column service_id uuid;
