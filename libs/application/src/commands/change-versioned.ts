import { notFound, Problem } from '#contracts';
import type { IncidentRecord, LayoutChanges, LayoutKind, LayoutKinds, LayoutStore } from '../ports/layout-store.js';

/** Which thing is changed, and the version its reader saw. */
export interface VersionedTarget {
  incidentId: string;
  id: string;
  expectedVersion: number;
}

/** The refusal that tells the present version, so that the client reads again instead of guessing. */
export function staleVersion(what: string, currentVersion: number): Problem {
  return new Problem('version_stale', `The ${what} was changed since you read it. Read it again and repeat your change.`, { members: { currentEtag: `"${currentVersion}"` } });
}

/** The incident, open; its layout stays as it is once it is closed. */
export async function openIncident(layout: LayoutStore, incidentId: string): Promise<IncidentRecord> {
  const incident = await layout.incident(incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident is closed. Open it again to change its layout.');
  return incident;
}

/** Finds a thing of the incident that still has the version its reader saw; 404, or 412 with the present version. */
export async function findUnchanged<K extends LayoutKind>(layout: LayoutStore, kind: K, target: VersionedTarget): Promise<LayoutKinds[K]> {
  await openIncident(layout, target.incidentId);
  const found = await layout.find(kind, target.incidentId, target.id);
  if (!found) throw notFound(kind);
  if (found.version !== target.expectedVersion) throw staleVersion(kind, found.version);
  return found;
}

/** Saves the members that are given. Giving none changes nothing and keeps the version (an empty merge patch). */
export async function saveUnchanged<K extends LayoutKind>(layout: LayoutStore, kind: K, target: VersionedTarget, found: LayoutKinds[K], changed: LayoutChanges[K]): Promise<LayoutKinds[K]> {
  const given = definedMembers(changed);
  if (Object.keys(given).length === 0) return found;
  const saved = await layout.save(kind, target.incidentId, target.id, target.expectedVersion, given);
  if (saved) return saved;
  // Somebody was faster between the reading above and the saving.
  const present = await layout.find(kind, target.incidentId, target.id);
  throw staleVersion(kind, present?.version ?? found.version + 1);
}

/** Without the members that were left out. */
export function definedMembers<T extends object>(members: T): T {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as T;
}
