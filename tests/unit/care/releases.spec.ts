import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import type { Assessment, Book, CareStep, Disposition, ReleaseName, TriageContext, TriageOutcome } from '#care';
import { buildBook, choicesOf, compareBooks, compareReleases, DEFAULT_BOOK, DEFAULT_CALIBRATION, NEWEST_RELEASE, RELEASE_SUMMARIES, releaseBefore, releaseChanges, RELEASES, REWORDED, triageOutcome } from '#care';
import { ALL_RULES } from '../../../libs/care/src/rule-book/all-rules.js';
import { anyAssessment, anyContext, contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from './assessment.support.js';

const RUNS = { numRuns: 300 };
const STEPS = RELEASES.flatMap((release): [ReleaseName, ReleaseName][] => {
  const before = releaseBefore(release);
  return before === null ? [] : [[before, release]];
});
const bookOfRelease = (release: ReleaseName): Book => buildBook({ release });
const by = (book: Book, assessment: Assessment, context: TriageContext): TriageOutcome => triageOutcome(assessment, context, DEFAULT_CALIBRATION, book);

describe('the releases', () => {
  test('are named after years and numbers, oldest first, and the newest is what no word says otherwise', () => {
    const numbers = RELEASES.map((release) => release.split('.').map(Number));
    expect(numbers.every(([year = 0, month = 0]) => year > 2000 && month >= 1 && month <= 12)).toBe(true);
    expect(numbers).toEqual(numbers.toSorted(([a = 0, b = 0], [c = 0, d = 0]) => a - c || b - d));
    expect([RELEASES.at(-1), DEFAULT_BOOK.release, DEFAULT_BOOK.version]).toEqual([NEWEST_RELEASE, NEWEST_RELEASE, NEWEST_RELEASE]);
    expect([...RELEASES].sort(compareReleases)).toEqual([...RELEASES]);
    for (const release of RELEASES) expect(RELEASE_SUMMARIES[release].length).toBeGreaterThan(20);
  });

  test('hold each rule once', () => {
    for (const release of RELEASES) {
      const ids = bookOfRelease(release).rules.map(({ id }) => id);
      expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    }
  });

  test('follow each other without a gap in a rule, and say why wherever one came, changed or went', () => {
    for (const id of new Set(ALL_RULES.map((rule) => rule.id))) {
      const wordings = ALL_RULES.filter((rule) => rule.id === id);
      wordings.forEach((rule, index) => {
        const next = wordings[index + 1];
        if (rule.since !== undefined) expect([id, (rule.why ?? '').length > 20]).toEqual([id, true]);
        if (next !== undefined) expect([id, rule.until]).toEqual([id, releaseBefore(next.since ?? RELEASES[0])]);
        if (next === undefined && rule.until !== undefined) expect([id, (rule.whyEnded ?? '').length > 20]).toEqual([id, true]);
      });
    }
  });

  test('are told apart in the version that a result records, with their choices', () => {
    expect(bookOfRelease('2026.2').version).toBe('2026.2');
    expect(buildBook({ release: '2026.2', choices: { 'mould-clock': '24h' } }).version).toBe('2026.2+mould-clock=24h');
    expect(by(buildBook({ choices: { 'wrap-bench': 'at-the-freezer' } }), knownAssessment(), contextAt(1)).ruleBookVersion).toBe(`${NEWEST_RELEASE}+wrap-bench=at-the-freezer`);
  });

  test.each(RELEASES)('%s: its sides change rules that it has, and its safety floors stand whatever side is chosen', (release) => {
    const rules = new Map(bookOfRelease(release).rules.map((rule) => [rule.id, rule]));
    const floors = [...rules.values()].filter(({ floor }) => floor === true);
    for (const { id, options, floor } of choicesOf(release)) {
      for (const option of options) {
        const changed = [...(option.rules?.drop ?? []), ...Object.keys(option.rules?.replace ?? {})];
        expect([id, option.id, changed.filter((ruleId) => rules.get(ruleId) === undefined || rules.get(ruleId)?.floor === true)]).toEqual([id, option.id, []]);
        if (floor) continue;
        const kept = new Set(buildBook({ release, choices: { [id]: option.id } }).rules);
        expect(floors.filter((rule) => !kept.has(rule))).toEqual([]);
      }
    }
  });

  test('do not know the choices and sides of later ones', () => {
    expect(() => buildBook({ release: '2026.2', choices: { 'wrap-bench': 'at-the-freezer' } })).toThrow('unknown-choice');
    expect(() => buildBook({ release: '2026.2', choices: { 'fan-direction': 'across' } })).toThrow('unknown-option');
    expect(choicesOf('2026.2').map(({ id }) => id)).not.toContain('wrap-bench');
  });
});

describe.each(STEPS)('from %s to %s', (from, to) => {
  const [before, after] = [bookOfRelease(from), bookOfRelease(to)];

  test('the list of changes names every rule that differs and no other, each with its reason, and is the way back turned round', () => {
    const { rules, sides } = releaseChanges(from, to);
    const stated = (book: Book) => new Map(book.rules.map((rule) => [rule.id, rule]));
    const [old, now] = [stated(before), stated(after)];
    const differing = [...new Set([...old.keys(), ...now.keys()])].filter((id) => old.get(id) !== now.get(id));
    expect(rules.map(({ ruleId }) => ruleId).toSorted()).toEqual(differing.toSorted());
    expect(rules.length).toBeGreaterThanOrEqual(5);
    for (const { kind, before: was, after: is, why } of rules) expect([kind, why.length > 20]).toEqual([was === null ? 'added' : is === null ? 'withdrawn' : 'altered', true]);
    const back = releaseChanges(to, from);
    const turned = { added: 'withdrawn', withdrawn: 'added', altered: 'altered' } as const;
    expect(new Set(back.rules.map(({ ruleId, kind, why }) => `${ruleId} ${kind} ${why}`))).toEqual(new Set(rules.map(({ ruleId, kind, why }) => `${ruleId} ${turned[kind]} ${why}`)));
    expect(new Set(back.sides.map(({ choiceId, optionId, kind }) => `${choiceId}=${optionId} ${kind}`))).toEqual(new Set(sides.map(({ choiceId, optionId, kind }) => `${choiceId}=${optionId} ${turned[kind]}`)));
    for (const { why, text } of sides) expect([why.length > 20, text.length > 5]).toEqual([true, true]);
  });

  test('nothing becomes laxer: no later start, no prohibition, protection or condition less, no way opened that was closed', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        expect(compareBooks(before, after, [assessment], context).laxer).toEqual([]);
        const ways = (book: Book) => by(book, assessment, context).options.map(({ disposition }) => disposition);
        expect(ways(after).filter((way) => !ways(before).includes(way))).toEqual([]);
      }),
      RUNS,
    );
  });

  test('no step asks for less protection or keeps fewer people off', () => {
    fc.assert(fc.property(anyAssessment, anyContext, (assessment, context) => expect(unprotected(by(before, assessment, context), by(after, assessment, context))).toEqual([])), RUNS);
  });

  test('no safety floor is gone, and none has turned into something that may be switched', () => {
    const now = new Map(after.rules.map((rule) => [rule.id, rule]));
    expect(before.rules.filter(({ id, floor }) => floor === true && now.get(id)?.floor !== true).map(({ id }) => id)).toEqual([]);
  });
});

