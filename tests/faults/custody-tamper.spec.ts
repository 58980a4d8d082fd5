/**
 * The tamper drill: whatever a superuser of the database alters in the custody record, with triggers and foreign keys off, `verify`
 * names it by network, item and event, or by network and root; and whatever `verify` cannot see is named by a root that
 * somebody else has kept.
 */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type pg from 'pg';
import { compareLeaves, hashEvent, hashRoot, keyIdOf, leafBlocks, rootForm, stateRoot, type RootEvent } from '#custody';
import { newId } from '#platform';
import type { RootSigner } from '#application';
import { verifyExported } from '../../apps/ops/src/verify/exported-roots.js';
import type { Fault } from '../../apps/ops/src/verify/verify-network.js';
import { HOUR_MS, SIGNER, testSigner } from '../api/support/custody-roots.js';
import { columnsOf, TamperBench } from './custody-tamper.harness.js';

let bench: TamperBench;
let item: string;
beforeAll(async () => {
  bench = await TamperBench.open();
  item = bench.items[1] ?? '';
}, 120_000);
afterAll(() => bench?.close());

const saidOf = (faults: readonly Fault[]) => faults.map(({ itemId, seq, rootNo, what }) => [what, itemId === undefined ? null : bench.items.indexOf(itemId), seq ?? null, rootNo ?? null]);
const names = (faults: readonly Fault[], itemId: string, seq: number) => faults.some((fault) => fault.networkId === bench.network.networkId && fault.itemId === itemId && fault.seq === seq);
const namesRoot = (faults: readonly Fault[], rootNo: number) => faults.some((fault) => fault.networkId === bench.network.networkId && fault.rootNo === rootNo);

test('the record as it was written has no fault, in pages of any size', async () => {
  for (const page of [undefined, 1, 2, 3, 5, 12]) expect(saidOf(await bench.verify(page))).toEqual([]);
});

/** Other values for a column that its checks let through. */
function others(column: { name: string; type: string; nullable: boolean }): string[] {
  const name = column.name;
  const changed: Record<string, string[]> = {
    uuid: [`'${newId()}'`], int4: [`coalesce(${name}, 0) + 7`], timestamptz: [`${name} + interval '1 hour'`, `${name} - interval '1 ms'`, `${name} + interval '1 microsecond'`],
    jsonb: [`${name} || '{"more":"yes"}'`, `'{}'::jsonb || '{"personId":1}'`], bool: [`not ${name}`],
    text: name.includes('hash') || name === 'merkle_root' || name === 'public_key' ? [`'${'e'.repeat(64)}'`] : name === 'signature' ? [`'${'e'.repeat(128)}'`] : name === 'key_id' ? [`'${'e'.repeat(16)}'`] : [`'released'`, `'moved '`],
    bytea: [`set_byte(${name}, 0, (get_byte(${name}, 0) + 1) % 256)`],
  };
  return [...(changed[column.type] ?? []), ...(column.nullable ? ['null'] : [])];
}

describe('every single-row edit of an event is named by its item and number', () => {
  test.each([1, 2, 3, 4])('every column of event %i', async (seq) => {
    const missed: string[] = [];
    let edits = 0;
    for (const column of await columnsOf(bench, 'custody_event')) {
      for (const value of others(column)) {
        let changed = 0;
        const faults = await bench.after(async (sql) => {
          changed = (await sql.query(`update custody_event set ${column.name} = ${value} where item_id = $1 and seq = $2 and ${column.name} is distinct from ${value}`, [item, seq])).rowCount ?? 0;
        });
        edits += changed;
        if (changed === 1 && !names(faults, item, seq)) missed.push(`${column.name} = ${value}: ${JSON.stringify(saidOf(faults))}`);
      }
    }
    expect(missed).toEqual([]);
    // Each of the 20 columns in at least one way.
    expect(edits).toBeGreaterThanOrEqual(23);
  }, 120_000);
});

