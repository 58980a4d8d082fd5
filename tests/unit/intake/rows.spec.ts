import { describe, expect, test } from '@jest/globals';
import { MATERIAL_CLASSES, SIGNIFICANCES, WATER_KINDS } from '#care';
import { STANDARD_ITEM_KINDS } from '#climate';
import { readRow } from '#application';
import { FACTS, notes, refusals, repairs, row } from './tables.js';

describe('repairs', () => {
  test.each<[string, string, string, string, string]>([
    ['object', '  Wedding   quilt \n', 'trimmed', 'object', 'Wedding quilt'],
    ['object', 'Qui\u0007lt\u200B', 'control_removed', 'object', 'Quilt'],
    ['object', '="Quilt ""Rose"""', 'formula_text_read', 'object', 'Quilt "Rose"'],
    ['object', "'1920 sampler", 'apostrophe_removed', 'object', '1920 sampler'],
    ['household', "'HH-1", 'apostrophe_removed', 'householdCode', 'HH-1'],
    ['household', '="0042"', 'formula_text_read', 'householdCode', '0042'],
    ['count', '3,0', 'decimals_removed', 'count', '3'],
    ['count', '240.00', 'decimals_removed', 'count', '240'],
    ['count', '240 prints', 'words_removed', 'count', '240'],
    ['count', '12 St\u00fcck', 'words_removed', 'count', '12'],
  ])('%s %j is %s', (column, cell, code, member, became) => {
    const reading = row({ [column]: cell });
    expect(refusals(reading)).toEqual([]);
    expect(repairs(reading)).toEqual([`${column}:${code}`]);
    expect(String(reading.values[member as 'object'])).toBe(became);
    expect(reading.remarks.repairs[0]).toMatchObject({ kind: 'repair', became });
  });

  test('a thing that was not described is called what stands under material', () => {
    const reading = row({ object: '', material: 'Letter' });
    expect(repairs(reading)).toEqual(['object:object_from_material']);
    expect(reading.values).toMatchObject({ object: 'Letter', materialClass: 'paper-soluble-media' });
  });

  test.each(["'t Huis sampler", "'s Gravenhage map", "the 'good' quilt", 'a=b', '- torn', '+ box', '100% wool'])('%j is kept as it is', (cell) => {
    const reading = row({ object: cell });
    expect([refusals(reading), repairs(reading), reading.values.object]).toEqual([[], [], cell]);
  });

  test("the family's words keep their lines", () => {
    expect(row({ familyWords: 'From her mother.\r\n  She sewed it. ' }).values.familyWords).toBe('From her mother.\n  She sewed it.');
  });

  test('a telephone number with a sign is no formula', () => {
    const reading = row({ contactPhone: '+43 (0)660-555 01 23' });
    expect([notes(reading), reading.values.contact.phone]).toEqual([[], '+43 (0)660-555 01 23']);
  });
});

describe('formula cells', () => {
  test.each(['=HYPERLINK("http://example.invalid")', '@SUM(A1)', '+cmd|x', '-1+A2', '\uFF1D1+1'])('%j among words stays text and is said', (cell) => {
    const reading = row({ object: cell });
    expect([refusals(reading), notes(reading), reading.values.object]).toEqual([[], ['object:formula_kept_as_text'], cell]);
  });

  test.each(['tag', 'household', 'count', 'wettedAt', 'arrivedAt'])('in %s refuses the row, once', (column) => {
    expect(refusals(row({ [column]: '=A2&B2' }))).toEqual([`${column}:formula_cell`]);
  });
});

describe('refusals', () => {
  test.each<[string, string, string]>([
    ['tag', '', 'tag_missing'],
    ['tag', '   ', 'tag_missing'],
    ['tag', '?', 'tag_missing'],
    ['household', '', 'household_missing'],
    ['household', 'n/a', 'household_missing'],
    ['household', 'HH 1', 'household_malformed'],
    ['household', 'H'.repeat(41), 'household_malformed'],
    ['count', '0', 'count_out_of_range'],
    ['count', '100001', 'count_out_of_range'],
    ['count', '-3', 'count_unreadable'],
    ['count', '2,5', 'count_unreadable'],
    ['count', 'many', 'count_unreadable'],
    ['count', '1.200', 'count_ambiguous'],
    ['count', '1,000', 'count_ambiguous'],
    ['object', 'x'.repeat(501), 'too_long'],
    ['familyWords', 'x'.repeat(2_001), 'too_long'],
    ['contactName', 'x'.repeat(201), 'too_long'],
  ])('%s %.12j: %s', (column, cell, code) => {
    expect(refusals(row({ [column]: cell }))).toEqual([`${column}:${code}`]);
  });

  test('neither thing nor material', () => {
    expect(refusals(row({ object: '', material: '' }))).toEqual(['object:object_missing']);
  });

  test('all that is wrong with a row is said at once', () => {
    expect(refusals(row({ tag: '', household: '', count: 'x', wettedAt: 'x', arrivedAt: '05/08/2026' })).sort()).toEqual(['arrivedAt:date_ambiguous', 'count:count_unreadable', 'household:household_missing', 'tag:tag_missing', 'wettedAt:date_unreadable']);
  });

  test('a row that has slipped is refused for that alone', () => {
    const fault = { kind: 'refusal' as const, column: '', code: 'cells_too_many', text: 'Too many cells.', was: null, became: null };
    expect(readRow({ rowNumber: 9, cells: { count: 'blue' }, fault }, FACTS).remarks.all()).toEqual([fault]);
  });
});

