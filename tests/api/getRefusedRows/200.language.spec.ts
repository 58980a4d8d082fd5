import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { startTestServer, type TestServer } from '#testing';
import { take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const FILE = 'tag,household,object,count\n,HH-1,Quilt,x\n';

describe('getRefusedRows and listIntakeImportRows answer 200', () => {
  test('the same stored rows say what to mend in the language of whoever asks', async () => {
    const network = await server.network();
    const importId = await take(server, network, await network.incident(), FILE);
    const problemIn = async (language: string) => {
      const answer = await network.get(`/v1/intake-imports/${importId}/refused-rows`, { 'accept-language': language }).expect(200);
      expect(answer.headers).toMatchObject({ 'content-language': language, 'content-type': 'text/csv; charset=utf-8; header=present' });
      return parse(answer.text, { bom: true })[1]?.at(-1);
    };
    expect(await problemIn('en')).toBe('Row 2: tag: A thing without a tag is lost among the others. Tie a tag to it and write its code here. count: Write the number of pieces as a whole number, 1 for a single thing.');
    expect(await problemIn('es')).toBe('Fila 2: tag: Un objeto sin etiqueta se pierde entre los demás. Átele una etiqueta y escriba aquí su código. count: Escriba el número de piezas como número entero, 1 para un solo objeto.');
  });

  test('values of a remark are put into the sentence of each language', async () => {
    const network = await server.network();
    const importId = await take(server, network, await network.incident(), 'tag,household,object,wettedAt\nKBCD-FG,HH-1,Quilt,05/08/2026\n');
    const textsIn = async (language: string) => {
      const { body } = await network.get(`/v1/intake-imports/${importId}/rows`, { 'accept-language': language }).expect(200);
      return body.items[0].remarks.filter(({ kind }: { kind: string }) => kind === 'refusal').map(({ text }: { text: string }) => text);
    };
    expect(await textsIn('en')).toEqual(['This can be two days: 5 may be the month or the day. Write it as 2026-05-08 22:30 or 08.05.2026 22:30.', 'A tag code has 9 characters, seven letters and two digits; this has 6. Read the tag again.']);
    expect(await textsIn('es')).toEqual(['Esto puede ser dos fechas: 5 puede ser el mes o el día. Escríbala como 2026-05-08 22:30 o 08.05.2026 22:30.', 'El código de una etiqueta tiene 9 caracteres, siete letras y dos cifras; este tiene 6. Lea la etiqueta otra vez.']);
  });

  test('rows that an earlier version stored as English sentences are still read: in Spanish where the sentence is known, as they are where it held a value', async () => {
    const network = await server.network();
    const importId = await take(server, network, await network.incident(), FILE);
    const old = [
      { kind: 'refusal', column: 'tag', code: 'tag_unknown', text: 'No one reserved this tag for the incident.', was: 'X', became: null },
      { kind: 'refusal', column: 'object', code: 'too_long', text: 'This is longer than 500 characters. Shorten it; nothing is cut off unseen.', was: null, became: null },
    ];
    await server.admin.query('update intake_import_row set remarks = $2 where import_id = $1', [importId, JSON.stringify(old)]);
    const { body } = await network.get(`/v1/intake-imports/${importId}/rows`, { 'accept-language': 'es' }).expect(200);
    expect(body.items[0].remarks).toEqual([{ ...old[0], text: 'Nadie reservó esta etiqueta para la emergencia.' }, old[1]]);
    const { text } = await network.get(`/v1/intake-imports/${importId}/refused-rows`, { 'accept-language': 'es' }).expect(200);
    expect(text).toContain('Fila 2: tag: Nadie reservó esta etiqueta para la emergencia. object: This is longer than 500 characters.');
  });
});
