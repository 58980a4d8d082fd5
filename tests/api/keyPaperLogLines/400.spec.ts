import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest } from '#testing';
import { at, PaperKit } from '../support/paper.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('what is no line at all refuses the whole request, says which member, and changes nothing', async () => {
  const kit = await PaperKit.make(bench);
  const good = { sheetNo: 1, lineNo: 1, void: 'crossed-out' };
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record', 'audit_entry']);
  const before = await digest();
  const bad: [object[], string][] = [
    [[], '#/lines'], [Array.from({ length: 501 }, (_, index) => ({ ...good, part: 1 + (index % 9), lineNo: 1 + (index % 99) })), '#/lines'],
    [[good, { ...good, lineNo: 100 }], '#/lines/1/lineNo'], [[{ ...good, part: 0 }], '#/lines/0/part'], [[{ ...good, sheetNo: 1.5 }], '#/lines/0/sheetNo'], [[{ ...good, void: 'lost' }], '#/lines/0/void'],
    [[{ ...good, void: null, writtenAt: '09:40', tag: 'KXXX-XXX-00' }], '#/lines/0/writtenAt'], [[{ ...good, void: null, writtenAt: at('09:40'), step: 'iron' }], '#/lines/0/step'], [[{ ...good, outcome: 'fine' }], '#/lines/0/outcome'],
    [[{ ...good, tag: 'K\u0000' }], '#/lines/0/tag'], [[{ ...good, to: { kind: 'attic', id: kit.id } }], '#/lines/0/to/kind'], [[{ ...good, page: 1 }], '#/lines/0'],
  ];
  for (const [lines, pointer] of bad) {
    const { body } = await kit.post(lines).expect(400);
    expect([body.code, body.errors[0].pointer.startsWith(pointer)]).toEqual(['validation_failed', true]);
  }
  await kit.post([good], { personId: 'P2' }).expect(400);
  await kit.post([good], {}, { 'idempotency-key': '' }).expect(400);
  expect(await digest()).toEqual(before);
});
