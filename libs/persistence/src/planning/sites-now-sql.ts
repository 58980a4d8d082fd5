/** Where things stand now. The site of an item is the one where it was taken in; a manifest takes it elsewhere, and its keeper tells where. */
import type { InputItem, RidingNow } from '#application';
import type { Client } from '../pool.js';
import { msOrNull } from '../stores/row.js';

function siteOf(network: string, kind: string, id: string): string {
  const at = (table: string): string => `(select x.site_id from ${table} x where x.network_id = ${network} and x.id = ${id})`;
  return `case ${kind} when 'holding' then ${at('holding_area')} when 'station' then ${at('station')} when 'shelf' then ${at('shelf')} when 'freezer' then ${at('freezer')} when 'container' then ${at('container')}
    when 'drying-place' then (select r.site_id from drying_place p join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where p.network_id = ${network} and p.id = ${id}) end`;
}

/** The site where the item of a row stands, in containers or not; null on the road and with people elsewhere. The bound keeps a circle from going on for ever. */
export function siteNow(i: string): string {
  return `case when ${i}.keeper_kind <> 'container' then ${siteOf(`${i}.network_id`, `${i}.keeper_kind`, `${i}.keeper_id`)} else (
    with recursive way (kind, id, depth) as (
      select ${i}.keeper_kind, ${i}.keeper_id, 1
      union all
      select b.keeper_kind, b.keeper_id, y.depth + 1 from way y join container b on b.network_id = ${i}.network_id and b.id = y.id where y.kind = 'container' and b.keeper_kind is not null and y.depth < 50
    ) select ${siteOf(`${i}.network_id`, 'y.kind', 'y.id')} from way y order by y.depth desc limit 1) end`;
}

const ELSEWHERE = `
  select * from (select i.id, i.site_id as own_site_id, ${siteNow('i')} as site_id from item i
    where i.network_id = $1 and i.incident_id = $2 and i.stage not in ('released', 'handed-back', 'merged', 'referred-out') and not i.missing offset 0) s
  where s.site_id is not null and s.site_id <> s.own_site_id`;

const RIDING = `
  select i.id, m.carrier_id, m.from_site_id, m.to_site_id, m.departed_at
  from manifest m
  join manifest_line l on l.network_id = m.network_id and l.manifest_id = m.id and l.loaded_at is not null and l.unloaded_at is null
  join item i on i.network_id = m.network_id and (
    (i.id = l.item_id and i.keeper_kind = 'vehicle' and i.keeper_id = m.carrier_id) or (i.keeper_kind = 'container' and i.keeper_id = l.container_id))
  where m.network_id = $1 and m.incident_id = $2 and m.carrier_kind = 'vehicle' and m.state in ('loading', 'departed')`;

/** Items with the site where they stand, and with the ride that they are on. */
export async function whereTheyAre(client: Client, of: string[], items: readonly InputItem[]): Promise<InputItem[]> {
  const { rows: elsewhere } = await client.query<{ id: string; site_id: string }>(ELSEWHERE, of);
  const { rows: riding } = await client.query<{ id: string; carrier_id: string; from_site_id: string; to_site_id: string; departed_at: Date | null }>(RIDING, of);
  const sites = new Map(elsewhere.map(({ id, site_id: siteId }) => [id, siteId]));
  const rides = new Map(riding.map((row): [string, RidingNow] => [row.id, { vehicleId: row.carrier_id, fromSiteId: row.from_site_id, toSiteId: row.to_site_id, departedAtMs: msOrNull(row.departed_at) }]));
  return items.map((item) => {
    const ride = rides.get(item.id);
    return { ...item, siteId: sites.get(item.id) ?? item.siteId, ...(ride !== undefined && { riding: ride }) };
  });
}
