/** The ways of an item as the planner takes them: each on its own site, and over the sites that a vehicle could take it to. Pure. */
import type { StepKind } from '#care';
import type { PlanOption, PlanProblem } from '#planning';
import type { InputItem, InputStep } from '../ports/plan-input.js';
import type { AirNow } from './drying-outlook.js';
import type { OpenRoute, Standing } from './item-standing.js';
import { type Reckoning, toPlanOption } from './plan-steps.js';
import { carryStep, type Rides, type RideTaken } from './rides.js';

/** Done where a thing is, before it goes anywhere: what it needs elsewhere is only known then. */
const LOOKED_AT_FIRST: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess']);

/** Makes the ways of items, with what there is on the sites of an incident. */
export class WaysOfItems {
  /** Site, zone and step of every station. */
  private readonly stations: ReadonlySet<string>;
  private readonly drying: ReadonlySet<string>;
  private readonly freezing: ReadonlySet<string>;

  /** @param airs that of the drying rooms of each site where anything dries */
  constructor({ stations, rooms, places, freezers }: Pick<PlanProblem, 'stations' | 'rooms' | 'places' | 'freezers'>, private readonly airs: ReadonlyMap<string, AirNow>, private readonly rides: Rides) {
    this.stations = new Set(stations.flatMap(({ siteId, zone, steps }) => steps.map((step) => `${siteId} ${zone} ${step}`)));
    const withPlaces = new Set(places.map(({ roomId }) => roomId));
    this.drying = new Set(rooms.filter(({ id, siteId }) => withPlaces.has(id) && airs.has(siteId)).map(({ siteId }) => siteId));
    this.freezing = new Set(freezers.map(({ siteId }) => siteId));
  }

  /**
   * In triage's order, and of each way the one on its own site first: nothing is carried that could be done as well where it is. Only what is
   * not safe and can still be in time is carried, so that the vehicle is there for it.
   */
  of(item: InputItem, { routes, stabilised, lookOnly }: Extract<Standing, { kind: 'to-plan' }>, by: Reckoning): PlanOption[] {
    const rides = stabilised || lookOnly ? [] : this.rides.of(item);
    return routes.flatMap((route) => [toPlanOption(item, route, this.airOf(item.siteId, by), by), ...rides.flatMap((ride) => this.overThere(item, route, ride, by))]);
  }

  private airOf(siteId: string, { outlooks }: Reckoning): AirNow {
    return this.airs.get(siteId) ?? outlooks.nominalAir;
  }

  /** Nothing where there is nothing left to do over there, or the site lacks what it takes. */
  private overThere(item: InputItem, route: OpenRoute, ride: RideTaken, by: Reckoning): PlanOption[] {
    const { toSiteId: siteId } = ride;
    const at = route.steps.findIndex(({ step }) => !LOOKED_AT_FIRST.has(step));
    const next = route.steps[at];
    if (next === undefined || !route.steps.slice(at).every((step) => this.serves(siteId, step, route))) return [];
    const { disposition, steps } = toPlanOption({ ...item, siteId }, route, this.airOf(siteId, by), by);
    return [{ disposition, steps: [...steps.slice(0, at), carryStep(ride, next.zone), ...steps.slice(at).map((step) => ({ ...step, siteId }))] }];
  }

  private serves(siteId: string, { step, zone }: InputStep, { specialistId }: OpenRoute): boolean {
    if (step === 'dry') return this.drying.has(siteId);
    if (step === 'refer' && specialistId !== undefined) return true;
    return this.stations.has(`${siteId} ${zone} ${step}`) && (step !== 'freeze' || this.freezing.has(siteId));
  }
}
