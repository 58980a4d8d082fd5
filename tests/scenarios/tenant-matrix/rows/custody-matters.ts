import type { PreparedIncident } from '#testing';
import { ofIncident, type Row, type Table } from '../row.js';
import { keepers } from './intake.js';

const lead = (incident: PreparedIncident) => incident.places.person('P1');
const person = { values: (incident: PreparedIncident) => [lead(incident)] };
const item = { values: (incident: PreparedIncident) => [incident.the('item')] };
const clean = (incident: PreparedIncident) => ({ kind: 'holding', id: incident.places.holding('clean') });

const claim = (incident: PreparedIncident) => ({ place: clean(incident), personId: lead(incident), note: incident.text('Lies under the coats') });

/** An item whose location is disputed, with words that are the family's and ours. */
export async function disputedItem(incident: PreparedIncident): Promise<string> {
  const { id } = await incident.newItem();
  await incident.create(`/v1/items/${id}/location-disputes`, claim(incident));
  return id;
}

async function missingItem(incident: PreparedIncident): Promise<string> {
  const { id } = await incident.newItem();
  await incident.create(`/v1/items/${id}/missing-reports`, { personId: lead(incident) });
  return id;
}

async function freshItem(incident: PreparedIncident): Promise<string> {
  return (await incident.newItem()).id;
}

/** A command on a fresh item in the state that it needs. */
function on(make: (incident: PreparedIncident) => Promise<string>, body: (incident: PreparedIncident) => unknown, references: Row['references']): Row {
  return { request: async (incident) => ({ params: { itemId: await make(incident) }, body: await body(incident) }), references };
}

const truePlace = (incident: PreparedIncident) => ({ at: clean(incident), personId: lead(incident) });

export const custodyMatterRows: Table = {
  disputeLocation: on(freshItem, claim, { '#/personId': person, '#/place': { values: keepers } }),
  settleLocation: on(disputedItem, truePlace, { '#/personId': person, '#/at': { values: keepers } }),
  reportMissing: on(freshItem, (incident) => ({ personId: lead(incident) }), { '#/personId': person }),
  recordFinding: on(missingItem, truePlace, { '#/personId': person, '#/at': { values: keepers } }),
  mergeItems: on(freshItem, async (incident) => ({ into: await freshItem(incident), reason: 'tagged-twice', personId: lead(incident) }), { '#/personId': person, '#/into': item }),
  swapIdentities: on(freshItem, async (incident) => ({ with: await freshItem(incident), reason: 'confused-at-tagging', personId: lead(incident) }), { '#/personId': person, '#/with': item }),
  listOpenMatters: ofIncident(),
};
