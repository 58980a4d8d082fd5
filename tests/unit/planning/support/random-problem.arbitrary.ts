/** Small random problems in which everything is scarce, so that every limit gets its turn. */
import fc from 'fast-check';
import type { Disposition, Restriction, Skill, StepKind } from '#care';
import type { FallingLoad, FixedUse, Interval, PlanCompany, PlanItem, PlanOption, PlanProblem, PlanService, PlanStep } from '#planning';
import { step } from './day.builder.js';
import { sketchOf, type Sketch } from './sketch.builder.js';

const HORIZON = 48;
const SITES = ['hall', 'school'];
const KINDS: StepKind[] = ['assess', 'rinse', 'blot', 'freeze'];
const SKILLS: Skill[] = ['rinsing', 'blotting', 'colour-testing'];
const RESTRICTIONS: Restriction[] = ['no-lifting', 'no-wet-work'];
const STATIONS = 7;
const COMPANIES = ['clean', 'dye', 'mould'];

const site = fc.constantFrom(...SITES);
const interval: fc.Arbitrary<Interval> = fc.tuple(fc.nat(HORIZON - 1), fc.integer({ min: 1, max: 30 })).map(([from, length]) => ({ from, to: from + length }));
const whole = fc.constant<Interval[]>([{ from: 0, to: HORIZON }]);
const calendar = fc.oneof({ arbitrary: fc.array(interval, { maxLength: 3 }), weight: 2 }, { arbitrary: whole, weight: 3 });
const skill = fc.option(fc.constantFrom(...SKILLS), { nil: null, freq: 2 });
/** One in `freq` has it. */
const rarely = <T>(value: fc.Arbitrary<T>, freq: number): fc.Arbitrary<T | undefined> => fc.oneof({ arbitrary: fc.constant<undefined>(undefined), weight: freq - 1 }, { arbitrary: value, weight: 1 });

const company = rarely(fc.constantFrom(...COMPANIES), 2);
const others = rarely(fc.subarray(COMPANIES, { minLength: 1 }), 2);
const companies: fc.Arbitrary<PlanCompany[]> = fc.tuple(...COMPANIES.map((id) => fc.record({ tiers: others, 'side-by-side': others, frozen: others }).map((notWith) => ({ id, notWith: defined(notWith) }))));

const batch = fc.record({ group: fc.constantFrom('reds', 'reds', 'blues'), units: fc.integer({ min: 1, max: 3 }), spare: fc.nat(4) }).map(({ group, units, spare }) => ({ group, units, mostUnits: units + spare }));
const barred = fc.subarray(Array.from({ length: STATIONS }, (_, i) => `station-0${i}`), { minLength: 1, maxLength: 3 });
const asked = (serviceId: string): fc.Arbitrary<PlanStep['services']> => fc.integer({ min: 1, max: 2 }).map((units) => [{ serviceId, units }]);

const handsOn: fc.Arbitrary<PlanStep> = fc.record({
  kind: fc.constantFrom<StepKind>('assess', 'rinse', 'blot'), durationSlots: fc.integer({ min: 1, max: 4 }), crew: fc.constantFrom(0, 1, 1, 2),
  skill, barredRestrictions: fc.subarray(RESTRICTIONS, { maxLength: 1 }), needsFit: rarely(fc.constant(true), 3), coolFromSlot: rarely(fc.nat(20), 4),
  batch: rarely(batch, 2), barredStationIds: rarely(barred, 5), noStation: rarely(fc.constant(true), 5), notAfterSlot: rarely(fc.nat(HORIZON), 8), services: rarely(asked('specialist'), 5),
}).map(({ kind, ...rest }) => step(kind, defined(rest)));
const drying: fc.Arbitrary<PlanStep> = fc.record({ durationSlots: fc.integer({ min: 2, max: 20 }), areaDm2: fc.integer({ min: 1, max: 12 }), loadGPerSlot: fc.integer({ min: 0, max: 12 }), stabilises: fc.constantFrom<'start' | 'end'>('start', 'end'), falls: falls(), company })
  .map(({ durationSlots, stabilises, company: of, falls: shares, ...dry }) => step('dry', defined({ durationSlots, crew: 0, drying: defined({ ...dry, falling: falling(dry.loadGPerSlot, shares) }), stabilises, company: of })));
