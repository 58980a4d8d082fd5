/** Rows as no database of ours should hold them, and as it does. */
import fc from 'fast-check';
import { WISH_KINDS, type InputItem, type InputOption, type InputWish, type PlanInput, type PlannedStep } from '#application';
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

/** As a room may have reckoned a hanging thing, in step with the rest of the row or not. */
const reckoned = fc.option(fc.record({
  asOfMs: near, moistureX: fc.double({ min: 0, max: 20, noNaN: true }), targetX: fc.double({ min: 0, max: 0.3, noNaN: true }), knownAtMs: near, build: fc.constantFrom('thin' as const, 'thick' as const, 'closed' as const), dry: fc.boolean(),
  dryLatestMs: fc.option(near, { nil: null }), modelDryMs: fc.option(near, { nil: null }),
  law: fc.option(fc.record({ ratePerH: fc.double({ min: 0, max: 50, noNaN: true }), criticalX: fc.double({ min: 0, max: 0.5, noNaN: true }), equilibriumX: fc.double({ min: 0, max: 0.5, noNaN: true }) }), { nil: null }),
}), { nil: null });

function items(ids: { stations: string[]; places: string[]; freezers: string[]; people: string[] }): fc.Arbitrary<InputItem[]> {
  const anywhere = fc.constantFrom('elsewhere', ...ids.stations, ...ids.places, ...ids.freezers);
  const item = fc.record({
    id: fc.constant(''), siteId, count: fc.oneof(fc.integer({ min: 1, max: 300 }), fc.constant(100_000)), sizeClass: fc.constantFrom(...STANDARD_ITEM_KINDS, 'no such size'),
    areaDm2: whole, volumeL: whole, dryMassG: whole, planningWeight: fc.integer({ min: 1, max: 10_000 }),
    keeper: fc.record({ kind: fc.constantFrom(...KEEPER_KINDS), id: anywhere }), stage: fc.constantFrom(...STAGES),
    stabilisedAtMs: fc.option(near, { nil: null }), disposition: fc.option(fc.constantFrom(...DISPOSITIONS), { nil: null }), nextStep: fc.option(fc.constantFrom(...STEP_KINDS), { nil: null }),
    keeperSinceMs: near, keeperPersonId: fc.option(fc.constantFrom('nobody', ...ids.people), { nil: null }), startByMs: fc.option(near, { nil: null }), deadlinesMs: fc.array(near, { maxLength: 3 }),
    options: fc.array(option, { maxLength: 4 }), mould: fc.constantFrom(...MOULD_STATES), wetState: fc.constantFrom(...WET_STATES), override: fc.option(fc.constantFrom(...DISPOSITIONS), { nil: null }), doneSteps: fc.array(fc.constantFrom(...STEP_KINDS), { maxLength: 5 }), reckoned, bathGroup: fc.constantFrom(null, 'whites', 'colours'),
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

/** Between sites that are there or not, and at times that run backwards, too. */
const vehicles = named('vehicle', fc.record({
  id, code: fc.constant('VAN'), name: fc.constant('Van'), maxLoadKg: whole, runs: fc.array(span, { maxLength: 3 }),
  rides: fc.array(fc.record({ fromSiteId: siteId, toSiteId: fc.constantFrom(...SITES, 'no site'), minutes: fc.integer({ min: 1, max: 1_440 }) }), { minLength: 1, maxLength: 3 }),
}).map(({ rides, ...vehicle }) => ({ ...vehicle, rides: rides.map((ride) => ({ id: '', ...ride })) })), 2).map((all) => all.map((vehicle) => ({ ...vehicle, rides: vehicle.rides.map((ride, i) => ({ ...ride, id: `${vehicle.id}-ride-${i}` })) })));

/** What a plan before may have held of the items: steps of their ways at any time, in any place, with anybody. */
function plannedSteps(list: readonly InputItem[], ids: { stations: string[]; places: string[]; freezers: string[]; people: string[] }): fc.Arbitrary<(PlannedStep & { itemId: string })[]> {
  const orNone = (known: string[]) => fc.constantFrom(null, 'gone', ...known);
  const spot = fc.record({ startsAtMs: near, minutes: fc.integer({ min: 5, max: 600 }), stationId: orNone(ids.stations), dryingPlaceId: orNone(ids.places), freezerId: orNone(ids.freezers), personIds: fc.subarray(['gone', ...ids.people]) });
  const steps = list.flatMap(({ id: itemId, options }) => (options[0]?.steps ?? []).map(({ step: kind }, position) => ({ itemId, disposition: options[0]!.disposition, step: kind, position })));
  return fc.array(spot, { minLength: steps.length, maxLength: steps.length }).map((spots) => steps.map((one, i) => {
    const { minutes, ...at } = spots[i]!;
    return { ...one, ...at, endsAtMs: at.startsAtMs + minutes * 60_000 };
  }));
}

function wishes(list: readonly InputItem[], published: readonly (PlannedStep & { itemId: string })[], stationIds: string[]): fc.Arbitrary<InputWish[]> {
  const wish = fc.record({
    itemId: fc.constantFrom('gone', ...list.map(({ id: itemId }) => itemId)), kind: fc.constantFrom(...WISH_KINDS), stationId: fc.constantFrom('gone', ...stationIds), step: fc.option(fc.constantFrom(...STEP_KINDS), { nil: null }),
    disposition: fc.constantFrom(...DISPOSITIONS), notBeforeMs: near,
  });
  return fc.array(wish, { maxLength: 6 }).map((all) => all.map((one, i) => ({ ...one, id: `wish-${i}`, pinned: one.kind === 'pin' ? published.filter(({ itemId }) => itemId === one.itemId) : null })));
}

const rowsOfSites: fc.Arbitrary<PlanInput> = fc.tuple(stations, people, rooms).chain(([s, p, r]) => {
  const places = named('place', fc.record({ id, roomId: fc.constantFrom('no room', ...r.map((room) => room.id)), areaDm2: whole }), 5);
  const freezers = named('freezer', fc.record({ id, siteId, name: fc.constant('Freezer'), volumeL: fc.oneof(fc.integer({ min: 1, max: 500 }), fc.constant(100_000)), availableFromMs: near }), 2);
  return fc.tuple(places, freezers).chain(([k, f]) => fc.record({
    incidentId: fc.constant('incident'), timeZone: fc.constantFrom('UTC', 'Pacific/Auckland', 'America/St_Johns', 'Nowhere/At-all'), outdoorAirTempC: fc.option(wild, { nil: null }), outdoorRelativeHumidityPct: fc.option(wild, { nil: null }), siteNames: fc.constant({ hall: 'Hall', school: 'School' }),
    stations: fc.constant(s), people: fc.constant(p), rooms: fc.constant(r), places: fc.constant(k), freezers: fc.constant(f),
    items: items(idsOf(s, p, k, f)),
  }).chain((rows) => {
    const ids = idsOf(s, p, k, f);
    return plannedSteps(rows.items, ids).chain((published) => fc.record({ wishes: wishes(rows.items, published, ids.stations), published: fc.constantFrom(published, undefined) })
      .map(({ wishes: wanted, published: before }) => ({ ...rows, wishes: wanted, ...(before !== undefined && { published: before }) })));
  }));
});

/** Any rows, sound or not: the types of the database are all that holds. */
export const anyRows: fc.Arbitrary<PlanInput> = fc.tuple(rowsOfSites, vehicles).map(([rows, known]) => ({ ...rows, vehicles: known }));

function idsOf(s: { id: string }[], p: { id: string }[], k: { id: string }[], f: { id: string }[]) {
  const of = (list: { id: string }[]) => list.map((one) => one.id);
  return { stations: of(s), people: of(p), places: of(k), freezers: of(f) };
}
