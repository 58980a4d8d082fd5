import { formatTagCode, makeTagCode, parseTagCode } from '#custody';
import { idsOf, type PreparedIncident } from '#testing';
import type { Matrix } from './callers.js';
import type { Operation } from './document.js';
import { comparable, type Got, send, uuidsIn, withRandomIds } from './request.js';
import type { Parts, Reference, ReferenceAnswer, Row } from './row.js';

const UNKNOWN: readonly ReferenceAnswer[] = ['reference_unknown', 'not_found'];
/** A refusal is remembered with the command; nothing else may be written. */
const MEMORY = ['idempotency_record'];

/** `#/items/3/itemId` and `#/items/0/itemId` are the same member. */
export const memberOf = (pointer: string) => pointer.replace(/\/\d+(?=\/|$)/g, '/0');

/** Members of the document that the row does not speak of. */
export function unspoken(operation: Operation, row: Row): string[] {
  const known = new Set([...Object.keys(row.references ?? {}), ...Object.keys(row.notReferences ?? {})].map(memberOf));
  return operation.referenceMembers.filter((member) => !known.has(memberOf(member)));
}

/** Puts foreign ids into an otherwise valid own command, one at a time; answers what was wrong. */
export async function runReferences(matrix: Matrix, operation: Operation, row: Row): Promise<string[]> {
  const faults: string[] = [];
  const { theirs, writes } = matrix;
  const trials = await trialsOf(matrix, row);
  const before = await writes.mark();
  for (const trial of trials) {
    const fault = await withForeign(matrix, operation, row, trial);
    matrix.cells += 1;
    if (fault !== null) faults.push(`${operation.id} ${trial.pointer} of ${trial.foreign === theirs.first ? 'the other network' : 'the other incident'} (${JSON.stringify(trial.value)}): ${fault}`);
  }
  for (const table of await writes.tablesSince(before, theirs.network.networkId)) faults.push(`${operation.id} wrote to ${table} of the other network`);
  matrix.wrong.push(...faults);
  return faults;
}

interface Trial {
  pointer: string;
  reference: Reference;
  value: unknown;
  foreign: PreparedIncident;
  /** Ids that the answer must not hold. */
  hidden: Set<string>;
}

/** Every reference of the row with every foreign value, all made before the first is sent. */
async function trialsOf({ server, ours, theirs }: Matrix, row: Row): Promise<Trial[]> {
  const trials: Trial[] = [];
  for (const [pointer, reference] of Object.entries(row.references ?? {})) {
    for (const foreign of [theirs.first, ours.second]) {
      const values = await reference.values(foreign);
      const hidden = await idsOf(server.admin, foreign.network.networkId, foreign.id);
      trials.push(...values.map((value) => ({ pointer, reference, value, foreign, hidden })));
    }
  }
  return trials;
}

async function withForeign(matrix: Matrix, operation: Operation, row: Row, { pointer, reference, value, foreign, hidden }: Trial): Promise<string | null> {
  const { server, ours, writes } = matrix;
  // In our network the caller is limited to the first incident, so that neither code nor policy alone is relied upon.
  const keys = foreign.network === ours.network ? [ours.network.key, operation.scope === null ? null : matrix.keys.only[operation.scope]] : [ours.network.key];
  for (const key of keys) {
    const isLimited = key !== ours.network.key;
    if (isLimited ? row.limitedKeyRefused !== undefined : reference.ofNetwork === true && foreign.network === ours.network) continue;
    const parts = await (reference.request ?? row.request)(ours.first);
    const before = await writes.mark();
    const got = await send(server, operation, withValue(parts, pointer, value), key);
    const written = await writes.tablesSince(before, ours.network.networkId, MEMORY);
    if (written.length > 0) return `rows of ${written.join(', ')} were written; ${short(got)}`;
    const twin = randomised(value);
    const random = await send(server, operation, withValue(parts, pointer, twin), key);
    // What is of the own network may be told apart by a key that sees the whole network.
    const inSight = !isLimited && foreign.network === ours.network;
    const fault = answerFault(withoutSent(got, value), inSight ? null : withoutSent(random, twin), pointer, reference.answers ?? UNKNOWN) ?? leakFault(got, hidden, foreign.marker, value);
    if (fault !== null) return fault;
  }
  return null;
}

/** A sentence may repeat what was typed. */
function withoutSent(got: Got, sent: unknown): Got {
  return typeof sent === 'string' ? { ...got, body: JSON.parse(JSON.stringify(got.body).replaceAll(sent, 'what was sent')) as Got['body'] } : got;
}

function answerFault(got: Got, random: Got | null, pointer: string, allowed: readonly ReferenceAnswer[]): string | null {
  const found = got.status < 400 ? (Array.isArray(got.body['items']) && got.body['items'].length === 0 ? 'nothing found' : 'success') : got.body['code'];
  if (!allowed.some((answer) => answer === found)) return `expected ${allowed.join(' or ')}, got ${short(got)}`;
  if (random !== null && JSON.stringify(comparable(got)) !== JSON.stringify(comparable(random))) return `differs from the answer for a random id: ${short(got)} / ${short(random)}`;
  if (found !== 'reference_unknown') return null;
  const named = ((got.body['errors'] ?? []) as { pointer?: string; parameter?: string }[]).some((error) => (error.pointer ?? `?${error.parameter}`).startsWith(pointer));
  return named ? null : `does not point to ${pointer}: ${short(got)}`;
}

/** The answer may hold nothing of the other side, not even what was sent. */
function leakFault(got: Got, hidden: Set<string>, marker: string, value: unknown): string | null {
  const leaked = uuidsIn(got.text).find((id) => hidden.has(id)) ?? (got.text.includes(marker) ? marker : undefined);
  return leaked === undefined || JSON.stringify(value).includes(leaked) ? null : `the answer holds ${leaked}`;
}

/** The parts with one member of body (`#/a/0/b`) or query (`?a`) set. */
function withValue(parts: Parts, pointer: string, value: unknown): Parts {
  if (pointer.startsWith('?')) return { ...parts, query: { ...parts.query, [pointer.slice(1)]: String(value) } };
  const body = structuredClone(parts.body) as Record<string, unknown>;
  const path = pointer.slice(2).split('/');
  const last = path.pop() ?? '';
  const holder = path.reduce<Record<string, unknown>>((at, name) => at[name] as Record<string, unknown>, body);
  holder[last] = value;
  return { ...parts, body };
}

/** For a tag a code of the same kind that nobody reserved, for everything else random ids. */
function randomised(value: unknown): unknown {
  if (typeof value !== 'string') return withRandomIds(value);
  const tag = parseTagCode(value);
  return 'fault' in tag ? withRandomIds(value) : formatTagCode(makeTagCode(63_000_000, tag.kind));
}

const short = (got: Got) => `${got.status} ${got.text.slice(0, 300)}`;