const freezing: fc.Arbitrary<PlanStep> = fc.record({ passing: fc.boolean(), durationSlots: fc.integer({ min: 1, max: 3 }), crew: fc.integer({ min: 0, max: 1 }), volumeCl: fc.integer({ min: 1, max: 8 }), leastSlots: rarely(fc.integer({ min: 1, max: 10 }), 2), company })
  .map(({ passing, durationSlots, crew, company: of, ...cold }) => step('freeze', { ...(of === undefined ? {} : { company: of }), durationSlots: passing ? 0 : durationSlots, crew: passing ? 0 : crew, ...(passing ? { noStation: true } : {}), freezer: defined(cold), stabilises: 'end' }));
const thaw: fc.Arbitrary<PlanStep> = fc.nat(4).map((durationSlots) => step('thaw', { durationSlots, crew: 0, noStation: true }));
const carry: fc.Arbitrary<PlanStep> = fc.record({ durationSlots: fc.integer({ min: 1, max: 4 }), services: asked('courier'), notAfterSlot: rarely(fc.nat(HORIZON), 4) })
  .map((rest) => step('carry', { ...defined(rest), crew: 0, noStation: true }));

const treat: fc.Arbitrary<PlanOption> = fc.tuple(fc.array(handsOn, { maxLength: 3 }), drying, fc.array(handsOn, { maxLength: 1 })).map(([before, dry, after]) => ({ disposition: 'treat', steps: [...before, dry, ...after] }));
const freeze: fc.Arbitrary<PlanOption> = fc.tuple(fc.array(handsOn, { maxLength: 1 }), freezing).map(([before, cold]) => ({ disposition: 'hold-frozen', steps: [...before, cold] }));
/** Frozen to wait for a place: safe when frozen, or only when drying begins, by when the clock has stood still. */
const freezeAndTreat: fc.Arbitrary<PlanOption> = fc.tuple(freezing, fc.boolean(), thaw, fc.array(handsOn, { maxLength: 2 }), drying).map(([cold, safe, warm, between, dry]) =>
  ({ disposition: 'treat', steps: [{ ...cold, stabilises: safe ? 'end' : null }, warm, ...between, dry] }));
/** To the other site, where the rest is done. */
const carryAndTreat: fc.Arbitrary<PlanOption> = fc.tuple(fc.array(handsOn, { maxLength: 1 }), carry, fc.array(handsOn, { maxLength: 1 }), drying).map(([before, way, between, dry]) =>
  ({ disposition: 'treat', steps: [...before, way, ...[...between, dry].map((there) => ({ ...there, siteId: 'there' }))] }));
const hold = (disposition: Disposition): fc.Arbitrary<PlanOption> => handsOn.map((only) => ({ disposition, steps: [{ ...only, stabilises: disposition === 'release' ? null : 'end' }] }));
const options = fc.tuple(treat, freeze, freezeAndTreat, carryAndTreat, hold('hold-wet'), hold('release')).chain((all) => fc.oneof({ arbitrary: fc.shuffledSubarray(all), weight: 2 }, { arbitrary: fc.shuffledSubarray(all.slice(2, 4), { minLength: 1 }), weight: 1 }));

