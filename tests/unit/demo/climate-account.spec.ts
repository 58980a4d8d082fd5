import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, test } from '@jest/globals';
import { ApiClient } from '../../../apps/ops/src/demo/api-client.js';
import { AlarmRounds } from '../../../apps/ops/src/demo/driver/alarm-rounds.js';
import { Book } from '../../../apps/ops/src/demo/driver/book.js';
import type { ClimateReport } from '../../../apps/ops/src/demo/driver/climate-day.js';
import { Measuring, type LoggedRoom } from '../../../apps/ops/src/demo/driver/measuring.js';
import type { Compared } from '../../../apps/ops/src/demo/driver/reckoning.js';
import { agreementLines } from '../../../apps/ops/src/demo/report/agreement.js';
import { climateAccount } from '../../../apps/ops/src/demo/report/climate.js';
import { Logger, LOGGERS } from '../../../apps/ops/src/demo/world/loggers.js';

const servers: Server[] = [];
afterEach(async () => {
  for (const server of servers.splice(0)) await new Promise<void>((resolve) => server.close(() => resolve()));
});

const MOMENTS = ['2026-05-09T07:00:00.000Z', '2026-05-09T07:10:00.000Z', '2026-05-09T07:20:00.000Z'];

/** The account of one network whose logger measured three moments, and whose program keeps those that are given. */
async function account(kept: readonly string[]) {
  const readings = kept.map((measuredAt, index) => ({ measuredAt, airTempC: 21, relativeHumidityPct: 60 + index, state: 'accepted' }));
  const server = createServer((request, reply) => {
    const items = request.url?.includes('/readings') ? readings : [];
    reply.writeHead(200, { 'content-type': 'application/json', connection: 'close' }).end(JSON.stringify({ items, nextCursor: null }));
  });
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const book = new Book('valley', 'n', 'k', new ApiClient([`http://127.0.0.1:${(server.address() as AddressInfo).port}`], 'k', { requests: 0, sentAgain: 0, replayed: 0 }), 'i', new Map());
  const logger = new Logger(7, { ...LOGGERS[0]!, warmedAtMs: null });
  logger.batch(MOMENTS.map((moment) => ({ atMs: Date.parse(moment), airTempC: 21, relativeHumidityPct: 60 })));
  const measuring = new Measuring(book, 7, new Map());
  const count = { accepted: 3, doubtful: 0, duplicate: 1, conflicting: 0, refused: 0, late: 0, sentOnceMore: 0 };
  measuring.rooms.push({ site: { name: 'Old dye works', dryingRooms: [] }, roomId: 'r', roomName: 'Upper hall', sensorId: 's', logger, count } as unknown as LoggedRoom);
  const report: ClimateReport = { measuring, alarms: new AlarmRounds(book, new Map(), () => undefined), atEight: new Map(), compared: [], taken: [], mostWeighed: null };
  return climateAccount(new Map([[book, report]]));
}

describe('the account of readings', () => {
  test('readings that are all there once are no fault, and the dampest is told with its hour', async () => {
    const { faults, lines } = await account(MOMENTS);
    expect(faults).toEqual([]);
    expect(lines).toContain('  dampest: 62 % at 07:20');
    expect(lines.join('\n')).toContain('kept 3, in doubt 0, there already 1');
  });

  test('a reading that was lost, doubled or invented is a fault', async () => {
    expect((await account(MOMENTS.slice(1))).faults).toEqual(['Upper hall: readings lost: 1, the first of 2026-05-09T07:00:00.000Z']);
    expect((await account([...MOMENTS, MOMENTS[1]!])).faults).toEqual(['Upper hall: readings there twice: 1, the first of 2026-05-09T07:10:00.000Z']);
    expect((await account([...MOMENTS, '2026-05-09T07:30:00.000Z'])).faults.join()).toContain('readings that nobody measured: 1');
  });
});

describe('agreement with the truth', () => {
  const thing = (more: Partial<Compared>): Compared => ({ roomId: 'r', build: 'thin', weighed: true, trueKg: 1, leftKg: 1, leftAtMostKg: 1, hungKg: 2, saidDry: false, trulyAboveX: 0.5, ...more });
  const said = (things: Compared[] | null, taken: Compared[] = []) => agreementLines([{ atMs: Date.parse('2026-05-09T20:00:00Z'), room: { roomName: 'Upper hall' } as LoggedRoom, things }], taken).join('\n');

  test('differences are told in percent of the water at hanging, weighed and never weighed things apart', () => {
    const words = said([thing({ leftKg: 1.2 }), thing({ leftKg: 0.8 }), thing({ weighed: false, leftKg: 2 })]);
    expect(words).toContain('weighed thin things off by 10.0 % (2; the middle one by 10.0 %), never weighed ones by 50.0 % (1; the middle one by 50.0 %)');
  });

  test('what is called dry and is not is counted, and what is more than hardly wet apart', () => {
    const words = said([thing({ saidDry: true, trulyAboveX: -0.01 }), thing({ saidDry: true, trulyAboveX: 0.005 }), thing({ saidDry: true, trulyAboveX: 0.08 })]);
    expect(words).toContain('called dry: 3, of them truly not: 2 (1 by more than 1 % of their mass, the wettest by 8 %)');
  });

  test('thick things are held against their band, and by how much they are outside of it', () => {
    const thick = (more: Partial<Compared>) => thing({ build: 'thick', leftKg: 0.8, leftAtMostKg: 1.2, ...more });
    expect(said([thick({}), thick({ trueKg: 1.4 })])).toContain('thick and closed ones within their band: 1 of 2, the others outside it by 10.0 % (1; the middle one by 10.0 %)');
  });

  test('weighed things that were taken down are told apart, with how many the program called dry', () => {
    expect(said([], [thing({ saidDry: true, leftKg: 0, trueKg: 0.02 }), thing({ leftKg: 0.12, trueKg: 0.02 })])).toContain('thin ones off by 3.0 % (2; the middle one by 5.0 %); thick and closed ones within their band: 0 of 0; 1 of 2 were dry by the program, too');
  });

  test('a room that was not reckoned in time is named', () => {
    expect(said(null)).toContain('not reckoned in time: upper hall');
  });
});
