import { newId } from '#platform';
import type { PreparedIncident, TestServer } from '#testing';
import { work } from '../../api/submitIntakeImport/intake-files.js';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';
import { manifestOf, openException, openHandOver } from './rows/carrying.js';
import { assessedItem, override, referredItem, stepResult } from './rows/care.js';
import { readingsOf, sensorOf, weatherOf, weighingOf } from './rows/climate-records.js';
import { disputedItem } from './rows/custody-matters.js';
import { linkOfFamily, matterOf, questionOf } from './rows/families.js';
import { uploadOf, wordsOf } from './rows/files.js';
import { openClaim } from './rows/found-items.js';
import { appointmentOf, handBackBody, slotOf, unclaimedOf, uncollectedOf, waitingHousehold } from './rows/hand-backs.js';
import { arrivals, retentionBody } from './rows/intake.js';
import { BUILT_IN_TEMPLATES } from '#custody';
import { countedStockTake } from './rows/stock-takes.js';
import { befriend } from './rows/mutual-aid.js';
import { kitOf, lineOf, quoteOf } from './rows/papers.js';
import { changesOf, publishByHand, wishOf } from './rows/plans.js';
import { hungItem, raiseAlarms } from './rows/room-climate.js';
import { reckonAir } from '../../api/support/air.js';
import { makeRoots } from '../../api/support/custody-roots.js';
import { ask, giveUp, reckon } from '../../api/support/what-ifs.js';

