import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { verifyChain } from '#custody';
import { workerContext } from '#messaging';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { counts, refusalsOf, reserve, rowsOf, take, type Row } from '../api/submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

/** One letter of a code changed to its neighbour in the alphabet of tags, so that its check digits no longer fit. */
function misread(tag: string): string {
  const letters = 'BCDFGHJKMNPQRSTVWXYZ';
  return tag.slice(0, 5) + letters.charAt((letters.indexOf(tag.charAt(5)) + 1) % letters.length) + tag.slice(6);
}

const COLUMNS = ['Tag', 'Household', 'Contact name', 'Contact phone', 'Object', 'Family words', 'Count', 'Material', 'Size', 'Significance', 'Wetted at', 'Arrived at', 'Water', 'Consent treat', 'Consent freeze'];
type Slip = Partial<Record<(typeof COLUMNS)[number], string>>;

/** The slips as the doorway's spreadsheet saves them: semicolons, CRLF, Windows-1252. */
function spreadsheet(slips: Slip[]): Buffer {
  return Buffer.from(stringify([COLUMNS, ...slips.map((slip) => COLUMNS.map((column) => slip[column] ?? ''))], { delimiter: ';', record_delimiter: '\r\n' }), 'latin1');
}

describe('paper slips of a morning without power, keyed in later', () => {
  let network: TestNetwork;
  let incident: IncidentOnTest;
  let tags: string[];
  let importId: string;
  let rows: Row[];

  beforeAll(async () => {
    network = await server.network();
    incident = await network.incident();
    tags = await reserve(network, incident, 20);
    const neighbour = await server.network();
    // Tags of one serial are alike in every network: reserve more than ours have, and take one that is only theirs.
    const foreign = (await reserve(neighbour, await neighbour.incident(), 40)).at(-1) ?? '';
    const { body: container } = await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'Tubs' }).expect(201);
    const [quilt = '', shirt = '', letters = '', gown = ''] = tags;
    importId = await take(server, network, incident, spreadsheet([
      { Tag: quilt, Household: 'HH-1', 'Contact name': 'Contact M\u00fcller', 'Contact phone': '+43 660 1', Object: 'Quilt, blue', 'Family words': 'Gro\u00dfmutters Decke', Material: 'textile-quilt-padded', Size: 'double-quilt', Significance: 'irreplaceable', 'Wetted at': '2026-05-08T20:00:00Z', 'Arrived at': '2026-05-09T06:10:00Z', Water: 'black', 'Consent treat': 'yes', 'Consent freeze': 'no' },
      { Tag: shirt.toLowerCase().replaceAll('-', ' '), Household: 'hh-1', Object: ' Shirt ', Material: 'Hemd', 'Wetted at': '08.05.26 22:30', 'Consent treat': 'ja' },
      { Tag: letters, Household: 'HH-2', Object: 'Letters', Count: '240,0', Material: 'letters', 'Consent treat': '' },
      { Tag: quilt, Household: 'HH-1', Object: 'QUILT  blue' },
      { Tag: quilt, Household: 'HH-1', Object: 'Another quilt' },
      { Tag: quilt, Household: 'HH-3', Object: 'Quilt, blue' },
      { Tag: misread(gown), Household: 'HH-2', Object: 'Christening gown' },
      { Tag: gown, Household: '', Object: 'Christening gown' },
      { Tag: gown, Household: 'HH-2', Object: 'Gown', 'Wetted at': '05/08/2026' },
      { Tag: gown, Household: 'HH-2', Object: 'Gown', 'Wetted at': '10.05.2026 08:00' },
      { Tag: gown, Household: 'HH-2', Object: 'Gown', 'Wetted at': '01.05.2026' },
      { Tag: '=A2', Household: 'HH-2', Object: 'Gown' },
      { Tag: container.tags[0], Household: 'HH-2', Object: 'Gown' },
      { Tag: foreign, Household: 'HH-2', Object: 'Gown' },
      { Tag: gown, Household: 'HH-2', Object: '=HYPERLINK("http://example.invalid")', Material: 'cello', Size: 'garment', Significance: 'valued' },
    ]));
    rows = await rowsOf(network, importId);
  });

  test('every row has one outcome, and the file says that it was not UTF-8', async () => {
    const { body } = await network.get(`/v1/intake-imports/${importId}`).expect(200);
    expect(body).toMatchObject({ state: 'done', encoding: 'windows-1252', delimiter: 'semicolon', rowsTotal: 15, rowsDone: 15, accepted: 2, repaired: 2, alreadyThere: 1, refused: 10, remarks: [{ code: 'encoding_assumed' }] });
    expect(rows.map(({ outcome }) => outcome)).toEqual(['accepted', 'repaired', 'repaired', 'already-there', ...Array.from({ length: 10 }, () => 'refused'), 'accepted']);
  });

  test('an item that went in is like one taken in at the door: chain, triage, place, owner', async () => {
    const { body: item } = await network.get(`/v1/items/${rows[0]?.itemId}`).expect(200);
    expect(item).toMatchObject({
      tag: tags[0], description: 'Quilt, blue', familyWords: 'Gro\u00dfmutters Decke', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'irreplaceable', kind: 'item',
      arrivedAt: '2026-05-09T06:10:00.000Z', wettedAt: '2026-05-08T20:00:00.000Z', keeper: { kind: 'holding', id: incident.holding('dirty') }, stage: 'waiting', custodySeq: 1,
    });
    expect(item.urgency).not.toBeNull();
    const { body: events } = await network.get(`/v1/items/${rows[0]?.itemId}/custody-events`).expect(200);
    expect(events.items).toMatchObject([{ kind: 'taken-in', seq: 1, from: null, occurredAt: '2026-05-09T06:10:00.000Z' }]);
  });

  test('the custody chains of the whole network verify', async () => {
    await server.unitOfWork.read(workerContext(network.networkId, 'verify', ''), async (stores) => {
      const items = await stores.items.page(incident.id, {}, 100, null);
      expect(items).toHaveLength(4);
      for (const item of items) {
        const chain = await stores.custody.chain(item.id, 0, 10);
        expect(verifyChain(chain, { networkId: item.networkId, itemId: item.id, seq: item.seq, headHash: item.headHash, keeper: item.keeper, stage: item.stage, matters: item.matters })).toEqual([]);
      }
    });
  });

  test('a household is registered once, whatever its capitals, with the contact of the row that has one', async () => {
    const { body } = await network.get(`/v1/incidents/${incident.id}/households`).expect(200);
    expect(body.items.map(({ code }: { code: string }) => code).sort()).toEqual(['HH-1', 'HH-2']);
    const first = body.items.find(({ code }: { code: string }) => code === 'HH-1');
    const { body: household } = await network.get(`/v1/households/${first.id}`).expect(200);
    expect(household.contact).toEqual({ name: 'Contact M\u00fcller', phone: '+43 660 1', email: '', address: '' });
  });

  test('a consent counts for the thing in whose row it stands, and a blank cell records none', async () => {
    const { rows: consents } = await server.admin.query<{ row: number | null; scope: string; given: boolean }>(
      'select i.tag_code as tag, c.scope, c.given, r.row_number as row from consent c left join item i on i.id = c.item_id left join intake_import_row r on r.item_id = c.item_id and r.outcome <> \'already-there\' where c.network_id = $1 order by r.row_number, c.scope',
      [network.networkId],
    );
    expect(consents.map(({ row, scope, given }) => [row, scope, given])).toEqual([[2, 'freeze', false], [2, 'treat', true], [3, 'treat', true]]);
    const { rows: seen } = await server.admin.query<{ treat: boolean | null; freeze: boolean | null }>(
      "select (a.observed->'consents'->>'treat')::boolean as treat, (a.observed->'consents'->>'freeze')::boolean as freeze from assessment a join intake_import_row r on r.item_id = a.item_id where r.import_id = $1 and r.outcome <> 'already-there' order by r.row_number",
      [importId],
    );
    expect(seen).toEqual([{ treat: true, freeze: false }, { treat: true, freeze: null }, { treat: null, freeze: null }, { treat: null, freeze: null }]);
  });

  test('a tag with one wrong letter is refused with the tag that was meant, and is not corrected', async () => {
    expect(refusalsOf(rows[6])).toEqual(['tag:tag_invalid']);
    expect(rows[6]?.remarks.find(({ code }) => code === 'tag_invalid')?.text).toContain(tags[3]);
  });

  test('each refusal names its column', () => {
    expect(rows.slice(4, 14).map(refusalsOf)).toEqual([
      ['tag:tag_taken'], ['tag:tag_taken'], ['tag:tag_invalid'], ['household:household_missing'], ['wettedAt:date_ambiguous'], ['wettedAt:date_in_future'], ['wettedAt:date_before_flood'],
      ['tag:formula_cell'], ['tag:tag_kind_wrong'], ['tag:tag_unknown'],
    ]);
  });

  test('a formula among words is stored as the text it is', async () => {
    const { body } = await network.get(`/v1/items/${rows[14]?.itemId}`).expect(200);
    expect(body).toMatchObject({ description: '=HYPERLINK("http://example.invalid")', materialClass: 'unknown' });
    expect(rows[14]?.remarks.map(({ code }) => code)).toEqual(expect.arrayContaining(['formula_kept_as_text', 'material_unknown']));
  });

  test('refused rows leave nothing behind, no household either', async () => {
    expect(await counts(server, network)).toMatchObject({ item: 4, custody_event: 4, triage_result: 4, household: 2, household_contact: 2, intake_import_row: 15 });
    const { rows: tied } = await server.admin.query<{ code: string }>('select code from tag where network_id = $1 and item_id is not null', [network.networkId]);
    expect(tied.map(({ code }) => code).sort()).toEqual(tags.slice(0, 4).map((tag) => tag.replaceAll('-', '')).sort());
  });

  test('mended in a spreadsheet and sent again, the refused rows go in', async () => {
    const { text } = await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200);
    const [header = [], ...refused] = parse(text, { bom: true });
    expect(header).toEqual([...COLUMNS, '_problem']);
    const mended = refused.map((cells, at) => header.map((column, index) => {
      if (column === 'Tag') return tags[10 + at] ?? '';
      if (column === 'Household') return cells[index] === '' ? 'HH-2' : (cells[index] ?? '');
      return column === 'Wetted at' ? '' : (cells[index] ?? '');
    }));
    const again = await take(server, network, incident, `\uFEFF${stringify([header, ...mended], { record_delimiter: '\r\n' })}`);
    const { body } = await network.get(`/v1/intake-imports/${again}`).expect(200);
    expect(body).toMatchObject({ rowsTotal: 10, refused: 0, repaired: 0, accepted: 10 });
    expect(body.columns.map(({ header: name }: { header: string }) => name)).toEqual(COLUMNS);
    expect(await counts(server, network)).toMatchObject({ item: 14, household: 3 });
  });

  test('another file that repeats things which are there changes nothing', async () => {
    const before = await counts(server, network);
    const again = await take(server, network, incident, `tag,household,object,contactName\n${tags[0]},HH-1,"Quilt, blue",Somebody else\n`);
    expect((await rowsOf(network, again)).map(({ outcome }) => outcome)).toEqual(['already-there']);
    expect(await counts(server, network)).toEqual({ ...before, intake_import_row: (before['intake_import_row'] ?? 0) + 1 });
  });
});

