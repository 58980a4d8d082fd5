import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('requestPlanRun answers 202', () => {
  test('a run that was asked for by a person is due at once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'The doors are open.' }).expect(202);
    expect(await waitingRuns(server, incident.id)).toEqual([{ reason: 'The doors are open.', bells: 1, delayed: false }]);
  });

  test('a run that waits for company is answered and becomes due at once; what is asked for afterwards does not delay it', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const change = (state: string, etag: string) => network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('BLOT')}`, { state }, { 'if-match': etag }).expect(200);
    await change('closed', '"1"');
    expect(await waitingRuns(server, incident.id)).toEqual([{ reason: 'station BLOT changed', bells: 1, delayed: true }]);
    const bell = (set: string) => server.admin.query(`update outbox set ${set} where incident_id = $1 and kind = 'plan.requested'`, [incident.id]);
    // Its seconds become an hour, so that they are not over before the next request on a busy machine.
    await bell("created_at = created_at + interval '1 hour', leased_until = leased_until + interval '1 hour'");
    const asked = await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'I wait for it.' }).expect(202);
    expect(asked.body).toMatchObject({ state: 'queued', reason: 'station BLOT changed' });
    const due = [{ reason: 'station BLOT changed', bells: 1, delayed: false }];
    expect(await waitingRuns(server, incident.id)).toEqual(due);
    // As if it were rung now: whatever delayed it again would show in the time that it is given.
    await bell('created_at = leased_until');
    await change('open', '"2"');
    expect(await waitingRuns(server, incident.id)).toEqual(due);
  });
});