/** What the features beyond the spine put into a prepared incident, by name. */
export async function fill(incident: PreparedIncident, server: TestServer): Promise<void> {
  const { made } = incident;
  const file = await arrivals(incident);
  made['import'] = (await incident.create(`/v1/incidents/${incident.id}/intake-imports?siteId=${incident.places.site()}&fileName=slips`, file, { 'content-type': 'text/csv' })).id;
  await work(server, incident.network, made['import']);
  const erased = (await incident.newHousehold()).id;
  await incident.create(`/v1/households/${erased}/erasures`, { personId: incident.places.person('P1'), reason: 'registered-in-error' });
  const held = (await incident.newHousehold()).id;
  made['legalHold'] = (await incident.create(`/v1/households/${held}/legal-holds`, { personId: incident.places.person('P1'), reason: incident.text('A claim is announced') })).id;
  made['retentionRun'] = (await incident.create(`/v1/incidents/${incident.id}/retention-runs`, await retentionBody(incident))).id;
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
  made['disputed'] = await disputedItem(incident);
  made['handOver'] = await openHandOver(incident);
  const loading = await manifestOf(incident);
  Object.assign(made, { manifest: loading.id, loadingContainer: loading.carrierId, packedContainer: (await manifestOf(incident, 'departed')).carrierId, exception: await openException(incident) });
  const familyLink = await linkOfFamily(incident);
  const familyMessage = (await incident.create(`/v1/households/${incident.the('household')}/family-messages`, { template: 'not-saved', itemId: incident.the('item') })).id;
  Object.assign(made, { ownerQuestion: await questionOf(incident), statusLink: familyLink.id, familyLinkPath: familyLink.path, familyMatter: await matterOf(incident), familyMessage });
  Object.assign(made, await claimed(incident));
  made['worked'] = worked.id;
  made['lot'] = (await incident.newItem({ count: 240, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' })).id;
  made['referred'] = await referredItem(incident);
  made['shelf'] = (await incident.create(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.places.site(), code: 'A-1', name: incident.text('Shelf'), zone: 'dirty' })).id;
  made['vehicle'] = (await incident.create(`/v1/incidents/${incident.id}/vehicles`, { code: 'VAN-1', name: incident.text('Van') })).id;
  made['scan'] = newId();
  const lying = await incident.newItem();
  made['seen'] = lying.id;
  await incident.network.post(`/v1/incidents/${incident.id}/scans`, { scans: [{ scanId: made['scan'], itemTag: lying['tag'], place: lying['keeper'], seenAt: '2026-05-09T07:00:00Z' }] }).expect(200);
  made['handBack'] = (await incident.create(`/v1/households/${incident.the('household')}/hand-backs`, handBackBody(incident, (await incident.newItem()).id))).id;
  Object.assign(made, { words: await wordsOf(incident), upload: await uploadOf(incident) });
  Object.assign(made, await waitedFor(incident));
  // The words of a decision are the whole network's, so they hold no marker.
  await incident.create('/v1/rulebook/choices', { choices: { 'fan-direction': 'away' }, reason: 'Fans blew threads off.', personId: incident.places.person('P1') }, { 'if-match': await incident.etagOf('/v1/rulebook') });
  await incident.network.put('/v1/calibration/people/restHours', { value: 10, reason: 'Short nights.', personId: incident.places.person('P1') }, { 'if-match': await incident.etagOf('/v1/calibration') }).expect(200);
  const run = await request(server, incident.network, incident.places, incident.text('The doors are open'));
  await carryOut(server, incident.network, run);
  made['planRun'] = run.runId;
  made['planRevision'] = (await incident.network.get(`/v1/plan-runs/${run.runId}`).expect(200)).body.revisionId;
  made['planWish'] = (await incident.create(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, incident.the('item')))).id;
  await publishByHand(incident, server);
  Object.assign(made, await befriend(incident, server));
  Object.assign(made, await countedStockTake(incident));
  await incident.create('/v1/label-templates', { name: `Film ${newId()}`, template: BUILT_IN_TEMPLATES[0]?.template });
  Object.assign(made, await whatIfsOf(incident, server));
  await reckonAir(server, incident.network);
  await makeRoots(server, incident.network);
  // Something waits for the next one.
  made['unrooted'] = (await incident.newItem()).id;
}

/** A found thing with an open claim that one of two has accepted. */
async function claimed(incident: PreparedIncident): Promise<Record<string, string>> {
  const { id, itemId, foundRecord, claimant } = await openClaim(incident);
  await incident.create(`/v1/ownership-claims/${id}/decisions`, { personId: incident.places.person('P1'), accepts: true });
  return { foundItem: itemId, ownershipClaim: id, foundRecord, claimant };
}

/** Hand-backs by appointment, what nobody fetches, an offer of a specialist, slips of paper. */
async function waitedFor(incident: PreparedIncident): Promise<Record<string, string>> {
  const bookedHousehold = (await waitingHousehold(incident)).id;
  const appointment = await appointmentOf(incident, bookedHousehold);
  const uncollected = await uncollectedOf(incident);
  const { id: unclaimed, itemId: unclaimedItem } = await unclaimedOf(incident);
  for (let notices = 0; notices < 2; notices += 1) await incident.network.post(`/v1/uncollected/${unclaimed}/reminders`, {}).expect(200);
  // One of two has spoken.
  await incident.create(`/v1/uncollected/${unclaimed}/unclaimed-decisions`, { personId: incident.places.person('P1'), decision: 'hand-to-authority', reason: incident.text('The office takes it') });
  return { slot: await slotOf(incident), bookedHousehold, appointment, uncollected, unclaimed, unclaimedItem, quote: await quoteOf(incident), paperKit: await writtenKit(incident) };
}

/** A kit with a line of its first sheet keyed in. */
async function writtenKit(incident: PreparedIncident): Promise<string> {
  const kit = await kitOf(incident);
  const { body } = await incident.network.post(`/v1/paper-kits/${kit}/log-lines`, { personId: incident.places.person('P1'), lines: [await lineOf(incident)] }).expect(200);
  if (body.results[0].verdict !== 'keyed') throw new Error(`the line was refused: ${JSON.stringify(body)}`);
  return kit;
}

/** A what-if that is done, one that was given up, and one that waits. */
async function whatIfsOf(incident: PreparedIncident, server: TestServer): Promise<Record<'planWhatIf' | 'brokenWhatIf' | 'waitingWhatIf', string>> {
  const asked = async () => ask(incident.network, incident, { itemId: incident.the('item'), changes: changesOf(incident) });
  const planWhatIf = await asked();
  await reckon(server, incident.network, planWhatIf, undefined, { iterations: 0, seeds: [1] });
  const brokenWhatIf = await asked();
  await giveUp(server, incident.network, brokenWhatIf);
  return { planWhatIf, brokenWhatIf, waitingWhatIf: await asked() };
}
