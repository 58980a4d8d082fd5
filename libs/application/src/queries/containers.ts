import { verifyChain, type ChainFault, type Keeper } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { tellAll, type ToldEvent } from '../custody/own-words.js';
import { containerCustodyOf, standsAt } from '../custody/containers.js';
import type { ContainerRecord, InsideCount, InsideRow } from '../ports/container-store.js';
import type { Stores } from '../ports/work.js';

export interface ContainerView {
  container: ContainerRecord;
  /** What keeps the outermost container around it, or the container itself; null where no record says it. */
  standsAt: Keeper | null;
  /** The containers around it, innermost first. */
  around: string[];
  inside: InsideCount;
}

export async function getContainer(stores: Stores, _call: UseCaseCall, input: { containerId: string }): Promise<ContainerView> {
  const container = await stores.containers.find(input.containerId);
  if (!container) throw notFound('container');
  return containerViewOf(stores, container);
}

/** The container with where it stands and what it holds. */
export async function containerViewOf(stores: Stores, container: ContainerRecord): Promise<ContainerView> {
  const path = await stores.containers.path(container.id);
  return { container, standsAt: path.at(-1)?.keeper ?? null, around: path.slice(1).map(({ id }) => id), inside: await stores.containers.inside(container.id) };
}

/** Where a thing is in the end: containers are followed to what keeps the outermost of them. */
export async function whereKept(stores: Stores, keeper: Keeper): Promise<{ standsAt: Keeper | null; around: string[] }> {
  const path = keeper.kind === 'container' ? await stores.containers.path(keeper.id) : [];
  return { standsAt: standsAt(path, keeper), around: path.map(({ id }) => id) };
}

export async function listContainerEvents(stores: Stores, _call: UseCaseCall, input: { containerId: string; afterSeq: number; limit: number }): Promise<ToldEvent[]> {
  if (!(await stores.containers.find(input.containerId))) throw notFound('container');
  return tellAll(stores, await stores.containers.chain(input.containerId, input.afterSeq, input.limit));
}

export async function listContainerContents(stores: Stores, _call: UseCaseCall, input: { containerId: string; nested: boolean; limit: number; after: string | null }): Promise<InsideRow[]> {
  if (!(await stores.containers.find(input.containerId))) throw notFound('container');
  return stores.containers.contents(input.containerId, input.nested, input.limit, input.after);
}

export interface ContainerChains {
  registered: number;
  eventsVerified: number;
  /** The first fault of each chain that fails; `itemId` names the container. */
  chainFaults: ChainFault[];
  /** Containers that lie inside themselves; anything but none is a fault of ours. */
  insideThemselves: string[];
}

const BATCH = 500;
/** So that a broken database does not answer with megabytes. */
const NAMED_AT_MOST = 100;

/** Verifies the chain of every container of an incident, and that none lies inside itself. */
export async function verifyContainers(stores: Stores, networkId: string, incidentId: string): Promise<ContainerChains> {
  const found: ContainerChains = { registered: 0, eventsVerified: 0, chainFaults: [], insideThemselves: [] };
  const parents = new Map<string, string>();
  let after: string | null = null;
  for (;;) {
    const heads = await stores.containers.heads(incidentId, BATCH, after);
    const chains = await stores.containers.chains(heads.map(({ containerId }) => containerId));
    for (const head of heads) {
      const chain = chains.get(head.containerId) ?? [];
      found.registered += 1;
      found.eventsVerified += chain.length;
      if (head.keeper?.kind === 'container') parents.set(head.containerId, head.keeper.id);
      // One from before containers had records has no chain, and shows no keeper.
      const [fault] = head.seq === 0 && chain.length === 0 && head.keeper === null ? [] : verifyChain(chain, containerCustodyOf({ ...head, networkId, id: head.containerId }));
      if (fault && found.chainFaults.length < NAMED_AT_MOST) found.chainFaults.push(fault);
    }
    after = heads.at(-1)?.containerId ?? null;
    if (heads.length < BATCH || after === null) break;
  }
  found.insideThemselves = [...parents.keys()].filter((id) => leadsBackTo(id, parents)).slice(0, NAMED_AT_MOST);
  return found;
}

function leadsBackTo(id: string, parents: ReadonlyMap<string, string>): boolean {
  const seen = new Set<string>();
  for (let at = parents.get(id); at !== undefined && !seen.has(at); at = parents.get(at)) {
    if (at === id) return true;
    seen.add(at);
  }
  return false;
}
