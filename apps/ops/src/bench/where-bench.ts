/** What "where is it?" costs in a large incident, as a multiple of a small one: through HTTP, on rows put in by the owner in bulk. */
import pg from 'pg';
import { formatTagCode, makeTagCode } from '#custody';
import type { BenchClient, BenchWorld } from './world.js';

const CHUNK = 20_000;
/** Serials far above those that the bench reserves through the API. */
const FIRST_SERIAL = 1_000_000;

/** Twenty of each, so that every word stands with a twentieth of all things and three of them with one in 8,000. */
const COLOURS = ['red', 'blue', 'green', 'white', 'black', 'brown', 'grey', 'yellow', 'purple', 'orange', 'pink', 'golden', 'silver', 'striped', 'checked', 'plain', 'spotted', 'faded', 'dark', 'light'];
const STUFFS = ['woollen', 'linen', 'cotton', 'silken', 'paper', 'leather', 'oaken', 'pine', 'brass', 'iron', 'glass', 'straw', 'velvet', 'felt', 'hemp', 'wicker', 'bone', 'tin', 'clay', 'cork'];
const THINGS = ['quilt', 'letter', 'album', 'coat', 'dress', 'book', 'box', 'chair', 'clock', 'doll', 'drum', 'fan', 'flag', 'frame', 'glove', 'hat', 'lamp', 'map', 'rug', 'shawl'];

/** Items with valid tags and the words by which they are found. */
export async function fillForSearch(ownerUrl: string, networkId: string, world: BenchWorld, count: number): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    // Without triggers and keys to check: the words are put in at once, by the same function that keeps them.
    await client.query('set session_replication_role = replica');
    const block = await client.query<{ id: string }>(
      "insert into tag_block (network_id, incident_id, id, kind, first_serial, last_serial, reserved_for, created_at) values ($1, $2, uuidv7(), 'item', $3, $4, 'bench', now()) returning id",
      [networkId, world.incidentId, FIRST_SERIAL, FIRST_SERIAL + count - 1],
    );
    for (let from = 0; from < count; from += CHUNK) await fillChunk(client, networkId, world, block.rows[0]?.id ?? '', from, Math.min(CHUNK, count - from));
    await client.query(
      `insert into item_word (network_id, incident_id, word, item_id)
       select i.network_id, i.incident_id, w.word, i.id from item i cross join lateral unnest(words_of_item(i.description, coalesce(i.family_words, ''), i.photograph_ref, i.photographed_on)) as w (word)
       where i.network_id = $1 and i.incident_id = $2 order by 3, 4`,
      [networkId, world.incidentId],
    );
    await client.query('vacuum analyze item, item_word, tag');
  } finally {
    await client.end();
  }
}

async function fillChunk(client: pg.Client, networkId: string, world: BenchWorld, blockId: string, from: number, count: number): Promise<void> {
  const codes = Array.from({ length: count }, (_, index) => makeTagCode(FIRST_SERIAL + from + index, 'item'));
  await client.query(
    `with fresh as (
       insert into item (network_id, incident_id, id, household_id, site_id, tag_code, kind, count, description, material_class, size_class, area_dm2, volume_l, dry_mass_g,
         significance, arrived_at, seq, head_hash, keeper_kind, keeper_id, stage, created_at, updated_at, photographed_on)
       select $1, $2, uuidv7(), $3, $4, code, 'item', 1, ($8::text[])[1 + n % 20] || ' ' || ($9::text[])[1 + n / 20 % 20] || ' ' || ($10::text[])[1 + n / 400 % 20] || ' ' || n, 'paper-uncoated', 'a4-sheet', 8, 1, 5,
         'valued', now(), 1, repeat('0', 64), 'holding', $5, 'waiting', now(), now(), date '2026-01-01' + n % 120
       from (select code, $6::int + place::int - 1 as n from unnest($7::text[]) with ordinality as t (code, place)) numbered returning id, tag_code
     ) insert into tag (network_id, incident_id, code, kind, block_id, item_id, tied_at) select $1, $2, tag_code, 'item', $11, id, now() from fresh`,
    [networkId, world.incidentId, world.householdId, world.siteId, world.holding[0]?.id, from, codes, COLOURS, STUFFS, THINGS, blockId],
  );
}

/** The questions, by what they show. */
export function questionsFor(count: number): Record<string, string> {
  const tag = formatTagCode(makeTagCode(FIRST_SERIAL + Math.floor(count / 2), 'item'));
  return {
    'its tag': tag,
    'a tag with one slip': `${tag.slice(0, 1)}${tag[1] === 'B' ? 'C' : 'B'}${tag.slice(2)}`,
    'the code of a household': 'HH-1',
    'a rare word': String(Math.floor(count / 3)),
    'a word that a twentieth of all things have': 'quilt',
    'three such words': 'quilt woollen red',
    'two beginnings': 'qui wool',
    'a day and a word': '2026-03-05 shawl',
    'words that never stand together': `quilt ${Math.floor(count / 3)} zither`,
  };
}

/** Median time of each question, milliseconds. */
export async function askAll(client: BenchClient, world: BenchWorld, count: number, medianMs: (ask: () => Promise<unknown>) => Promise<number>): Promise<Record<string, number>> {
  const medians: Record<string, number> = {};
  for (const [name, question] of Object.entries(questionsFor(count))) {
    medians[name] = await medianMs(() => client.call('GET', `/v1/incidents/${world.incidentId}/item-search?q=${encodeURIComponent(question)}`));
  }
  return medians;
}