describe('households and consents', () => {
  test('an answer that all rows of a new household give is taken for the household; a contact on record is never changed by a file', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a, b, c] = await reserve(network, incident, 3);
    await take(server, network, incident, `tag,household,object,contactName,consentTreat,consentFreeze\n${a},HH-1,Quilt,,yes,no\n${b},HH-1,Shirt,Contact One,yes,yes\n`);
    const known = await network.get(`/v1/incidents/${incident.id}/households`).expect(200);
    const { body: household } = await network.get(`/v1/households/${known.body.items[0].id}`).expect(200);
    expect(household.contact.name).toBe('Contact One');
    expect(household.consents.filter((each: { itemId: string | null }) => each.itemId === null)).toMatchObject([{ scope: 'treat', given: true, manner: 'spoken' }]);
    expect(household.consents.filter((each: { itemId: string | null; scope: string }) => each.itemId !== null).map((each: { scope: string; given: boolean }) => [each.scope, each.given]).sort()).toEqual([['freeze', false], ['freeze', true]]);
    const later = await take(server, network, incident, `tag,household,object,contactName,consentTreat\n${c},HH-1,Map,Contact Two,no\n`);
    const { body: after } = await network.get(`/v1/households/${household.id}`).expect(200);
    expect(after.contact.name).toBe('Contact One');
    const [row] = await rowsOf(network, later);
    expect(row?.remarks.map(({ code }) => code)).toContain('contact_kept');
    expect(after.consents.filter((each: { itemId: string | null }) => each.itemId === row?.itemId)).toMatchObject([{ scope: 'treat', given: false }]);
  });
});
