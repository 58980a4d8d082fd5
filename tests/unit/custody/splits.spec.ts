import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { beforeIntake, evolve, isCountFault, splitExtent, verifyChain, type CustodyEvent, type ItemCustody, type LotExtent } from '#custody';
import { NETWORK, accept, chainOf, command, place } from './histories.js';

const MEASURES = ['count', 'areaDm2', 'volumeL', 'dryMassG'] as const;
const lotArb: fc.Arbitrary<LotExtent> = fc.record({
  count: fc.integer({ min: 1, max: 100_000 }), areaDm2: fc.integer({ min: 0, max: 2_000_000_000 }), volumeL: fc.integer({ min: 0, max: 2_000_000_000 }), dryMassG: fc.integer({ min: 0, max: 2_000_000_000 }),
});

function split(lot: LotExtent, pieces: number): { part: LotExtent; rest: LotExtent } {
  const shares = splitExtent(lot, pieces);
  if (isCountFault(shares)) throw new Error(shares.text);
  return shares;
}

describe('what a lot amounts to', () => {
  test('240 prints for a table that takes 80: a third of everything goes', () => {
    expect(split({ count: 240, areaDm2: 480, volumeL: 3, dryMassG: 960 }, 80)).toEqual({
      part: { count: 80, areaDm2: 160, volumeL: 1, dryMassG: 320 },
      rest: { count: 160, areaDm2: 320, volumeL: 2, dryMassG: 640 },
    });
  });

  test('both parts add up to the lot in every measure, and neither takes less than nothing', () => {
    fc.assert(fc.property(lotArb.filter(({ count }) => count > 1), fc.double({ min: 0, max: 1, noNaN: true }), (lot, share) => {
      const { part, rest } = split(lot, 1 + Math.floor(share * (lot.count - 2)));
      for (const measure of MEASURES) {
        expect(part[measure] + rest[measure]).toBe(lot[measure]);
        expect(Math.min(part[measure], rest[measure])).toBeGreaterThanOrEqual(lot[measure] > 1 ? 1 : 0);
      }
    }));
  });

  test('a share is off by less than a unit, except where that would leave one side with nothing', () => {
    fc.assert(fc.property(lotArb.filter(({ count }) => count > 1), fc.double({ min: 0, max: 1, noNaN: true }), (lot, share) => {
      const pieces = 1 + Math.floor(share * (lot.count - 2));
      const { part } = split(lot, pieces);
      for (const measure of ['areaDm2', 'volumeL', 'dryMassG'] as const) {
        const exact = (lot[measure] * pieces) / lot.count;
        if (exact >= 1 && exact <= lot[measure] - 1) expect(Math.abs(part[measure] - exact)).toBeLessThanOrEqual(0.5 + 1e-6);
      }
    }));
  });

  test('two things that share the last litre: one of them shows none, and the sum holds', () => {
    const { part, rest } = split({ count: 2, areaDm2: 4, volumeL: 1, dryMassG: 8 }, 1);
    expect(part.volumeL + rest.volumeL).toBe(1);
  });

  test.each([[0, 'not_whole'], [-1, 'not_whole'], [1.5, 'not_whole'], [Number.NaN, 'not_whole'], [240, 'takes_all'], [241, 'takes_all']])('%d of 240 pieces cannot be taken out, and it says why', (pieces, fault) => {
    const refused = splitExtent({ count: 240, areaDm2: 480, volumeL: 3, dryMassG: 960 }, pieces);
    expect(refused).toMatchObject({ fault });
    if (fault === 'takes_all') expect(refused).toMatchObject({ text: expect.stringContaining('at most 239') });
  });

  test('of a single piece nothing can be taken', () => {
    expect(splitExtent({ count: 1, areaDm2: 2, volumeL: 1, dryMassG: 4 }, 1)).toMatchObject({ fault: 'takes_all', text: expect.stringContaining('one piece') });
  });
});

interface Tracked {
  id: string;
  from: string | null;
  extent: LotExtent;
  state: ItemCustody;
  events: CustodyEvent[];
}

/** Splits one of the parts, as the command does: an event on the lot, and the first event of the part. */
function splitOne(parts: Tracked[], which: number, share: number): void {
  const lot = parts[which % parts.length]!;
  if (lot.extent.count < 2) return;
  const { part, rest } = split(lot.extent, 1 + Math.floor(share * (lot.extent.count - 2)));
  const id = `part-${parts.length}`;
  const onLot = accept(lot.state, command('lot-split', lot.state.keeper, { to: lot.state.keeper!, refs: { splitTo: id, pieces: String(part.count), left: String(rest.count) } }));
  const onPart = accept(beforeIntake(NETWORK, id), command('split-off', null, { to: lot.state.keeper!, refs: { splitFrom: lot.id, stage: lot.state.stage!, pieces: String(part.count) } }));
  parts.push({ id, from: lot.id, extent: part, state: evolve(beforeIntake(NETWORK, id), onPart), events: [onPart] });
  Object.assign(lot, { extent: rest, state: evolve(lot.state, onLot), events: [...lot.events, onLot] });
}

test('any sequence of splits keeps the counts, the sums and the links, and every chain verifies', () => {
  const sequence = fc.array(fc.tuple(fc.nat(50), fc.double({ min: 0, max: 1, noNaN: true })), { minLength: 3, maxLength: 25, size: 'max' });
  let made = 0;
  fc.assert(fc.property(lotArb, sequence, (extent, splits) => {
    const { head, events } = chainOf([['taken-in', place('holding')], ['drying-started', place('drying-place')]], 'lot');
    const parts: Tracked[] = [{ id: 'lot', from: null, extent, state: head, events }];
    for (const [which, share] of splits) splitOne(parts, which, share);
    made += parts.length - 1;
    for (const measure of MEASURES) expect(parts.reduce((sum, part) => sum + part.extent[measure], 0)).toBe(extent[measure]);
    for (const part of parts) {
      expect(verifyChain(part.events, part.state)).toEqual([]);
      expect(part.state).toMatchObject({ keeper: place('drying-place'), stage: 'drying' });
      const named = parts.filter((other) => other.events.some((event) => event.refs['splitTo'] === part.id)).map(({ id }) => id);
      expect(named).toEqual(part.from === null ? [] : [part.from]);
      expect(part.events[0]?.refs['splitFrom'] ?? null).toBe(part.from);
    }
  }), { numRuns: 200 });
  expect(made).toBeGreaterThan(500);
});
