import { nestingFault, type Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { ContainerRecord } from '../ports/container-store.js';
import type { Stores } from '../ports/work.js';
import type { Arriving } from './capacity.js';
import { holdPath } from './containers.js';

/** What a place must know of a container that comes: the room that its contents take. Its own walls are not measured. */
export async function loadOf(stores: Stores, container: ContainerRecord): Promise<Arriving> {
  return { incidentId: container.incidentId, keeper: container.keeper, areaDm2: 0, volumeL: (await stores.containers.inside(container.id)).volumeL };
}

/**
 * The container, locked together with those that would be around it: of two moves that would close a circle the second one sees the
 * first. @throws Problem command_refused when it would be inside itself, or too deep
 */
export async function holdForMove(stores: Stores, containerId: string, to: Keeper, pointer = '#/to'): Promise<ContainerRecord> {
  const around = to.kind === 'container' ? (await holdPath(stores, to.id, 'update', [containerId])).map(({ id }) => id) : [];
  const [container] = await stores.containers.lockMany([containerId], 'update');
  if (!container) throw notFound('container');
  if (around.length === 0 && to.id !== containerId) return container;
  const { levels } = await stores.containers.inside(containerId);
  const fault = nestingFault(containerId, to, (id) => around.slice(around.indexOf(id) + 1), levels);
  if (fault !== null) throw new Problem('command_refused', fault.text, { errors: [{ detail: 'cannot keep this container', code: fault.code, pointer }] });
  return container;
}