const item: fc.Arbitrary<PlanItem> = fc.record({
  id: fc.constant<string>(''), siteId: site, releaseSlot: fc.nat(20), deadlineSlot: fc.oneof({ arbitrary: fc.integer({ min: -3, max: HORIZON + 4 }), weight: 1 }, { arbitrary: fc.integer({ min: 20, max: HORIZON }), weight: 1 }), weight: fc.nat(21), stabilised: fc.boolean(), options, first: rarely(fc.constant(true), 6),
}).map(({ siteId, options: routes, ...rest }) => ({
  ...defined(rest), siteId,
  options: routes.map(({ disposition, steps }) => ({ disposition, steps: steps.map((one) => (one.siteId === undefined ? one : { ...one, siteId: SITES.find((other) => other !== siteId)! })) })),
}));

/** Some items are of one kind with the one before, from the same house: only such share a bath now and then. */
function families(items: fc.Arbitrary<PlanItem[]>): fc.Arbitrary<PlanItem[]> {
  return items.chain((list) => fc.tuple(...list.map(() => rarely(fc.constant(true), 2))).map((alike) => {
    const grown: PlanItem[] = [];
    list.forEach((one, i) => { grown.push(i > 0 && alike[i] === true ? { ...structuredClone(grown[i - 1]!), id: one.id, weight: one.weight } : one); });
    return grown;
  }));
}

const services: fc.Arbitrary<PlanService[]> = fc.tuple(fc.nat(3), calendar, fc.nat(3), calendar).map(([seats, leaves, hands, comes]) => [
  { id: 'courier', kind: 'courier', capacity: seats, open: leaves }, { id: 'specialist', kind: 'specialist', capacity: hands, open: comes },
]);

/** Up to `maxItems` items on two sites. */
export function randomProblem(maxItems: number): fc.Arbitrary<PlanProblem> {
  return fc.record({
    originMs: fc.constant<number>(0), slotMinutes: fc.constantFrom(15, 5, 60), horizonSlots: fc.constant<number>(HORIZON),
    stations: named('station', fc.record({ id: fc.constant<string>(''), siteId: site, zone: fc.constant('clean' as const), steps: fc.subarray<StepKind>(KINDS, { minLength: 2 }), capacity: fc.oneof(fc.nat(2), fc.integer({ min: 1, max: 2 })), open: calendar }), STATIONS, 3),
    people: named('person', fc.record({ id: fc.constant<string>(''), siteId: site, skills: fc.subarray(SKILLS, { minLength: 1 }), restrictions: fc.subarray(RESTRICTIONS, { maxLength: 1 }), shifts: calendar, fitUntilSlot: fc.oneof(fc.constant(HORIZON), fc.nat(HORIZON)) }), 7, 3),
    rooms: fc.tuple(...SITES.map((siteId) => fc.nat(20).map((limit) => ({ id: `room-${siteId}`, siteId, removalGPerSlot: [{ from: 0, to: 24, limit }, { from: 24, to: HORIZON, limit: 12 }] })))),
    places: named('place', fc.record({ id: fc.constant<string>(''), roomId: site.map((id) => `room-${id}`), areaDm2: fc.nat(24), open: calendar, closeness: fc.constantFrom<'tiers' | 'side-by-side'>('tiers', 'side-by-side') }), 4, 2),
    freezers: named('freezer', fc.record({ id: fc.constant<string>(''), siteId: site, volumeCl: fc.nat(20), open: fc.oneof(calendar, whole) }), 3, 2),
    items: families(named('item', item, maxItems)), services, companies,
    late: rarely(fc.constantFrom<'list' | 'plan'>('list', 'plan', 'plan'), 2), tardinessCapSlots: rarely(fc.integer({ min: 1, max: 60 }), 3),
  }).chain((resources) => {
    const problem: PlanProblem = { ...defined(resources), fixed: [] };
    return fc.record({ fixed: fc.array(fixedUse(problem), { maxLength: 4 }), pins: sketches(problem, 4), previous: rarely(fc.tuple(sketches(problem, 1), fc.nat(8)), 2) })
      .map(({ fixed, pins, previous }) => ({ ...withPins(problem, pins), fixed, ...(previous === undefined ? {} : { previous: before(problem, ...previous) }) }));
  });
}

