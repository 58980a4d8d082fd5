import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bathsTaken, CLOSENESSES, COMPANY_RULES, companyFaults, companyKeyOf, MATERIAL_CLASSES, outerWall, triageOutcome, WALLS, type Assessment, type Closeness, type Companion } from '#care';
import { contextAt, knownAssessment } from './assessment.support.js';

/** A thing as triage leaves it: the rules of the book say what keeps it apart. */
function thing(change: Partial<Assessment> = {}): Companion {
  const assessment = knownAssessment(change);
  return { materialClass: assessment.materialClass, hazards: assessment.hazards, apartFrom: triageOutcome(assessment, contextAt(5)).apartFrom };
}

const faults = (comer: Companion, ...lying: Companion[]) => companyFaults(comer, lying).map(({ ruleId, with: others }) => [ruleId, others.length]);

// `apart.mould`, `apart.black-water`, `apart.bleeding` of the rule book: sources stand there.
describe('what must not lie together', () => {
  test('mouldy and clean, whichever comes to the other; mouldy with mouldy may', () => {
    const [mouldy, clean] = [thing({ mould: 'active' }), thing({ mould: 'none' })];
    expect(faults(mouldy, clean)).toContainEqual(['apart.mould', 1]);
    expect(faults(clean, mouldy, mouldy)).toContainEqual(['apart.mould', 2]);
    expect(faults(mouldy, mouldy)).toEqual([]);
    expect(faults(clean, clean)).toEqual([]);
  });

  test('unrinsed from black water and clean water', () => {
    const [black, clean] = [thing({ water: 'black' }), thing({ water: 'clean' })];
    expect(faults(black, clean)).toEqual([['apart.black-water', 1]]);
    expect(faults(clean, black)).toEqual([['apart.black-water', 1]]);
    expect(faults(black, black)).toEqual([]);
  });

  test('a bleeding textile and what could take its colour, another bleeding one too; glass takes none', () => {
    const [bleeding, fast, glass] = [thing({ alreadyBled: true }), thing(), thing({ materialClass: 'glass-object', colourTests: [], alreadyBled: null })];
    expect(faults(bleeding, fast)).toContainEqual(['apart.bleeding', 1]);
    expect(faults(fast, bleeding)).toContainEqual(['apart.bleeding', 1]);
    expect(faults(bleeding, bleeding)).toEqual([['apart.bleeding', 1]]);
    expect(faults(glass, bleeding)).not.toContainEqual(['apart.bleeding', 1]);
  });

  test('it makes no difference which of two comes to the other', () => {
    fc.assert(fc.property(anyThing, anyThing, fc.constantFrom(...CLOSENESSES), (one, other, closeness) => {
      expect(companyFaults(one, [other], closeness).map(({ ruleId }) => ruleId)).toEqual(companyFaults(other, [one], closeness).map(({ ruleId }) => ruleId));
    }));
  });
});

describe('the key of a thing', () => {
  test('is equal only for things for which every rule answers alike, whatever else they are', () => {
    const pairs = fc.tuple(anyThing, anyThing).chain(([one, change]) => fc.tuple(fc.constant(one), fc.subarray(Object.keys(one) as (keyof typeof one)[]).map((names) => ({ ...one, ...Object.fromEntries(names.map((name) => [name, change[name]])) }))));
    let alike = 0;
    fc.assert(fc.property(pairs, fc.array(anyThing, { minLength: 1, maxLength: 4 }), fc.constantFrom(...CLOSENESSES), ([one, other], lying, closeness) => {
      if (companyKeyOf(one) !== companyKeyOf(other)) return;
      alike += 1;
      for (const there of lying) expect(companyFaults(one, [there], closeness).map(({ ruleId }) => ruleId)).toEqual(companyFaults(other, [there], closeness).map(({ ruleId }) => ruleId));
    }), { numRuns: 2000 });
    expect(alike).toBeGreaterThan(200);
  });
});

const anyThing = fc.record({
  materialClass: fc.constantFrom(...MATERIAL_CLASSES), apartFrom: fc.subarray(COMPANY_RULES.map((ruleId) => ({ ruleId }))), rinsed: fc.boolean(), sealed: fc.boolean(),
  hazards: fc.subarray(['sewage', 'ammunition'] as const), wall: fc.constantFrom(...WALLS),
});

