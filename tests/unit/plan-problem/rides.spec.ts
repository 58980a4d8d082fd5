/** Vehicles between sites, as a plan takes them. Numbers of the small incident are invented; what may be carried is our own choice. */
import { describe, expect, test } from '@jest/globals';
import { buildProblem, DEFAULT_PLANNING_VALUES, type InputVehicle, type PlanInput, type PlannedStep } from '#application';
import { buildPlan, checkProblem, savedWeightBound, validatePlan, type PlanItem } from '#planning';
import { careStep, FREEZE, HOUR, input, item, room, SEVEN, TREAT } from './support/small-input.js';

const MINUTE = 60_000;
const VAN: InputVehicle = { id: 'van', code: 'VAN1', name: 'White van', maxLoadKg: 300, rides: [{ id: 'out', fromSiteId: 'hall', toSiteId: 'school', minutes: 30 }, { id: 'back', fromSiteId: 'school', toSiteId: 'hall', minutes: 30 }], runs: [] };
const BLOT = { id: 'blot', siteId: 'hall', zone: 'clean' as const, steps: ['blot' as const, 'check' as const], capacity: 2, openings: [] };
const SCHOOL_STATIONS = [
  { id: 'school-bath', siteId: 'school', zone: 'dirty' as const, steps: ['rinse' as const, 'wrap' as const], capacity: 2, openings: [] },
  { id: 'school-blot', siteId: 'school', zone: 'clean' as const, steps: ['blot' as const], capacity: 2, openings: [] },
];

/** The hall, and a school that can do all but freeze. */
function twoSites(change: Partial<PlanInput> = {}): PlanInput {
  const hall = input();
  return input({
    siteNames: { hall: 'Hall', school: 'School' }, stations: [...hall.stations, BLOT, ...SCHOOL_STATIONS],
    people: [...hall.people, ...['bea', 'cay'].map((id) => ({ ...hall.people[0]!, id, siteId: 'school' }))],
    rooms: [room(), room({ id: 'gym', siteId: 'school', name: 'Gym', airTempC: 22 })], places: [...hall.places, { id: 'school-rack', roomId: 'gym', areaDm2: 3000 }],
    vehicles: [VAN], ...change,
  });
}

const build = (rows: PlanInput) => buildProblem(rows, { nowMs: SEVEN });
const routesOf = ({ options }: PlanItem) => options.map(({ disposition, steps }) => [disposition, ...steps.map(({ step, siteId }) => (siteId === undefined ? step : `${step}@${siteId}`))].join(' '));
const routes = (rows: PlanInput) => routesOf(build(rows).problem.items[0]!);

describe('a ride that is known', () => {
  test('gives each way of what waits a second one over the other site, after the one where it is and before triage’s next', () => {
    const built = build(twoSites());
    expect(checkProblem(built.problem)).toEqual([]);
    expect(routesOf(built.problem.items[0]!)).toEqual(['treat assess rinse blot dry', 'treat assess carry rinse@school blot@school dry@school', 'hold-frozen wrap freeze']);
  });

  test('takes the reckoned wet weight of the whole lot in kilograms, nobody’s hands and no station, for the minutes of the ride', () => {
    const carry = (count: number) => build(twoSites({ items: [item({ count, dryMassG: 500 * count })] })).problem.items[0]!.options[1]!.steps[1]!;
    expect(carry(1)).toMatchObject({ step: 'carry', durationSlots: 2, noStation: true, crew: 0, skill: null, drying: null, freezer: null, stabilises: null });
    const kg = (count: number) => carry(count).services![0]!.units;
    expect(carry(1).services).toEqual([{ serviceId: 'out', units: kg(1) }]);
    // Wet cloth weighs more than dry cloth, and less than eleven times as much.
    expect(kg(20)).toBeGreaterThan(10);
    expect(kg(20)).toBeLessThan(110);
    expect(kg(40)).toBeGreaterThan(1.9 * kg(20) - 1);
  });

  test('weighs at least a kilogram, however small the thing', () => {
    expect(build(twoSites({ items: [item({ sizeClass: 'print-10x15', dryMassG: 4 })] })).problem.items[0]!.options[1]!.steps[1]!.services).toEqual([{ serviceId: 'out', units: 1 }]);
  });

  test('leaves the moment at which a thing is safe with the step that makes it so', () => {
    expect(build(twoSites()).problem.items[0]!.options[1]!.steps.map(({ stabilises }) => stabilises)).toEqual([null, null, null, null, 'start']);
  });

  test('reckons drying over there in the air of that site', () => {
    const humid = build(twoSites({ rooms: [room(), room({ id: 'gym', siteId: 'school', name: 'Gym', relativeHumidityPct: 70 })] })).problem.items[0]!.options;
    expect(humid[1]!.steps[4]!.durationSlots).toBeGreaterThan(humid[0]!.steps[3]!.durationSlots);
  });

  test('changes nothing of the hall’s own ways, and without vehicles the problem is that of before', () => {
    const { vehicles: _, ...none } = twoSites();
    const [without, beside] = [build(none as PlanInput), build(twoSites())];
    expect(without.problem).not.toHaveProperty('services');
    expect(beside.problem.items[0]!.options.filter(({ steps }) => steps.every(({ step }) => step !== 'carry'))).toEqual(without.problem.items[0]!.options);
    expect({ ...beside.problem, items: [], services: undefined }).toEqual({ ...without.problem, items: [], services: undefined });
  });
});

