import type { Subject } from '#application';

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/**
 * What a command was about, from its route such as `/v1/items/:itemId/assessments`: the last thing that the address
 * names by its id. An incident that is named only as the place where something new is put does not count; then it is the new
 * thing, whose id the answer holds.
 */
export function subjectOf(route: string, params: Readonly<Record<string, string>>, body: unknown): Subject {
  const segments = route.split('/').filter((segment) => segment !== '').slice(1);
  const last = segments.length - 1;
  const idAt = (index: number): string | null => idOrNull(params[segments[index]?.slice(1) ?? '']);
  const named = segments.findLastIndex((segment, index) => segment.startsWith(':') && idAt(index) !== null);
  if (named > 0 && (named === last || segments[named] !== ':incidentId')) return { kind: segments[named - 1] ?? '', id: idAt(named) };
  // A tag is no thing with an id: the command was about what it is tied to.
  if (segments.includes(':tag')) return subjectOfTag(body);
  const made = idOrNull(typeof body === 'object' && body !== null && 'id' in body ? body.id : null);
  // Many things at once have no id of their own: the command was about their incident.
  if (made === null && named > 0) return { kind: segments[named - 1] ?? '', id: idAt(named) };
  return { kind: segments.findLast((segment) => !segment.startsWith(':')) ?? '', id: made };
}

/** Collections in which the things of tags stand, where the name is not that of the kind with an s. */
const COLLECTIONS: Readonly<Record<string, string>> = { person: 'people', holding: 'holding-areas', shelf: 'shelves' };

function subjectOfTag(body: unknown): Subject {
  const tied: unknown = typeof body === 'object' && body !== null && 'tiedTo' in body ? body.tiedTo : null;
  if (typeof tied !== 'object' || tied === null || !('kind' in tied) || !('id' in tied)) return { kind: 'tags', id: null };
  return { kind: COLLECTIONS[String(tied.kind)] ?? `${String(tied.kind)}s`, id: idOrNull(tied.id) };
}

function idOrNull(value: unknown): string | null {
  return typeof value === 'string' && UUID.test(value) ? value.toLowerCase() : null;
}
