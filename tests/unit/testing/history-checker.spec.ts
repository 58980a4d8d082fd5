import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { beforeIntake, decide, evolve, hashEvent, isRefusal, type CustodyCommand, type CustodyEvent, type ItemCustody, type Keeper } from '#custody';
import { checkHistory, VIOLATION_KINDS, type ClientRecord, type StoredHistory, type ViolationKind } from '#testing/salvage';

const NOW = 1_780_000_000_000;
const NETWORK = 'network';
const PLACES: Keeper[] = ['a', 'b', 'c'].map((id) => ({ kind: 'holding', id }));
const FREEZER: Keeper = { kind: 'freezer', id: 'freezer' };

interface World {
  clients: ClientRecord[];
  stored: { -readonly [K in keyof StoredHistory]: StoredHistory[K] };
}

/** Two items that were taken in and then moved, each move acknowledged before the next was sent; item 2 ends in the freezer, which was reckoned. */
function soundWorld(moves = 3): World {
  const clients: ClientRecord[] = [];
  const events: CustodyEvent[] = [];
  const heads: ItemCustody[] = [];
  for (const itemId of ['item-1', 'item-2']) {
    let state = record(beforeIntake(NETWORK, itemId), { kind: 'taken-in', from: null, to: PLACES[0]! }, null, events);
    for (let turn = 1; turn <= moves; turn += 1) {
      const frozen = itemId === 'item-2' && turn === moves;
      const to = frozen ? FREEZER : PLACES[turn % PLACES.length]!;
      const cmd = `${itemId} move ${turn}`;
      const from = state.keeper!;
      state = record(state, { kind: frozen ? 'frozen' : 'moved', from, to }, cmd, events);
      clients.push({ cmd, itemId, from, to, invokedAtMs: turn * 100, returnedAtMs: turn * 100 + 50, outcome: 'ok', seq: state.seq });
    }
    heads.push(state);
  }
  const refused: ClientRecord = { cmd: 'too late', itemId: 'item-1', from: PLACES[2]!, to: PLACES[1]!, invokedAtMs: 10, returnedAtMs: 20, outcome: 'refused', seq: null };
  const unknown: ClientRecord = { ...refused, cmd: 'never answered', outcome: 'unknown', returnedAtMs: null };
  return {
    clients: [...clients, refused, unknown],
    stored: {
      events, heads,
      before: new Map(heads.map((head) => [head.itemId, 1])),
      ledger: events.map(({ itemId, seq }) => ({ itemId, seq })),
      watched: new Set([FREEZER.id]),
      effects: [{ subjectId: FREEZER.id, doneAtMs: NOW + 5_000 }, { subjectId: FREEZER.id, doneAtMs: null }],
    },
  };
}

function record(state: ItemCustody, passing: Pick<CustodyCommand, 'kind' | 'from' | 'to'>, cmd: string | null, events: CustodyEvent[]): ItemCustody {
  const outcome = decide(state, { ...passing, commandId: `id of ${cmd ?? 'intake'}`, actorId: 'tester', occurredAtMs: NOW, refs: cmd === null ? {} : { reason: cmd } }, NOW + state.seq);
  if (isRefusal(outcome)) throw new Error(outcome.text);
  events.push(outcome);
  return evolve(state, outcome);
}

function kindsFound(world: World): ViolationKind[] {
  return [...new Set(checkHistory(world.clients, world.stored).map((violation) => violation.kind))].sort();
}

/** The event of a command changed, and hashed anew so that only what is meant is wrong with it. */
function change(world: World, cmd: string, by: (event: CustodyEvent) => CustodyEvent): void {
  world.stored.events = world.stored.events.map((event) => {
    if (event.refs['reason'] !== cmd) return event;
    const changed = by(event);
    return { ...changed, hash: hashEvent(changed) };
  });
}

function client(world: World, cmd: string): ClientRecord {
  const found = world.clients.find((entry) => entry.cmd === cmd);
  if (found === undefined) throw new Error('no such command');
  return found;
}

const LAST = 'item-1 move 3';

