import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { GENESIS_HASH, NO_MATTERS, KEEPER_KINDS, STAGES, CUSTODY_EVENT_KINDS, hashEvent, verifyChain, type ChainFault, type CustodyEvent, type ItemCustody } from '#custody';
import { ITEM, NETWORK, NOW, chainArb, chainOf, inStage, place, type Chain } from './histories.js';

/** Every field of an event, and a value that differs from the one it has. */
const EDITS: { [F in keyof CustodyEvent]: (value: CustodyEvent[F]) => CustodyEvent[F] | number } = {
  v: () => 2,
  networkId: (value) => `${value}x`,
  itemId: (value) => `${value}x`,
  seq: (value) => value + 1000,
  commandId: (value) => `${value}x`,
  kind: (value) => CUSTODY_EVENT_KINDS.find((kind) => kind !== value) ?? value,
  from: (value) => (value === null ? place('household', 9) : null),
  to: (value) => ({ kind: KEEPER_KINDS.find((kind) => kind !== value.kind) ?? value.kind, id: value.id }),
  stage: (value) => STAGES.find((stage) => stage !== value) ?? value,
  actorId: (value) => `${value}x`,
  occurredAtMs: (value) => value + 1,
  recordedAtMs: (value) => value - 1,
  refs: (value) => ({ ...value, extra: 'forged' }),
  corrects: (value) => (value === null ? { seq: 1, reason: 'forged' } : null),
  prevHash: () => 'a'.repeat(64),
  hash: () => 'b'.repeat(64),
};
const FIELDS = Object.keys(EDITS) as (keyof CustodyEvent)[];

function at<T>(list: readonly T[], index: number): T {
  const found = list[index];
  if (found === undefined) throw new Error(`nothing at ${index}`);
  return found;
}

function edited(event: CustodyEvent, field: keyof CustodyEvent): CustodyEvent {
  const change = EDITS[field] as (value: unknown) => unknown;
  return { ...event, [field]: change(event[field]) };
}

function rehashed(event: CustodyEvent): CustodyEvent {
  return { ...event, hash: hashEvent(event) };
}

/** Somebody who knows the scheme: every event from `from` on is linked and hashed again. */
function relinked(events: CustodyEvent[], from: number): CustodyEvent[] {
  const out = [...events];
  for (let i = from; i < out.length; i += 1) {
    out[i] = rehashed({ ...at(out, i), prevHash: i === 0 ? GENESIS_HASH : at(out, i - 1).hash });
  }
  return out;
}

function names(faults: ChainFault[], seqs: number[]): boolean {
  return faults.some((fault) => fault.itemId === ITEM && seqs.includes(fault.seq));
}

function withIndex(use: (chain: Chain, index: number) => void): void {
  fc.assert(
    fc.property(chainArb, fc.nat(), (chain, n) => use(chain, n % chain.events.length)),
    { numRuns: 150 },
  );
}

describe('a sound chain', () => {
  test('verifies, with and without its head', () => {
    fc.assert(
      fc.property(chainArb, ({ events, head }) => {
        expect(verifyChain(events, head)).toEqual([]);
        expect(verifyChain(events)).toEqual([]);
      }),
    );
  });

  test('an item without events verifies only against a head that says so', () => {
    expect(verifyChain([])).toEqual([]);
    expect(verifyChain([], { networkId: NETWORK, itemId: ITEM, seq: 0, headHash: GENESIS_HASH, keeper: null, stage: null, matters: NO_MATTERS })).toEqual([]);
    expect(verifyChain([], inStage('drying').head)).toEqual([{ itemId: ITEM, seq: 2, fault: 'head_mismatch' }]);
  });
});

