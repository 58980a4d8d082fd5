/** What may hang in public of a found thing. Its sentences and its five kinds are ours. */
import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { broadKindOf, noticeWords, weekOf } from '#application';
import { LANGUAGES, MATERIAL_CLASSES, render } from '#care';

const classes = fc.constantFrom(...MATERIAL_CLASSES);
const days = fc.date({ min: new Date('2020-01-01T00:00:00Z'), max: new Date('2035-12-31T00:00:00Z'), noInvalidDate: true }).map((date) => date.toISOString().slice(0, 10));

test('the week begins on the Monday of the day (ISO 8601), whatever the day', () => {
  expect([weekOf('2026-05-04'), weekOf('2026-05-08'), weekOf('2026-05-10'), weekOf('2026-05-11')]).toEqual(['2026-05-04', '2026-05-04', '2026-05-04', '2026-05-11']);
  fc.assert(fc.property(days, (day) => {
    const monday = weekOf(day);
    expect(new Date(`${monday}T00:00:00Z`).getUTCDay()).toBe(1);
    const days = (Date.parse(day) - Date.parse(monday)) / 86_400_000;
    expect(days >= 0 && days < 7).toBe(true);
  }));
});

test('there are only ten notices in each language for all that can be found, so that none tells one thing from hundreds of others', () => {
  for (const language of LANGUAGES) {
    const said = new Set(MATERIAL_CLASSES.flatMap((materialClass) => [1, 240].map((count) => noticeWords({ materialClass, count, foundOn: '2026-05-08', area: 'Elmsford Reach' }).map((sentence) => render(sentence, language)).join(' '))));
    expect(said.size).toBe(10);
  }
  expect(new Set(MATERIAL_CLASSES.map(broadKindOf)).size).toBe(5);
});

test('it is the same for two things of one kind, week and number, whatever else is known of them', () => {
  fc.assert(fc.property(classes, fc.integer({ min: 2, max: 1_000 }), days, fc.record({ description: fc.string(), place: fc.string(), finder: fc.string(), marks: fc.array(fc.string()) }), (materialClass, count, foundOn, known) => {
    const thing = { materialClass, count, foundOn, area: 'Elmsford Reach' };
    expect(noticeWords({ ...thing, ...known } as typeof thing)).toEqual(noticeWords({ ...thing, count: 2 }));
  }));
});
