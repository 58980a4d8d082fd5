import { describe, expect, test } from '@jest/globals';
import type { Book, ChoiceId, Rule } from '#care';
import { BookChoiceError, bookOf, buildBook, CHOICES, DEFAULT_BOOK, DEFAULT_CALIBRATION, MATERIAL_CLASSES, RULE_BOOK, RULE_BOOK_VERSION, triage, triageOutcome } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from './assessment.support.js';

const run = (book: Book, changes: Parameters<typeof knownAssessment>[0]) => triageOutcome(knownAssessment(changes), contextAt(0), DEFAULT_CALIBRATION, book);
const refusal = (choices: Parameters<typeof buildBook>[0]): BookChoiceError | null => {
  try {
    buildBook(choices);
    return null;
  } catch (error) {
    return error as BookChoiceError;
  }
};

describe('a rule book', () => {
  test('without a choice is the default one, whatever default is named', () => {
    expect(buildBook()).toBe(DEFAULT_BOOK);
    expect(buildBook({ choices: { 'mould-clock': '48h' } })).toBe(DEFAULT_BOOK);
    expect(DEFAULT_BOOK.version).toBe(RULE_BOOK_VERSION);
    expect(DEFAULT_BOOK.rules).toEqual(RULE_BOOK);
  });

  test('names every switched choice in its version, in one order, and records it with each result', () => {
    const one = buildBook({ choices: { 'tape-clock': 'several-days', 'mould-clock': '24h' } });
    const other = buildBook({ choices: { 'mould-clock': '24h', 'tape-clock': 'several-days' } });
    expect(one.version).toBe(`${RULE_BOOK_VERSION}+mould-clock=24h,tape-clock=several-days`);
    expect(other.version).toBe(one.version);
    expect(run(one, {}).ruleBookVersion).toBe(one.version);
    expect(one.choices['mould-clock']).toBe('24h');
    expect(one.choices['coated-paper']).toBe('6h');
  });

  test('refuses a choice or an option that does not exist, and says which', () => {
    expect(refusal({ choices: { nonsense: 'x' } as never })).toMatchObject({ reason: 'unknown-choice', choiceId: 'nonsense' });
    expect(refusal({ choices: { 'mould-clock': '5h' } })).toMatchObject({ reason: 'unknown-option', choiceId: 'mould-clock', optionId: '5h' });
  });

  test.each(CHOICES.filter(({ floor }) => floor).map(({ id, options }) => [id, options] as const))('keeps the safety floor %s', (id, options) => {
    for (const option of options.slice(1)) expect(refusal({ choices: { [id]: option.id } })).toMatchObject({ reason: 'floor', choiceId: id });
    expect(refusal({ choices: { [id]: options[0]?.id } })).toBeNull();
  });

  test('gives the network’s own numbers way to its choices, and leaves the rest of them', () => {
    const own = { ...DEFAULT_CALIBRATION, clockHours: { ...DEFAULT_CALIBRATION.clockHours, mould: { warn: 10, deadline: 40 }, tape: { warn: 1, deadline: 9 } } };
    const book = buildBook({ choices: { 'mould-clock': '24h' } });
    const start = (materialClass: 'textile-flat-small' | 'tape-ferric') => (triageOutcome(knownAssessment({ materialClass }), contextAt(0), own, book).startByMs - FLOOD_AT_MS) / HOUR_MS;
    expect([start('textile-flat-small'), start('tape-ferric')]).toEqual([24, 9]);
    expect(own.clockHours.mould.deadline).toBe(40);
  });
});