describe('every deletion, insertion and exchange is named by item and number', () => {
  test.each([[1, 'the first'], [2, 'one in the middle'], [3, 'one in the middle'], [4, 'the last']])('event %i, %s, is deleted', async (seq) => {
    const faults = await bench.after((sql) => sql.query('delete from custody_event where item_id = $1 and seq = $2', [item, seq]));
    expect(names(faults, item, seq)).toBe(true);
  });

  test('the last is deleted, with its place in the queue for a root, and the head is set back to the one before', async () => {
    const faults = await bench.after(async (sql) => {
      await sql.query('delete from custody_event where item_id = $1 and seq >= 3', [item]);
      await sql.query('delete from custody_root_waiting where chain_id = $1', [item]);
      await sql.query('update item i set seq = 2, head_hash = e.hash, keeper_kind = e.to_kind, keeper_id = e.to_id from custody_event e where i.id = $1 and e.item_id = i.id and e.seq = 2', [item]);
    });
    expect(saidOf(faults)).toEqual([['event_missing', 1, 3, 2]]);
  });

  test('all events of an item are deleted', async () => {
    const faults = await bench.after((sql) => sql.query('delete from custody_event where item_id = $1', [item]));
    expect(saidOf(faults)).toEqual(expect.arrayContaining([['no_events', 1, 4, null], ['event_missing', 1, 1, 1], ['event_missing', 1, 3, 2], ['waits_gone', 1, 4, null]]));
  });

  test('an item is deleted with its events, or without them', async () => {
    expect(names(await bench.after((sql) => sql.query('delete from item where id = $1', [item])), item, 4)).toBe(true);
    const both = await bench.after(async (sql) => {
      await sql.query('delete from custody_event where item_id = $1', [item]);
      await sql.query('delete from item where id = $1', [item]);
    });
    expect([1, 2, 3, 4].map((seq) => names(both, item, seq))).toEqual([true, true, true, true]);
  });

  const copyAs = (sql: pg.Client, seq: number, as: number) =>
    sql.query('insert into custody_event select (jsonb_populate_record(e, jsonb_build_object($3::text, $4::int))).* from custody_event e where item_id = $1 and seq = $2', [item, seq, 'seq', as]);

  test('an event is put in, at the end and out of the numbers', async () => {
    for (const as of [5, 9]) expect(names(await bench.after((sql) => copyAs(sql, 2, as)), item, 5)).toBe(true);
  });

  test('an event is put in at the end with right hashes, and the head is moved on', async () => {
    const faults = await bench.after(async (sql) => {
      await copyAs(sql, 3, 5);
      await bench.rewriteChain(sql, item, 99);
      const [, , , fourth] = await bench.chain(item);
      const third = (await bench.chain(item))[2];
      if (!third || !fourth) throw new Error('the chain is short');
      const fifth = { ...third, seq: 5, from: fourth.to, to: third.to, commandId: newId(), prevHash: fourth.hash };
      const hash = hashEvent(fifth);
      await sql.query('update custody_event set command_id = $2, from_kind = $3, from_id = $4, prev_hash = $5, hash = $6 where item_id = $1 and seq = 5', [item, fifth.commandId, fifth.from.kind, fifth.from.id, fifth.prevHash, hash]);
      await sql.query('update item set seq = 5, head_hash = $2, keeper_kind = $3, keeper_id = $4 where id = $1', [item, hash, fifth.to.kind, fifth.to.id]);
    });
    expect(saidOf(faults)).toEqual([['under_no_root', 1, 5, null]]);
  });

  test.each([[1, 2], [2, 3], [3, 4], [1, 4]])('events %i and %i are exchanged', async (a, b) => {
    const faults = await bench.after(async (sql) => {
      await sql.query('update custody_event set seq = 100 where item_id = $1 and seq = $2', [item, a]);
      await sql.query('update custody_event set seq = $2 where item_id = $1 and seq = $3', [item, a, b]);
      await sql.query('update custody_event set seq = $2 where item_id = $1 and seq = 100', [item, b]);
    });
    expect([names(faults, item, a), names(faults, item, b)]).toEqual([true, true]);
  });

  test('events of two items are exchanged', async () => {
    const [other = ''] = bench.items;
    const faults = await bench.after((sql) => sql.query('update custody_event set item_id = case item_id when $1 then $2::uuid else $1::uuid end, seq = seq + 100 where item_id in ($1, $2) and seq = 2', [item, other])
      .then(() => sql.query('update custody_event set seq = 2 where seq = 102')));
    expect([names(faults, item, 2), names(faults, other, 2)]).toEqual([true, true]);
  });
});

describe('a whole chain that is rewritten, with every hash and the head made again, is named by its root', () => {
  test.each([1, 2, 3])('from event %i on, which is under a root', async (from) => {
    const faults = await bench.after((sql) => bench.rewriteChain(sql, item, from));
    // The chain itself is sound: only roots, and what waits for one, betray it.
    expect(saidOf(faults)).toEqual(expect.arrayContaining([1, 2, 3].filter((seq) => seq >= from).map((seq) => ['event_differs', 1, seq, seq < 3 ? 1 : 2])));
    expect(new Set(faults.map(({ what }) => what))).toEqual(new Set(['event_differs', 'waits_changed']));
  });

  test('in its last event, which waits for a root', async () => {
    expect(saidOf(await bench.after((sql) => bench.rewriteChain(sql, item, 4)))).toEqual([['waits_changed', 1, 4, null]]);
  });
});

