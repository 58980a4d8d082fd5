import { beforeIntake, decide, isRefusal, NO_MATTERS, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { claimRoom } from '../custody/capacity.js';
import { refuseContainerAt } from '../custody/containers.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { containerViewOf, type ContainerView } from '../queries/containers.js';
import type { ContainerRecord } from '../ports/container-store.js';
import type { Stores } from '../ports/work.js';
import { checkedTag, deedOf } from '../tags/checked-tag.js';

export interface RegisterContainerInput {
  incidentId: string;
  siteId: string;
  tag: string;
  kind: ContainerRecord['kind'];
  description: string;
  /** Where it stands; the first waiting area of the site when null. */
  to: Keeper | null;
}

/** Registers a box, bag, tub or crate under its tag, so that it can keep items; its record begins where it stands. */
export async function registerContainer(stores: Stores, call: UseCaseCall, input: RegisterContainerInput): Promise<ContainerView> {
  const { incidentId } = input;
  await openIncidentOf(stores, incidentId);
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incidentId) throw new Problem('reference_unknown', 'There is no site with this id in the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/siteId' }] });
  const to = input.to ?? (await firstHolding(stores, input.siteId));
  refuseContainerAt(to);
  await claimRoom(stores, { incidentId, keeper: null, areaDm2: 0, volumeL: 0 }, to);
  const tagCode = await checkedTag(stores, input.tag, incidentId, 'container');
  const id = call.env.newId();
  const first = { commandId: call.env.newId(), kind: 'taken-in', from: null, to, actorId: call.context.principalId, occurredAtMs: call.env.nowMs, refs: {} } as const;
  const event = decide(beforeIntake(call.context.networkId, id), first, call.env.nowMs);
  if (isRefusal(event)) throw new Problem('command_refused', event.text, { members: { reason: event.code } });
  const container: ContainerRecord = {
    networkId: call.context.networkId, id, incidentId, siteId: input.siteId, tagCode, kind: input.kind, description: input.description, createdAtMs: call.env.nowMs,
    seq: event.seq, headHash: event.hash, keeper: event.to, matters: NO_MATTERS, lastSeenAtMs: call.env.nowMs, version: 1,
  };
  await stores.containers.insert(container);
  await stores.containers.appendFirst(event, incidentId);
  if (!(await stores.tags.tie(tagCode, { containerId: id }, deedOf(call)))) throw new Problem('tag_taken', 'The tag was tied to another thing a moment ago. Use a fresh tag.');
  return containerViewOf(stores, container);
}

/** What comes in is dirty until somebody says otherwise. */
async function firstHolding(stores: Stores, siteId: string): Promise<Keeper> {
  for (const zone of ['dirty', 'clean', 'quarantine', 'cold'] as const) {
    const area = await stores.places.holdingArea(siteId, zone);
    if (area) return area.keeper;
  }
  throw new Problem('reference_unknown', 'The site has no waiting area. Name the place where the container stands.', { errors: [{ detail: 'is needed here', code: 'reference_unknown', pointer: '#/to' }] });
}
