import { jpeg } from '../support/pictures.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

describe('a file tells what became of it', () => {
  test('in the language that is asked for', async () => {
    const file = await bench.sent(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'image/png');
    expect(file).toMatchObject({ state: 'refused', refusal: { code: 'svg', text: expect.stringContaining('SVG can hold programs') } });
    const spanish = await bench.network.get(`/v1/files/${file.id}`, { 'accept-language': 'es' }).expect(200);
    expect(spanish.headers['content-language']).toBe('es');
    expect(spanish.body.refusal.text).toContain('puede contener programas');
  });

  test('to its own network alone', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg');
    await (await bench.server.network()).get(`/v1/files/${id}`).expect(404);
  });
});
