import { personalField, type PersonalStore } from '#application';
import type { Client } from '../pool.js';
import { familyWordsField } from './family-words.js';
import { custodyWordsField } from './pg-custody-store.js';

/** A locked item that is to be another household's. */
interface Given {
  networkId: string;
  itemId: string;
  householdId: string;
}

/**
 * Seals for another household what was sealed about an item for the one that it belonged to: otherwise an erasure would reach none of it, and a copy of the
 * household's data would lack it. Files go with their keys; what lies outside stays as it is. The item itself is changed by the caller.
 */
export async function sealAnew(client: Client, personal: PersonalStore, given: Given): Promise<void> {
  await familyWords(client, personal, given);
  await passingWords(client, personal, given);
  await files(client, personal, given);
}

async function familyWords(client: Client, personal: PersonalStore, { networkId, itemId, householdId }: Given): Promise<void> {
  const { rows } = await client.query<{ household_id: string; family_words_sealed: Uint8Array | null }>('select household_id, family_words_sealed from item where network_id = $1 and id = $2', [networkId, itemId]);
  const sealed = await again(personal, rows[0]?.household_id ?? '', householdId, familyWordsField(itemId), rows[0]?.family_words_sealed ?? null);
  if (sealed !== null) await client.query('update item set family_words_sealed = $3 where network_id = $1 and id = $2', [networkId, itemId, sealed]);
}

async function passingWords(client: Client, personal: PersonalStore, { networkId, itemId, householdId }: Given): Promise<void> {
  const { rows } = await client.query<{ seq: number; household_id: string; sealed: Uint8Array | null }>('select seq, household_id, sealed from custody_words where network_id = $1 and chain_id = $2 and household_id is not null order by seq', [networkId, itemId]);
  for (const { seq, household_id: was, sealed } of rows) {
    const anew = await again(personal, was, householdId, custodyWordsField(itemId, seq), sealed);
    await client.query('update custody_words set household_id = $4, sealed = $5 where network_id = $1 and chain_id = $2 and seq = $3', [networkId, itemId, seq, householdId, anew]);
  }
}

/** Locked, so that an upload under way goes on with the new household. */
async function files(client: Client, personal: PersonalStore, { networkId, itemId, householdId }: Given): Promise<void> {
  const { rows } = await client.query<{ id: string; household_id: string; deleted_reason: Uint8Array | null }>('select id, household_id, deleted_reason from file where network_id = $1 and item_id = $2 order by id for update', [networkId, itemId]);
  for (const { id, household_id: was, deleted_reason: reason } of rows) {
    const anew = await again(personal, was, householdId, personalField('file.deleted_reason', id), reason);
    await client.query('update file set household_id = $3, deleted_reason = $4 where network_id = $1 and id = $2', [networkId, id, householdId, anew]);
    const { rows: objects } = await client.query<{ name: string; content_key: Uint8Array }>('select name, content_key from file_object where network_id = $1 and file_id = $2 order by name for update', [networkId, id]);
    for (const { name, content_key: key } of objects) {
      const keyAnew = await again(personal, was, householdId, personalField('file_object.content_key', name), key);
      await client.query('update file_object set content_key = $3 where network_id = $1 and name = $2', [networkId, name, keyAnew]);
    }
  }
}

async function again(personal: PersonalStore, was: string, is: string, field: string, sealed: Uint8Array | null): Promise<Uint8Array | null> {
  const text = await personal.open(was, field, sealed);
  return text === null ? null : personal.seal(is, field, text);
}
