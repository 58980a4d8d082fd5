/**
 * Takes the turn of the one relay that may lease ($1 is the lock), and steers the planner for this transaction: the
 * policies on the outbox are opaque to it, so that it expects a two-hundredth of the rows there are, and would read
 * and sort a whole backlog for the few rows that it needs instead of walking the index.
 */
export const TAKE_TURN = `
  select pg_try_advisory_xact_lock($1) as mine,
         set_config('enable_seqscan', 'off', true), set_config('enable_bitmapscan', 'off', true), set_config('enable_sort', 'off', true),
         set_config('enable_hashjoin', 'off', true), set_config('enable_mergejoin', 'off', true)`;

/**
 * Leases due rows: of every network that has open rows at most `$1` minus those it already has out. The networks are
 * walked along the partial index `outbox_open`, one step each, instead of by `distinct`, whose cost would grow with
 * the backlog. `skip locked` passes over rows whose handler is just committing.
 */
export const LEASE = `
  with recursive waiting as (
    (select network_id from outbox where done_at is null and dead_at is null order by network_id limit 1)
    union all
    select (select o.network_id from outbox o
             where o.done_at is null and o.dead_at is null and o.network_id > w.network_id
             order by o.network_id limit 1)
    from waiting w where w.network_id is not null
  ),
  due as (
    select d.network_id, d.id
    from waiting w
    cross join lateral (
      select o.network_id, o.id
      from outbox o
      where o.network_id = w.network_id and o.done_at is null and o.dead_at is null and o.tries < $2
        and (o.leased_until is null or o.leased_until < statement_timestamp()) and (o.not_before is null or o.not_before < statement_timestamp())
      order by o.network_id, o.id
      limit (select greatest(0, $1 - count(*)) from outbox away
              where away.network_id = w.network_id and away.done_at is null and away.dead_at is null
                and away.leased_until is not null and away.leased_until >= statement_timestamp())
      for update skip locked) d
    where w.network_id is not null
  )
  update outbox o set leased_until = clock_timestamp() + $3 * interval '1 ms'
  from due
  where o.network_id = due.network_id and o.id = due.id
  returning o.network_id, o.id as outbox_id, o.tries`;

/** Open rows that have begun `$1` runs and whose last one has ended or broken off. A begun row has had a lease. */
export const EXHAUSTED = `
  select network_id, id as outbox_id, tries, incident_id, kind, subject_id, traceparent
  from outbox
  where done_at is null and dead_at is null and leased_until is not null and leased_until < statement_timestamp() and tries >= $1
  order by network_id, id
  limit $2`;

/**
 * Removes up to `$2` of the rows that were done more than `$1` milliseconds ago, the oldest first, along the partial
 * index `outbox_done`. Relays that prune at the same moment pass over each other's rows. The rows are chosen once and
 * kept: a subquery on the inner side of a nested loop is asked again after each row that is gone, and chooses another.
 */
export const PRUNE = `
  with old as materialized (
    select network_id, id from outbox
    where done_at is not null and done_at < statement_timestamp() - $1 * interval '1 ms'
    order by done_at limit $2 for update skip locked)
  delete from outbox o using old
  where o.network_id = old.network_id and o.id = old.id and o.done_at is not null`;

/**
 * Removes up to `$2` of the answers to commands that are older than `$1` milliseconds, of any network. The policy keeps those of the last
 * day, whatever is asked for.
 */
export const FORGET = `
  with old as materialized (
    select network_id, principal_id, operation, idempotency_key from idempotency_record where created_at < statement_timestamp() - $1 * interval '1 ms' limit $2)
  delete from idempotency_record r using old
  where r.network_id = old.network_id and r.principal_id = old.principal_id and r.operation = old.operation and r.idempotency_key = old.idempotency_key`;

/** A row that lies ahead of its time is not open yet, and its age counts from then. */
export const STANDING = `
  select (select count(*) from outbox where done_at is null and dead_at is null and (not_before is null or not_before < statement_timestamp())) as open,
         (select extract(epoch from clock_timestamp() - min(greatest(created_at, not_before)))::float8 from outbox
           where done_at is null and dead_at is null and (not_before is null or not_before < statement_timestamp())) as oldest_open_age_s,
         (select count(*) from outbox where dead_at is not null and done_at is null) as dead`;

export const DEAD = `
  select network_id, id as outbox_id, tries, incident_id, kind, subject_id, traceparent, dead_at, dead_reason
  from outbox
  where dead_at is not null and done_at is null and ($2::uuid is null or (network_id, id) > ($2, $3::uuid))
  order by network_id, id
  limit $1`;
