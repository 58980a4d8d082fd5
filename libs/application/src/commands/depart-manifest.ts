import { formatTagCode, mayDepart, TERMINAL_STAGES, sameKeeper, type Keeper } from '#custody';
import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { recordContainer } from '../custody/containers.js';
import { departureOf, exceptionOf, isAboard, lockManifest, moveThing, viewOfManifest, withAllAboard, type ManifestView, type Scan } from '../custody/manifests.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { aboutThing, distinct, lockThings, thingsOfTags, type LockedThings, type NamedThing } from '../custody/things.js';
import type { ManifestExceptionRecord, ManifestLine, ManifestRecord } from '../ports/manifest-store.js';
import type { Stores } from '../ports/work.js';
import { agedAt, type AgedException } from '../queries/manifests.js';

export interface NamedException {
  tag: string;
  reason: string;
  /** Who works it off; who records it when null. */
  ownerId: string | null;
}

export interface DepartManifestInput {
  manifestId: string;
  personId: string;
  exceptions: NamedException[];
  departedAtMs: number | null;
}

/** Lets the carrier go: everything that was expected was scanned, or somebody says why not. What nobody expected is an exception, too. */
export async function departManifest(stores: Stores, call: UseCaseCall, input: DepartManifestInput): Promise<ManifestView> {
  const manifest = await lockManifest(stores, input.manifestId, 'loading');
  await refuseClosed(stores, manifest);
  await personOf(stores, manifest.incidentId, input.personId);
  const departedAtMs = momentOf(call, input.departedAtMs, '#/departedAt');
  // No thing of it passes on while what is aboard is counted.
  await lockThings(stores, manifest.incidentId, manifest.lines.map((line) => ({ kind: line.thing, id: line.id, pointer: '#' })));
  const counted = await withAllAboard(stores, (await stores.manifests.find(manifest.id)) ?? manifest);
  const named = await namedExceptions(stores, manifest.incidentId, input);
  const difference = departureOf(counted, [...named.keys()]);
  if (!mayDepart(difference)) throw doesNotAddUp(counted, difference.unaccounted, [...named].filter(([id]) => difference.idle.includes(id)).map(([, { pointer }]) => pointer));
  // What was scanned and taken off again did not leave.
  const lines = counted.lines.filter((line) => line.expected || isAboard(line, counted)).map((line) => (isAboard(line, counted) ? line : { ...line, loadedAtMs: null, loadedBy: null }));
  const gone = counted.lines.filter((line) => !line.expected && !isAboard(line, counted)).map((line) => ({ ...line, loadedAtMs: null, loadedBy: null }));
  const departed: ManifestRecord = { ...counted, lines: [...lines, ...gone], state: 'departed', departedAtMs, departedBy: input.personId };
  const open = (ids: readonly string[], kind: ManifestExceptionRecord['kind']) => lines.filter(({ id }) => ids.includes(id)).map((line) => exceptionOf(call, manifest, line, kind, named.get(line.id)?.owner ?? { ownerId: input.personId, reason: '' }));
  await stores.manifests.insertExceptions([...open(difference.excused, 'not-loaded'), ...open(difference.unexpected, 'not-expected')]);
  const version = await stores.manifests.save(departed);
  return viewOfManifest(stores, { ...departed, version });
}

type Named = Map<string, { pointer: string; owner: { ownerId: string; reason: string } }>;

async function namedExceptions(stores: Stores, incidentId: string, { exceptions, personId }: Pick<DepartManifestInput, 'exceptions' | 'personId'>): Promise<Named> {
  const things = await thingsOfTags(stores, incidentId, exceptions.map(({ tag }, index) => ({ text: tag, pointer: `#/exceptions/${index}/tag` })));
  const named: Named = new Map();
  for (const [index, { id, pointer }] of things.entries()) {
    const { ownerId = null, reason = '' } = exceptions[index] ?? {};
    if (ownerId !== null) await personOf(stores, incidentId, ownerId, `#/exceptions/${index}/ownerId`);
    named.set(id, { pointer, owner: { ownerId: ownerId ?? personId, reason } });
  }
  return named;
}

