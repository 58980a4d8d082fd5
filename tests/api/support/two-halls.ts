/** Two halls with a van between them: nobody tests colours in the first, and testers are idle in the second. */
import { planNow, withBenches, type Assignment } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from './workbench.js';

export interface CarriedItem {
  itemId: string;
  tag: string;
  kgReckoned: number;
  lift: { peopleNeeded: number | null; liftingAid: boolean; inWords: string[] };
  firstStep: string | null;
}

export interface Departure {
  vehicle: { id: string; code: string };
  from: { id: string; code: string };
  to: { id: string; code: string };
  leavesAt: string;
  arrivesAt: string;
  overdue: boolean;
  kgReckoned: number;
  inWords: string;
  items: CarriedItem[];
}

export class TwoHalls {
  private constructor(readonly bench: Workbench) {}

  static async open(): Promise<TwoHalls> {
    return new TwoHalls(await Workbench.open((document) => {
      withBenches(document);
      const hall = document.sites[0]!;
      document.sites.push({
        ...hall, code: 'SCHOOL', name: 'School by the mill', freezers: [], stations: (hall.stations ?? []).map((station) => ({ ...station, code: `S-${station.code}` })),
        dryingRooms: (hall.dryingRooms ?? []).map((room) => ({ ...room, code: 'GYM', name: 'Gym', dryingPlaces: (room.dryingPlaces ?? []).map((place) => ({ ...place, code: `S-${place.code}` })) })),
      });
      hall.freezers = [];
      const people = document.people ?? [];
      for (const person of people) person.skills = (person.skills ?? []).filter((skill) => skill !== 'colour-testing');
      const [lead, tester] = people;
      for (const [code, like] of [['T1', lead], ['T2', tester], ['T3', lead]] as const) if (like) people.push({ ...like, code, displayName: `Tester ${code}`, site: 'SCHOOL', skills: [...(like.skills ?? []), 'colour-testing'] });
    }));
  }

  get incidentPath(): string {
    return `/v1/incidents/${this.bench.incident.id}`;
  }

  site(code: 'HALL' | 'SCHOOL'): string {
    return this.bench.incident.site(code);
  }

  /** Both ways, half an hour each. */
  get rides() {
    const [hall, school] = [this.site('HALL'), this.site('SCHOOL')];
    return [{ fromSiteId: hall, toSiteId: school, minutes: 30 }, { fromSiteId: school, toSiteId: hall, minutes: 30 }];
  }

  async van(change: object = {}): Promise<{ id: string; code: string; version: number; rides: { id: string; fromSiteId: string; toSiteId: string }[] }> {
    return (await this.bench.network.post(`${this.incidentPath}/vehicles`, { code: 'VAN1', name: 'White van', maxLoadKg: 300, rides: this.rides, ...change }).expect(201)).body;
  }

  async plan() {
    await planNow(this.bench.server, this.bench.network, this.bench.incident);
    return (await this.bench.network.get(`${this.incidentPath}/plan`).expect(200)).body as { inTime: { items: number }; revisionId: string; number: number };
  }

  async planned(itemId: string): Promise<(Assignment & { serviceId: string | null; serviceName: string | null; ride: object | null })[]> {
    const { body } = await this.bench.network.get(`${this.incidentPath}/plan/assignments?itemId=${itemId}`).expect(200);
    return body.items;
  }

  async departures(): Promise<Departure[]> {
    return (await this.bench.network.get(`${this.incidentPath}/carry-list`).expect(200)).body.departures;
  }

  /** What a station is to do next, by item and step. */
  async listOf(station: string): Promise<string[]> {
    const { body } = await this.bench.network.get(`/v1/stations/${this.bench.incident.station(station)}/work-list?limit=100`).expect(200);
    return (body.next as { itemId: string; step: string }[]).map(({ itemId, step }) => `${itemId} ${step}`);
  }

  /** Loads things, rides, and puts them down in a waiting area of the school. */
  async ride(vehicleId: string, tags: string[]): Promise<void> {
    await this.arrive(await this.leave(vehicleId, tags), tags);
  }

  /** Loads things and departs; answers the manifest. */
  async leave(vehicleId: string, tags: string[]): Promise<string> {
    const { network, incident } = this.bench;
    const { body } = await network.post(`${this.incidentPath}/manifests`, { carrier: { kind: 'vehicle', id: vehicleId }, fromSiteId: this.site('HALL'), toSiteId: this.site('SCHOOL'), personId: incident.person('P2'), expected: tags }).expect(201);
    const on = (what: string, change: object) => network.post(`/v1/manifests/${body.id}/${what}`, { personId: incident.person('P2'), ...change }).expect(201);
    await on('loadings', { tags });
    await on('departures', {});
    return body.id as string;
  }

  async arrive(manifestId: string, tags: string[]): Promise<void> {
    const { network, incident } = this.bench;
    const area = incident.layout.sites.find(({ code }) => code === 'SCHOOL')?.holdingAreas.find(({ zone }) => zone === 'dirty');
    await network.post(`/v1/manifests/${manifestId}/arrivals`, { personId: incident.person('T1'), tags, to: { kind: 'holding', id: area?.id } }).expect(201);
  }
}