/** What each is about, and what a checker must call it, alone or with what follows from it. */
const SEEDED: Record<ViolationKind, { break: (world: World) => void; found: ViolationKind[] }> = {
  LOST_ACKED: {
    // The last commit is gone with everything that it wrote.
    break: (world) => {
      const lost = world.stored.events.find((event) => event.refs['reason'] === LAST)!;
      world.stored.events = world.stored.events.filter((event) => event !== lost);
      world.stored.ledger = world.stored.ledger.filter((row) => row.itemId !== lost.itemId || row.seq !== lost.seq);
      world.stored.heads = world.stored.heads.map((head) => (head.itemId === lost.itemId ? { ...head, seq: 3, headHash: lost.prevHash, keeper: lost.from } : head));
    },
    found: ['LOST_ACKED'],
  },
  DUPLICATE: {
    break: (world) => {
      const [events, head] = [[...world.stored.events], world.stored.heads[0]!];
      const outcome = decide(head, { kind: 'correction', from: head.keeper, to: head.keeper!, corrects: { seq: 1, reason: 'again' }, commandId: 'twice', actorId: 'tester', occurredAtMs: NOW, refs: { reason: LAST } }, NOW);
      if (isRefusal(outcome)) throw new Error(outcome.text);
      world.stored.events = [...events, outcome];
      world.stored.heads = [evolve(head, outcome), ...world.stored.heads.slice(1)];
      world.stored.ledger = [...world.stored.ledger, { itemId: outcome.itemId, seq: outcome.seq }];
    },
    found: ['DUPLICATE'],
  },
  REJECTED_BUT_APPLIED: { break: (world) => Object.assign(client(world, LAST), { outcome: 'refused', seq: null }), found: ['REJECTED_BUT_APPLIED'] },
  PHANTOM_EVENT: { break: (world) => (world.clients = world.clients.filter((entry) => entry.cmd !== LAST)), found: ['PHANTOM_EVENT'] },
  ACK_SEQ_MISMATCH: { break: (world) => Object.assign(client(world, LAST), { seq: 9 }), found: ['ACK_SEQ_MISMATCH'] },
  SEQ_GAP: {
    // Two writers that both saw event 3.
    break: (world) => change(world, LAST, (event) => ({ ...event, seq: 3 })),
    found: ['ACK_SEQ_MISMATCH', 'OUTBOX', 'PROJECTION_DRIFT', 'SEQ_GAP'],
  },
  TWO_KEEPERS: {
    break: (world) => change(world, LAST, (event) => ({ ...event, from: { kind: 'holding', id: 'elsewhere' } })),
    found: ['PROJECTION_DRIFT', 'TWO_KEEPERS'],
  },
  HASH_BREAK: {
    break: (world) => (world.stored.events = world.stored.events.map((event) => (event.refs['reason'] === LAST ? { ...event, actorId: 'somebody else' } : event))),
    found: ['HASH_BREAK'],
  },
  PROJECTION_DRIFT: { break: (world) => (world.stored.heads = world.stored.heads.map((head) => ({ ...head, keeper: PLACES[2]! }))), found: ['PROJECTION_DRIFT'] },
  OUTBOX: { break: (world) => (world.stored.ledger = world.stored.ledger.slice(1)), found: ['OUTBOX'] },
  REALTIME_ORDER: { break: (world) => Object.assign(client(world, 'item-1 move 1'), { invokedAtMs: 251, returnedAtMs: 252 }), found: ['REALTIME_ORDER'] },
};

test('a sound history has no violation, whatever was refused or never answered', () => {
  expect(kindsFound(soundWorld())).toEqual([]);
});

test('every kind of violation is listed here', () => {
  expect(Object.keys(SEEDED).sort()).toEqual([...VIOLATION_KINDS].sort());
});

test.each(VIOLATION_KINDS)('%s is found, and only what follows from it', (kind) => {
  const world = soundWorld();
  SEEDED[kind].break(world);
  expect(kindsFound(world)).toEqual(SEEDED[kind].found);
  expect(checkHistory(world.clients, world.stored).some((violation) => violation.kind === kind && violation.itemId !== '')).toBe(true);
});

test('a row of the ledger without its event, and one that is there twice, are found', () => {
  const world = soundWorld();
  world.stored.ledger = [...world.stored.ledger, { itemId: 'item-1', seq: 7 }];
  expect(checkHistory(world.clients, world.stored)).toMatchObject([{ kind: 'OUTBOX', itemId: 'item-1', seq: 7 }]);
  world.stored.ledger = [...world.stored.ledger.slice(0, -1), { itemId: 'item-1', seq: 2 }];
  expect(checkHistory(world.clients, world.stored)).toMatchObject([{ kind: 'OUTBOX', itemId: 'item-1', seq: 2 }]);
});

test('a freezer that was reckoned before a thing came, and not after, is found', () => {
  const world = soundWorld();
  world.stored.effects = [{ subjectId: FREEZER.id, doneAtMs: NOW }];
  expect(checkHistory(world.clients, world.stored)).toMatchObject([{ kind: 'OUTBOX', itemId: 'item-2', seq: 4 }]);
  world.stored.effects = [];
  expect(kindsFound(world)).toEqual(['OUTBOX']);
});

test('events of an item that is not there are found, and an item without events', () => {
  const world = soundWorld();
  world.stored.heads = world.stored.heads.slice(1);
  expect(kindsFound(world)).toEqual(['PROJECTION_DRIFT']);
  const empty = soundWorld();
  empty.stored.events = empty.stored.events.filter((event) => event.itemId === 'item-2');
  empty.stored.ledger = empty.stored.ledger.filter((row) => row.itemId === 'item-2');
  expect(kindsFound(empty)).toEqual(['LOST_ACKED', 'PROJECTION_DRIFT']);
});

test('twins of one command are one command: the earlier answer counts for the order, and answers that differ are found', () => {
  const world = soundWorld();
  const twin = { ...client(world, LAST), invokedAtMs: 301, returnedAtMs: 999 };
  world.clients = [...world.clients, twin];
  expect(kindsFound(world)).toEqual([]);
  world.clients = [...world.clients, { ...twin, outcome: 'refused', seq: null }];
  expect(kindsFound(world)).toEqual(['REJECTED_BUT_APPLIED']);
});

test('any sound history stays sound however its answers overlap in time and its rows are ordered', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 12 }), fc.array(fc.tuple(fc.nat(80), fc.nat(400)), { minLength: 24, maxLength: 24 }), fc.integer(), (moves, shifts, order) => {
      const world = soundWorld(moves);
      world.clients.forEach((entry, index) => {
        const [earlier = 0, later = 0] = shifts[index % shifts.length] ?? [];
        entry.invokedAtMs -= earlier;
        if (entry.returnedAtMs !== null) entry.returnedAtMs += later;
      });
      world.stored.events = [...world.stored.events].sort((a, b) => (hashEvent({ ...a, recordedAtMs: Math.abs(order) }) < hashEvent({ ...b, recordedAtMs: Math.abs(order) }) ? -1 : 1));
      if (moves === 0) world.stored.effects = [];
      expect(kindsFound(world)).toEqual([]);
    }),
  );
});
