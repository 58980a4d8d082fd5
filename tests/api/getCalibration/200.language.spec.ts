import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { render } from '#care';
import { setNumber } from '../setCalibration/calibration.support.js';
import { Workbench } from '../support/workbench.js';

interface Shown {
  library: string;
  key: string;
  unit: string;
  why: string;
  decision: { reason: string } | null;
}

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const read = async (language: string) => bench.network.get('/v1/calibration', { 'accept-language': language }).expect(200);
const of = (numbers: readonly Shown[], key: string) => numbers.find((number) => number.key === key);

test('why every number is what it is, and units in words, are told in Spanish to who asks for it; everything else stays as in English', async () => {
  const [english, spanish] = [await read('en'), await read('es-MX, es;q=0.9')];
  expect(spanish.headers).toMatchObject({ 'content-language': 'es', vary: 'Accept-Language' });
  expect(english.headers['content-language']).toBe('en');
  const said = (english.body.numbers as Shown[]).map((number) => ({ ...number, why: render({ text: number.why }, 'es'), unit: render({ text: number.unit }, 'es') }));
  for (const { key, why } of english.body.numbers as Shown[]) expect(of(spanish.body.numbers, key)?.why).not.toBe(why);
  expect(spanish.body).toEqual({ ...english.body, numbers: said });
  expect(of(spanish.body.numbers, 'restHours')?.why).toMatch(/^Una pausa de estas horas cuenta como descanso/);
  expect(of(spanish.body.numbers, 'facesHungSingle')).toMatchObject({ library: 'climate', unit: 'caras', why: 'Las dos caras libres.' });
  expect(of(spanish.body.numbers, 'fitForRequiredMask')).toMatchObject({ library: 'people', unit: '1 = sí, 0 = no' });
});

test('who asks for a language that we do not speak is told in English', async () => {
  const { body, headers } = await read('fr');
  expect(headers['content-language']).toBe('en');
  expect(of(body.numbers, 'facesHungSingle')).toMatchObject({ unit: 'faces', why: 'Both faces free.' });
});

test('a number can be set with the entity tag of the Spanish answer, and the reason of the lead stays as it was written', async () => {
  const etag = (await read('es')).headers['etag'] ?? '';
  expect(etag).toBe('"0-es"');
  expect((await setNumber(bench, 'people/restHours', 10, { etag, reason: 'A night here is longer.' })).status).toBe(200);
  const { body, headers } = await read('es');
  expect(headers['etag']).toBe('"1-es"');
  expect(of(body.numbers, 'restHours')?.decision?.reason).toBe('A night here is longer.');
});
