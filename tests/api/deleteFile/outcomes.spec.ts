import { newId } from '#platform';
import { readdir } from 'node:fs/promises';
import { jpeg } from '../support/pictures.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

const remove = (id: string, body: object = {}) => bench.network.post(`/v1/files/${id}/deletions`, { personId: bench.bench.incident.person('P1'), reason: 'Invented reason: shows a neighbour.', ...body });

describe('a file is deleted', () => {
  test('with its reason on record and sealed, and its bytes are gone from outside', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg');
    await bench.work();
    const names = (await bench.objectsOf(id)).map(({ name }) => name);
    expect(names.length).toBe(3);
    await remove(id).expect(200);
    expect(await bench.read(id)).toMatchObject({ state: 'deleted', deletedReason: 'Invented reason: shows a neighbour.', deletedBy: bench.bench.incident.person('P1') });
    const { rows } = await bench.server.admin.query('select file::text as row from file where id = $1', [id]);
    expect(JSON.stringify(rows)).not.toContain('neighbour');
    await bench.work();
    expect(await bench.objectsOf(id)).toEqual([]);
    expect((await readdir(bench.server.filesFolder, { recursive: true })).filter((path) => names.some((name) => path.includes(name)))).toEqual([]);
  });

  test('once; a person who is not there, and a file of another network, are refused', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg');
    expect((await remove(id, { personId: newId() }).expect(422)).body.code).toBe('reference_unknown');
    await (await bench.server.network()).post(`/v1/files/${id}/deletions`, { personId: newId(), reason: 'x' }).expect(404);
    await remove(id).expect(200);
    expect((await remove(id).expect(409)).body.code).toBe('file_state');
  });

  test('while it is uploaded: the next part is refused, and nothing is left outside', async () => {
    const id = await bench.begun(10);
    await bench.patch(id, 0, Buffer.alloc(4));
    await remove(id).expect(200);
    expect((await bench.patch(id, 4, Buffer.alloc(6))).status).toBe(410);
    await bench.work();
    expect(await bench.objectsOf(id)).toEqual([]);
  });
});