describe('no way over another site has', () => {
  test.each<[string, Partial<PlanInput>]>([
    ['a thing with a hazard', { items: [item({ company: { materialClass: 'textile-garment-3d', apartFrom: [], hazards: ['asbestos'] } })] }],
    ['a thing with living mould', { items: [item({ mould: 'active' })] }],
    ['a thing in work', { items: [item({ stage: 'in-work', keeper: { kind: 'station', id: 'bath' } })] }],
    ['a frozen thing', { items: [item({ stage: 'held-frozen', keeper: { kind: 'freezer', id: 'chest' }, nextStep: 'thaw' })] }],
    ['a thing that lies in a container', { items: [item({ keeper: { kind: 'container', id: 'box' } })] }],
    ['a thing that is in a vehicle', { items: [item({ keeper: { kind: 'vehicle', id: 'van' } })] }],
    ['a thing that is safe already', { items: [item({ stabilisedAtMs: SEVEN - HOUR })] }],
    ['a thing whose every deadline has passed', { items: [item({ startByMs: SEVEN - HOUR, deadlinesMs: [SEVEN - HOUR] })] }],
    ['a lot that is heavier than the vehicle takes', { items: [item({ count: 400, dryMassG: 200_000 })] }],
    ['a way of which only looking is left', { items: [item({ options: [{ ...TREAT, steps: [careStep('assess', { stabilises: true })] }] })] }],
    ['a site without a station for one of the steps', { stations: [...input().stations, BLOT, SCHOOL_STATIONS[0]!] }],
    ['a site whose station does the step in another zone', { stations: [...input().stations, BLOT, SCHOOL_STATIONS[0]!, { ...SCHOOL_STATIONS[1]!, zone: 'dirty' as const }] }],
    ['a site where nothing dries', { places: input().places }],
    ['a site from which the ride leaves nowhere', { vehicles: [{ ...VAN, rides: [VAN.rides[1]!] }] }],
    ['a vehicle that does not run in the days of the plan', { vehicles: [{ ...VAN, runs: [{ fromMs: SEVEN - 5 * HOUR, toMs: SEVEN - HOUR }] }] }],
  ])('%s', (_, change) => {
    expect(routes(twoSites(change)).filter((route) => route.includes('carry'))).toEqual([]);
  });

  test('a network that lets plans weigh up none', () => {
    const { problem } = buildProblem(twoSites(), { nowMs: SEVEN, planning: { ...DEFAULT_PLANNING_VALUES, ridesOffered: 0 } });
    expect(routesOf(problem.items[0]!)).toEqual(['treat assess rinse blot dry', 'hold-frozen wrap freeze']);
  });
});

