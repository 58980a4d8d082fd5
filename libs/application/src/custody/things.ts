import { formatTagCode, isTagFault, parseTagCode } from '#custody';
import { Problem, type ProblemError } from '#contracts';
import type { ContainerRecord } from '../ports/container-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** An item or a container, as what passes from hand to hand. */
export interface Thing {
  kind: 'item' | 'container';
  id: string;
}

/** A thing as a request named it: where in the body, for the answer. */
export interface NamedThing extends Thing {
  pointer: string;
}

/** Which tag of a request stands for which thing. @throws Problem tag_unknown that points at every tag that leads to nothing */
export async function thingsOfTags(stores: Stores, incidentId: string, typed: readonly { text: string; pointer: string }[]): Promise<NamedThing[]> {
  const read = typed.map(({ text, pointer }) => {
    const parsed = parseTagCode(text);
    return { pointer, code: isTagFault(parsed) ? null : parsed.code, why: isTagFault(parsed) ? parsed.text : 'is tied to no item or container of the incident' };
  });
  const codes = [...new Set(read.flatMap(({ code }) => code ?? []))];
  const known = new Map((codes.length === 0 ? [] : await stores.tags.known(codes, incidentId)).map((tag) => [tag.code, tag]));
  const errors: ProblemError[] = [];
  const things: NamedThing[] = [];
  for (const { code, pointer, why } of read) {
    const tag = code === null ? undefined : known.get(code);
    const id = tag?.itemId ?? tag?.containerId ?? null;
    if (id === null) errors.push({ detail: why, code: 'tag_unknown', pointer });
    else things.push({ kind: tag?.itemId === id ? 'item' : 'container', id, pointer });
  }
  if (errors.length > 0) throw new Problem('tag_unknown', `${errors.length === 1 ? 'A tag leads' : `${errors.length} tags lead`} to nothing of this incident. Read ${errors.length === 1 ? 'it' : 'them'} again; nothing was recorded.`, { errors });
  return things;
}

export interface LockedThings {
  items: Map<string, ItemRecord>;
  containers: Map<string, ContainerRecord>;
}

/** Locks things, items before containers and each kind in the order of ids. @throws Problem reference_unknown for what is not of the incident */
export async function lockThings(stores: Stores, incidentId: string, things: readonly NamedThing[]): Promise<LockedThings> {
  const idsOf = (kind: Thing['kind']) => [...new Set(things.filter((thing) => thing.kind === kind).map(({ id }) => id))].sort();
  const [itemIds, containerIds] = [idsOf('item'), idsOf('container')];
  const items = itemIds.length === 0 ? [] : await stores.items.lockMany(itemIds);
  const containers = containerIds.length === 0 ? [] : await stores.containers.lockMany(containerIds, 'update');
  const locked = { items: byId(items, incidentId), containers: byId(containers, incidentId) };
  const unknown = things.filter(({ kind, id }) => !(kind === 'item' ? locked.items : locked.containers).has(id));
  if (unknown.length === 0) return locked;
  throw new Problem('reference_unknown', 'What is named here is not of this incident. Scan its tag, or take the id from the list of the incident.', { errors: unknown.map(({ pointer }) => ({ detail: 'names nothing of this incident', code: 'reference_unknown', pointer })) });
}

function byId<T extends { id: string; incidentId: string }>(rows: readonly T[], incidentId: string): Map<string, T> {
  return new Map(rows.filter((row) => row.incidentId === incidentId).map((row) => [row.id, row]));
}

/** Says of a refusal about one thing of many which it was. */
export async function aboutThing<T>(thing: Thing & { tagCode: string; pointer?: string }, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const { members, errors, ...extras } = error.extras;
    const own: ProblemError[] = thing.pointer === undefined ? [] : [{ detail: error.detail, code: error.code, pointer: thing.pointer }];
    throw new Problem(error.code, `${formatTagCode(thing.tagCode)}: ${error.detail} Nothing of the whole was recorded.`, {
      ...extras, members: { ...members, [thing.kind === 'item' ? 'itemId' : 'containerId']: thing.id }, errors: [...(errors ?? []), ...own],
    });
  }
}

/** The first naming of each thing. */
export function distinct(things: readonly NamedThing[]): NamedThing[] {
  return [...new Map(things.toReversed().map((thing) => [thing.id, thing])).values()].toReversed();
}