describe('by the kind of place', () => {
  const at = (closeness: Closeness, comer: Companion, ...lying: Companion[]) => companyFaults(comer, lying, closeness).map(({ ruleId }) => ruleId);
  const [mouldy, clean, black, bleeding, sewage] = [thing({ mould: 'active' }), thing(), thing({ water: 'black' }), thing({ alreadyBled: true }), thing({ hazards: ['sewage'] })];

  test('mould and the dirt of the flood are kept from clean things wherever they are; only a wall that closes, or a closed parcel in a freezer, is a barrier', () => {
    for (const closeness of CLOSENESSES) {
      expect(at(closeness, mouldy, clean)).toContain('apart.mould');
      expect(at(closeness, black, clean)).toContain('apart.black-water');
      expect(at(closeness, { ...mouldy, wall: 'open' }, clean)).toContain('apart.mould');
      expect(at(closeness, { ...mouldy, wall: 'closed' }, clean)).toEqual([]);
    }
    expect(at('frozen', { ...mouldy, sealed: true }, clean)).toContain('apart.mould');
    expect(at('frozen', { ...mouldy, sealed: true }, { ...clean, sealed: true })).toEqual([]);
    expect(at('frozen', { ...black, sealed: true }, clean)).toEqual([]);
    expect(at('frozen', { ...clean, sealed: true }, black)).toEqual(['apart.black-water']);
  });

  test('what was rinsed here is no longer kept from clean things for its water, and is from what is unrinsed', () => {
    expect(at('tiers', { ...black, rinsed: true }, clean)).toEqual([]);
    expect(at('tiers', { ...black, rinsed: true }, black)).toEqual(['apart.black-water']);
  });

  test('dye moves where things press or drip on each other, and in a freezer only until they are wrapped', () => {
    expect(CLOSENESSES.filter((closeness) => at(closeness, bleeding, clean).includes('apart.bleeding'))).toEqual(['pressed', 'tiers', 'frozen']);
    expect(at('frozen', { ...bleeding, sealed: true }, clean)).toEqual([]);
    expect(at('pressed', { ...bleeding, wall: 'open' }, clean)).toEqual([]);
  });

  test('what can hurt people is alone; in a freezer it may lie with what is marked for the same', () => {
    expect(at('pressed', sewage, clean)).toContain('apart.stop-hazard');
    expect(at('pressed', sewage, sewage)).toContain('apart.stop-hazard');
    expect(at('frozen', sewage, sewage)).toEqual([]);
    expect(at('frozen', { ...sewage, sealed: true }, { ...clean, sealed: true })).toEqual(['apart.stop-hazard']);
    expect(at('frozen', sewage, thing({ hazards: ['ammunition'] }))).toContain('apart.stop-hazard');
  });

  test('a bath takes one group, or one thing alone', () => {
    const [alone, whites, colours] = [{ bathGroup: null }, { bathGroup: 'whites' }, { bathGroup: 'colours' }];
    expect(bathsTaken(whites, [whites, whites, alone], 2)).toBeNull();
    expect(bathsTaken(colours, [whites, alone], 3)).toBeNull();
    expect(bathsTaken(colours, [whites, alone], 2)).toEqual([whites, alone]);
    expect(bathsTaken(alone, [alone], 1)).toEqual([alone]);
    expect(bathsTaken(alone, [], 1)).toBeNull();
  });
});

/** What two things must not do, written as the rule book says it and not as the code asks it: the oracle of the moves below. */
function forbidden(one: Companion, other: Companion, closeness: Closeness): boolean {
  const flag = (of: Companion, ruleId: string) => of.apartFrom.some((apart) => apart.ruleId === ruleId);
  const dirty = (of: Companion) => flag(of, 'apart.black-water') && of.rinsed !== true;
  const walls = [one.wall, other.wall];
  if (walls.includes('closed')) return false;
  const frozen = closeness === 'frozen';
  const mould = flag(one, 'apart.mould') !== flag(other, 'apart.mould') && !(frozen && one.sealed && other.sealed);
  const water = dirty(one) !== dirty(other) && !(frozen && (dirty(one) ? one : other).sealed);
  if (mould || water) return true;
  if (walls.includes('open')) return false;
  const noDye = ['ceramic-glazed', 'glass-object', 'stone', 'metal-iron', 'metal-other'];
  const takes = (of: Companion) => !noDye.includes(of.materialClass);
  const dye = (flag(one, 'apart.bleeding') && takes(other)) || (flag(other, 'apart.bleeding') && takes(one));
  if (dye && (closeness === 'pressed' || closeness === 'tiers' || (frozen && !one.sealed && !other.sealed))) return true;
  const hurts = [one, other].some((of) => flag(of, 'apart.stop-hazard'));
  if (closeness === 'pressed') return hurts;
  const bothHurt = [one, other].every((of) => flag(of, 'apart.stop-hazard'));
  return frozen && hurts && (!bothHurt || [...new Set(one.hazards)].sort().join() !== [...new Set(other.hazards)].sort().join());
}

test('no sequence of accepted moves leaves two things together that must not be, unless a lead has said so of one of them', () => {
  const things = fc.array(fc.record({ ...anyParts(), materialClass: fc.constantFrom('textile-quilt-padded' as const, 'textile-flat-small' as const, 'ceramic-glazed' as const, 'metal-other' as const) }), { minLength: 2, maxLength: 8 });
  const moves = fc.array(fc.record({ which: fc.nat(7), to: fc.nat(3), wall: fc.constantFrom(...WALLS), byALead: fc.boolean() }), { minLength: 20, maxLength: 40 });
  let [accepted, refused] = [0, 0];
  fc.assert(fc.property(things, moves, (all, steps) => {
    const at = new Map<number, { place: Closeness; wall: (typeof WALLS)[number]; byALead: boolean }>();
    const seenAt = (place: Closeness, except: number) => [...at].flatMap(([index, now]) => (now.place === place && index !== except ? [{ ...all[index]!, wall: outerWall('none', now.wall) }] : []));
    for (const { which, to, wall, byALead } of steps) {
      const [index, place] = [which % all.length, CLOSENESSES[to]!];
      const clash = companyFaults({ ...all[index]!, wall }, seenAt(place, index), place).length > 0;
      if (clash && !byALead) refused += 1;
      else at.set(index, { place, wall, byALead: clash });
      if (!clash) accepted += 1;
      for (const [a, one] of at) for (const [b, other] of at) {
        if (a >= b || one.place !== other.place || one.byALead || other.byALead) continue;
        expect(forbidden({ ...all[a]!, wall: one.wall }, { ...all[b]!, wall: other.wall }, one.place)).toBe(false);
      }
    }
  }), { numRuns: 300 });
  expect(accepted).toBeGreaterThan(500);
  expect(refused).toBeGreaterThan(500);
});

function anyParts() {
  return { apartFrom: fc.subarray(COMPANY_RULES.map((ruleId) => ({ ruleId }))), rinsed: fc.boolean(), sealed: fc.boolean(), hazards: fc.subarray(['sewage', 'ammunition'] as const) };
}