describe('of several rides', () => {
  const school = (id: string) => SCHOOL_STATIONS.map((station) => ({ ...station, id: `${id}-${station.id}`, siteId: id }));
  const ride = (id: string, toSiteId: string, minutes: number) => ({ id, fromSiteId: 'hall', toSiteId, minutes });
  const many = (...rides: InputVehicle['rides']) => twoSites({
    items: [item({ options: [TREAT] })], vehicles: [{ ...VAN, rides }],
    stations: [...twoSites().stations, ...school('barn'), ...school('mill')],
    rooms: [...twoSites().rooms, room({ id: 'barn-room', siteId: 'barn' }), room({ id: 'mill-room', siteId: 'mill' })],
    places: [...twoSites().places, { id: 'barn-rack', roomId: 'barn-room', areaDm2: 900 }, { id: 'mill-rack', roomId: 'mill-room', areaDm2: 900 }],
  });
  const taken = (rows: PlanInput) => build(rows).problem.items[0]!.options.flatMap(({ steps }) => steps.flatMap(({ services = [] }) => services.map(({ serviceId }) => serviceId)));

  test('two are offered, the shorter first', () => {
    expect(taken(many(ride('a', 'school', 40), ride('b', 'barn', 10), ride('c', 'mill', 25)))).toEqual(['b', 'c']);
  });

  test('another site comes before a second ride to the same one', () => {
    const rows = many(ride('a', 'school', 10), ride('b', 'barn', 60));
    expect(taken({ ...rows, vehicles: [...rows.vehicles!, { ...VAN, id: 'truck', rides: [ride('fast', 'school', 12)] }] })).toEqual(['a', 'b']);
    expect(taken({ ...rows, vehicles: [{ ...VAN, rides: [ride('a', 'school', 10)] }, { ...VAN, id: 'truck', rides: [ride('fast', 'school', 12)] }] })).toEqual(['a', 'fast']);
  });
});

describe('a vehicle leaves', () => {
  const open = (change: Partial<InputVehicle>, nowMs = SEVEN) => {
    const { services = [] } = buildProblem(twoSites({ vehicles: [{ ...VAN, ...change }] }), { nowMs, windowHours: 4, slotMinutes: 15 }).problem;
    return Object.fromEntries(services.map(({ id, open: at }) => [id, at.map(({ from, to }) => `${from}-${to}`)]));
  };

  test('again and again, one ride after the other, and is never in two places', () => {
    expect(open({})).toEqual({ out: ['0-2', '4-6', '8-10', '12-14'], back: ['2-4', '6-8', '10-12', '14-16'] });
  });

  test('at the same moments in the next plan, which begins a slot later', () => {
    expect(open({}, SEVEN + 15 * MINUTE)).toEqual({ out: ['3-5', '7-9', '11-13'], back: ['1-3', '5-7', '9-11', '13-15'] });
  });

  test('again only after it is back, where nobody stated the way back', () => {
    expect(open({ rides: [{ ...VAN.rides[0]!, minutes: 45 }] }).out!.map((span) => Number(span.split('-')[0]))).toEqual([2, 8]);
  });

  test('only for rides that end while it runs; times that meet are one', () => {
    const runs = [{ fromMs: SEVEN + HOUR, toMs: SEVEN + 2 * HOUR }, { fromMs: SEVEN + 2 * HOUR, toMs: SEVEN + 2.75 * HOUR }];
    expect(open({ runs })).toEqual({ out: ['4-6', '8-10'], back: ['6-8'] });
    expect(open({ runs: [{ fromMs: SEVEN - HOUR / 2, toMs: SEVEN + 1.4 * HOUR }] })).toEqual({ out: ['2-4'], back: ['0-2'] });
  });
});

describe('what is on a ride', () => {
  const riding = (departedAtMs: number | null, change: Partial<InputVehicle> = {}) => build(twoSites({
    vehicles: [{ ...VAN, ...change }], items: [item({ keeper: { kind: 'vehicle', id: 'van' }, riding: { vehicleId: 'van', fromSiteId: 'hall', toSiteId: 'school', departedAtMs } })],
  })).problem.items[0]!;

  test('is planned where it gets down, and not before it is there', () => {
    expect(riding(SEVEN - 10 * MINUTE)).toMatchObject({ siteId: 'school', releaseSlot: 2 });
    expect(riding(null)).toMatchObject({ siteId: 'school', releaseSlot: 2 });
    expect(riding(SEVEN - 5 * HOUR)).toMatchObject({ siteId: 'school', releaseSlot: 0 });
    expect(routesOf(riding(null))).toEqual(['treat assess rinse blot dry', 'hold-frozen wrap freeze']);
  });

  test('is planned where it was, when nothing is known of its ride', () => {
    expect(riding(null, { rides: [VAN.rides[1]!] })).toMatchObject({ siteId: 'hall', releaseSlot: 0 });
  });
});