function doesNotAddUp({ lines }: ManifestRecord, unaccounted: readonly string[], idle: readonly string[]): Problem {
  const tags = lines.filter(({ id }) => unaccounted.includes(id)).map(({ tagCode }) => formatTagCode(tagCode));
  const errors: ProblemError[] = idle.map((pointer) => ({ detail: 'is neither expected nor aboard, so it is no exception', code: 'not_an_exception', pointer }));
  const text = tags.length === 0 ? 'A thing is named as an exception that has nothing to do with this trip.' : `${tags.length} expected ${tags.length === 1 ? 'thing is' : 'things are'} not on record aboard. Scan ${tags.length === 1 ? 'it' : 'them'} on, or name each as an exception with the reason why it does not travel.`;
  return new Problem('manifest_differs', text, { errors, members: { unaccounted: tags } });
}

export interface ArriveManifestInput {
  manifestId: string;
  personId: string;
  tags: string[];
  /** Where what comes off is put down; needed for a vehicle. In a container things may stay. */
  to: Keeper | null;
  /** Reasons and owners of what differs; what is not named belongs to who records it. */
  exceptions: NamedException[];
  /** False while more is to be scanned off. */
  complete: boolean;
  arrivedAtMs: number | null;
}

/** Scans things off. When all is off, what is missing is reported so by name, and what nobody had aboard is an exception, too. */
export async function arriveManifest(stores: Stores, call: UseCaseCall, input: ArriveManifestInput): Promise<ManifestView> {
  const { personId, to } = input;
  const manifest = await lockManifest(stores, input.manifestId, 'departed');
  const { incidentId } = manifest;
  await refuseClosed(stores, manifest);
  await personOf(stores, incidentId, personId);
  const scan: Scan = { manifestId: manifest.id, personId, occurredAtMs: momentOf(call, input.arrivedAtMs, '#/arrivedAt') };
  await refuseNowhere(stores, manifest, to);
  const named = await namedExceptions(stores, incidentId, input);
  const scanned = distinct(await thingsOfTags(stores, incidentId, input.tags.map((text, index) => ({ text, pointer: `#/tags/${index}` }))));
  const locked = await lockThings(stores, incidentId, [...scanned, ...manifest.lines.map((line): NamedThing => ({ kind: line.thing, id: line.id, pointer: '#' }))]);
  const arrival = new Arrival(stores, call, manifest, locked, scan, to, (id) => named.get(id)?.owner ?? { ownerId: personId, reason: '' }, new Set((await stores.manifests.exceptionsOf(manifest.id)).filter(({ kind }) => kind === 'extra').map(({ thingId }) => thingId)));
  for (const thing of scanned) await arrival.takeOff(thing);
  if (input.complete) await arrival.missOthers();
  await stores.manifests.insertExceptions(arrival.exceptions);
  const lines = [...arrival.lines.values()];
  const saved: ManifestRecord = { ...manifest, lines, ...(input.complete ? { state: 'arrived', arrivedAtMs: scan.occurredAtMs, arrivedBy: personId } : {}) };
  const version = await stores.manifests.save(saved);
  return viewOfManifest(stores, { ...saved, version });
}

async function refuseNowhere(stores: Stores, { carrier, incidentId }: ManifestRecord, to: Keeper | null): Promise<void> {
  if (to !== null) return void (await claimRoom(stores, { incidentId, keeper: to, areaDm2: 0, volumeL: 0 }, to));
  if (carrier.kind === 'vehicle') throw new Problem('command_refused', 'Name where the things are put down: a waiting area, a shelf or a station of the site.', { errors: [{ detail: 'is needed for a vehicle', code: 'place_needed', pointer: '#/to' }] });
}

/** What one report of an arrival does, thing by thing. */
class Arrival {
  readonly lines: Map<string, ManifestLine>;
  readonly exceptions: ManifestExceptionRecord[] = [];

  constructor(
    private readonly stores: Stores,
    private readonly call: UseCaseCall,
    private readonly manifest: ManifestRecord,
    private readonly locked: LockedThings,
    private readonly scan: Scan,
    private readonly to: Keeper | null,
    private readonly ownerOf: (id: string) => { ownerId: string; reason: string },
    private readonly extraBefore: ReadonlySet<string>,
  ) {
    this.lines = new Map(manifest.lines.map((line) => [line.id, line]));
  }

