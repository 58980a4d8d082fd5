/** Rows as no database of ours should hold them, and as it does. */
import fc from 'fast-check';
import type { InputItem, InputOption, PlanInput } from '#application';
import { DISPOSITIONS, MOULD_STATES, RESTRICTIONS, RULE_BOOK, SKILLS, STEP_KINDS, WET_STATES, ZONES } from '#care';
import { STANDARD_ITEM_KINDS } from '#climate';
import { KEEPER_KINDS, STAGES } from '#custody';

export const NOW_MS = Date.parse('2026-05-09T07:07:00Z');

const SITES = ['hall', 'school'];
const near = fc.integer({ min: NOW_MS - 4 * 86_400_000, max: NOW_MS + 9 * 86_400_000 });
const span = fc.record({ fromMs: near, toMs: near });
const siteId = fc.constantFrom(...SITES);
const wild = fc.oneof(fc.double({ min: -40, max: 120, noNaN: true }), fc.constantFrom(0, 1, 60, 100));
const whole = fc.oneof(fc.integer({ min: 1, max: 400 }), fc.constantFrom(1, 100_000, 75_000_000));

const PIECES = [...new Set(RULE_BOOK.flatMap(({ concludes }) => concludes.flatMap((conclusion) => (conclusion.kind === 'ppe' ? [...conclusion.items] : []))))];
const day = fc.constantFrom('2026-05-08', '2026-05-09', '2026-05-10', '2026-05-13', '2027-01-31');

const step = fc.record({
  step: fc.constantFrom(...STEP_KINDS), zone: fc.constantFrom(...ZONES), minutesPerPiece: fc.oneof(fc.double({ min: 0, max: 30, noNaN: true }), fc.constant(0)), crew: fc.integer({ min: 0, max: 4 }),
  skill: fc.option(fc.constantFrom(...SKILLS), { nil: null }), barredRestrictions: fc.subarray([...RESTRICTIONS]), ppe: fc.subarray(PIECES), stabilises: fc.boolean(),
});
const option: fc.Arbitrary<InputOption> = fc.record({ disposition: fc.constantFrom(...DISPOSITIONS), needs: fc.nat(2), steps: fc.array(step, { maxLength: 5 }) });

function items(ids: { stations: string[]; places: string[]; freezers: string[]; people: string[] }): fc.Arbitrary<InputItem[]> {
  const anywhere = fc.constantFrom('elsewhere', ...ids.stations, ...ids.places, ...ids.freezers);
  const item = fc.record({
    id: fc.constant(''), siteId, count: fc.oneof(fc.integer({ min: 1, max: 300 }), fc.constant(100_000)), sizeClass: fc.constantFrom(...STANDARD_ITEM_KINDS, 'no such size'),
    areaDm2: whole, volumeL: whole, dryMassG: whole, planningWeight: fc.integer({ min: 1, max: 10_000 }),
    keeper: fc.record({ kind: fc.constantFrom(...KEEPER_KINDS), id: anywhere }), stage: fc.constantFrom(...STAGES),
    stabilisedAtMs: fc.option(near, { nil: null }), disposition: fc.option(fc.constantFrom(...DISPOSITIONS), { nil: null }), nextStep: fc.option(fc.constantFrom(...STEP_KINDS), { nil: null }),
    keeperSinceMs: near, keeperPersonId: fc.option(fc.constantFrom('nobody', ...ids.people), { nil: null }), startByMs: fc.option(near, { nil: null }), deadlinesMs: fc.array(near, { maxLength: 3 }),
    options: fc.array(option, { maxLength: 4 }), mould: fc.constantFrom(...MOULD_STATES), wetState: fc.constantFrom(...WET_STATES), override: fc.option(fc.constantFrom(...DISPOSITIONS), { nil: null }), doneSteps: fc.array(fc.constantFrom(...STEP_KINDS), { maxLength: 5 }),
  });
  return fc.array(item, { maxLength: 12 }).map((list) => list.map((entry, i) => ({ ...entry, id: `item-${i}` })));
}

function named<T extends { id: string }>(name: string, one: fc.Arbitrary<T>, most: number): fc.Arbitrary<T[]> {
  return fc.array(one, { maxLength: most }).map((list) => list.map((entry, i) => ({ ...entry, id: `${name}-${i}` })));
}

const id = fc.constant('');
const stations = named('station', fc.record({ id, siteId, zone: fc.constantFrom(...ZONES), steps: fc.subarray([...STEP_KINDS], { minLength: 1 }), capacity: fc.integer({ min: 1, max: 3 }), openings: fc.array(span, { maxLength: 3 }) }), 8);
const people = named('person', fc.record({ id, siteId, skills: fc.subarray([...SKILLS]), restrictions: fc.subarray([...RESTRICTIONS]), respiratorFitUntil: fc.option(day, { nil: null }), shifts: fc.array(span, { maxLength: 3 }) }), 6);
const rooms = named('room', fc.record({
  id, siteId, name: fc.constant('Room'), volumeM3: fc.oneof(wild, fc.constant(0.2)), airChangesPerH: wild, humidityCapPct: wild, airTempC: wild, relativeHumidityPct: wild,
  running: fc.array(fc.record({ ratedLPerDay: wild, ratedTempC: wild, ratedRelativeHumidityPct: wild }), { maxLength: 3 }),
}), 3);

/** Any rows, sound or not: the types of the database are all that holds. */
export const anyRows: fc.Arbitrary<PlanInput> = fc.tuple(stations, people, rooms).chain(([s, p, r]) => {
  const places = named('place', fc.record({ id, roomId: fc.constantFrom('no room', ...r.map((room) => room.id)), areaDm2: whole }), 5);
  const freezers = named('freezer', fc.record({ id, siteId, name: fc.constant('Freezer'), volumeL: fc.oneof(fc.integer({ min: 1, max: 500 }), fc.constant(100_000)), availableFromMs: near }), 2);
  return fc.tuple(places, freezers).chain(([k, f]) => fc.record({
    incidentId: fc.constant('incident'), timeZone: fc.constantFrom('UTC', 'Pacific/Auckland', 'America/St_Johns', 'Nowhere/At-all'), outdoorAirTempC: fc.option(wild, { nil: null }), outdoorRelativeHumidityPct: fc.option(wild, { nil: null }), siteNames: fc.constant({ hall: 'Hall', school: 'School' }),
    stations: fc.constant(s), people: fc.constant(p), rooms: fc.constant(r), places: fc.constant(k), freezers: fc.constant(f),
    items: items({ stations: s.map((one) => one.id), places: k.map((one) => one.id), freezers: f.map((one) => one.id), people: p.map((one) => one.id) }),
  }));
});
