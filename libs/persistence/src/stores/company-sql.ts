import { WALL_OF_CONTAINER } from '#care';
import { stillDone } from '../planning/item-input-sql.js';

/** What the rules about company ask of the item `i`. A triage result is long, so only its parts leave the database. */
function asked(wall: string): string {
  return `i.id as "itemId", i.tag_code as "tagCode", i.material_class as "materialClass", coalesce(t.apart, '[]'::jsonb) as "apartFrom", t.bath_group as "bathGroup",
         coalesce(t.hazards, '[]'::jsonb) as hazards, i.stage = 'in-work' and i.next_step is not distinct from 'rinse' as "inBath", ${wall} as wall,
         exists (select 1 from step_result d where d.network_id = i.network_id and d.item_id = i.id and d.step = 'rinse' and ${stillDone('d')}) as rinsed,
         exists (select 1 from step_result d where d.network_id = i.network_id and d.item_id = i.id and d.step = 'wrap' and ${stillDone('d')}) as sealed`;
}

/** The newest result is chosen first and unpacked from its storage once: the path `$` answers the whole of it, and `offset 0` keeps that from being done for every mention. */
const LATEST_TRIAGE = `select u.result->'apartFrom' as apart, u.result->>'bathGroup' as bath_group, u.hazards from (
    select jsonb_path_query_first(n.result, '$') as result, a.observed->'hazards' as hazards
    from (select * from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1) n
    left join assessment a on a.network_id = n.network_id and a.id = n.assessment_id offset 0
  ) u`;

const OPEN_KINDS = Object.entries(WALL_OF_CONTAINER).filter(([, wall]) => wall === 'open').map(([kind]) => `'${kind}'`).join(', ');

/** The things at a place ($2, $3), in containers there too: a container that closes hides what is in it, however many open ones are around. */
export const COMPANIONS = `
  with recursive box (id, closed, depth) as (
    select id, kind not in (${OPEN_KINDS}), 1 from container where network_id = $1 and keeper_kind = $2 and keeper_id = $3
    union
    select c.id, b.closed or c.kind not in (${OPEN_KINDS}), b.depth + 1 from box b join container c on c.network_id = $1 and c.keeper_kind = 'container' and c.keeper_id = b.id where b.depth < 50
  ), here as (
    select id, 0 as walls from item where network_id = $1 and keeper_kind = $2 and keeper_id = $3
    union all
    select i.id, case when b.closed then 2 else 1 end from (select distinct id, closed from box) b join item i on i.network_id = $1 and i.keeper_kind = 'container' and i.keeper_id = b.id
  ), near as (select id, walls from here order by walls, id limit $4)
  select ${asked("(array['none', 'open', 'closed'])[n.walls + 1]")}
  from near n join item i on i.network_id = $1 and i.id = n.id left join lateral (${LATEST_TRIAGE}) t on true order by n.walls, i.id`;

export const COMPANION = `select ${asked("'none'")} from item i join lateral (${LATEST_TRIAGE}) t on true where i.network_id = $1 and i.id = $2`;