  async takeOff(thing: NamedThing): Promise<void> {
    const line = this.lines.get(thing.id);
    const present = this.present(thing.id);
    if (present === undefined || (line && line.unloadedAtMs !== null)) return;
    const named = { ...thing, tagCode: present.tagCode };
    const { carrier } = this.manifest;
    if (this.to !== null && sameKeeper(present.keeper, carrier)) await moveThing(this.stores, this.call, named, this.to, this.locked, this.scan);
    if (line && line.loadedAtMs !== null) this.lines.set(line.id, { ...line, unloadedAtMs: this.scan.occurredAtMs, unloadedBy: this.scan.personId });
    else await this.noteExtra(named, present.keeper);
  }

  /** It is here though the record has it elsewhere: that is kept as a claim, and a person looks. */
  private async noteExtra(thing: NamedThing & { tagCode: string }, keeper: Keeper | null): Promise<void> {
    if (this.extraBefore.has(thing.id)) return;
    this.exceptions.push(exceptionOf(this.call, this.manifest, { thing: thing.kind, id: thing.id, tagCode: thing.tagCode }, 'extra', this.ownerOf(thing.id)));
    const at = this.to ?? this.manifest.carrier;
    if (keeper === null || sameKeeper(keeper, this.manifest.carrier) || sameKeeper(keeper, at)) return;
    await this.note(thing, keeper, 'location-disputed', { claimedKind: at.kind, claimedId: at.id });
  }

  /** What went on and did not come off, and that nobody has recorded elsewhere meanwhile. */
  async missOthers(): Promise<void> {
    for (const line of this.lines.values()) {
      if (line.loadedAtMs === null || line.unloadedAtMs !== null) continue;
      const keeper = this.present(line.id)?.keeper ?? null;
      if (!sameKeeper(keeper, this.manifest.carrier)) {
        this.lines.set(line.id, { ...line, unloadedAtMs: this.scan.occurredAtMs, unloadedBy: this.scan.personId });
        continue;
      }
      this.exceptions.push(exceptionOf(this.call, this.manifest, line, 'missing', this.ownerOf(line.id)));
      await this.note({ kind: line.thing, id: line.id, pointer: '#', tagCode: line.tagCode }, this.manifest.carrier, 'reported-missing', {});
    }
  }

  private present(id: string): { keeper: Keeper | null; tagCode: string } | undefined {
    return this.locked.items.get(id) ?? this.locked.containers.get(id);
  }

  /** An event that moves nothing. A record that is closed keeps its end; the exception still says what was seen. */
  private async note(thing: NamedThing & { tagCode: string }, keeper: Keeper, kind: 'location-disputed' | 'reported-missing', more: Record<string, string>): Promise<void> {
    const passing = { kind, from: keeper, to: keeper, refs: { ...more, manifestId: this.scan.manifestId, personId: this.scan.personId }, occurredAtMs: this.scan.occurredAtMs } as const;
    const [item, container] = [this.locked.items.get(thing.id), this.locked.containers.get(thing.id)];
    if (item && TERMINAL_STAGES.includes(item.stage)) return;
    await aboutThing(thing, async () => {
      if (item) await recordCustody(this.stores, this.call, item, passing);
      else if (container) await recordContainer(this.stores, this.call, container, passing);
    });
  }
}

export interface SettleExceptionInput {
  exceptionId: string;
  personId: string;
  settlement: string;
}

/** Says how an exception was worked off. It moves nothing: what was found is recorded by events of the thing. */
export async function settleManifestException(stores: Stores, call: UseCaseCall, input: SettleExceptionInput): Promise<AgedException> {
  const exception = await stores.manifests.lockException(input.exceptionId);
  if (!exception) throw notFound('exception');
  await personOf(stores, exception.incidentId, input.personId);
  if (exception.settledAtMs !== null) throw new Problem('manifest_state', 'This exception was settled before; what was said then stays.', { members: { state: 'settled', settledBy: exception.settledBy } });
  const settled = { ...exception, settledAtMs: call.env.nowMs, settledBy: input.personId, settlement: input.settlement };
  await stores.manifests.settle(settled);
  return agedAt(settled, call.env.nowMs);
}