describe('a pin of what is to be carried', () => {
  const at = (step: PlannedStep['step'], hours: number, change: Partial<PlannedStep> = {}): PlannedStep =>
    ({ position: 0, step, disposition: 'treat', stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, serviceId: null, startsAtMs: SEVEN + hours * HOUR, endsAtMs: SEVEN + (hours + 0.5) * HOUR, ...change });
  const steps = [at('carry', 1, { serviceId: 'out' }), at('rinse', 2, { stationId: 'school-bath', personIds: ['bea'] }), at('blot', 3, { stationId: 'school-blot', personIds: ['bea'] }), at('dry', 4, { dryingPlaceId: 'school-rack' })];
  const route = { ...TREAT, steps: TREAT.steps.map((step) => ({ ...step, crew: 1 })) };
  const pinned = (change: Parameters<typeof item>[0], vehicles = [VAN]) => build(twoSites({
    vehicles, items: [item({ options: [route], doneSteps: ['assess'], nextStep: 'rinse', ...change })],
    wishes: [{ id: 'pin', itemId: 'thing', kind: 'pin', stationId: null, step: null, disposition: null, notBeforeMs: null, pinned: steps }],
  }));

  test('is of the way with that ride', () => {
    const { problem, lapsed } = pinned({});
    expect(lapsed).toEqual([]);
    expect(problem.items[0]!.pinned).toMatchObject([{ option: 1, step: 'carry', startSlot: 4 }, { step: 'rinse', stationId: 'school-bath' }, { step: 'blot' }, { step: 'dry', dryingPlaceId: 'school-rack' }]);
    const plan = buildPlan(problem, { seed: 1, iterations: 5 });
    expect(validatePlan(problem, plan)).toEqual([]);
    expect(plan.assignments.map(({ step, startSlot }) => `${step} ${startSlot}`)).toEqual(['carry 4', 'rinse 8', 'blot 12', 'dry 16']);
  });

  test('goes on over there once it has come', () => {
    const { problem, lapsed } = pinned({ siteId: 'school' });
    expect(lapsed).toEqual([]);
    expect(problem.items[0]!.pinned).toMatchObject([{ option: 0, step: 'rinse', startSlot: 8 }, { step: 'blot' }, { step: 'dry' }]);
  });
});

describe('a plan', () => {
  test('carries what could not be in time where it is, never more at once than the vehicle takes, and breaks no rule', () => {
    // One pair of hands at the bath of the hall, two hours left; at the school two people are idle.
    const things = Array.from({ length: 16 }, (_, i) => item({ id: `thing-${String(i).padStart(2, '0')}`, count: 4, dryMassG: 2_000, areaDm2: 60, startByMs: SEVEN + 4 * HOUR, deadlinesMs: [SEVEN + 4 * HOUR], options: [{ ...TREAT, steps: TREAT.steps.map((step) => ({ ...step, crew: 1 })) }], doneSteps: ['assess'] }));
    const rows = twoSites({ items: things, vehicles: [{ ...VAN, maxLoadKg: 30 }] });
    const problem = buildProblem(rows, { nowMs: SEVEN, slotMinutes: 5 }).problem;
    expect(checkProblem(problem)).toEqual([]);
    const plan = buildPlan(problem, { seed: 1, iterations: 200 });
    expect(validatePlan(problem, plan)).toEqual([]);
    const { vehicles: _, ...apart } = rows;
    const without = buildPlan(buildProblem(apart as PlanInput, { nowMs: SEVEN, slotMinutes: 5 }).problem, { seed: 1, iterations: 200 });
    expect(plan.objective[0]).toBeLessThan(without.objective[0]);
    const weights = problem.items.reduce((sum, { weight }) => sum + weight, 0);
    expect(weights - plan.objective[0]).toBeLessThanOrEqual(savedWeightBound(problem).weight);
    const carried = plan.assignments.filter(({ step }) => step === 'carry');
    expect(carried.length).toBeGreaterThan(0);
    const loads = new Map<number, number>();
    for (const { itemId, option, startSlot } of carried) {
      const kg = problem.items.find(({ id }) => id === itemId)!.options[option]!.steps.find(({ step }) => step === 'carry')!.services![0]!.units;
      loads.set(startSlot, (loads.get(startSlot) ?? 0) + kg);
    }
    for (const kg of loads.values()) expect(kg).toBeLessThanOrEqual(30);
    // Half an hour there and half an hour back.
    const leaves = [...loads.keys()].sort((a, b) => a - b);
    for (const [i, slot] of leaves.slice(1).entries()) expect(slot - leaves[i]!).toBeGreaterThanOrEqual(12);
  });

  test('of what could go frozen keeps the freezer at home, where the other site has none', () => {
    expect(routes(twoSites({ items: [item({ options: [FREEZE] })] }))).toEqual(['hold-frozen wrap freeze']);
  });
});
