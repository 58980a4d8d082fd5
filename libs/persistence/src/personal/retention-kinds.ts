/** What there is of each kind that goes by itself, and how it is blanked: by the same columns that an erasure blanks (see `columns.ts`). */
import type { HouseholdKind, IncidentKind } from '#application';
import { ERASED } from './columns.js';

type Blanked = Exclude<HouseholdKind, 'photographs' | 'voices' | 'records'>;

/** A table of which rows go; `whose` and `there` are conditions ($1 network, $2 household), `set` what becomes of what is there. */
interface Part {
  table: string;
  whose: string;
  there: string;
  set: string;
}

const ofHousehold = (table: string, there: string, set: string): Part => ({ table, whose: 'household_id', there, set });
const said = (column: string) => `${column} is not null and ${column} not in ('', '${ERASED}')`;
const CELLS = `(cells_sealed is not null or cells <> '{}')`;
const sealed = (table: string, column: string): Part => ofHousehold(table, `${column} is not null`, `${column} = null`);

export const KIND_PARTS: Readonly<Record<Blanked, readonly Part[]>> = {
  contacts: [
    ofHousehold('household_contact', '(sealed is not null or name is not null)', 'sealed = null, name = null, phone = null, email = null, address = null'),
    ofHousehold('consent', '(note_sealed is not null or note is not null)', 'note_sealed = null, note = null'),
  ],
  words: [
    ofHousehold('item', '(family_words_sealed is not null or family_words is not null)', 'family_words_sealed = null, family_words = null'),
    sealed('custody_words', 'sealed'),
    sealed('hand_back', 'reservations'),
    sealed('uncollected', 'reason'),
    sealed('ownership_claim', 'answers'),
  ],
  messages: [sealed('family_message', 'recipient'), sealed('unreached_address', 'address'), sealed('owner_question', 'own_words'), sealed('family_matter', 'settlement'), sealed('status_link', 'for_whom')],
  signatures: [ofHousehold('hand_back', `(signature is not null or (${said('signature_ref')}))`, `signature = null, signature_ref = case when ${said('signature_ref')} then '${ERASED}' else signature_ref end`)],
  'import-rows': [{
    table: 'intake_import_row', whose: '(select i.household_id from item i where i.network_id = intake_import_row.network_id and i.id = intake_import_row.item_id)', there: CELLS, set: `cells = '{}', cells_sealed = null, remarks = '[]'`,
  }],
};

/** Conditions on rows of the incident ($1 network, $2 incident). */
export const INCIDENT_PARTS: Readonly<Record<IncidentKind, readonly Omit<Part, 'whose'>[]>> = {
  'refused-rows': [
    { table: 'intake_import_row', there: `item_id is null and ${CELLS}`, set: `cells = '{}', cells_sealed = null, remarks = '[]'` },
    { table: 'intake_import', there: said('file_name'), set: `file_name = '${ERASED}'` },
  ],
  'staff-notes': [
    { table: 'alarm', there: said('acknowledged_note'), set: `acknowledged_note = '${ERASED}'` },
    { table: 'container', there: said('description'), set: `description = '${ERASED}'` },
  ],
};

/** Rows that are counted and not blanked here: what holds a household back, files, and whether anything is known of it at all. */
const COUNTED: readonly (readonly [string, string, string])[] = [
  ['photographs', 'file', `kind = 'photograph' and state <> 'deleted'`],
  ['voices', 'file', `kind = 'voice' and state <> 'deleted'`],
  ['words', 'file', `kind = 'words' and state <> 'deleted'`],
  ['items', 'item', 'true'],
  ['held', 'item', `stage not in ('released', 'handed-back', 'merged')`],
  ['on-hold', 'household_hold', 'lifted_at is null'],
  ['questions', 'owner_question', `state = 'open'`],
  ['matters', 'family_matter', 'settled_at is null'],
  ['claims', 'ownership_claim', `state = 'open'`],
  ['erased', 'household_erasure', 'true'],
];

/** Counts by household and name, for the households that the first condition picks out ($1 network, then its own). */
export function countsSql(households: string): string {
  const counted = COUNTED.map(([name, table, there]) => countOf(name, { table, whose: 'household_id', there }));
  const kinds = Object.entries(KIND_PARTS).flatMap(([kind, parts]) => parts.map((part) => (part.table === 'intake_import_row' ? ROWS_OF_THINGS : countOf(kind, part))));
  return `with h as materialized (${households}) select h.id, c.name, c.n from h left join (${[...counted, ...kinds].join(' union all ')}) c on c.household_id = h.id order by h.id`;
}

function countOf(name: string, { table, whose, there }: Omit<Part, 'set'>): string {
  return `select ${whose} as household_id, '${name}' as name, count(*)::int as n from ${table} where network_id = $1 and ${whose} in (select id from h) and ${there} group by 1`;
}

const ROWS_OF_THINGS = `select i.household_id, 'import-rows' as name, count(*)::int as n from intake_import_row r join item i on i.network_id = r.network_id and i.id = r.item_id
  where r.network_id = $1 and i.household_id in (select id from h) and (r.cells_sealed is not null or r.cells <> '{}') group by 1`;