describe('an edit of the present state of an item is named', () => {
  test.each(['seq', 'head_hash', 'keeper_kind', 'keeper_id', 'stage', 'disputed', 'missing', 'incident_id'])('%s', async (name) => {
    const column = (await columnsOf(bench, 'item')).find((each) => each.name === name);
    const value = name === 'stage' ? "'drying'" : column && others({ ...column, nullable: false })[0];
    const faults = await bench.after((sql) => sql.query(`update item set ${name} = ${value} where id = $1`, [item]));
    expect(faults.some((fault) => fault.itemId === item && fault.seq !== undefined)).toBe(true);
  });

  test('a hand-over that nobody offered', async () => {
    const faults = await bench.after((sql) => sql.query("update item set hand_over_id = $2, hand_over_to_kind = 'courier', hand_over_to_id = $2 where id = $1", [item, newId()]));
    expect(saidOf(faults)).toEqual([['head_mismatch', 1, 4, null]]);
  });
});

describe('whatever is altered about roots is named by the root', () => {
  test.each([1, 2])('every column of root %i', async (rootNo) => {
    const missed: string[] = [];
    let edits = 0;
    for (const column of await columnsOf(bench, 'custody_root')) {
      for (const value of others(column)) {
        const faults = await bench.after(async (sql) => void (edits += (await sql.query(`update custody_root set ${column.name} = ${value} where network_id = $1 and root_no = $2`, [bench.network.networkId, rootNo])).rowCount ?? 0));
        if (!namesRoot(faults, rootNo)) missed.push(`${column.name} = ${value}: ${JSON.stringify(saidOf(faults))}`);
      }
    }
    expect(missed).toEqual([]);
    expect(edits).toBeGreaterThanOrEqual(11);
  }, 60_000);

  test.each([1, 2])('root %i is deleted', async (rootNo) => {
    expect(namesRoot(await bench.after((sql) => sql.query('delete from custody_root where root_no = $1', [rootNo])), rootNo)).toBe(true);
  });

  test('the last root is deleted with everything that belongs to it: its events are under none', async () => {
    const faults = await bench.after(async (sql) => {
      for (const table of ['custody_root', 'custody_root_block', 'custody_root_event']) await sql.query(`delete from ${table} where root_no = 2`);
    });
    expect(saidOf(faults)).toEqual([0, 1, 2].map((index) => ['under_no_root', bench.items.indexOf([...bench.items].sort()[index] ?? ''), 3, null]));
  });

  test('stored leaves and inner nodes', async () => {
    for (const column of ['leaf_hashes', 'subtree']) {
      expect([column, namesRoot(await bench.after((sql) => sql.query(`update custody_root_block set ${column} = set_byte(${column}, 5, (get_byte(${column}, 5) + 1) % 256) where root_no = 1`)), 1)]).toEqual([column, true]);
    }
    for (const statement of ['delete from custody_root_block where root_no = 1', 'update custody_root_block set block_no = 1 where root_no = 1', 'update custody_root_block set root_no = 3 where root_no = 1']) expect(namesRoot(await bench.after((sql) => sql.query(statement)), 1)).toBe(true);
  });

  test('every column of what says which event a leaf is', async () => {
    for (const column of await columnsOf(bench, 'custody_root_event')) {
      const faults = await bench.after((sql) => sql.query(`update custody_root_event set ${column.name} = ${others(column)[0]} where chain_id = $1 and seq = 2`, [item]));
      expect([column.name, names(faults, item, 2) || namesRoot(faults, 1)]).toEqual([column.name, true]);
    }
    const gone = await bench.after((sql) => sql.query('delete from custody_root_event where chain_id = $1 and seq = 2', [item]));
    expect([names(gone, item, 2), namesRoot(gone, 1)]).toEqual([true, true]);
  });

  test('every column of what waits for a root, and what is added or taken away there', async () => {
    for (const column of await columnsOf(bench, 'custody_root_waiting')) {
      const faults = await bench.after((sql) => sql.query(`update custody_root_waiting set ${column.name} = ${others(column)[0]} where chain_id = $1 and seq = 4`, [item]));
      expect([column.name, names(faults, item, 4)]).toEqual([column.name, true]);
    }
    expect(saidOf(await bench.after((sql) => sql.query('delete from custody_root_waiting where chain_id = $1', [item])))).toEqual([['under_no_root', 1, 4, null]]);
    expect(saidOf(await bench.after((sql) => sql.query('insert into custody_root_waiting select network_id, incident_id, item_id, seq, recorded_at, hash from custody_event where item_id = $1 and seq = 2', [item])))).toEqual([['waits_twice', 1, 2, null]]);
  });

  test('a key that is exchanged under its name, and one that is taken away', async () => {
    for (const statement of [`update custody_key set public_key = '${testSigner().publicKey}'`, 'delete from custody_key']) {
      const faults = await bench.after((sql) => sql.query(statement));
      expect(saidOf(faults)).toEqual([['key_unknown', null, null, 1], ['key_unknown', null, null, 2]]);
    }
  });
});

