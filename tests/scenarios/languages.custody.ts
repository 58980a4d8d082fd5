/** What is asked for Spanish of tags, scans, stock-takes and roots; for `languages.spec.ts`. */
import { newId } from '#platform';
import { makeRoots } from '../api/support/custody-roots.js';
import type { Workbench } from '../api/support/workbench.js';
import { wordsOf } from '../unit/documents/pictures.support.js';

export interface Spoken {
  status: number;
  headers: Record<string, string>;
  body: unknown;
  text: string;
}

const ES = { 'accept-language': 'es-MX, es;q=0.9' };

/** Labels so low that there is something to say about them. */
const LOW = { page: { widthMm: 60, heightMm: 22 }, marginLeftMm: 0, marginTopMm: 0, columns: 1, rows: 1, pitchXMm: 60, pitchYMm: 22, label: { widthMm: 42, heightMm: 22 }, cornerMm: 0 };

/** A document for printing, with its words as the text of a body. */
async function printed(asked: Promise<{ status: number; headers: Record<string, string>; body: unknown }>): Promise<Spoken> {
  const { status, headers, body } = await asked;
  return { status, headers, body: { text: await wordsOf(body as Buffer) }, text: '{}' };
}

/** Each speaking operation of custody, asked for Spanish. */
export function custodyOperations(open: () => Workbench): Record<string, () => Promise<Spoken>> {
  const newQuilt = async () => open().takeIn(await open().household());
  const newBlock = async () => (await open().network.post(`/v1/incidents/${open().incident.id}/tag-blocks`, { kind: 'place', count: 2, reservedFor: 'X' }).expect(201)).body.id as string;
  return {
    listStockTakeDifferences: async () => {
      await newQuilt();
      const { body } = await open().network.post(`/v1/incidents/${open().incident.id}/stock-takes`, { siteId: open().incident.site(), personId: open().incident.person('P1') }).expect(201);
      return open().network.get(`/v1/stock-takes/${body.id}/differences`, ES);
    },
    printCustodyRoot: async () => {
      await newQuilt();
      await makeRoots(open().server, open().network);
      return printed(open().network.get('/v1/custody-roots/1/print', ES));
    },
    searchItems: async () => open().network.get(`/v1/incidents/${open().incident.id}/item-search?q=${(await newQuilt()).tag as string}`, ES),
    recordScans: async () => {
      const place = { kind: 'shelf', id: (await open().network.post(`/v1/incidents/${open().incident.id}/shelves`, { siteId: open().incident.site(), code: 'S1', name: 'Estante', zone: 'dirty' }).expect(201)).body.id as string };
      const [clean, mouldy] = [await newQuilt(), await newQuilt()];
      await open().assess(clean.id, { mould: 'none' }).expect(201);
      await open().assess(mouldy.id, { mould: 'active' }).expect(201);
      const scans = [clean, mouldy].map((item) => ({ scanId: newId(), itemTag: item.tag as string, place, seenAt: new Date(open().server.clock.nowMs()).toISOString(), baseSeq: 1 }));
      return open().network.post(`/v1/incidents/${open().incident.id}/scans`, { scans }, ES);
    },
    listLabelTemplates: async () => {
      await open().network.post('/v1/label-templates', { name: 'X', template: LOW }).expect(201);
      return open().network.get('/v1/label-templates?limit=200', ES);
    },
    addLabelTemplate: async () => open().network.post('/v1/label-templates', { name: 'X', template: LOW }, ES),
    printCalibrationPage: async () => printed(open().network.get('/v1/label-templates/a4-64x38/calibration-page', ES)),
    getTagSheet: async () => printed(open().network.get(`/v1/tag-blocks/${await newBlock()}/sheet?template=sign-a4`, ES)),
    printTagSheet: async () => printed(open().network.post(`/v1/tag-blocks/${await newBlock()}/sheet`, { template: LOW }, ES)),
  };
}
