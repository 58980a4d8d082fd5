import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { wordsOf } from '../../unit/documents/pictures.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('one file with instructions, every slip with its tag, the stations and the places of the site', async () => {
  const kit = (await bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips: 3 }).expect(201)).body;
  const { headers, body } = await bench.network.get(`/v1/paper-kits/${kit.id}/print?language=es&paper=letter`).expect(200);
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': 'es', 'content-disposition': 'inline; filename="paper-kit.pdf"' });
  const pages = await wordsOf(body);
  // Six stations; four waiting areas, two drying places, one freezer.
  expect(pages).toHaveLength(1 + 3 + 6 + 7);
  kit.tags.forEach((tag: string, index: number) => expect(pages[1 + index]).toContain(tag));
  const all = pages.join('\n');
  for (const said of ['Hoja de estación: Station RINSE', 'Hoja de lugar: Rack 1', 'Hoja de lugar: Chest freezer 1', 'Hoja 1', 'Hoja 13']) expect(all).toContain(said);
}, 60_000);