/** For each item nothing, or in one of `freq` cases a way to do it that need not be possible. */
function sketches(problem: PlanProblem, freq: number): fc.Arbitrary<(Sketch | undefined)[]> {
  const one: fc.Arbitrary<Sketch> = fc.record({ option: fc.nat(5), begin: fc.integer({ min: -4, max: 20 }), gap: fc.nat(3), pick: fc.nat(5) });
  return fc.tuple(...problem.items.map(() => rarely(one, freq)));
}

function withPins(problem: PlanProblem, pins: readonly (Sketch | undefined)[]): PlanProblem {
  return {
    ...problem,
    items: problem.items.map((entry, i) => {
      const pin = pins[i];
      // A pin for each second item that drew one is enough to be in the way of the others.
      return pin === undefined || i % 2 === 1 || entry.options.length === 0 ? entry : { ...entry, pinned: sketchOf(problem, entry, { ...pin, begin: Math.max(pin.begin, entry.releaseSlot) }) };
    }),
  };
}

function before(problem: PlanProblem, drawn: readonly (Sketch | undefined)[], holdBeforeSlot: number): PlanProblem['previous'] {
  const steps = problem.items.flatMap((entry, i) => (drawn[i] === undefined || entry.options.length === 0 ? [] : sketchOf(problem, entry, drawn[i])));
  return { holdBeforeSlot, steps: steps.map(({ option: _, position: __, batchId: ___, ...was }) => was) };
}

/** A use that has begun; it need not fit, as facts do not ask. */
function fixedUse(problem: PlanProblem): fc.Arbitrary<FixedUse> {
  const one = (list: readonly { id: string }[]): fc.Arbitrary<string | null> => fc.option(fc.constantFrom(...list.map(({ id }) => id), null), { nil: null });
  return fc.record({
    itemId: fc.constantFrom('elsewhere', ...problem.items.map(({ id }) => id)), step: fc.constant('dry' as const),
    stationId: one(problem.stations), personIds: fc.subarray(problem.people.slice(0, 2).map(({ id }) => id)), dryingPlaceId: one(problem.places),
    areaDm2: fc.nat(12), loadGPerSlot: fc.nat(12), falls: falls(), freezerId: one(problem.freezers), volumeCl: fc.nat(8), company,
    interval: fc.tuple(fc.integer({ min: -5, max: 10 }), fc.integer({ min: 1, max: 20 })).map(([from, length]) => ({ from, to: from + length })),
  }).map(({ falls: shares, ...use }) => defined({ ...use, falling: falling(use.loadGPerSlot, shares) }));
}

/** Slots after the entry before, and what is left of the load then, in tenths. */
function falls(): fc.Arbitrary<[slots: number, tenths: number][] | undefined> {
  return rarely(fc.array(fc.tuple(fc.integer({ min: 1, max: 8 }), fc.nat(10)), { minLength: 1, maxLength: 3 }), 2);
}

function falling(loadGPerSlot: number, shares: readonly [number, number][] | undefined): FallingLoad[] | undefined {
  let fromSlot = 0;
  let load = loadGPerSlot;
  return shares?.map(([slots, tenths]) => {
    fromSlot += slots;
    load = Math.floor((load * tenths) / 10);
    return { fromSlot, loadGPerSlot: load };
  });
}

/** Numbered ids, padded so that their order is that of the list. */
function named<T extends { id: string }>(kind: string, entry: fc.Arbitrary<T>, maxLength: number, minLength = Math.min(1, maxLength)): fc.Arbitrary<T[]> {
  return fc.array(entry, { maxLength, minLength, size: 'max' }).map((list) => list.map((one, i) => ({ ...one, id: `${kind}-${String(i).padStart(2, '0')}` })));
}

/** Without what was left out, so that nothing is there with no value. */
function defined<T extends object>(entry: T): { [K in keyof T]: Exclude<T[K], undefined> | Extract<T[K], undefined> } {
  return Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined)) as never;
}
