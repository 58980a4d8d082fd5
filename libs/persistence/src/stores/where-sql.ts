/** Names of what can keep a thing, by the kind and id of `c`: code, name, and the site where it stands. */
export const KEEPER_NAMES = `
  left join lateral (
    select s.code, s.name, s.site_id from station s where c.kind = 'station' and s.network_id = $1 and s.id = c.id
    union all select h.code, h.name, h.site_id from holding_area h where c.kind = 'holding' and h.network_id = $1 and h.id = c.id
    union all select p.code, p.name || ', ' || r.name, r.site_id from drying_place p join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where c.kind = 'drying-place' and p.network_id = $1 and p.id = c.id
    union all select f.code, f.name, f.site_id from freezer f where c.kind = 'freezer' and f.network_id = $1 and f.id = c.id
    union all select s.code, s.name, s.site_id from shelf s where c.kind = 'shelf' and s.network_id = $1 and s.id = c.id
    union all select v.code, v.name, null::uuid from vehicle v where c.kind = 'vehicle' and v.network_id = $1 and v.id = c.id
    union all select b.tag_code, b.description, b.site_id from container b where c.kind = 'container' and b.network_id = $1 and b.id = c.id
    union all select s.code, s.name, null::uuid from specialist s where c.kind = 'specialist' and s.network_id = $1 and s.id = c.id
    union all select p.code, p.display_name, null::uuid from person p where c.kind = 'courier' and p.network_id = $1 and p.id = c.id
    union all select h.code, '', null::uuid from household h where c.kind = 'household' and h.network_id = $1 and h.id = c.id
  ) n on true
  left join site t on t.network_id = $1 and t.id = n.site_id`;

/** The way from each item ($3) outwards; the bound keeps a circle, which only a broken database can hold, from going on for ever. */
export const WAY_OUT = `
  with recursive way (item_id, depth, kind, id) as (
    select i.id, 1, i.keeper_kind, i.keeper_id from item i where i.network_id = $1 and i.incident_id = $2 and i.id = any($3::uuid[])
    union all
    select w.item_id, w.depth + 1, b.keeper_kind, b.keeper_id from way w join container b on b.network_id = $1 and b.id = w.id
    where w.kind = 'container' and b.keeper_kind is not null and w.depth < 50
  ) select c.item_id, c.depth, c.kind, c.id, coalesce(n.code, '') as code, coalesce(n.name, '') as name, t.name as site_name from way c ${KEEPER_NAMES} order by c.item_id, c.depth`;

export const WHEREABOUTS = `
  select i.id, i.tag_code, i.description, i.household_id, h.code as household_code, i.photograph_ref, i.photographed_on::text as photographed_on, i.stage, i.version, i.hand_over_id, i.hand_over_to_kind, i.hand_over_to_id, i.disputed, i.missing,
         i.last_seen_at, coalesce(e.occurred_at, i.arrived_at) as since
  from item i join household h on h.network_id = i.network_id and h.id = i.household_id
  left join lateral (
    select e.occurred_at from custody_event e where e.network_id = i.network_id and e.item_id = i.id and (e.from_kind is distinct from e.to_kind or e.from_id is distinct from e.to_id) order by e.seq desc limit 1
  ) e on true
  where i.network_id = $1 and i.incident_id = $2 and i.id = any($3::uuid[])`;

export const CONTENTS = `
  with recursive box (id, depth) as (
    select id, 1 from container where network_id = $1 and keeper_kind = $2 and keeper_id = $3
    union
    select c.id, b.depth + 1 from box b join container c on c.network_id = $1 and c.keeper_kind = 'container' and c.keeper_id = b.id where b.depth < 50
  ), inside as (select id, min(depth) as depth from box group by id)
  select * from (
    select 'item' as thing, i.id, i.tag_code, i.description, i.keeper_kind, i.keeper_id, 1 as depth, i.stage, i.hand_over_id, i.hand_over_to_kind, i.hand_over_to_id, i.disputed, i.missing, i.last_seen_at
    from item i where i.network_id = $1 and i.keeper_kind = $2 and i.keeper_id = $3 and ($5::uuid is null or i.id > $5)
    union all
    select 'item', i.id, i.tag_code, i.description, i.keeper_kind, i.keeper_id, b.depth + 1, i.stage, i.hand_over_id, i.hand_over_to_kind, i.hand_over_to_id, i.disputed, i.missing, i.last_seen_at
    from inside b join item i on i.network_id = $1 and i.keeper_kind = 'container' and i.keeper_id = b.id where $5::uuid is null or i.id > $5
    union all
    select 'container', c.id, c.tag_code, c.description, c.keeper_kind, c.keeper_id, b.depth, null, c.hand_over_id, c.hand_over_to_kind, c.hand_over_to_id, c.disputed, c.missing, c.last_seen_at
    from inside b join container c on c.network_id = $1 and c.id = b.id where $5::uuid is null or c.id > $5
  ) lying order by id limit $4`;
