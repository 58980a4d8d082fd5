/** Must hold after an erasure: no byte of a household's files is left that could be read, wherever it lay, and all was in the export before. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { foundInDatabase } from '../api/eraseHousehold/raw-dump.js';
import { FileBench } from '../api/support/files.js';
import { picture } from '../api/support/pictures.js';
import { SECRET, wav } from '../api/support/sounds.js';

/** An invented name that is nobody's. */
const NAME = 'Quorblendt';
let bench: FileBench;
beforeAll(async () => { bench = await FileBench.open(); });
afterAll(() => bench.close());

/** Every file below the folder of files, with its bytes. */
async function stored(): Promise<{ path: string; bytes: Buffer }[]> {
  const names = await readdir(bench.server.filesFolder, { recursive: true, withFileTypes: true });
  return Promise.all(names.filter((entry) => entry.isFile()).map(async (entry) => ({ path: join(entry.parentPath, entry.name), bytes: await readFile(join(entry.parentPath, entry.name)) })));
}

async function holding(words: readonly (string | Buffer)[]): Promise<string[]> {
  return (await stored()).filter(({ bytes }) => words.some((word) => bytes.includes(word))).map(({ path }) => path);
}

const photographOf = (name: string, side: number) => picture(side, side).withExif({ IFD0: { Artist: name, ImageDescription: `Gown of ${name}` } }).jpeg().toBuffer();

test('photographs, voices and half an upload of an erased household are in no file and no table any more; what another household gave is', async () => {
  const photograph = await photographOf(NAME, 900);
  expect(photograph.includes(NAME)).toBe(true);
  const half = Buffer.concat([await photographOf(NAME, 700), Buffer.alloc(3_000, NAME)]);
  const kept = await bench.sent(photograph, 'image/jpeg');
  const voice = await bench.sent(wav(2), 'audio/wav');
  expect([kept.state, voice.state]).toEqual(['kept', 'kept']);
  const unfinished = await bench.begun(half.length + 10);
  expect((await bench.patch(unfinished, 0, half)).status).toBe(204);

  const other = await bench.bench.household();
  const { id: otherItem } = await bench.bench.takeIn(other);
  const { body: theirs } = await bench.network.post(`/v1/households/${other.id}/files?${new URLSearchParams({ itemId: otherItem })}`, await photographOf('Other', 500), { 'content-type': 'image/jpeg' }).expect(201);
  await bench.work();

  // Sealed from the first part on: nothing of them can be read in the folder as it lies there.
  expect((await stored()).length).toBeGreaterThan(3);
  // Words so long that no sealed bytes hold one by chance.
  expect(await holding([NAME, SECRET, 'JFIF\0', 'Exif\0\0', 'WAVEfmt '])).toEqual([]);
  const { body: held } = await bench.network.get(`/v1/households/${bench.household.id}/personal-data`).expect(200);
  for (const id of [kept.id, voice.id]) expect(JSON.stringify(held)).toContain(id);
  const link = await bench.link(kept.id);
  const shown = await bench.fetched(link);
  expect(shown.status).toBe(200);
  const mine = new Set((await Promise.all([kept.id, voice.id, unfinished].map((id) => bench.objectsOf(id)))).flat().map(({ name }) => name));
  expect(mine.size).toBeGreaterThan(2);

  await bench.bench.handBack(bench.household, [bench.itemId]).expect(201);
  await bench.network.post(`/v1/households/${bench.household.id}/erasures`, { personId: bench.bench.incident.person('P1'), reason: 'owner-asked' }).expect(201);
  await bench.work(true);

  expect((await bench.fetched(link)).status).toBe(404);
  const left = (await stored()).map(({ path }) => path);
  expect(left.filter((path) => [...mine].some((name) => path.includes(name)))).toEqual([]);
  expect(await holding([NAME, SECRET, shown.bytes.subarray(0, 64)])).toEqual([]);
  expect(await foundInDatabase(bench.server.admin, [NAME])).toEqual([]);
  // That there was a file stays on record, and that it is gone; nothing of it can be asked for.
  for (const id of [kept.id, voice.id, unfinished]) {
    expect(await bench.read(id)).toMatchObject({ state: 'deleted' });
    expect((await bench.network.post(`/v1/files/${id}/links`, {})).status).toBe(409);
  }
  // The other household's photograph opens as before.
  expect(await bench.read(theirs.id as string)).toMatchObject({ state: 'kept' });
  expect((await bench.fetched(await bench.link(theirs.id as string))).status).toBe(200);
});