describe('tampering is named', () => {
  test('a single edited field of any event, at the event itself', () => {
    withIndex(({ events, head }, i) => {
      for (const field of FIELDS) {
        const forged = edited(at(events, i), field);
        const faults = verifyChain(events.with(i, forged), head);
        // An edited item id is named under the id that the row now bears; the number is still right.
        expect(faults.some((fault) => fault.itemId === forged.itemId && [i + 1, i + 2].includes(fault.seq) && (fault.fault === 'hash' || field === 'seq'))).toBe(true);
      }
    });
  });

  test('a single edited field with the hash made good, by the next event or the head', () => {
    withIndex(({ events, head }, i) => {
      for (const field of FIELDS.filter((each) => each !== 'v' && each !== 'hash')) {
        const faults = verifyChain(events.with(i, rehashed(edited(at(events, i), field))), head);
        const link = i + 1 < events.length ? { itemId: ITEM, seq: i + 2, fault: 'prev_hash' } : { itemId: ITEM, seq: expect.any(Number), fault: 'head_mismatch' };
        expect(faults).toContainEqual(link);
      }
    });
  });

  test('a deleted event, by its own number', () => {
    withIndex(({ events, head }, i) => {
      const faults = verifyChain(events.toSpliced(i, 1), head);
      expect(names(faults, [i + 1])).toBe(true);
      if (i + 1 < events.length) expect(faults[0]).toEqual({ itemId: ITEM, seq: i + 1, fault: 'gap' });
      else expect(faults).toEqual([{ itemId: ITEM, seq: i + 1, fault: 'head_mismatch' }]);
    });
  });

  test('an inserted event, well hashed, by the number that comes twice', () => {
    withIndex(({ events, head }, i) => {
      const before = at(events, i);
      const forged = rehashed({ ...before, seq: before.seq + 1, kind: 'moved', from: before.to, to: place('holding', 9), commandId: 'forged', prevHash: before.hash });
      const faults = verifyChain(events.toSpliced(i + 1, 0, forged), head);
      expect(names(faults, [i + 2])).toBe(true);
      // The true event of that number no longer follows: number, link or head betray it.
      expect(faults.some((fault) => ['gap', 'prev_hash', 'head_mismatch'].includes(fault.fault))).toBe(true);
    });
  });

  test('a repeated event', () => {
    withIndex(({ events, head }, i) => {
      expect(verifyChain(events.toSpliced(i, 0, at(events, i)), head)).toContainEqual({ itemId: ITEM, seq: i + 1, fault: 'gap' });
    });
  });

  test('two neighbours swapped, whether or not their numbers were swapped too', () => {
    withIndex(({ events, head }, n) => {
      const i = n % (events.length - 1);
      const [a, b] = [at(events, i), at(events, i + 1)];
      expect(verifyChain(events.with(i, b).with(i + 1, a), head)[0]).toEqual({ itemId: ITEM, seq: i + 1, fault: 'gap' });
      const renumbered = events.with(i, { ...b, seq: a.seq }).with(i + 1, { ...a, seq: b.seq });
      expect(verifyChain(renumbered, head)).toEqual(expect.arrayContaining([{ itemId: ITEM, seq: i + 1, fault: 'hash' }, { itemId: ITEM, seq: i + 2, fault: 'hash' }]));
    });
  });

  test('any other order', () => {
    fc.assert(
      fc.property(
        chainArb.chain(({ events, head }) => fc.record({ events: fc.constant(events), head: fc.constant(head), order: fc.shuffledSubarray(events, { minLength: events.length, maxLength: events.length }) })),
        ({ events, head, order }) => {
          fc.pre(order.some((event, i) => event !== events[i]));
          const firstMoved = order.findIndex((event, i) => event !== events[i]);
          expect(names(verifyChain(order, head), [firstMoved + 1])).toBe(true);
        },
      ),
    );
  });

  test('a chain rewritten from one event on, by the head that was kept elsewhere', () => {
    withIndex(({ events, head }, i) => {
      const forged = relinked(events.with(i, { ...at(events, i), actorId: 'somebody-else' }), i);
      expect(verifyChain(forged)).toEqual([]);
      expect(verifyChain(forged, head)).toEqual([{ itemId: ITEM, seq: head.seq, fault: 'head_mismatch' }]);
    });
  });

  test('every single field of a head that no longer fits', () => {
    const { events, head } = inStage('drying');
    const wrong: Partial<ItemCustody>[] = [{ seq: 1 }, { seq: 9 }, { headHash: GENESIS_HASH }, { keeper: place('freezer') }, { keeper: null }, { stage: 'waiting' },
      { matters: { ...NO_MATTERS, disputed: true } }, { matters: { ...NO_MATTERS, missing: true } }, { matters: { ...NO_MATTERS, handOver: { id: 'h', to: place('courier') } } }];
    for (const part of wrong) expect(verifyChain(events, { ...head, ...part })).toEqual([{ itemId: ITEM, seq: Math.max(part.seq ?? 2, 2), fault: 'head_mismatch' }]);
  });

  test('an event of another item or network, though it links', () => {
    const { events } = inStage('drying');
    const foreign = relinked(events.with(1, { ...at(events, 1), networkId: 'another-network' }), 1);
    expect(verifyChain(foreign)).toEqual([{ itemId: ITEM, seq: 2, fault: 'wrong_item' }]);
    const other = chainOf([['taken-in', place('holding')]], 'other-item');
    expect(verifyChain(other.events, inStage('waiting').head)).toContainEqual({ itemId: 'other-item', seq: 1, fault: 'wrong_item' });
  });
});

