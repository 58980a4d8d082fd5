import { SCOPES, type Scope } from '#contracts';
import { makeTagCode } from '#custody';
import { idsOf, type PreparedIncident, type PreparedNetwork, type TestServer, type WriteWatch } from '#testing';
import type { Operation } from './document.js';
import { comparable, type Got, send, uuidsIn, withRandomIds } from './request.js';
import type { Parts, Row, Unbound } from './row.js';

/** Everything a run of the matrix needs. The target is the first incident of our network. */
export interface Matrix {
  server: TestServer;
  ours: PreparedNetwork;
  theirs: PreparedNetwork;
  keys: Keys;
  writes: WriteWatch;
  /** Wrong answers so far, for the summary. */
  wrong: string[];
  cells: number;
}

/** Keys of the callers that are made once; those that differ by scope are made for each scope. */
export interface Keys {
  ofSecondIncident: string;
  expired: string;
  revoked: string;
  suspended: string;
  /** Of our network: every scope but this one. */
  without: Record<Scope, string>;
  /** Limited to our first incident: this scope and no other. */
  only: Record<Scope, string>;
}

export async function makeKeys(server: TestServer, ours: PreparedNetwork): Promise<Keys> {
  const { network, first, second } = ours;
  const suspended = await server.network('Suspended network');
  await server.admin.query('update network set suspended_at = now() where network_id = $1', [suspended.networkId]);
  const revoked = await network.newKey();
  await server.admin.query('update api_key set revoked_at = now() where prefix = $1', [revoked.split('_')[1]]);
  const forScopes = async (make: (scope: Scope) => Promise<string>) => Object.fromEntries(await Promise.all(SCOPES.map(async (scope) => [scope, await make(scope)]))) as Record<Scope, string>;
  return {
    revoked,
    suspended: suspended.key,
    ofSecondIncident: await network.newKey({ incidentId: second.id }),
    expired: await network.newKey({ expiresAt: new Date(Date.now() - 1_000) }),
    without: await forScopes((scope) => network.newKey({ scopes: SCOPES.filter((other) => other !== scope) })),
    only: await forScopes((scope) => network.newKey({ scopes: [scope], incidentId: first.id })),
  };
}

/** Tables that a refused command of the same network may write to: the memory of the refusal. */
const MEMORY = ['idempotency_record'];

/** Sends one operation as every caller, strangers first and the owner last; notes every wrong answer. */
export async function runOperation(matrix: Matrix, operation: Operation, row: Row): Promise<string[]> {
  const { server, ours } = matrix;
  const before = matrix.wrong.length;
  const target = ours.first;
  const parts = await row.request(target);
  const note = (caller: string, fault: string | null) => {
    matrix.cells += 1;
    if (fault !== null) matrix.wrong.push(`${operation.id} x ${caller}: ${fault}`);
  };
  const unchanged = async (caller: string, except: string[], work: () => Promise<void>) => {
    const mark = await matrix.writes.mark();
    await work();
    for (const table of await matrix.writes.tablesSince(mark, ours.network.networkId, except)) matrix.wrong.push(`${operation.id} x ${caller}: wrote to ${table}`);
  };
  await unchanged('other network', [], async () => note('other network', await asOtherNetwork(matrix, operation, row, parts)));
  for (const caller of operation.named.length < 2 ? [] : [matrix.theirs.first, ours.second]) {
    // Made before the watch begins: the caller's own things are rows of our network too where the caller is ours.
    const own = await row.request(caller);
    await unchanged('path mixed', caller === ours.second ? MEMORY : [], async () => {
      for (const fault of await asMixedPaths(matrix, operation, own, parts, caller)) note('path mixed', fault);
    });
  }
  const writesOwn = row.unbound?.otherIncident === 'own rows' && operation.method !== 'get' ? null : MEMORY;
  if (writesOwn === null) note('other incident', await asOtherIncident(matrix, operation, row, parts));
  else await unchanged('other incident', writesOwn, async () => note('other incident', await asOtherIncident(matrix, operation, row, parts)));
  await unchanged('refused key', MEMORY, async () => {
    for (const [caller, fault] of await asRefusedKeys(matrix, operation, parts)) note(caller, fault);
  });
  note('own incident, this scope only', await asOwnIncident(matrix, operation, row, target));
  note('own network', successFault(operation, await send(server, operation, await row.request(target), ours.network.key)));
  return matrix.wrong.slice(before);
}

async function asOtherNetwork(matrix: Matrix, operation: Operation, row: Row, parts: Parts): Promise<string | null> {
  const { server, ours, theirs } = matrix;
  const got = await send(server, operation, parts, theirs.network.key);
  const hidden = { ids: await idsOf(server.admin, ours.network.networkId), markers: [ours.first.marker, ours.second.marker] };
  // What the stranger sent itself may come back in a row that it made; ids may not.
  if (operation.named.length === 0) return unboundFault(operation, row.unbound?.otherNetwork, got, { ...hidden, markers: sentBy(parts, hidden.markers) });
  return strangerFault(got, await send(server, operation, randomised(parts), theirs.network.key), hidden);
}

