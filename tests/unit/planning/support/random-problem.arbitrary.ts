/** Small random problems in which everything is scarce, so that every limit gets its turn. */
import fc from 'fast-check';
import type { Disposition, Restriction, Skill, StepKind } from '#care';
import type { FixedUse, Interval, PlanItem, PlanOption, PlanProblem, PlanStep } from '#planning';
import { step } from './day.builder.js';

const HORIZON = 48;
const SITES = ['hall', 'school'];
const KINDS: StepKind[] = ['assess', 'rinse', 'blot', 'freeze'];
const SKILLS: Skill[] = ['rinsing', 'blotting', 'colour-testing'];
const RESTRICTIONS: Restriction[] = ['no-lifting', 'no-wet-work'];

const site = fc.constantFrom(...SITES);
const interval: fc.Arbitrary<Interval> = fc.tuple(fc.nat(HORIZON - 1), fc.integer({ min: 1, max: 30 })).map(([from, length]) => ({ from, to: from + length }));
const calendar = fc.oneof(fc.array(interval, { maxLength: 3 }), fc.constant<Interval[]>([{ from: 0, to: HORIZON }]));
const skill = fc.option(fc.constantFrom(...SKILLS), { nil: null });

const handsOn: fc.Arbitrary<PlanStep> = fc.record({
  kind: fc.constantFrom<StepKind>('assess', 'rinse', 'blot'), durationSlots: fc.integer({ min: 1, max: 4 }), crew: fc.integer({ min: 0, max: 2 }),
  skill, barredRestrictions: fc.subarray(RESTRICTIONS), needsFit: fc.boolean(), coolFromSlot: fc.oneof(fc.constant(0), fc.nat(20)),
}).map(({ kind, ...rest }) => step(kind, rest));
const drying: fc.Arbitrary<PlanStep> = fc.record({ durationSlots: fc.integer({ min: 2, max: 20 }), areaDm2: fc.integer({ min: 1, max: 12 }), loadGPerSlot: fc.integer({ min: 0, max: 12 }), stabilises: fc.constantFrom<'start' | 'end'>('start', 'end') })
  .map(({ durationSlots, stabilises, ...dry }) => step('dry', { durationSlots, crew: 0, drying: dry, stabilises }));
const freezing: fc.Arbitrary<PlanStep> = fc.record({ durationSlots: fc.integer({ min: 1, max: 3 }), crew: fc.integer({ min: 0, max: 1 }), volumeCl: fc.integer({ min: 1, max: 8 }) })
  .map(({ volumeCl, ...rest }) => step('freeze', { ...rest, freezer: { volumeCl }, stabilises: 'end' }));

const treat: fc.Arbitrary<PlanOption> = fc.tuple(fc.array(handsOn, { maxLength: 3 }), drying, fc.array(handsOn, { maxLength: 1 })).map(([before, dry, after]) => ({ disposition: 'treat', steps: [...before, dry, ...after] }));
const freeze: fc.Arbitrary<PlanOption> = fc.tuple(fc.array(handsOn, { maxLength: 1 }), freezing).map(([before, cold]) => ({ disposition: 'hold-frozen', steps: [...before, cold] }));
const hold = (disposition: Disposition): fc.Arbitrary<PlanOption> => handsOn.map((only) => ({ disposition, steps: [{ ...only, stabilises: disposition === 'release' ? null : 'end' }] }));
const options = fc.tuple(treat, freeze, hold('hold-wet'), hold('release')).chain((all) => fc.shuffledSubarray(all));

const item: fc.Arbitrary<PlanItem> = fc.record({
  id: fc.constant<string>(''), siteId: site, releaseSlot: fc.nat(20), deadlineSlot: fc.integer({ min: -3, max: HORIZON + 4 }), weight: fc.nat(21), stabilised: fc.boolean(), options,
});

/** Up to `maxItems` items on two sites. */
export function randomProblem(maxItems: number): fc.Arbitrary<PlanProblem> {
  return fc.record({
    originMs: fc.constant<number>(0), slotMinutes: fc.constant<number>(15), horizonSlots: fc.constant<number>(HORIZON),
    stations: named('station', fc.record({ id: fc.constant<string>(''), siteId: site, zone: fc.constant('clean' as const), steps: fc.subarray<StepKind>(KINDS, { minLength: 1 }), capacity: fc.nat(2), open: calendar }), 6),
    people: named('person', fc.record({ id: fc.constant<string>(''), siteId: site, skills: fc.subarray(SKILLS), restrictions: fc.subarray(RESTRICTIONS), shifts: calendar, fitUntilSlot: fc.oneof(fc.constant(HORIZON), fc.nat(HORIZON)) }), 6),
    rooms: fc.tuple(...SITES.map((siteId) => fc.nat(20).map((limit) => ({ id: `room-${siteId}`, siteId, removalGPerSlot: [{ from: 0, to: 24, limit }, { from: 24, to: HORIZON, limit: 12 }] })))),
    places: named('place', fc.record({ id: fc.constant<string>(''), roomId: site.map((id) => `room-${id}`), areaDm2: fc.nat(20), open: calendar }), 4),
    freezers: named('freezer', fc.record({ id: fc.constant<string>(''), siteId: site, volumeCl: fc.nat(16), open: fc.oneof(calendar, fc.constant<Interval[]>([{ from: 0, to: HORIZON }])) }), 2),
    items: named('item', item, maxItems),
  }).chain((resources) => fc.array(fixedUse(resources), { maxLength: 4 }).map((fixed) => ({ ...resources, fixed })));
}

/** A use that has begun; it need not fit, as facts do not ask. */
function fixedUse(problem: Omit<PlanProblem, 'fixed'>): fc.Arbitrary<FixedUse> {
  const one = (list: readonly { id: string }[]): fc.Arbitrary<string | null> => fc.option(fc.constantFrom(...list.map(({ id }) => id), null), { nil: null });
  return fc.record({
    itemId: fc.constantFrom('elsewhere', ...problem.items.map(({ id }) => id)), step: fc.constant('dry' as const),
    stationId: one(problem.stations), personIds: fc.subarray(problem.people.slice(0, 2).map(({ id }) => id)), dryingPlaceId: one(problem.places),
    areaDm2: fc.nat(12), loadGPerSlot: fc.nat(12), freezerId: one(problem.freezers), volumeCl: fc.nat(8),
    interval: fc.tuple(fc.integer({ min: -5, max: 10 }), fc.integer({ min: 1, max: 20 })).map(([from, length]) => ({ from, to: from + length })),
  });
}

/** Numbered ids, padded so that their order is that of the list. */
function named<T extends { id: string }>(kind: string, entry: fc.Arbitrary<T>, maxLength: number): fc.Arbitrary<T[]> {
  return fc.array(entry, { maxLength, minLength: Math.min(1, maxLength), size: 'max' }).map((list) => list.map((one, i) => ({ ...one, id: `${kind}-${String(i).padStart(2, '0')}` })));
}
