/**
 * Things by the words that stand with them. Every statement looks only through equality and ranges of `item_word.word`, which is "C"
 * text, because below a policy no other operator may use an index; and every look is bounded, so that what it costs does not grow
 * with the incident: the word that fewest things have leads, and at most `CANDIDATES` of them are looked at, the newest first.
 */
import type { FoundItems, WordGroups } from '#application';
import type { Client } from '../pool.js';

/** Own choice: some milliseconds of looking. Who gets `more` names one word more. */
const CANDIDATES = 2_000;
/** Words that a beginning may stand for; own choice, as each is looked up by itself. */
const BEGINNINGS = 12;
/** Above every character that can follow the beginning of a word. */
const BEYOND = '\u{10FFFF}';

/** Words that stand for one of the question. */
interface Term {
  words: readonly string[];
  /** Things that have it, counted no further than one above the bound. */
  things: number;
  /** Not all words that begin so are among them. */
  cut: boolean;
}

export async function findByWords(client: Client, networkId: string, incidentId: string, groups: WordGroups, limit: number): Promise<FoundItems> {
  const terms: Term[] = [];
  for (const words of groups) {
    const term = await termOf(client, networkId, incidentId, words);
    if (term.things === 0) return { itemIds: [], more: false };
    terms.push(term);
  }
  const [lead, ...others] = terms.sort((a, b) => a.things - b.things);
  if (!lead) return { itemIds: [], more: false };
  const rows = await candidates(client, networkId, incidentId, lead, others, limit + 1);
  return { itemIds: rows.slice(0, limit), more: rows.length > limit || lead.things > CANDIDATES || terms.some(({ cut }) => cut) };
}

/** The words themselves, or, where nothing has them, those that begin so. */
async function termOf(client: Client, networkId: string, incidentId: string, words: readonly string[]): Promise<Term> {
  const things = await count(client, networkId, incidentId, words);
  if (things > 0) return { words, things, cut: false };
  const begun = await beginningWith(client, networkId, incidentId, words[0] ?? '');
  const taken = begun.slice(0, BEGINNINGS);
  return { words: taken, things: taken.length === 0 ? 0 : await count(client, networkId, incidentId, taken), cut: begun.length > taken.length };
}

/** Steps from one word to the next one, so that a word that a million things have costs one look. */
async function beginningWith(client: Client, networkId: string, incidentId: string, beginning: string): Promise<string[]> {
  const next = (above: string) => `(select w.word from item_word w where w.network_id = $1 and w.incident_id = $2 and w.word ${above} and w.word < $4 order by w.word limit 1)`;
  const { rows } = await client.query<{ word: string }>({
    name: 'words_beginning',
    text: `with recursive begun (word, place) as (
             select ${next('>= $3')}, 1
             union all
             select ${next('> begun.word')}, begun.place + 1 from begun where begun.word is not null and begun.place <= ${BEGINNINGS}
           ) select word from begun where word is not null order by word`,
    values: [networkId, incidentId, beginning, `${beginning}${BEYOND}`],
  });
  return rows.map((row) => row.word);
}

async function count(client: Client, networkId: string, incidentId: string, words: readonly string[]): Promise<number> {
  const { rows } = await client.query<{ things: number }>({
    name: 'word_count',
    text: `select count(*)::int as things from (select 1 from item_word w where w.network_id = $1 and w.incident_id = $2 and w.word = any($3::text[]) limit ${CANDIDATES + 1}) bounded`,
    values: [networkId, incidentId, words],
  });
  return rows[0]?.things ?? 0;
}

async function candidates(client: Client, networkId: string, incidentId: string, lead: Term, others: readonly Term[], limit: number): Promise<string[]> {
  const { rows } = await client.query<{ item_id: string }>({
    name: `by_words_${others.length + 1}`,
    text: candidatesSql(others.length),
    values: [networkId, incidentId, limit, lead.words, ...others.map(({ words }) => words)],
  });
  return rows.map((row) => row.item_id);
}

/** For tests of its plan, too. */
export function candidatesSql(others: number): string {
  const rest = Array.from({ length: others }, (_, index) => `exists (select 1 from item_word o where o.network_id = $1 and o.incident_id = $2 and o.word = any($${index + 5}::text[]) and o.item_id = c.item_id)`);
  return `select distinct c.item_id from (
      select w.item_id from item_word w where w.network_id = $1 and w.incident_id = $2 and w.word = any($4::text[]) order by w.word desc, w.item_id desc limit ${CANDIDATES}
    ) c ${rest.length === 0 ? '' : `where ${rest.join(' and ')}`} order by c.item_id desc limit $3`;
}