describe('words', () => {
  test.each(MATERIAL_CLASSES.filter((name) => name !== 'unknown').map((name) => [name]))('the class %s is taken as it is, also with spaces and capitals', (name) => {
    for (const cell of [name, name.replaceAll('-', ' ').toUpperCase()]) {
      const reading = row({ material: cell });
      expect([reading.values.materialClass, notes(reading)]).toEqual([name, []]);
    }
  });

  // Our own list; the classes are those of the care guidance, section 1.
  test.each([
    ['quilt', 'textile-quilt-padded'], ['Quilts', 'textile-quilt-padded'], ['shirt', 'textile-garment-3d'], ['letters', 'paper-soluble-media'], ['prints', 'photo-colour-print'],
    ['old wool blanket', 'textile-wool'], ['silk wedding dress', 'textile-silk'], ['framed photo', 'paper-framed'], ['photo album', 'album-or-scrapbook'], ['Tagebuch', 'book-bound'],
    ['Fotoalbum', 'album-or-scrapbook'], ['W\u00e4sche', 'textile-everyday'], ['Teddyb\u00e4r', 'textile-stuffed'], ['painted silk', 'textile-silk-painted-or-weighted'], ['glass negatives', 'photo-glass-plate-gelatin'],
    ['black-and-white photo', 'photo-silver-gelatin'], ['leather-bound book', 'book-leather-or-vellum'],
    ['oil painting', 'painting-canvas'], ['gilded frame', 'wood-painted-or-gilded'], ['old violin', 'musical-instrument'], ['iron stove', 'metal-iron'], ['lantern slides', 'photo-lantern-slide-or-autochrome'], ['Schallplatten', 'disc-vinyl-or-shellac'],
  ])('%j is %s, and the row says where that came from', (cell, materialClass) => {
    const reading = row({ material: cell });
    expect([reading.values.materialClass, notes(reading), repairs(reading)]).toEqual([materialClass, ['material:material_from_word'], []]);
  });

  test.each(['birdcage', 'thing', 'quilt and book', 'photograph or map', '12'])('%j is accepted as unknown with a remark', (cell) => {
    const reading = row({ material: cell });
    expect([reading.values.materialClass, notes(reading), refusals(reading)]).toEqual(['unknown', ['material:material_unknown'], []]);
  });

  test('a blank size is the usual one of the material, a word is read, and both are said', () => {
    expect(row({ size: '', material: 'book' })).toMatchObject({ values: { sizeClass: 'book' }, remarks: { notes: expect.arrayContaining([expect.objectContaining({ code: 'size_assumed', became: 'book' })]) } });
    expect(row({ size: 'king', material: 'quilt' }).values.sizeClass).toBe('queen-quilt');
    expect(row({ size: 'huge', material: 'quilt' })).toMatchObject({ values: { sizeClass: 'double-quilt' }, remarks: { notes: expect.arrayContaining([expect.objectContaining({ code: 'size_unknown' })]) } });
    for (const size of STANDARD_ITEM_KINDS) expect(notes(row({ size, material: 'parchment' }))).toEqual([]);
  });

  test('significance and water: our names, everyday words, or a default with a remark', () => {
    for (const significance of SIGNIFICANCES) expect(row({ significance }).values.significance).toBe(significance);
    for (const water of WATER_KINDS.filter((kind) => kind !== 'unknown')) expect(row({ water }).values.water).toBe(water);
    expect(row({ significance: 'Heirloom', water: 'River' }).values).toMatchObject({ significance: 'treasured', water: 'black' });
    const odd = row({ significance: 'very', water: 'tea' });
    expect([odd.values.significance, odd.values.water, notes(odd).sort()]).toEqual(['valued', null, ['significance:significance_unknown', 'water:water_unknown']]);
  });

  test.each([['yes', true], ['Y', true], ['Ja', true], ['s\u00ed', true], ['x', true], ['1', true], ['\u2713', true], ['TRUE', true], ['no', false], ['Nein', false], ['0', false], ['false', false], ['', null], ['-', null]])('consent %j is %s', (cell, given) => {
    expect(row({ consentTreat: cell }).values.consents.treat).toBe(given);
  });

  test.each(['maybe', 'ask her son', 'yes?', 'no yes', '2'])('consent %j is never guessed: none is recorded and the row says so', (cell) => {
    const reading = row({ consentFreeze: cell });
    expect([reading.values.consents.freeze, notes(reading)]).toEqual([null, ['consentFreeze:consent_unread']]);
  });

  test('a language that nobody here writes is English for a new household, with a remark', () => {
    expect([row({ language: 'Spanish' }).values.language, row({ language: 'es-MX' }).values.language, row({ language: '' }).values.language]).toEqual(['es', 'es', null]);
    expect([row({ language: 'Klingon' }).values.language, notes(row({ language: 'Klingon' }))]).toEqual([null, expect.arrayContaining(['language:language_not_written'])]);
  });
});

test('no remark quotes a contact', () => {
  const reading = row({ contactName: '  Marigold   Example ', contactPhone: "'0660 555", contactEmail: 'not-an-address', contactAddress: `=${'Mill Lane '.repeat(60)}` });
  expect(reading.remarks.all().filter(({ column }) => column.startsWith('contact')).length).toBeGreaterThanOrEqual(4);
  expect(JSON.stringify(reading.remarks.all())).not.toMatch(/Marigold|0660|not-an-address|Mill Lane/);
});