describe('the choices', () => {
  test('are told with both sides, a default that is one of them, and a source for each', () => {
    expect(new Set(CHOICES.map(({ id }) => id)).size).toBe(CHOICES.length);
    for (const { options, default: option, text } of CHOICES) {
      expect(options.length).toBeGreaterThan(1);
      expect(options[0]?.id).toBe(option);
      expect(text.length).toBeGreaterThan(5);
      for (const one of options) expect([one.text.length > 10, one.source.cite.length > 5]).toEqual([true, true]);
    }
  });

  test('cover every row of the care guidance’s disagreements that concerns the rule book', () => {
    // 15 (moisture regain) is climate, 22 (span of control) is organisation.
    expect(CHOICES.flatMap(({ row }) => row ?? []).sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 17, 18, 19, 20, 21]);
  });

  test('and the rules name each other', () => {
    const named = new Set(RULE_BOOK.flatMap(({ choiceId }) => choiceId ?? []));
    expect(CHOICES.map(({ id }) => id).filter((id) => !named.has(id))).toEqual([]);
    for (const rule of RULE_BOOK.filter(({ choiceId }) => choiceId !== undefined)) expect([rule.id, rule.choice === undefined && !rule.id.includes('heirloom')]).toEqual([rule.id, false]);
  });

  test('change rules that exist, and drop or rewrite no safety floor', () => {
    const byId = new Map(RULE_BOOK.map((rule) => [rule.id, rule]));
    for (const { options } of CHOICES) {
      for (const { rules } of options) {
        for (const id of [...(rules?.drop ?? []), ...Object.keys(rules?.replace ?? {})]) expect([id, byId.get(id)?.floor ?? 'may be switched']).toEqual([id, 'may be switched']);
        for (const rule of rules?.add ?? []) expect(byId.has(rule.id)).toBe(false);
      }
    }
  });

  test.each(CHOICES.filter(({ floor }) => !floor).flatMap(({ id, options }) => options.slice(1).map((option) => [id, option.id] as const)))('%s switched to %s changes what somebody is told', (id: ChoiceId, option) => {
    const book = buildBook({ choices: { [id]: option } });
    const variations = [{}, { alreadyBled: false, colourTests: [{ colour: 'red', solution: 'water' as const, method: 'swab' as const, reading: '4-5' as const }] }, { water: 'salt' as const }, { count: 40 }, { significance: 'everyday' as const }];
    const told = (which: Book) => MATERIAL_CLASSES.flatMap((materialClass) => variations.map((changes) => ({ ...run(which, { materialClass, ...changes }), ruleBookVersion: '', reasons: [] })));
    expect(told(book)).not.toEqual(told(DEFAULT_BOOK));
  });
});

describe('the safety floors', () => {
  const floors = RULE_BOOK.filter(({ floor }) => floor === true);

  test('are people’s safety, hazards, the bars on freezing and the owner’s consent', () => {
    const ids = floors.map(({ id }) => id);
    expect(RULE_BOOK.filter(({ id }) => /^(hazard|people|consent)\./.test(id)).map(({ id }) => id).filter((id) => !ids.includes(id))).toEqual([]);
    const barsFreezing = (rule: Rule): boolean => rule.concludes.some((conclusion) => conclusion.kind === 'bar' && conclusion.disposition === 'hold-frozen');
    expect(RULE_BOOK.filter((rule) => barsFreezing(rule) && !ids.includes(rule.id)).map(({ id }) => id)).toEqual(['dry.no-holding']);
    expect(RULE_BOOK.filter((rule) => rule.concludes.some(({ kind }) => kind === 'ppe') && !ids.includes(rule.id)).map(({ id }) => id)).toEqual(['practice.gloves']);
  });

  test('stand in every book that can be built', () => {
    for (const choice of CHOICES.filter(({ floor }) => !floor)) {
      for (const option of choice.options) {
        const kept = new Set(buildBook({ choices: { [choice.id]: option.id } }).rules);
        expect(floors.filter((rule) => !kept.has(rule))).toEqual([]);
      }
    }
  });
});

describe('the index', () => {
  test('asks of a thing only the rules that can concern it, and finds what asking all would find', () => {
    const plain = bookOf(RULE_BOOK.map((rule) => ({ ...rule, classes: undefined, families: undefined, applies: (a, f) => concerns(rule, f.handledAs, f.family) && rule.applies(a, f) }) satisfies Rule), RULE_BOOK_VERSION);
    for (const materialClass of MATERIAL_CLASSES) {
      expect(DEFAULT_BOOK.candidates(materialClass).length).toBeLessThan(RULE_BOOK.length * 0.6);
      expect(triage(knownAssessment({ materialClass, water: 'black' }), contextAt(5))).toEqual(triage(knownAssessment({ materialClass, water: 'black' }), contextAt(5), DEFAULT_CALIBRATION, plain));
    }
  });

  test('adds nothing to the questions asked of a thing when the book grows by rules for other things', () => {
    const others = Array.from({ length: RULE_BOOK.length * 9 }, (_, index): Rule => ({ id: `synthetic.rule-${index}`, text: 'A rule for stones alone.', because: ['materialClass'], classes: ['stone'], applies: () => true, concludes: [], source: { mark: 'own-calibration', cite: 'Our own calibration: synthetic.' } }));
    const tenfold = bookOf([...RULE_BOOK, ...others], 'tenfold');
    expect(tenfold.candidates('textile-silk').length).toBe(DEFAULT_BOOK.candidates('textile-silk').length);
    expect(tenfold.candidates('stone').length).toBe(DEFAULT_BOOK.candidates('stone').length + others.length);
  });
});

function concerns(rule: Rule, materialClass: (typeof MATERIAL_CLASSES)[number], family: string): boolean {
  if (rule.classes === undefined && rule.families === undefined) return true;
  return (rule.classes?.includes(materialClass) ?? false) || (rule.families?.some((one) => one === family) ?? false);
}
