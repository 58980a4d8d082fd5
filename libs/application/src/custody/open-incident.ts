import { notFound, Problem } from '#contracts';
import type { IncidentFacts } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';

/**
 * The incident that takes something in, kept open until the transaction ends: who closes it waits for us and then counts
 * what came. @throws Problem not_found, incident_closed
 */
export async function incidentForIntake(stores: Stores, incidentId: string): Promise<IncidentFacts> {
  const incident = await stores.places.holdIncident(incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident takes in nothing more. Open it again, or use the incident that runs.');
  return incident;
}

/** The incident for what prepares work in it. @throws Problem not_found, incident_closed */
export async function openIncidentOf(stores: Stores, incidentId: string): Promise<IncidentFacts> {
  const incident = await stores.places.incident(incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw closedToWork();
  return incident;
}

/**
 * Refuses work on a thing whose incident is closed. An incident closes only when nothing is held, so this meets what has
 * left, and what a database from before that rule still holds. Not asked for a hand-back and for an owner's word: a family
 * gets its things and is heard whatever the state of our records. @throws Problem incident_closed
 */
export async function refuseClosed(stores: Stores, item: { incidentId: string }): Promise<void> {
  await openIncidentOf(stores, item.incidentId);
}

/** As `refuseClosed` for what brings a thing back that had left: it counts as held when somebody closes the incident meanwhile. */
export async function refuseClosedAndHold(stores: Stores, item: { incidentId: string }): Promise<void> {
  const incident = await stores.places.holdIncident(item.incidentId);
  if (incident?.state === 'closed') throw closedToWork();
}

function closedToWork(): Problem {
  return new Problem('incident_closed', 'The incident is closed, so no work on its things is recorded any more. Open it again first if work goes on; reading and handing back need no opening.');
}
