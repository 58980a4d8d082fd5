import { notFound, Problem, type PlanWhatIfChange } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { unknownReference } from '../care/claims.js';
import type { PlanWhatIfRecord, WhatIfLayout } from '../ports/plan-what-if-store.js';
import type { Stores } from '../ports/work.js';

/** What-ifs of an incident that may wait or be reckoned at a time: each is dozens of plans, and takes a place of a worker meanwhile. Our own choice. */
export const OPEN_PLAN_WHAT_IFS = 2;
/** Of those that are over, the newest so many are kept. Our own choice. */
export const PLAN_WHAT_IFS_KEPT = 10;

/**
 * Asks what changes would save. Nothing of the plan is touched, now or later.
 * @throws Problem not_found, incident_closed, reference_unknown, command_refused
 */
export async function requestPlanWhatIf(stores: Stores, call: UseCaseCall, input: { incidentId: string; changes?: PlanWhatIfChange[] | undefined; together: boolean; itemId?: string | undefined }): Promise<PlanWhatIfRecord> {
  const { incidentId, changes, together, itemId = null } = input;
  const incident = await stores.places.incident(incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident is closed, so nothing is planned in it any more. Open it again first if work goes on.');
  if (!(await stores.plans.currentRevision(incidentId))) throw notFound('plan');
  if (changes !== undefined) await refuseUnknown(stores, incidentId, changes);
  if (itemId !== null && (await stores.items.find(itemId))?.incidentId !== incidentId) throw unknownReference('item', '#/itemId');
  if ((await stores.planWhatIfs.openOnes(incidentId)) >= OPEN_PLAN_WHAT_IFS) {
    throw new Problem('command_refused', `The incident has ${OPEN_PLAN_WHAT_IFS} what-ifs that are not done yet. Wait until one is, then ask again with a new Idempotency-Key.`);
  }
  const record: PlanWhatIfRecord = {
    id: call.env.newId(), incidentId, state: 'queued', asked: changes ?? null, together, itemId, requestedAtMs: call.env.nowMs, startedAtMs: null, finishedAtMs: null,
    plansDone: 0, plansInAll: null, result: null, failure: null,
  };
  await stores.planWhatIfs.insert(record);
  await stores.planWhatIfs.dropOld(incidentId, PLAN_WHAT_IFS_KEPT);
  await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'plan.what_if', subjectId: record.id, traceparent: call.context.traceparent });
  return record;
}

/** What each change names, where it is looked up, and what it is called. */
const NAMED: { [K in PlanWhatIfChange['kind']]: [member: string, list: Exclude<keyof WhatIfLayout, 'places'>, word: string] } = {
  people: ['siteId', 'sites', 'site'],
  'person-leaves': ['personId', 'people', 'person'],
  'station-units': ['stationId', 'stations', 'open station'],
  'station-open': ['stationId', 'stations', 'open station'],
  'station-closed': ['stationId', 'stations', 'open station'],
  'drying-area': ['dryingRoomId', 'rooms', 'drying room'],
  dehumidifier: ['dryingRoomId', 'rooms', 'drying room'],
  'dehumidifier-fails': ['dehumidifierId', 'dehumidifiers', 'dehumidifier'],
  freezer: ['siteId', 'sites', 'site'],
  'freezer-fails': ['freezerId', 'freezers', 'freezer'],
  'specialist-units': ['specialistId', 'specialists', 'specialist of whom it is known what they can take'],
};

async function refuseUnknown(stores: Stores, incidentId: string, changes: readonly PlanWhatIfChange[]): Promise<void> {
  const all = await stores.planWhatIfs.layout(incidentId);
  // A closed station is no part of a plan: to open it is a change of the layout.
  const layout = { ...all, stations: all.stations.filter(({ open }) => open) };
  changes.forEach((change, i) => {
    const [member, list, word] = NAMED[change.kind];
    const named = (change as unknown as Record<string, string>)[member];
    if (!layout[list].some(({ id }) => id === named)) throw unknownReference(word, `#/changes/${i}/${member}`);
  });
}