test('a sentence that another one replaces was said before and its successor is said now', () => {
  const neversOf = (release: ReleaseName) => new Set(bookOfRelease(release).rules.flatMap(({ concludes }) => concludes.flatMap((conclusion) => (conclusion.kind === 'never' ? [conclusion.text] : []))));
  for (const [old, now] of Object.entries(REWORDED)) {
    expect([old, neversOf(NEWEST_RELEASE).has(old), neversOf(NEWEST_RELEASE).has(now)]).toEqual([old, false, true]);
    expect(RELEASES.some((release) => neversOf(release).has(old))).toBe(true);
  }
});

const key = (disposition: Disposition, { step }: CareStep): string => `${disposition} ${step}`;

/** What some step of the ways that are open in both lacks of the protection or restrictions it had. */
function unprotected(before: TriageOutcome, after: TriageOutcome): string[] {
  const now = new Map(after.options.flatMap(({ disposition, steps }) => steps.map((step) => [key(disposition, step), step])));
  return before.options.flatMap(({ disposition, steps }) =>
    steps.flatMap((step) => {
      const same = now.get(key(disposition, step));
      if (same === undefined) return [];
      const lost = [...step.ppe.filter((item) => !same.ppe.includes(item)), ...step.barredRestrictions.filter((restriction) => !same.barredRestrictions.includes(restriction))];
      return lost.map((what) => `${key(disposition, step)}: ${what}`);
    }),
  );
}

