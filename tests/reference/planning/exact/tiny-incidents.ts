/**
 * Invented tiny incidents, seeded, in which everything is scarce and every feature of the model turns up often. One slot is an
 * hour. The shares and sizes are our own choice, made so that most incidents cannot save everything.
 */
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Restriction, Skill } from '#care';
import type { FixedUse, Interval, PlanItem, PlanOption, PlanPerson, PlanProblem, PlanStation, PlanStep, PlanStepKind } from '#planning';

class Draw {
  private readonly rng;

  constructor(seed: number) {
    this.rng = xoroshiro128plus(seed * 7919 + 17);
    for (let k = 0; k < 16; k += 1) this.rng.next();
  }

  between(low: number, high: number): number {
    return uniformInt(this.rng, low, high);
  }

  oneOf<T>(list: readonly T[]): T {
    return list[this.between(0, list.length - 1)]!;
  }

  percent(share: number): boolean {
    return this.between(1, 100) <= share;
  }
}

/** What this incident has at all. */
interface Scene { draw: Draw; slots: number; annex: boolean; freezing: boolean; batches: boolean; services: boolean; falling: boolean }

/** The tiny incident of a seed; the same for ever. */
export function tinyIncident(seed: number): PlanProblem {
  const draw = new Draw(seed);
  const scene: Scene = {
    draw, slots: draw.between(12, 18), annex: draw.percent(30), freezing: draw.percent(60), batches: draw.percent(50), services: draw.percent(50), falling: draw.percent(50),
  };
  const { slots, annex } = scene;
  const sites = annex ? ['hall', 'annex'] : ['hall'];
  const stations = sites.flatMap((siteId) => stationsOf(scene, siteId));
  const people = peopleOf(scene, sites);
  const problem: PlanProblem = {
    originMs: 0, slotMinutes: 60, horizonSlots: slots, stations, people,
    rooms: sites.map((siteId) => ({ id: `${siteId}-room`, siteId, removalGPerSlot: draw.percent(40) ? [{ from: 0, to: 6, limit: draw.between(3, 6) }, { from: 6, to: slots, limit: draw.between(5, 10) }] : [{ from: 0, to: slots, limit: draw.between(5, 12) }] })),
    places: sites.flatMap((siteId) => Array.from({ length: draw.between(1, 2) }, (_, k) => ({ id: `${siteId}-rack-${k}`, roomId: `${siteId}-room`, areaDm2: draw.between(4, 7), open: draw.percent(20) ? [{ from: draw.between(0, 3), to: slots }] : whole(slots) }))),
    freezers: scene.freezing ? [{ id: 'chest', siteId: 'hall', volumeCl: draw.between(4, 8), open: draw.percent(20) ? [{ from: 0, to: slots - draw.between(1, 4) }] : whole(slots) }] : [],
    services: [{ id: 'van', kind: 'courier', capacity: draw.between(1, 3), open: calendar(draw, slots) }, { id: 'lab', kind: 'specialist', capacity: draw.between(1, 2), open: calendar(draw, slots) }],
    items: [], fixed: [],
  };
  problem.items = Array.from({ length: draw.between(3, 5) }, (_, k) => itemOf(scene, k, stations));
  if (draw.percent(35)) problem.fixed = [fixedUse(scene, problem)];
  if (draw.percent(25)) problem.late = 'plan';
  if (draw.percent(25)) problem.tardinessCapSlots = draw.between(2, 8);
  if (draw.percent(15)) draw.oneOf(problem.items).first = true;
  pin(draw, problem);
  if (draw.percent(35)) keepApart(draw, problem);
  return problem;
}

