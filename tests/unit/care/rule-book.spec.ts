import { describe, expect, test } from '@jest/globals';
import type { Assessment } from '#care';
import { DEFAULT_CALIBRATION, findRule, MATERIAL_CLASSES, MATERIALS, RULE_BOOK, RULE_BOOK_VERSION, STEP_KINDS, triage, triageOutcome } from '#care';
import { contextAt, knownAssessment } from './assessment.support.js';

describe('the rule book', () => {
  test('has a version and ids that are unique, dotted and findable', () => {
    expect(RULE_BOOK_VERSION).toMatch(/^\d{4}\.\d+$/);
    expect(new Set(RULE_BOOK.map(({ id }) => id)).size).toBe(RULE_BOOK.length);
    for (const rule of RULE_BOOK) {
      expect(rule.id).toMatch(/^[a-z0-9-]+(\.[a-z0-9-]+)+$/);
      expect(findRule(rule.id)).toBe(rule);
    }
    expect(findRule('no.such.rule')).toBeUndefined();
  });

  test.each(RULE_BOOK.map((rule) => [rule.id, rule] as const))('%s says what follows and on what it stands', (_id, rule) => {
    expect(rule.text.length).toBeGreaterThan(10);
    expect(rule.source.cite.length).toBeGreaterThan(5);
    if (rule.source.mark === 'from-memory') expect(rule.source.cite).toMatch(/^From memory, not verified/);
    if (rule.source.mark === 'own-calibration') expect(rule.source.cite).toMatch(/^Our own calibration/);
    expect(rule.choice === undefined).toBe(rule.alternative === undefined);
  });

  test('promises nothing and cites no address', () => {
    for (const rule of RULE_BOOK) {
      expect(rule.source.cite).not.toMatch(/https?:|www\.|\.com|\.org|\.gov/);
      expect(rule.text).not.toMatch(/guarantee|will be saved/i);
    }
  });

  test.each(MATERIAL_CLASSES)('%s has a rule of its own, a never-list, a caution and a way', (materialClass) => {
    const result = triage(knownAssessment({ materialClass, significance: 'valued' }), contextAt(1));
    const plain = new Set(triage(knownAssessment({ materialClass: materialClass === 'textile-flat-small' ? 'paper-uncoated' : 'textile-flat-small', significance: 'valued' }), contextAt(1)).reasons.map(({ ruleId }) => ruleId));
    expect(result.reasons.some(({ ruleId, because }) => because.includes('materialClass') && !plain.has(ruleId))).toBe(true);
    expect(result.never.length).toBeGreaterThan(0);
    expect(result.cautions.length).toBeGreaterThan(0);
    expect(result.options.length).toBeGreaterThan(0);
    expect(result.clocks.some(({ damage }) => damage === 'mould')).toBe(MATERIALS[materialClass].feedsMould);
    expect(result.storage.length).toBeGreaterThan(0);
  });

  test('every rule can apply: none is dead', () => {
    const applied = new Set<string>();
    const variations: Partial<Assessment>[] = [
      {}, { wetState: 'dry' }, { wetState: 'damp' }, { wetState: 'unknown', wettedAtMs: null }, { alreadyBled: true }, { allColoursTested: false }, { mould: 'active' }, { mould: 'dry' }, { mould: 'unknown' },
      { mould: 'active', wetState: 'dry' }, { water: 'black' }, { water: 'grey' }, { water: 'salt' }, { water: 'unknown' }, { fragility: 'very-degraded' }, { fragility: 'unknown' }, { count: 40 },
      { significance: 'everyday', water: 'black' }, { highMarketValue: true }, { highMarketValue: null }, { fibre: 'silk' }, { fibre: 'wool' }, { fibre: 'viscose' }, { fibre: 'nylon' }, { fibre: 'unknown' },
      { consents: { treat: null, freeze: null, refer: null, release: null }, water: 'black' }, { consents: { treat: false, freeze: false, refer: false, release: false } }, { consents: { treat: true, freeze: true, refer: true, release: true } },
      { hazards: ['sewage', 'fuel-or-solvent', 'pesticide', 'lithium-cell', 'nitrate-film', 'sharps', 'asbestos', 'ammunition'] }, { soil: 'heavy-mud', detachedParts: true, oldRepairs: true }, { parts: ['metal-iron'] },
      { colourTests: [{ colour: 'red', solution: 'water', method: 'swab', reading: '4-5' }] },
    ];
    for (const materialClass of MATERIAL_CLASSES) {
      for (const variation of variations) {
        for (const hours of [1, 50]) triage(knownAssessment({ materialClass, ...variation }), contextAt(hours, { airTempC: 31, doneSteps: hours === 50 && (variation.wetState === 'damp' || variation.count === 40) ? ['freeze'] : [] })).reasons.forEach(({ ruleId }) => applied.add(ruleId));
      }
    }
    expect(RULE_BOOK.map(({ id }) => id).filter((id) => !applied.has(id))).toEqual([]);
  });
});

describe('the list of what must never be done', () => {
  test.each(MATERIAL_CLASSES)('of %s begins with what keeps people safe, and keeps the order of the book otherwise', (materialClass) => {
    const { never } = triage(knownAssessment({ materialClass, hazards: ['lithium-cell'], mould: 'active' }), contextAt(1));
    const places = never.map(({ ruleId }) => {
      const at = RULE_BOOK.findIndex(({ id }) => id === ruleId);
      return (RULE_BOOK[at]?.floor === true ? 0 : RULE_BOOK.length) + at;
    });
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(never.filter(({ ruleId }) => findRule(ruleId)?.floor === true).map(({ text }) => text)).toContain('Never mix cleaning products: the fumes can kill.');
  });
});

describe('the calibration', () => {
  test('warns before each deadline and gives every step hands', () => {
    for (const { warn, deadline } of Object.values(DEFAULT_CALIBRATION.clockHours)) expect(warn).toBeLessThan(deadline);
    for (const step of STEP_KINDS) expect(DEFAULT_CALIBRATION.handlingDefault[step].minutes).toBeGreaterThan(0);
  });

  test('is what the answers follow: a shorter mould clock starts handling earlier', () => {
    const shorter = { ...DEFAULT_CALIBRATION, clockHours: { ...DEFAULT_CALIBRATION.clockHours, mould: { warn: 12, deadline: 30 } } };
    const [usual, changed] = [triage(knownAssessment(), contextAt(0)), triage(knownAssessment(), contextAt(0), shorter)];
    expect(usual.startByMs - changed.startByMs).toBe(18 * 3_600_000);
  });
});

describe('reasons', () => {
  test('begin with what decided: the binding clock and the ways, then the rest; what holds of everything stands behind', () => {
    const { reasons, clocks, options } = triageOutcome(knownAssessment({ materialClass: 'textile-quilt-padded', alreadyBled: true }), contextAt(3));
    expect(reasons[0]?.ruleId).toBe(clocks[0]?.ruleId);
    const places = new Map(reasons.map(({ ruleId }, index) => [ruleId, index]));
    const deciding = options.flatMap(({ ruleIds }) => ruleIds).filter((id) => (reasons[places.get(id) ?? 0]?.because.length ?? 0) > 0);
    const lastDeciding = Math.max(...deciding.map((id) => places.get(id) ?? 0));
    const general = reasons.filter(({ because }) => because.length === 0).map(({ ruleId }) => places.get(ruleId) ?? 0);
    expect(deciding.length).toBeGreaterThan(2);
    expect(Math.min(...general)).toBeGreaterThan(lastDeciding);
  });
});
