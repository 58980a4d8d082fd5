import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';
import { reserve, take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

/** Names and numbers of a file. Four digits of a number may stand in any id by chance, eight do not. */
const TOLD = /Marigold|27182818|31415926|Hazel/;

describe('listIntakeImportRows answers 200', () => {
  test('in file order by pages, of all outcomes or of one, each row once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const tags = await reserve(network, incident, 7);
    const importId = await take(server, network, incident, `tag,household,object,material\n${tags.map((tag, at) => `${tag},HH-${at % 2},${at % 3 === 0 ? '' : 'Quilt'},`).join('\n')}\n`);
    const numbers = async (query: string) => {
      const seen: number[] = [];
      for (let cursor: string | null = ''; cursor !== null; ) {
        const { body } = await network.get(`/v1/intake-imports/${importId}/rows?limit=2${query}${cursor === '' ? '' : `&cursor=${cursor}`}`).expect(200);
        seen.push(...body.items.map((row: { rowNumber: number }) => row.rowNumber));
        cursor = body.nextCursor as string | null;
      }
      return seen;
    };
    expect(await numbers('')).toEqual([2, 3, 4, 5, 6, 7, 8]);
    expect(await numbers('&outcome=refused')).toEqual([2, 5, 8]);
    expect(await numbers('&outcome=accepted')).toEqual([3, 4, 6, 7]);
    expect(await numbers('&outcome=already-there')).toEqual([]);
  });

  test('a row links to its item, and says by column what was refused, repaired or assumed', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const importId = await take(server, network, incident, `tag,household,object,count,wettedAt\n${a.toLowerCase()},HH-1,Prints,"240,0",08.05.26 22:30\nX,HH-1,Map,x,05/08/2026\n`);
    const { body } = await network.get(`/v1/intake-imports/${importId}/rows`).expect(200);
    const [repaired, refused] = body.items;
    expect(repaired).toMatchObject({ rowNumber: 2, outcome: 'repaired' });
    expect(repaired.remarks.map((each: { kind: string; column: string; code: string }) => `${each.kind} ${each.column} ${each.code}`)).toEqual([
      'repair count decimals_removed', 'repair wettedAt date_two_digit_year', 'repair tag tag_spelling', 'note material material_not_given', 'note size size_assumed',
      'note contactName contact_not_given',
    ]);
    expect(repaired.remarks[1]).toMatchObject({ was: '08.05.26 22:30', became: '2026-05-08T22:30:00.000Z' });
    const item = await network.get(`/v1/items/${repaired.itemId}`).expect(200);
    expect(item.body).toMatchObject({ tag: a, kind: 'lot', count: 240, wettedAt: '2026-05-08T22:30:00.000Z' });
    expect(refused).toMatchObject({ outcome: 'refused', itemId: null, cells: { tag: 'X', wettedAt: '05/08/2026' } });
    expect(refused.remarks.filter((each: { kind: string }) => each.kind === 'refusal').map((each: { code: string }) => each.code)).toEqual(['count_unreadable', 'date_ambiguous', 'tag_invalid']);
  });

  test('a row that cannot be read is told what is wrong with its tag in the same breath: unknown, of another kind, or tied', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [taken = '', free = ''] = await reserve(network, incident, 2);
    const [container = ''] = await reserveTestTags(network, incident, 1, 'container');
    // Of another incident of the network, which is answered like one that nobody reserved.
    const [unknown = ''] = await reserve(network, await network.incident(), 1);
    await take(server, network, incident, `tag,household,object\n${taken},HH-1,Quilt\n`);
    const importId = await take(server, network, incident, `tag,household,object,count\n${[unknown, container, taken, free].map((tag) => `${tag},HH-1,Map,x`).join('\n')}\n${taken},,Map,x\n`);
    const { body } = await network.get(`/v1/intake-imports/${importId}/rows`).expect(200);
    const codes = body.items.map(({ outcome, remarks }: { outcome: string; remarks: { kind: string; code: string }[] }) => [outcome, ...remarks.filter(({ kind }) => kind === 'refusal').map(({ code }) => code)]);
    expect(codes).toEqual([['refused', 'count_unreadable', 'tag_unknown'], ['refused', 'count_unreadable', 'tag_kind_wrong'], ['refused', 'count_unreadable', 'tag_taken'], ['refused', 'count_unreadable'], ['refused', 'household_missing', 'count_unreadable']]);
  });

  test('no contact and no foreign column is shown, of a refused row neither, and none is kept of a row that went in', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const importId = await take(server, network, incident, `tag,household,object,contactName,contactPhone,Neighbour\n${a},HH-1,Quilt,Marigold Example,0660 27182818,Hazel Example\n,HH-1,Shirt,Marigold Other,'0660 31415926,Hazel Example\n`);
    const { text } = await network.get(`/v1/intake-imports/${importId}/rows`).expect(200);
    expect(text).not.toMatch(TOLD);
    const { rows } = await server.admin.query<{ row_number: number; all: string }>("select row_number, coalesce(cells::text, '') || encode(cells_sealed, 'escape') || remarks::text as all from intake_import_row where import_id = $1 order by row_number", [importId]);
    expect(rows[0]?.all).not.toMatch(TOLD);
    // Of the refused row it is kept, sealed, for the file that is mended.
    expect(rows[1]?.all).not.toMatch(TOLD);
    expect((await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200)).text).toMatch(/Marigold Other/);
    const file = await server.admin.query<{ bytes: number }>('select length(content) as bytes from intake_import where id = $1', [importId]);
    expect(file.rows).toEqual([{ bytes: 0 }]);
  });

  test('a refused tag is told the reserved tags of this incident that are close to it, and none of another one', async () => {
    const network = await server.network();
    const [incident, elsewhere] = [await network.incident(), await network.incident()];
    const [[ours = ''], [theirs = '']] = [await reserve(network, incident, 1), await reserve(network, elsewhere, 1)];
    const slip = (tag: string) => tag.slice(0, 2) + (tag[2] === 'Z' ? 'B' : 'Z') + tag.slice(3);
    const importId = await take(server, network, incident, `tag,household,object\n${slip(ours)},HH-1,Quilt\n${slip(theirs)},HH-1,Shirt\n${theirs},HH-1,Map\n`);
    const { body } = await network.get(`/v1/intake-imports/${importId}/rows`).expect(200);
    const texts = body.items.map((row: { remarks: { column: string; kind: string; text: string }[] }) => row.remarks.find(({ column, kind }) => column === 'tag' && kind === 'refusal')?.text);
    expect(texts[0]).toContain(ours);
    expect(texts[1]).not.toContain('close to it');
    expect(texts[2]).not.toContain('close to it');
  });
});
