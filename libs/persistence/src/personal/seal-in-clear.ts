import type { HouseholdContact, PersonalStore } from '#application';
import type { Client } from '../pool.js';
import { familyWordsField, keepFamilyWords } from '../stores/family-words.js';
import { noteField } from '../stores/pg-consent-store.js';
import { CONTACT_FIELD, contactText, keepContactWords } from '../stores/pg-household-store.js';
import { cellsField } from '../stores/pg-import-store.js';

interface Step {
  client: Client;
  personal: PersonalStore;
  networkId: string;
  incidentId: string;
  /** At most so many rows of each table. */
  rows: number;
}

/** Seals some rows that still stand in the clear, and locks only those; answers how many. */
export async function sealInClear(step: Step): Promise<number> {
  return (await contacts(step)) + (await contactWordsOf(step)) + (await consents(step)) + (await words(step)) + (await importRows(step));
}

async function contacts({ client, personal, networkId, incidentId, rows: limit }: Step): Promise<number> {
  const { rows } = await client.query<Record<keyof HouseholdContact, string | null> & { household_id: string }>(
    `select household_id, name, phone, email, address from household_contact where network_id = $1 and incident_id = $2 and sealed is null and name is not null order by household_id limit $3 for update`,
    [networkId, incidentId, limit],
  );
  for (const { household_id: id, name, phone, email, address } of rows) {
    const sealed = await personal.seal(id, CONTACT_FIELD, contactText({ name: name ?? '', phone: phone ?? '', email: email ?? '', address: address ?? '' }));
    await client.query('update household_contact set sealed = $3, name = null, phone = null, email = null, address = null where network_id = $1 and household_id = $2', [networkId, id, sealed]);
  }
  return rows.length;
}

/** Contacts that were sealed before there were words to find them by. One that was erased has none. */
async function contactWordsOf({ client, personal, networkId, incidentId, rows: limit }: Step): Promise<number> {
  const { rows } = await client.query<{ household_id: string; sealed: Uint8Array }>(
    'select household_id, sealed from household_contact where network_id = $1 and incident_id = $2 and not words_kept and sealed is not null order by household_id limit $3 for update',
    [networkId, incidentId, limit],
  );
  const texts = await personal.openAll(rows.map(({ household_id: householdId, sealed }) => ({ householdId, field: CONTACT_FIELD, sealed })));
  for (const [index, { household_id: id }] of rows.entries()) {
    const text = texts[index];
    if (typeof text === 'string') await keepContactWords(client, personal, { networkId, incidentId, id }, JSON.parse(text) as HouseholdContact);
    await client.query('update household_contact set words_kept = true where network_id = $1 and household_id = $2', [networkId, id]);
  }
  return rows.length;
}

async function consents({ client, personal, networkId, incidentId, rows: limit }: Step): Promise<number> {
  const { rows } = await client.query<{ id: string; household_id: string; note: string }>('select id, household_id, note from consent where network_id = $1 and incident_id = $2 and note is not null order by id limit $3 for update', [networkId, incidentId, limit]);
  for (const { id, household_id: householdId, note } of rows) {
    await client.query('update consent set note = null, note_sealed = $3 where network_id = $1 and id = $2', [networkId, id, note === '' ? null : await personal.seal(householdId, noteField(id), note)]);
  }
  return rows.length;
}

async function words({ client, personal, networkId, incidentId, rows: limit }: Step): Promise<number> {
  const { rows } = await client.query<{ id: string; household_id: string; family_words: string }>(
    'select id, household_id, family_words from item where network_id = $1 and incident_id = $2 and family_words is not null order by id limit $3 for update',
    [networkId, incidentId, limit],
  );
  for (const { id, household_id: householdId, family_words: said } of rows) {
    // The trigger takes the clear words out of the index when they are gone.
    await client.query('update item set family_words = null, family_words_sealed = $3 where network_id = $1 and id = $2', [networkId, id, said === '' ? null : await personal.seal(householdId, familyWordsField(id), said)]);
    await keepFamilyWords(client, personal, { networkId, incidentId, id }, '', said);
  }
  return rows.length;
}

async function importRows({ client, personal, networkId, incidentId, rows: limit }: Step): Promise<number> {
  const { rows } = await client.query<{ import_id: string; row_number: number; cells: object }>(
    'select import_id, row_number, cells from intake_import_row where network_id = $1 and incident_id = $2 and cells is not null and cells <> $4 order by import_id, row_number limit $3 for update',
    [networkId, incidentId, limit, '{}'],
  );
  for (const { import_id: importId, row_number: row, cells } of rows) {
    await client.query('update intake_import_row set cells = null, cells_sealed = $4 where network_id = $1 and import_id = $2 and row_number = $3', [networkId, importId, row, await personal.seal(null, cellsField(importId, row), JSON.stringify(cells))]);
  }
  return rows.length;
}
