import type { PreparedIncident, TestServer } from '#testing';
import { work } from '../../api/submitIntakeImport/intake-files.js';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';
import { assessedItem, override, referredItem, stepResult } from './rows/care.js';
import { readingsOf, sensorOf, weatherOf, weighingOf } from './rows/climate-records.js';
import { handBackBody } from './rows/hand-backs.js';
import { arrivals } from './rows/intake.js';
import { hungItem, raiseAlarms } from './rows/room-climate.js';
import { reckonAir } from '../../api/support/air.js';

/** What the features beyond the spine put into a prepared incident, by name. */
export async function fill(incident: PreparedIncident, server: TestServer): Promise<void> {
  const { made } = incident;
  const file = await arrivals(incident);
  made['import'] = (await incident.create(`/v1/incidents/${incident.id}/intake-imports?siteId=${incident.places.site()}&fileName=slips`, file, { 'content-type': 'text/csv' })).id;
  await work(server, incident.network, made['import']);
  const worked = await assessedItem(incident);
  await incident.create(`/v1/items/${worked.id}/step-results`, stepResult(incident, worked.nextStep));
  await incident.create(`/v1/items/${worked.id}/disposition-overrides`, override(incident));
  const byTheWrongHands = await assessedItem(incident);
  await incident.create(`/v1/items/${byTheWrongHands.id}/step-results`, { ...stepResult(incident, 'wrap'), disposition: 'hold-frozen', personId: incident.places.person('P2'), withPersonIds: [] });
  await incident.create(`/v1/incidents/${incident.id}/drying-rooms/${incident.places.room('ROOM')}/readings`, { airTempC: 20, relativeHumidityPct: 65, measuredAt: '2026-05-09T06:45:00Z' });
  made['sensor'] = (await incident.create(`/v1/incidents/${incident.id}/sensors`, sensorOf(incident))).id;
  made['reading'] = (await incident.network.post(`/v1/incidents/${incident.id}/readings`, readingsOf(incident)).expect(200)).body.rows[0].id;
  await incident.network.post(`/v1/incidents/${incident.id}/sites/${incident.places.site()}/weather`, weatherOf(incident)).expect(200);
  await incident.network.post(`/v1/incidents/${incident.id}/sites/${incident.places.site()}/weather`, { ...weatherOf(incident), kind: 'forecast', issuedAt: '2026-05-09T06:00:00Z' }).expect(200);
  made['weighing'] = (await incident.create(`/v1/items/${worked.id}/weighings`, weighingOf(incident))).id;
  made['hanging'] = await hungItem(incident);
  await raiseAlarms(incident, server);
  made['worked'] = worked.id;
  made['lot'] = (await incident.newItem({ count: 240, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' })).id;
  made['referred'] = await referredItem(incident);
  made['handBack'] = (await incident.create(`/v1/households/${incident.the('household')}/hand-backs`, handBackBody(incident, (await incident.newItem()).id))).id;
  // The words of a decision are the whole network's, so they hold no marker.
  await incident.create('/v1/rulebook/choices', { choices: { 'fan-direction': 'away' }, reason: 'Fans blew threads off.', personId: incident.places.person('P1') }, { 'if-match': await incident.etagOf('/v1/rulebook') });
  await incident.network.put('/v1/calibration/people/restHours', { value: 10, reason: 'Short nights.', personId: incident.places.person('P1') }, { 'if-match': await incident.etagOf('/v1/calibration') }).expect(200);
  const run = await request(server, incident.network, incident.places, incident.text('The doors are open'));
  await carryOut(server, incident.network, run);
  made['planRun'] = run.runId;
  await reckonAir(server, incident.network);
}