describe('a history that cannot be true is named even when every hash is right', () => {
  const { events } = chainOf([['taken-in', place('holding')], ['moved', place('container')], ['work-started', place('station')]]);

  test('a giver who did not hold the item', () => {
    expect(verifyChain(relinked(events.with(1, { ...at(events, 1), from: place('courier') }), 1))).toEqual([{ itemId: ITEM, seq: 2, fault: 'keeper_break' }]);
  });

  test('a first event that somebody is said to have given', () => {
    expect(verifyChain(relinked(events.with(0, { ...at(events, 0), from: place('household') }), 0))).toEqual([{ itemId: ITEM, seq: 1, fault: 'keeper_break' }]);
  });

  test('a stage that the event does not lead to', () => {
    expect(verifyChain(relinked(events.with(2, { ...at(events, 2), stage: 'drying' }), 2))).toEqual([{ itemId: ITEM, seq: 3, fault: 'stage' }]);
  });

  test('a second intake, an unknown kind, and work on an item that was handed back', () => {
    expect(verifyChain(relinked(events.with(1, { ...at(events, 1), kind: 'taken-in' }), 1))).toEqual([{ itemId: ITEM, seq: 2, fault: 'stage' }]);
    for (const kind of ['no-such-kind', 'toString']) {
      expect(verifyChain(relinked(events.with(1, { ...at(events, 1), kind: kind as CustodyEvent['kind'] }), 1))).toEqual([{ itemId: ITEM, seq: 2, fault: 'stage' }]);
    }
    const closed = inStage('handed-back').events;
    const ghost: CustodyEvent = { ...at(closed, 1), seq: 3, kind: 'work-started', from: place('household'), to: place('station'), stage: 'in-work' };
    expect(verifyChain(relinked([...closed, ghost], 2))).toEqual([{ itemId: ITEM, seq: 3, fault: 'stage' }]);
  });

  test('a gap that was linked over', () => {
    const holed = relinked(events.toSpliced(1, 1), 1);
    expect(verifyChain(holed)).toEqual([{ itemId: ITEM, seq: 2, fault: 'gap' }, { itemId: ITEM, seq: 3, fault: 'keeper_break' }]);
  });
});

describe('canonical form', () => {
  test('the order in which references were written does not change the hash', () => {
    fc.assert(
      fc.property(chainArb, fc.dictionary(fc.string(), fc.string(), { maxKeys: 8 }), ({ events }, refs) => {
        const event = at(events, 0);
        const turned = Object.fromEntries(Object.entries(refs).reverse());
        expect(hashEvent({ ...event, refs: turned })).toBe(hashEvent({ ...event, refs }));
      }),
    );
  });

  test('two different sets of references never share a hash, whatever their text pretends to be', () => {
    const event = at(inStage('waiting').events, 0);
    const tricky = fc.dictionary(fc.string({ unit: fc.constantFrom('"', ',', '[', ']', '\\', 'a', ':', '\ud83e') }), fc.string({ unit: fc.constantFrom('"', ',', '[', ']', '\\', 'a', ':', '\udd75') }), { maxKeys: 3 });
    const key = (refs: Record<string, string>): string => JSON.stringify(Object.entries(refs).sort(([a], [b]) => (a < b ? -1 : 1)));
    fc.assert(
      fc.property(tricky, tricky, (a, b) => {
        expect(hashEvent({ ...event, refs: a }) === hashEvent({ ...event, refs: b })).toBe(key(a) === key(b));
      }),
      { numRuns: 1000 },
    );
  });

  test('text moved from one field to the next changes the hash', () => {
    const event = at(inStage('waiting').events, 0);
    expect(hashEvent({ ...event, networkId: 'ab', itemId: 'c' })).not.toBe(hashEvent({ ...event, networkId: 'a', itemId: 'bc' }));
    expect(hashEvent({ ...event, refs: { a: 'b,c' } })).not.toBe(hashEvent({ ...event, refs: { a: 'b', c: '' } }));
    expect(hashEvent({ ...event, occurredAtMs: NOW, recordedAtMs: NOW + 1 })).not.toBe(hashEvent({ ...event, occurredAtMs: NOW + 1, recordedAtMs: NOW }));
  });
});
