import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { checkedTag } from '../intake/take-in.js';
import type { ContainerRecord } from '../ports/container-store.js';
import type { Stores } from '../ports/work.js';

export interface RegisterContainerInput {
  incidentId: string;
  siteId: string;
  tag: string;
  kind: ContainerRecord['kind'];
  description: string;
}

/** Registers a box, bag, tub or crate under its tag, so that it can keep items. */
export async function registerContainer(stores: Stores, call: UseCaseCall, input: RegisterContainerInput): Promise<ContainerRecord> {
  await openIncidentOf(stores, input.incidentId);
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== input.incidentId) throw new Problem('reference_unknown', 'There is no site with this id in the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/siteId' }] });
  const tagCode = await checkedTag(stores, input.tag, input.incidentId, 'container');
  const container: ContainerRecord = { id: call.env.newId(), incidentId: input.incidentId, siteId: input.siteId, tagCode, kind: input.kind, description: input.description, createdAtMs: call.env.nowMs };
  await stores.containers.insert(container);
  if (!(await stores.tags.tie(tagCode, { containerId: container.id }, call.env.nowMs))) throw new Problem('tag_taken', 'The tag was tied to another thing a moment ago. Use a fresh tag.');
  return container;
}
