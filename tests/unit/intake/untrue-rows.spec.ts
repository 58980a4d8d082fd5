import { expect, test } from '@jest/globals';
import { refuseUntrue } from '../../../libs/application/src/intake/import/untrue-row.js';
import { RowRemarks } from '../../../libs/application/src/intake/import/row-remarks.js';
import type { RowReading, RowValues } from '../../../libs/application/src/intake/import/row-values.js';

const NOW = Date.parse('2026-05-09T07:00:00Z');
const INCIDENT = { id: 'i', floodAtMs: NOW - 13 * 3_600_000, defaultWater: 'black', outdoorAirTempC: null, outdoorRelativeHumidityPct: null, state: 'open' as const };

function row(change: Partial<RowValues>): RowReading {
  const values: RowValues = {
    tag: '', householdCode: 'HH-1', contact: { name: '', phone: '', email: '', address: '' }, language: null, object: 'Quilt', familyWords: '', photographRef: '', count: 1, materialClass: 'unknown',
    sizeClass: 'double-quilt', significance: 'valued', wettedAtMs: null, arrivedAtMs: NOW, water: null, consents: { treat: null, freeze: null, refer: null }, ...change,
  };
  return { rowNumber: 1, cells: {}, values, remarks: new RowRemarks() };
}

function refusals(change: Partial<RowValues>, already: RowRemarks = new RowRemarks()): string[] {
  refuseUntrue(row(change), already, INCIDENT, NOW);
  return already.refusals.map(({ column, code }) => `${column} ${code}`);
}

test('a row whose cells cannot all be true is refused with every contradiction, by the column to mend', () => {
  expect(refusals({ wettedAtMs: NOW + 1, count: 2.5 })).toEqual(['wettedAt wetted_ahead', 'count count_not_whole']);
  expect(refusals({ wettedAtMs: NOW })).toEqual([]);
});

test('a cell that is refused already is not told of twice', () => {
  const already = new RowRemarks();
  already.refuse('wettedAt', 'time_ahead', { text: 'Lies ahead.' });
  expect(refusals({ wettedAtMs: NOW + 1 }, already)).toEqual(['wettedAt time_ahead']);
});
