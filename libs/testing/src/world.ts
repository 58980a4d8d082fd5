import type { TagKind } from '#custody';
import type { IncidentOnTest } from './incident.js';
import { randomHex, type TestNetwork, type TestServer } from './server.js';

/** From here on the other network reserves its tags: codes that the first one never has. Before it, both have the same. */
const APART = 1_000_000;
const RESERVED_AT_ONCE = 120;

/** Anything the API answered; the tests read only what they asked for. */
export type Answered = Record<string, unknown> & { id: string; version: number };

/** One incident with something of everything in it. Every free text holds `marker`, so that a leak can be seen. */
export class PreparedIncident {
  readonly made: Record<string, string> = {};
  private readonly tags: Record<TagKind, string[]> = { item: [], container: [], place: [], person: [] };

  constructor(
    readonly network: TestNetwork,
    readonly places: IncidentOnTest,
    readonly marker: string,
  ) {}

  get id(): string {
    return this.places.id;
  }

  /** An id of what `prepareIncident` made, by its name. */
  the(name: string): string {
    const id = this.made[name];
    if (id === undefined) throw new Error(`the prepared incident has no ${name}`);
    return id;
  }

  text(what: string): string {
    return `${what} ${this.marker}`;
  }

  /** A reserved tag that is not tied yet. */
  async newTag(kind: TagKind = 'item'): Promise<string> {
    if (this.tags[kind].length === 0) this.tags[kind] = await this.reserve(kind, RESERVED_AT_ONCE);
    return this.tags[kind].shift() ?? '';
  }

  async reserve(kind: TagKind, count: number): Promise<string[]> {
    const block = await this.create(`/v1/incidents/${this.id}/tag-blocks`, { kind, count, reservedFor: this.text('Doorway team') });
    return block['tags'] as string[];
  }

  keep(kind: TagKind, tags: readonly string[]): void {
    this.tags[kind].push(...tags);
  }

  async newHousehold(): Promise<Answered> {
    const contact = { name: this.text('Contact'), phone: this.text('Phone'), email: `${this.marker}@household.example`, address: this.text('Address') };
    const consents = (['treat', 'freeze', 'refer'] as const).map((scope) => ({ scope, given: true, manner: 'spoken', note: this.text('Consent') }));
    return this.create(`/v1/incidents/${this.id}/households`, { code: `HH-${randomHex(5)}-${this.marker}`, contact, consents });
  }

  async newItem(members: Record<string, unknown> = {}): Promise<Answered> {
    return this.create(`/v1/incidents/${this.id}/items`, {
      householdId: this.the('household'), siteId: this.places.site(), tag: await this.newTag(), description: this.text('Quilt'), familyWords: this.text('Grandmother sewed it'),
      photographRef: `photo-${this.marker}`, materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', ...members,
    });
  }

  async newContainer(): Promise<Answered> {
    return this.create(`/v1/incidents/${this.id}/containers`, { siteId: this.places.site(), tag: await this.newTag('container'), kind: 'tub', description: this.text('Tub') });
  }

  /** What a POST made, or an error that says why not. */
  async create(path: string, body: string | object, headers: Record<string, string> = {}): Promise<Answered> {
    const answer = await this.network.post(path, body, headers);
    if (answer.status !== 201) throw new Error(`${path} was refused: ${answer.status} ${JSON.stringify(answer.body)}`);
    return answer.body as Answered;
  }

  /** The present ETag of something, from the version that a GET shows. */
  async etagOf(path: string): Promise<string> {
    const answer = await this.network.get(path);
    if (answer.headers['etag'] === undefined) throw new Error(`${path} answers ${answer.status} without an ETag`);
    return answer.headers['etag'] as string;
  }
}

/** A network with two incidents that hold the same kinds of things. */
export interface PreparedNetwork {
  network: TestNetwork;
  first: PreparedIncident;
  second: PreparedIncident;
}

/** Fills what later features add; called for each incident after the things of the spine are there. */
export type Filler = (incident: PreparedIncident) => Promise<void>;

/** Two networks with two incidents each. */
export async function prepareNetworks(server: TestServer, fill: Filler): Promise<{ ours: PreparedNetwork; theirs: PreparedNetwork }> {
  return { ours: await prepareNetwork(server, 'ours', 1, fill), theirs: await prepareNetwork(server, 'theirs', APART, fill) };
}

async function prepareNetwork(server: TestServer, name: string, serials: number, fill: Filler): Promise<PreparedNetwork> {
  const network = await server.network(`Network ${name}-${randomHex(6)}`);
  const first = await prepareIncident(network, `${name}1-${randomHex(6)}`);
  if (serials > 1) await server.admin.query('update tag_serial set next_serial = $2 where network_id = $1', [network.networkId, serials]);
  await fill(first);
  const second = await prepareIncident(network, `${name}2-${randomHex(6)}`);
  await fill(second);
  return { network, first, second };
}

async function prepareIncident(network: TestNetwork, marker: string): Promise<PreparedIncident> {
  const places = await network.incident((document) => markTexts(document, marker));
  const prepared = new PreparedIncident(network, places, marker);
  for (const kind of ['item', 'container'] as const) prepared.keep(kind, await prepared.reserve(kind, 1));
  prepared.made['household'] = (await prepared.newHousehold()).id;
  const item = await prepared.newItem();
  Object.assign(prepared.made, { item: item.id, itemTag: item['tag'] as string, container: (await prepared.newContainer()).id });
  return prepared;
}

/** Puts the marker into every name of the document; codes keep their meaning for the tests. */
function markTexts(value: unknown, marker: string): void {
  if (Array.isArray(value)) value.forEach((entry) => markTexts(entry, marker));
  if (typeof value !== 'object' || value === null) return;
  const record = value as Record<string, unknown>;
  for (const [name, member] of Object.entries(record)) {
    if ((name === 'name' || name === 'displayName' || name === 'place' || name === 'field') && typeof member === 'string') record[name] = `${member} ${marker}`;
    else markTexts(member, marker);
  }
}