/** Two or three companies that things, places and what has begun are drawn into. */
function keepApart(draw: Draw, problem: PlanProblem): void {
  problem.companies = [
    { id: 'clean', notWith: {} }, { id: 'mould', notWith: { tiers: ['clean'], 'side-by-side': ['clean'], ...(draw.percent(50) ? { frozen: ['clean'] } : {}) } },
    ...(draw.percent(50) ? [{ id: 'dye', notWith: { tiers: ['clean', ...(draw.percent(50) ? ['dye'] : [])] } }] : []),
  ];
  for (const place of problem.places) if (draw.percent(50)) place.closeness = 'tiers';
  const drawn = (): string | undefined => (draw.percent(80) ? draw.oneOf(problem.companies!).id : undefined);
  for (const { options } of problem.items) {
    const company = drawn();
    if (company !== undefined) for (const { steps } of options) for (const one of steps) if (one.drying !== null || one.freezer !== null) one.company = company;
  }
  for (const use of problem.fixed) {
    const company = drawn();
    if (company !== undefined) use.company = company;
  }
}

/** Now and then a coordinator has fixed when the first thing that may be referred is. */
function pin(draw: Draw, problem: PlanProblem): void {
  const item = problem.items.find(({ options }) => options.some(({ disposition }) => disposition === 'refer'));
  if (item === undefined || !draw.percent(35)) return;
  const option = item.options.findIndex(({ disposition }) => disposition === 'refer');
  const startSlot = item.releaseSlot + draw.between(0, 3);
  const endSlot = startSlot + item.options[option]!.steps[0]!.durationSlots;
  item.pinned = [{ itemId: item.id, option, position: 0, step: 'refer', disposition: 'refer', batchId: null, stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, startSlot, endSlot }];
}

const whole = (slots: number): Interval[] => [{ from: 0, to: slots }];

function calendar(draw: Draw, slots: number): Interval[] {
  if (draw.percent(50)) return whole(slots);
  const pause = draw.between(4, 8);
  return [{ from: 0, to: pause }, { from: pause + draw.between(1, 3), to: slots }];
}

function stationsOf({ draw, slots }: Scene, siteId: string): PlanStation[] {
  const tubs = draw.between(1, 2);
  return [
    ...Array.from({ length: tubs }, (_, k): PlanStation => ({ id: `${siteId}-tub-${k}`, siteId, zone: 'dirty', steps: k === 0 ? ['rinse', 'assess'] : ['rinse'], capacity: 1, open: calendar(draw, slots) })),
    { id: `${siteId}-bench`, siteId, zone: 'clean', steps: ['blot', 'pack'], capacity: draw.between(1, 2), open: calendar(draw, slots) },
    { id: `${siteId}-wrap`, siteId, zone: 'cold', steps: ['freeze'], capacity: 1, open: whole(slots) },
  ];
}

function peopleOf({ draw, slots }: Scene, sites: readonly string[]): PlanPerson[] {
  const skills: Skill[][] = [['rinsing'], ['blotting', 'freezer-wrapping'], ['rinsing', 'blotting']];
  return sites.flatMap((siteId) => Array.from({ length: draw.between(2, siteId === 'hall' ? 3 : 2) }, (_, k): PlanPerson => ({
    id: `${siteId}-person-${k}`, siteId, skills: skills[k]!, restrictions: draw.percent(25) ? [draw.oneOf<Restriction>(['no-wet-work', 'no-lifting'])] : [],
    shifts: calendar(draw, slots), fitUntilSlot: draw.percent(40) ? draw.between(4, 10) : slots,
  })));
}

function step(kind: PlanStepKind, overrides: Partial<PlanStep>): PlanStep {
  return { step: kind, zone: 'clean', durationSlots: 1, crew: 1, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null, ...overrides };
}

function itemOf(scene: Scene, index: number, stations: readonly PlanStation[]): PlanItem {
  const { draw, slots } = scene;
  const options = optionsOf(scene, stations);
  const releaseSlot = draw.between(0, 4);
  const shortest = options[0]!.steps.reduce((sum, { durationSlots, drying }) => sum + (drying === null ? durationSlots : 0), 0);
  return {
    id: `item-${index}`, siteId: 'hall', releaseSlot, deadlineSlot: Math.min(slots, releaseSlot + shortest + draw.between(0, 4)),
    weight: draw.oneOf([1, 2, 3, 5, 8, 13]), stabilised: draw.percent(8), options,
  };
}

