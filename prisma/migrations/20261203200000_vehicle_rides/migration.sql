-- What a vehicle carries between the sites of its incident, as a coordinator was told it; nothing said is not known, and then no plan reckons with it.
alter table vehicle
  -- The rides that it makes, in their order, `[{"id": uuid, "fromSiteId": uuid, "toSiteId": uuid, "minutes": n}]`, always read and written as a
  -- whole; plans name a ride by its id. Null where nobody has said.
  add column rides jsonb check (jsonb_typeof(rides) = 'array'),
  -- When it runs, `[{"from": ms, "to": ms}]`, read and written as a whole too; none for whenever people work.
  add column runs jsonb not null default '[]' check (jsonb_typeof(runs) = 'array');
