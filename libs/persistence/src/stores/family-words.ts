/**
 * What a family says of a thing. It is sealed for its household, and found by whole words: each word stands in `item_word` as a blind word. The
 * description is what our people see ("quilt, red and white"), not the family's word, and stays in the clear, because lists, plans and searches by the
 * beginning of a word need it; an erasure blanks it.
 */
import { personalField, type PersonalStore } from '#application';
import type { Client } from '../pool.js';

/** Marks a blind word among the words of things; no word of a text begins so, because it is punctuation to `search_words`. */
const BLIND = '~';
const PURPOSE = 'item_word';

interface SealedWords {
  id?: string;
  item_id?: string;
  household_id: string;
  family_words: string | null;
  family_words_sealed: Uint8Array | null;
}

export const familyWordsField = (itemId: string): string => personalField('item.family_words', itemId);

/** In the order given; blank where nothing is known (any more). */
export async function openFamilyWords(personal: PersonalStore, rows: readonly SealedWords[]): Promise<string[]> {
  const opened = await personal.openAll(rows.map((row) => ({ householdId: row.household_id, field: familyWordsField(row.id ?? row.item_id ?? ''), sealed: row.family_words_sealed })));
  return rows.map((row, index) => opened[index] ?? row.family_words ?? '');
}

/** Null for no words. */
export async function sealFamilyWords(personal: PersonalStore, item: { id: string; householdId: string }, words: string): Promise<Uint8Array | null> {
  return words === '' ? null : personal.seal(item.householdId, familyWordsField(item.id), words);
}

/** Makes the thing found by the words that are new, and no longer by those that are gone. */
export async function keepFamilyWords(client: Client, personal: PersonalStore, item: { networkId: string; incidentId: string; id: string }, before: string, after: string): Promise<void> {
  if (before === after) return;
  const { rows } = await client.query<{ fresh: string[]; gone: string[] }>({
    name: 'family_words_changed',
    text: 'select array(select unnest(search_words($2)) except select unnest(search_words($1))) as fresh, array(select unnest(search_words($1)) except select unnest(search_words($2))) as gone',
    values: [before, after],
  });
  const fresh = withBeginnings(rows[0]?.fresh ?? []);
  const gone = withBeginnings(rows[0]?.gone ?? []).filter((word) => !fresh.includes(word));
  const place = [item.networkId, item.incidentId, item.id];
  if (gone.length > 0) await client.query('delete from item_word where network_id = $1 and incident_id = $2 and item_id = $3 and word = any($4::text[])', [...place, (await personal.blindToKeep(PURPOSE, gone)).map(asWord)]);
  if (fresh.length > 0) await client.query('insert into item_word (network_id, incident_id, item_id, word) select $1, $2, $3, unnest($4::text[]) on conflict do nothing', [...place, (await personal.blindToKeep(PURPOSE, fresh)).map(asWord)]);
}

/** Scripts that are written without spaces: a whole run of them is one word, and is looked for by its beginning. */
const WITHOUT_SPACES = /\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Thai}|\p{Script=Lao}|\p{Script=Khmer}|\p{Script=Myanmar}/u;

/** A blind word is found whole only. */
function withBeginnings(words: readonly string[]): string[] {
  return [...new Set(words.flatMap((word) => {
    if (!WITHOUT_SPACES.test(word)) return [word];
    const letters = [...word];
    return letters.map((_, index) => letters.slice(0, index + 1).join(''));
  }))];
}

/** Each group of words with their blind forms beside them. */
export async function withBlindWords(personal: PersonalStore, groups: readonly (readonly string[])[]): Promise<string[][]> {
  const blind = await personal.blindToFind(PURPOSE, groups.flat());
  let next = 0;
  return groups.map((words) => [...words, ...words.map(() => asWord(blind[next++] as Uint8Array))]);
}

const asWord = (bytes: Uint8Array): string => `${BLIND}${Buffer.from(bytes).toString('base64url')}`;