async function asOtherIncident(matrix: Matrix, operation: Operation, row: Row, parts: Parts): Promise<string | null> {
  const { server, ours } = matrix;
  const key = matrix.keys.ofSecondIncident;
  const got = await send(server, operation, parts, key);
  const hidden = { ids: await idsOf(server.admin, ours.network.networkId, ours.first.id), markers: [ours.first.marker] };
  if (operation.named.length === 0) return unboundFault(operation, row.unbound?.otherIncident, got, { ...hidden, markers: sentBy(parts, hidden.markers) });
  return strangerFault(got, await send(server, operation, randomised(parts), key), hidden);
}

/** Paths of several ids, one of them ours.first's and the others the caller's own; the caller's key is not limited. */
async function asMixedPaths(matrix: Matrix, operation: Operation, own: Parts, parts: Parts, caller: PreparedIncident): Promise<(string | null)[]> {
  const { server, ours } = matrix;
  const hidden = { ids: await idsOf(server.admin, ours.network.networkId), markers: [ours.first.marker] };
  const faults: (string | null)[] = [];
  for (const name of operation.named) {
    const value = parts.params?.[name] ?? '';
    const mixed = { ...own, params: { ...own.params, [name]: value } };
    const got = await send(server, operation, mixed, caller.network.key);
    // In the own network the incident itself is in sight, so that only the thing below it is unknown.
    const fault = caller.network === ours.network ? notFoundFault(got) : strangerFault(got, await send(server, operation, withRandomIds(mixed, (id) => id === value), caller.network.key), hidden);
    faults.push(fault === null ? null : `${name} foreign: ${fault}`);
  }
  return faults;
}

async function asRefusedKeys(matrix: Matrix, operation: Operation, parts: Parts): Promise<[string, string | null][]> {
  const { server, keys } = matrix;
  const callers: [string, string | null, number, string][] = [
    ['wrong scope', operation.scope === null ? null : keys.without[operation.scope], 403, 'scope_missing'],
    ['no key', null, 401, 'key_missing'],
    ['expired key', keys.expired, 401, 'key_invalid'],
    ['revoked key', keys.revoked, 401, 'key_invalid'],
    ['suspended network', keys.suspended, 403, 'network_suspended'],
  ];
  const faults: [string, string | null][] = [];
  for (const [caller, key, status, code] of callers) {
    const got = await send(server, operation, parts, key);
    const fits = got.status === status && got.body['code'] === code && got.headers['content-type']?.startsWith('application/problem+json');
    const silent = uuidsIn(got.text).length <= 1;
    faults.push([caller, fits && silent ? null : `expected ${status} ${code} and no ids, got ${short(got)}`]);
  }
  return faults;
}

async function asOwnIncident(matrix: Matrix, operation: Operation, row: Row, target: PreparedIncident): Promise<string | null> {
  const got = await send(matrix.server, operation, await row.request(target), operation.scope === null ? null : matrix.keys.only[operation.scope]);
  if (row.limitedKeyRefused !== undefined) return got.body['code'] === row.limitedKeyRefused ? null : `expected ${row.limitedKeyRefused}, got ${short(got)}`;
  const hidden = { ids: await idsOf(matrix.server.admin, matrix.ours.network.networkId, matrix.ours.second.id), markers: [matrix.ours.second.marker] };
  return successFault(operation, got) ?? leakFault(got, hidden);
}

interface Hidden {
  ids: Set<string>;
  markers: string[];
}

function notFoundFault(got: Got): string | null {
  return got.status === 404 && got.body['code'] === 'not_found' ? null : `expected 404 not_found, got ${short(got)}`;
}

function strangerFault(got: Got, random: Got, hidden: Hidden): string | null {
  if (notFoundFault(got) !== null) return notFoundFault(got);
  if (JSON.stringify(comparable(got)) !== JSON.stringify(comparable(random))) return `differs from the answer for a random id: ${short(got)} / ${short(random)}`;
  return leakFault(got, hidden);
}

function unboundFault(operation: Operation, expected: Unbound | undefined, got: Got, hidden: Hidden): string | null {
  if (expected === undefined) return 'the row does not say what a stranger gets from a route without ids';
  if (expected !== 'own rows' && got.body['code'] !== expected) return `expected ${expected}, got ${short(got)}`;
  return (expected === 'own rows' ? successFault(operation, got) : null) ?? leakFault(got, hidden);
}

function leakFault(got: Got, hidden: Hidden): string | null {
  const leaked = uuidsIn(got.text).find((id) => hidden.ids.has(id)) ?? hidden.markers.find((marker) => got.text.includes(marker));
  return leaked === undefined ? null : `the answer holds ${leaked}, which the caller must not see: ${short(got)}`;
}

function successFault(operation: Operation, got: Got): string | null {
  return operation.successes.includes(got.status) ? null : `expected ${operation.successes.join(' or ')}, got ${short(got)}`;
}

/** Markers that the caller did not send itself. */
function sentBy(parts: Parts, markers: string[]): string[] {
  const sent = JSON.stringify(parts);
  return markers.filter((marker) => !sent.includes(marker));
}

/** A tag is no UUID: its random twin is a code that nobody reserved, with right check digits. */
function randomised(parts: Parts): Parts {
  const random = withRandomIds(parts);
  return parts.params?.['tag'] === undefined ? random : { ...random, params: { ...random.params, tag: NEVER_RESERVED } };
}

const NEVER_RESERVED = makeTagCode(63_000_000, 'item');

function short(got: Got): string {
  return `${got.status} ${got.text.slice(0, 300)}`;
}
