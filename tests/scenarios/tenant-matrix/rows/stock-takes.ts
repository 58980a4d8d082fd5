import { newId } from '#platform';
import type { PreparedIncident } from '#testing';
import type { Table } from '../row.js';

const lead = (incident: PreparedIncident) => incident.places.person('P1');
const person = { values: (incident: PreparedIncident) => [lead(incident)] };
const dirty = (incident: PreparedIncident) => ({ kind: 'holding', id: incident.places.holding('dirty') });
const places = (incident: PreparedIncident) => [dirty(incident), { kind: 'station', id: incident.places.station('RINSE') }, { kind: 'drying-place', id: incident.places.place('R1') }, { kind: 'freezer', id: incident.places.freezer('F1') }, { kind: 'container', id: incident.the('container') }];

/** A stock-take of a place where one thing at least is expected and not seen. */
export async function stockTakeOf(incident: PreparedIncident, places = [dirty(incident)]): Promise<string> {
  return (await incident.create(`/v1/incidents/${incident.id}/stock-takes`, { places, personId: lead(incident) })).id;
}

async function withDifference(incident: PreparedIncident): Promise<{ stockTakeId: string; differenceId: string }> {
  const item = await incident.newItem();
  const { keeper } = item as unknown as { keeper: { kind: string; id: string } };
  return { stockTakeId: await stockTakeOf(incident, [keeper]), differenceId: item.id };
}

/** Two of these places never hold anything: it closes at once. */
const empty = (incident: PreparedIncident) => [{ kind: 'station', id: incident.places.station('PACK') }];
const ALONE = 'a scan is refused by itself: tests/api/recordStockTakeScans/200.spec.ts';

async function scanOf(incident: PreparedIncident): Promise<object> {
  const item = await incident.newItem();
  return { scanId: newId(), itemTag: item['tag'], place: dirty(incident), seenAt: '2026-05-09T07:00:00Z', personId: lead(incident) };
}

/** One with a line, a scan and a difference that was worked off. */
export async function countedStockTake(incident: PreparedIncident): Promise<Record<string, string>> {
  const { stockTakeId, differenceId } = await withDifference(incident);
  const taken = await incident.network.post(`/v1/stock-takes/${stockTakeId}/scans`, { scans: [await scanOf(incident)] });
  if (taken.status !== 200) throw new Error(`the scan of a stock-take was refused: ${taken.status} ${JSON.stringify(taken.body)}`);
  await incident.create(`/v1/stock-takes/${stockTakeId}/differences/${differenceId}/resolutions`, { resolution: 'recount', personId: lead(incident), reason: incident.text('Held together') });
  return { stockTake: stockTakeId, countedItem: differenceId };
}

export const stockTakeRows: Table = {
  startStockTake: {
    request: (incident) => ({ params: { incidentId: incident.id }, body: { places: [dirty(incident)], personId: lead(incident) } }),
    references: {
      '#/personId': person,
      '#/siteId': { values: (incident) => [incident.places.site()], request: (incident) => ({ params: { incidentId: incident.id }, body: { siteId: incident.places.site(), personId: lead(incident) } }) },
      '#/places/0': { values: places },
    },
  },
  getStockTake: { request: async (incident) => ({ params: { stockTakeId: await stockTakeOf(incident) } }) },
  listStockTakeDifferences: { request: async (incident) => ({ params: { stockTakeId: await stockTakeOf(incident) } }) },
  recordStockTakeScans: {
    request: async (incident) => ({ params: { stockTakeId: await stockTakeOf(incident) }, body: { scans: [await scanOf(incident)] } }),
    notReferences: { '#/scans/0/scanId': 'made by the device', '#/scans/0/itemTag': ALONE, '#/scans/0/placeTag': ALONE, '#/scans/0/place': ALONE, '#/scans/0/place/id': ALONE, '#/scans/0/personId': ALONE },
  },
  resolveStockTakeDifference: { request: async (incident) => ({ params: await withDifference(incident), body: { resolution: 'recount', personId: lead(incident), reason: incident.text('Held together') } }), references: { '#/personId': person } },
  closeStockTake: { request: async (incident) => ({ params: { stockTakeId: await stockTakeOf(incident, empty(incident)) }, body: { personId: lead(incident) } }), references: { '#/personId': person } },
};
