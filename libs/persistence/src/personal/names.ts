/** Words of our people about rooms, boxes and files, which belong to no household and may name one all the same. */
import type { Client } from '../pool.js';
import { ERASED } from './columns.js';

export interface Named {
  networkId: string;
  incidentId: string;
  code: string;
  name: string;
  itemIds: string[];
}

/** Words in names that are nobody's own, in the languages that families are written in; shorter ones than three letters do not count either. */
const NOBODYS = new Set(['the', 'and', 'family', 'house', 'household', 'mrs', 'miss', 'contact', 'familia', 'casa', 'hogar', 'los', 'las', 'del', 'señor', 'señora', 'don', 'doña', 'van', 'von', 'der', 'den']);

export const plain = (text: string): string => text.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim();

/**
 * `whole` finds the code or the full name, `part` also a single word of the name. A part may be an everyday word ("Brown"), so it is looked for only where
 * things of the household were or nothing is lost by it.
 */
export function namesIn({ code, name }: Pick<Named, 'code' | 'name'>): { whole(text: string): boolean; part(text: string): boolean } {
  const sought = [code, name].map(plain).filter((one) => one !== '');
  const words = new Set(wordsOf(name).filter((word) => word.length > 2 && !NOBODYS.has(word)));
  const whole = (text: string): boolean => sought.some((one) => plain(text).includes(one));
  return { whole, part: (text) => whole(text) || wordsOf(text).some((word) => words.has(word)) };
}

const wordsOf = (text: string): string[] => plain(text).split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');

/** Blanks notes on alarms, words on containers and names of files where they name the household, or are about nobody else. Answers whose they were. */
export async function blankNamed(client: Client, named: Named): Promise<string[]> {
  const names = namesIn(named);
  const place = [named.networkId, named.incidentId];
  const alarms = await client.query<{ id: string; said: string }>(`select id, acknowledged_note as said from alarm where network_id = $1 and incident_id = $2 and acknowledged_note <> ''`, place);
  const notes = await blank(client, named, 'alarm', `acknowledged_note = '${ERASED}', version = version + 1`, alarms.rows.filter(({ said }) => names.part(said)));
  const boxes = await client.query<{ id: string; said: string; theirs: boolean; empty: boolean }>(
    `select c.id, c.description as said,
       exists (select from custody_event e where e.network_id = c.network_id and e.item_id = any($3::uuid[]) and e.to_kind = 'container' and e.to_id = c.id) as theirs,
       not exists (select from item i where i.network_id = c.network_id and i.keeper_kind = 'container' and i.keeper_id = c.id) as empty
     from container c where c.network_id = $1 and c.incident_id = $2 and c.description <> ''`,
    [...place, named.itemIds],
  );
  const words = await blank(client, named, 'container', `description = '${ERASED}', version = version + 1`, boxes.rows.filter(({ said, theirs, empty }) => (theirs ? empty || names.part(said) : names.whole(said))));
  const files = await client.query<{ id: string; said: string; theirs: boolean }>(
    `select m.id, m.file_name as said, coalesce((select bool_and(r.item_id is not null and r.item_id = any($3::uuid[])) from intake_import_row r where r.network_id = m.network_id and r.import_id = m.id), false) as theirs
     from intake_import m where m.network_id = $1 and m.incident_id = $2 and m.file_name <> ''`,
    [...place, named.itemIds],
  );
  return [...notes, ...words, ...(await blank(client, named, 'intake_import', `file_name = '${ERASED}'`, files.rows.filter(({ said, theirs }) => theirs || names.part(said))))];
}

async function blank(client: Client, { networkId }: Named, table: 'alarm' | 'container' | 'intake_import', set: string, rows: readonly { id: string }[]): Promise<string[]> {
  const ids = rows.map(({ id }) => id);
  if (ids.length > 0) await client.query(`update ${table} set ${set} where network_id = $1 and id = any($2::uuid[])`, [networkId, ids]);
  return ids;
}