describe('whoever rewrites the chain and every root over it is named by a root that somebody else keeps', () => {
  /** Makes everything again that the database holds: what an owner of the database and of a key can do. */
  async function rewriteAll(sql: pg.Client, signer: RootSigner): Promise<void> {
    await bench.rewriteChain(sql, item, 2);
    await sql.query('update custody_root_waiting w set hash = e.hash from custody_event e where e.item_id = w.chain_id and e.seq = w.seq');
    const keyId = keyIdOf(signer.publicKey);
    await sql.query('insert into custody_key values ($1, $2, $3, now()) on conflict do nothing', [bench.network.networkId, keyId, signer.publicKey]);
    let before: { rootNo: number; hash: string } | null = null;
    for (const rootNo of [1, 2]) {
      const { rows } = await sql.query<{ item_id: string; seq: number; hash: string; recorded_at: Date }>('select e.item_id, e.seq, e.hash, e.recorded_at from custody_root_event r join custody_event e on e.item_id = r.chain_id and e.seq = r.seq where r.root_no = $1', [rootNo]);
      const events: RootEvent[] = rows.map((row) => ({ itemId: row.item_id, seq: row.seq, hash: row.hash, recordedAtMs: row.recorded_at.getTime() })).sort(compareLeaves);
      const { root, leaves }: ReturnType<typeof stateRoot> = stateRoot(events, before, { networkId: bench.network.networkId, keyId, periodMs: HOUR_MS });
      before = { rootNo, hash: hashRoot(root) };
      const [block] = leafBlocks(leaves);
      await sql.query('update custody_root set merkle_root = $2, prev_root_hash = $3, key_id = $4, hash = $5, signature = $6 where root_no = $1', [rootNo, root.merkleRoot, root.prevRootHash, keyId, before.hash, signer.sign(rootForm(root))]);
      await sql.query('update custody_root_block set leaf_hashes = $2, subtree = $3 where root_no = $1', [rootNo, Buffer.concat(block?.leaves ?? []), Buffer.from(block?.subtree ?? [])]);
    }
  }

  const exported = async () => (await bench.network.get('/v1/custody-roots').expect(200)).body.items;
  const against = async (kept: Parameters<typeof verifyExported>[1]): Promise<Fault[]> => {
    const faults: Fault[] = await bench.verify();
    // Nothing in the database itself betrays it: that is what the kept root is for.
    expect(saidOf(faults)).toEqual([]);
    await verifyExported(bench.server.unitOfWork, kept, (fault) => faults.push(fault));
    return faults;
  };

  test('signed with a key of their own', async () => {
    const kept = await exported();
    const faults = await bench.after((sql) => rewriteAll(sql, testSigner()), () => against(kept));
    expect(saidOf(faults)).toEqual([['not_as_exported', null, null, 1], ['not_as_exported', null, null, 2]]);
    expect(faults.every(({ networkId }) => networkId === bench.network.networkId)).toBe(true);
  });

  test('signed with the stolen true key', async () => {
    const kept = await exported();
    expect(saidOf(await bench.after((sql) => rewriteAll(sql, SIGNER), () => against(kept)))).toEqual([['not_as_exported', null, null, 1], ['not_as_exported', null, null, 2]]);
  });

  test('the last kept root alone is enough, because it links to the ones before it', async () => {
    const [, second] = await exported();
    expect(saidOf(await bench.after((sql) => rewriteAll(sql, SIGNER), () => against([second])))).toEqual([['not_as_exported', null, null, 2]]);
  });

  test('all roots are deleted, and every event is put back to wait', async () => {
    const kept = await exported();
    const faults = await bench.after(async (sql) => {
      for (const table of ['custody_root_waiting', 'custody_root_event', 'custody_root_block', 'custody_root']) await sql.query(`delete from ${table}`);
      await sql.query('insert into custody_root_waiting select network_id, incident_id, item_id, seq, recorded_at, hash from custody_event');
      await sql.query('insert into custody_root_waiting select network_id, incident_id, container_id, seq, recorded_at, hash from container_event');
    }, () => against(kept));
    expect(saidOf(faults)).toEqual([['root_missing', null, null, 1], ['root_missing', null, null, 2]]);
  });

  test('a root that was kept and is true has no fault; one that was altered where it was kept proves nothing and says so', async () => {
    const kept = await exported();
    expect(saidOf(await against(kept))).toEqual([]);
    const altered = [{ ...kept[0], eventCount: 5 }, { ...kept[1], signature: 'e'.repeat(128) }];
    expect(saidOf(await against(altered))).toEqual([['statement', null, null, 1], ['signature', null, null, 2]]);
  });
});
