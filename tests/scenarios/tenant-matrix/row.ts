import type { ProblemCode } from '#contracts';
import type { PreparedIncident } from '#testing';

/** One valid request on things of a prepared incident. */
export interface Parts {
  /** Path parameters by their names in the document. */
  params?: Record<string, string>;
  query?: Record<string, string>;
  body?: unknown;
  /** JSON when left out. */
  contentType?: string;
  ifMatch?: string;
  /** Further headers that the route needs. */
  headers?: Record<string, string>;
}

/** What a stranger gets from a route that names nothing: rows of its own only, or a refusal. */
export type Unbound = 'own rows' | ProblemCode;

/**
 * How a refused reference shows. `nothing found` is for filters: success with an empty list. The answer must be the same,
 * word for word, as for an id that never was.
 */
export type ReferenceAnswer = ProblemCode | 'nothing found';

export interface Reference {
  /** Values that name things of the incident, one for each kind of thing that may stand here. */
  values(incident: PreparedIncident): unknown[] | Promise<unknown[]>;
  /** `reference_unknown` or `not_found` when left out. */
  answers?: readonly ReferenceAnswer[];
  /** Names something of the whole network: only a key limited to an incident is refused another incident's. */
  ofNetwork?: boolean;
  /** A request that may hold this member, where it excludes something that the row's own request has. */
  request?(incident: PreparedIncident): Parts | Promise<Parts>;
}

/** How the matrix makes requests for one operation. */
export interface Row {
  /** Fresh things where the command uses them up. */
  request(incident: PreparedIncident): Parts | Promise<Parts>;
  /** Every member of the body (`#/siteId`) and every query parameter (`?siteId`) that names something of the incident. */
  references?: Record<string, Reference>;
  /** Members whose names look like references but are not, with the reason. */
  notReferences?: Record<string, string>;
  /** For routes without ids in the path: what the other network and a key of another incident get. */
  unbound?: { otherNetwork: Unbound; otherIncident: Unbound };
  /** Where a key limited to the incident is refused although its scope would do. */
  limitedKeyRefused?: ProblemCode;
}

/** Rows by operationId. */
export type Table = Record<string, Row>;

/** A row for a route under `/v1/incidents/{incidentId}` that takes nothing else. */
export function ofIncident(row: Omit<Row, 'request'> & { body?: (incident: PreparedIncident) => unknown } = {}): Row {
  const { body, ...rest } = row;
  return { ...rest, request: (incident) => ({ params: { incidentId: incident.id }, ...(body ? { body: body(incident) } : {}) }) };
}