function optionsOf(scene: Scene, stations: readonly PlanStation[]): PlanOption[] {
  const { draw } = scene;
  const options: PlanOption[] = [{ disposition: 'treat', steps: [...wet(scene, stations), ...drying(scene, undefined)] }];
  if (scene.freezing && draw.percent(45)) options.push({ disposition: 'treat', steps: [freezing(scene, null), thaw(draw), ...wet(scene, stations), ...drying(scene, undefined)] });
  if (scene.freezing && draw.percent(25)) options.push({ disposition: 'hold-frozen', steps: [freezing(scene, 'end')] });
  if (scene.annex && draw.percent(60)) options.push({ disposition: 'treat', steps: [carry(draw), step('rinse', { zone: 'dirty', siteId: 'annex', skill: 'rinsing' }), ...drying(scene, 'annex')] });
  if (scene.services && draw.percent(40)) options.push({ disposition: 'refer', steps: [step('refer', { noStation: true, crew: 0, durationSlots: draw.between(1, 3), services: [{ serviceId: 'lab', units: 1 }], stabilises: 'end' })] });
  if (draw.percent(8)) options.push({ disposition: 'release', steps: [step('release', { noStation: true })] });
  return options;
}

/** Rinse, and for some a look before or blotting after it. */
function wet({ draw, batches }: Scene, stations: readonly PlanStation[]): PlanStep[] {
  const tubs = stations.filter(({ id }) => id.startsWith('hall-tub'));
  const rinse = step('rinse', {
    zone: 'dirty', durationSlots: draw.between(1, 2), skill: 'rinsing', crew: draw.percent(15) ? 2 : 1, barredRestrictions: draw.percent(50) ? ['no-wet-work'] : [],
    ...(batches && draw.percent(70) ? { batch: { group: draw.percent(75) ? 'white' : 'dark', units: draw.between(1, 2), mostUnits: draw.between(2, 4) } } : {}),
    ...(draw.percent(15) ? { needsFit: true } : {}),
    ...(draw.percent(12) ? { coolFromSlot: draw.between(1, 3) } : {}),
    ...(draw.percent(15) && tubs.length > 1 ? { barredStationIds: [draw.oneOf(tubs).id] } : {}),
  });
  if (draw.percent(20)) return [step('assess', { zone: 'dirty', ...(draw.percent(50) ? { notAfterSlot: draw.between(2, 6) } : {}) }), rinse];
  return draw.percent(35) ? [rinse, step('blot', { skill: 'blotting' })] : [rinse];
}

/** Drying, and packing after it for some. */
function drying({ draw, falling }: Scene, siteId: string | undefined): PlanStep[] {
  const durationSlots = draw.between(2, 5);
  const loadGPerSlot = draw.between(2, 6);
  const at = siteId === undefined ? {} : { siteId };
  const dry = step('dry', {
    ...at, durationSlots, crew: 0, stabilises: draw.percent(80) ? 'start' : 'end',
    drying: { areaDm2: draw.between(2, 5), loadGPerSlot, ...(falling ? { falling: [{ fromSlot: 1, loadGPerSlot: Math.max(1, loadGPerSlot - 2) }, { fromSlot: 3, loadGPerSlot: 1 }] } : {}) },
  });
  return draw.percent(20) ? [dry, step('pack', { ...at, crew: draw.between(0, 1) })] : [dry];
}

function freezing({ draw }: Scene, stabilises: 'end' | null): PlanStep {
  const freezer = { volumeCl: draw.between(2, 4), ...(draw.percent(30) ? { leastSlots: draw.between(2, 3) } : {}) };
  if (stabilises === null && draw.percent(30)) return step('freeze', { zone: 'cold', durationSlots: 0, crew: 0, noStation: true, freezer });
  return step('freeze', { zone: 'cold', skill: 'freezer-wrapping', freezer, stabilises });
}

