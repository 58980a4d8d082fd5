/** Things that travel: a second site with people of its own, shelves and vehicles, containers, hand-overs. All through the API. */
import { runHandOverDue, type HandOverDueOutcome } from '#application';
import { newId } from '#platform';
import { reserveTestTags } from '#testing';
import { workerContextOf } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from './workbench.js';

export interface KeeperSeen {
  kind: string;
  id: string;
}

/** The small incident with a store as its second site, where P5 and P6 work. */
export function openTwoSites(): Promise<Workbench> {
  return Workbench.open((document) => {
    document.sites.push({ code: 'STORE', name: 'Dry store', zones: ['clean', 'dirty'] });
    const shifts = [{ startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T19:00:00Z' }];
    for (const code of ['P5', 'P6']) document.people?.push({ code, displayName: `Storekeeper ${code}`, site: 'STORE', skills: ['intake'], shifts });
  });
}

export class Carrying {
  constructor(readonly bench: Workbench) {}

  private get path(): string {
    return `/v1/incidents/${this.bench.incident.id}`;
  }

  person(code: string): string {
    return this.bench.incident.person(code);
  }

  site(code: string): string {
    return this.bench.incident.site(code);
  }

  /** The waiting area of a zone at the store. */
  storeArea(zone = 'clean'): KeeperSeen {
    const area = this.bench.incident.layout.sites.find(({ code }) => code === 'STORE')?.holdingAreas.find((one) => one.zone === zone);
    return { kind: 'holding', id: area?.id ?? '' };
  }

  async vehicle(volumeL: number | null = null): Promise<KeeperSeen> {
    const { body } = await this.bench.network.post(`${this.path}/vehicles`, { code: `V-${newId().slice(-8)}`, name: 'Van', volumeL }).expect(201);
    return { kind: 'vehicle', id: body.id as string };
  }

  async shelf(volumeL: number | null = null, site = 'STORE'): Promise<KeeperSeen> {
    const { body } = await this.bench.network.post(`${this.path}/shelves`, { siteId: this.site(site), code: `S-${newId().slice(-8)}`, name: 'Shelf', zone: 'clean', volumeL }).expect(201);
    return { kind: 'shelf', id: body.id as string };
  }

  async container(change: object = {}) {
    const [tag] = await reserveTestTags(this.bench.network, this.bench.incident, 1, 'container');
    const { body } = await this.bench.network.post(`${this.path}/containers`, { siteId: this.site('HALL'), tag, kind: 'crate', ...change }).expect(201);
    return body as { id: string; tag: string; keeper: KeeperSeen; version: number };
  }

  moveContainer(id: string, from: KeeperSeen | null, to: KeeperSeen, change: object = {}) {
    return this.bench.network.post(`/v1/containers/${id}/custody-events`, { kind: 'moved', from, to, personId: this.person('P2'), ...change });
  }

  async readContainer(id: string) {
    return (await this.bench.network.get(`/v1/containers/${id}`).expect(200)).body;
  }

  /** An item that lies in a container. */
  async itemIn(containerId: string, household: Parameters<Workbench['takeIn']>[0], change: object = {}) {
    const item = await this.bench.takeIn(household, change);
    await this.bench.pass(item.id, 'moved', { kind: 'container', id: containerId });
    return this.bench.read(item.id);
  }

  offer(to: KeeperSeen, things: object, change: object = {}) {
    return this.bench.network.post(`${this.path}/hand-overs`, { to, personId: this.person('P2'), ...things, ...change });
  }

  answer(handOverId: string, how: 'acceptances' | 'refusals' | 'withdrawals', body: object) {
    return this.bench.network.post(`/v1/hand-overs/${handOverId}/${how}`, body);
  }

  async manifest(carrier: KeeperSeen, expected: string[] = []) {
    const { body } = await this.bench.network.post(`${this.path}/manifests`, { carrier, fromSiteId: this.site('HALL'), toSiteId: this.site('STORE'), personId: this.person('P2'), expected }).expect(201);
    return body as { id: string };
  }

  onManifest(manifestId: string, what: 'loadings' | 'departures' | 'arrivals', body: object) {
    return this.bench.network.post(`/v1/manifests/${manifestId}/${what}`, { personId: this.person('P2'), ...body });
  }

  exceptions(query = '') {
    return this.bench.network.get(`${this.path}/manifest-exceptions${query}`);
  }

  /** What the worker does with the rows about hand-overs, without the worker. */
  async handOversDue(): Promise<HandOverDueOutcome[]> {
    const { server, network } = this.bench;
    const { rows } = await server.admin.query<{ id: string; incident_id: string; subject_id: string }>(`select id, incident_id, subject_id from outbox where network_id = $1 and kind = 'hand_over.due' and done_at is null order by id`, [network.networkId]);
    const outcomes: HandOverDueOutcome[] = [];
    for (const row of rows) {
      const message = { id: row.id, incidentId: row.incident_id, kind: 'hand_over.due' as const, subjectId: row.subject_id, traceparent: '' };
      outcomes.push(await runHandOverDue(server.unitOfWork, message, workerContextOf(network), { nowMs: server.clock.nowMs(), newId: () => newId() }));
    }
    return outcomes;
  }

  /** Everything that a refused command must not touch, of the whole network but for the memory of refusals. */
  async reconciled() {
    const { body } = await this.bench.network.get(`${this.path}/reconciliation`).expect(200);
    return { keepersOtherThanOne: body.keepersOtherThanOne, chainFaults: body.chainFaults, inContainers: body.containers.chainFaults, insideThemselves: body.containers.insideThemselves };
  }
}

/** What `reconciled` answers when all is well. */
export const ALL_WELL = { keepersOtherThanOne: [], chainFaults: [], inContainers: [], insideThemselves: [] };