describe('a bench at the freezer', () => {
  const atFreezer = buildBook({ choices: { 'wrap-bench': 'at-the-freezer' } });

  test('moves the wrapping alone, and whoever wraps is protected and restricted as on the dirty side', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const [usual, moved] = [by(DEFAULT_BOOK, assessment, context), by(atFreezer, assessment, context)];
        expect([unprotected(usual, moved), unprotected(moved, usual)]).toEqual([[], []]);
        expect([moved.ppe, moved.cautions]).toEqual([usual.ppe, usual.cautions]);
        const zones = ({ options }: TriageOutcome) => options.map(({ disposition, steps }) => steps.map(({ step, zone }) => (disposition === 'hold-frozen' && step === 'wrap' ? 'wrap' : zone)));
        expect(zones(moved)).toEqual(zones(usual));
      }),
      RUNS,
    );
  });

  test('is for what has no active mould: that is bagged in quarantine before it is moved', () => {
    const zoneOfWrap = (changes: Partial<Assessment>) => by(atFreezer, knownAssessment(changes), contextAt(5)).options.find(({ disposition }) => disposition === 'hold-frozen')?.steps.find(({ step }) => step === 'wrap')?.zone;
    expect([zoneOfWrap({}), zoneOfWrap({ water: 'black' }), zoneOfWrap({ mould: 'active' }), zoneOfWrap({ mould: 'suspected' })]).toEqual(['cold', 'cold', 'quarantine', 'quarantine']);
    expect(by(DEFAULT_BOOK, knownAssessment(), contextAt(5)).options.find(({ disposition }) => disposition === 'hold-frozen')?.steps.map(({ zone }) => zone)).toEqual(['dirty', 'cold']);
  });
});

test.each(['leather-tanned', 'basket-or-plant-fibre'] as const)('%s keeps its 48 hours where a network gives mould 72', (materialClass) => {
  const startOf = (release: ReleaseName) => (by(buildBook({ release, choices: { 'mould-clock': '72h' } }), knownAssessment({ materialClass }), contextAt(1)).startByMs - FLOOD_AT_MS) / HOUR_MS;
  expect([startOf('2026.2'), startOf('2026.11')]).toEqual([72, 48]);
});

test('air across textiles is a side that drops the trade’s prohibition and its contradiction', () => {
  const told = by(buildBook({ choices: { 'fan-direction': 'across' } }), knownAssessment(), contextAt(1));
  expect(told.never.map(({ text }) => text)).not.toContain('Never let a fan blow on the piece; it may move the room’s air.');
  expect(told.cautions.map(({ text }) => text)).toContain('Fans low: the air passes across the cloth, never down on it.');
});

test('low-fired ceramic from the sea is no longer told to go into fresh water, and keeps its hours', () => {
  const told = (release: ReleaseName) => {
    const { reasons, startByMs } = by(bookOfRelease(release), knownAssessment({ materialClass: 'ceramic-low-fired', water: 'salt' }), contextAt(1));
    return [(startByMs - FLOOD_AT_MS) / HOUR_MS, reasons.some(({ text }) => text.includes('into fresh water within the day'))];
  };
  expect([told('2026.2'), told('2026.11')]).toEqual([[24, true], [24, false]]);
});