function thaw(draw: Draw): PlanStep {
  return step('thaw', { zone: 'cold', noStation: true, crew: draw.percent(30) ? 1 : 0 });
}

function carry(draw: Draw): PlanStep {
  return step('carry', { noStation: true, crew: 0, durationSlots: draw.between(1, 2), services: [{ serviceId: 'van', units: draw.between(1, 2) }], ...(draw.percent(40) ? { notAfterSlot: draw.between(2, 8) } : {}) });
}

/** Something that has begun: a step at a station, drying, or a stay in the freezer. */
function fixedUse({ draw, slots, freezing: cold }: Scene, problem: PlanProblem): FixedUse {
  const none: FixedUse = { itemId: draw.percent(30) ? 'item-0' : 'begun', step: 'rinse', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: draw.between(1, 4) } };
  const kind = draw.between(0, cold ? 2 : 1);
  if (kind === 0) return { ...none, stationId: 'hall-tub-0', personIds: ['hall-person-0'] };
  if (kind === 1) return { ...none, step: 'dry', dryingPlaceId: problem.places[0]!.id, areaDm2: draw.between(1, 3), loadGPerSlot: 3, falling: [{ fromSlot: 4, loadGPerSlot: 1 }], interval: { from: -2, to: draw.between(3, 8) } };
  return { ...none, itemId: 'begun', step: 'freeze', freezerId: 'chest', volumeCl: 2, interval: { from: 0, to: draw.between(4, slots) } };
}

/** Features of a problem by name, so that a test can say that all turn up. */
export function featuresOf(problem: PlanProblem): Set<string> {
  const steps = problem.items.flatMap(({ options }) => options.flatMap((option) => option.steps));
  const some = (test: (step: PlanStep) => boolean): boolean => steps.some(test);
  const features: [string, boolean][] = [
    ['batch', some((one) => one.batch !== undefined)], ['freezing and thawing', problem.items.some(({ options }) => options.some((option) => option.steps.slice(0, -1).some(({ freezer }) => freezer !== null)))],
    ['frozen to the end', problem.items.some(({ options }) => options.some((option) => option.steps.at(-1)!.freezer !== null))], ['frozen in passing', some((one) => one.freezer !== null && one.durationSlots === 0)],
    ['least stay frozen', some((one) => one.freezer?.leastSlots !== undefined)], ['service', some((one) => one.services !== undefined)], ['carry', some((one) => one.step === 'carry')],
    ['falling load', some((one) => one.drying?.falling !== undefined)], ['calendar', [...problem.stations, ...problem.services!].some(({ open }) => open.length > 1)], ['shift with a pause', problem.people.some(({ shifts }) => shifts.length > 1)],
    ['restriction', some((one) => one.barredRestrictions.length > 0) && problem.people.some(({ restrictions }) => restrictions.length > 0)], ['respirator', some((one) => one.needsFit === true)], ['crew of two', some((one) => one.crew === 2)],
    ['heat', some((one) => one.coolFromSlot !== undefined)], ['not after', some((one) => one.notAfterSlot !== undefined)], ['barred station', some((one) => one.barredStationIds !== undefined)],
    ['fixed use', problem.fixed.length > 0], ['late planned', problem.late === 'plan'], ['several routes', problem.items.some(({ options }) => options.length > 1)], ['two skills apart', problem.people.length >= 2],
    ['offered first', problem.items.some(({ first }) => first === true)], ['pinned', problem.items.some(({ pinned }) => pinned !== undefined)],
    ['company', some((one) => one.company !== undefined)], ['company over each other', problem.companies !== undefined && problem.places.some(({ closeness }) => closeness === 'tiers')],
    ['stabilised already', problem.items.some(({ stabilised }) => stabilised)], ['cap on lateness', problem.tardinessCapSlots !== undefined], ['air that changes', problem.rooms.some(({ removalGPerSlot }) => removalGPerSlot.length > 1)],
  ];
  return new Set(features.filter(([, there]) => there).map(([name]) => name));
}
