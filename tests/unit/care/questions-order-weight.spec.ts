import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import type { OrderedItem } from '#care';
import { afterStepResult, askNext, compareUrgency, DAMAGE_KINDS, explainOrder, IRREVERSIBILITY, nextDeadlineAtMs, ORDER_CRITERIA, orderDecision, orderedItem, planningWeight, render, SIGNIFICANCES, triage } from '#care';
import { anyAssessment, anyContext, contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from './assessment.support.js';

describe('what to ask next', () => {
  test('asks nothing when everything is known', () => {
    expect(askNext(knownAssessment({ consents: { treat: true, freeze: true, refer: true, release: false } }), contextAt(2))).toEqual([]);
  });

  test('asks for the material first when that is what decides', () => {
    const [first] = askNext(knownAssessment({ materialClass: 'unknown', onlyCopy: null }), contextAt(2));
    expect(first?.observation).toBe('materialClass');
    expect(new Set(first?.couldBecome.map(({ disposition }) => disposition)).size).toBeGreaterThan(2);
  });

  test('puts the colour test before the question whether it is the only copy', () => {
    const names = askNext(knownAssessment({ allColoursTested: false, onlyCopy: null }), contextAt(2)).map(({ observation }) => observation);
    expect(names.indexOf('colourTests')).toBeLessThan(names.indexOf('onlyCopy'));
  });

  test('tells what each answer would lead to', () => {
    const bled = askNext(knownAssessment({ alreadyBled: null }), contextAt(2)).find(({ observation }) => observation === 'alreadyBled');
    expect(bled?.couldBecome).toEqual([
      { answer: 'yes', urgency: 'immediate', disposition: 'refer' },
      { answer: 'no', urgency: 'within-two-days', disposition: 'treat' },
    ]);
  });

  test('names every unanswered observation once and no answered one', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const names = askNext(assessment, context).map(({ observation }) => observation);
        expect(new Set(names).size).toBe(names.length);
        for (const key of ['wetState', 'water', 'mould', 'fragility', 'materialClass'] as const) expect(names.includes(key)).toBe(assessment[key] === 'unknown');
        for (const key of ['onlyCopy', 'highMarketValue', 'alreadyBled', 'wettedAtMs'] as const) expect(names.includes(key)).toBe(assessment[key] === null);
        expect(names.includes('soil')).toBe((assessment.soil ?? 'unknown') === 'unknown');
        for (const key of ['detachedParts', 'oldRepairs'] as const) expect(names.includes(key)).toBe((assessment[key] ?? null) === null);
        for (const key of ['treat', 'freeze', 'refer', 'release'] as const) expect(names.includes(`consents.${key}`)).toBe(assessment.consents[key] === null);
      }),
      { numRuns: 60 },
    );
  });
});

const anyItem: fc.Arbitrary<OrderedItem> = fc.record({
  id: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
  startByMs: fc.integer({ min: 0, max: 4 }).map((hours) => FLOOD_AT_MS + hours * HOUR_MS),
  binding: fc.constantFrom(...DAMAGE_KINDS, null),
  significance: fc.constantFrom(...SIGNIFICANCES),
  onlyCopy: fc.constantFrom(true, false, null),
  arrivedAtMs: fc.integer({ min: 0, max: 3 }),
});
const item = (id: string, changes: Partial<OrderedItem> = {}): OrderedItem => ({ id, startByMs: FLOOD_AT_MS, binding: 'mould', significance: 'valued', onlyCopy: false, arrivedAtMs: 0, ...changes });

describe('the order for scarce hands', () => {
  const told = (a: OrderedItem, b: OrderedItem): string | null => {
    const decision = orderDecision(a, b);
    return decision && render(explainOrder(decision, FLOOD_AT_MS - 24 * HOUR_MS), 'en');
  };

  test('is total: antisymmetric, transitive, and only the same id ties', () => {
    fc.assert(
      fc.property(anyItem, anyItem, anyItem, (a, b, c) => {
        expect(Math.sign(compareUrgency(a, b)) + Math.sign(compareUrgency(b, a))).toBe(0);
        if (compareUrgency(a, b) <= 0 && compareUrgency(b, c) <= 0) expect(compareUrgency(a, c)).toBeLessThanOrEqual(0);
        if (a.id !== b.id) expect(compareUrgency(a, b)).not.toBe(0);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    ['less slack', { startByMs: FLOOD_AT_MS - 3 * HOUR_MS }, 'tag-1 comes before tag-2: its handling must start 3 hours sooner.'],
    ['damage that cannot be taken back', { binding: 'image-loss' }, 'tag-1 comes before tag-2: what threatens it first (image loss) is harder to undo than what threatens the other (mould).'],
    ['significance', { significance: 'irreplaceable' }, 'tag-1 comes before tag-2: to its family it is irreplaceable, the other is valued.'],
    ['an only copy', { onlyCopy: null }, 'tag-1 comes before tag-2: it may be the only copy, and the other is not.'],
    ['arrival', { arrivedAtMs: -1 }, 'tag-1 comes before tag-2: it arrived earlier.'],
    ['the tag at last', {}, 'tag-1 comes before tag-2: nothing else sets them apart, so the name decides.'],
  ] as const)('%s comes first, and the sentence says so from either side', (_why, changes, sentence) => {
    const [first, second] = [item('tag-1', changes), item('tag-2')];
    expect(compareUrgency(first, second)).toBeLessThan(0);
    expect(told(first, second)).toBe(sentence);
    expect(told(second, first)).toBe(sentence);
  });

  test.each([
    ['has passed for both', { startByMs: FLOOD_AT_MS - 3 * HOUR_MS }, FLOOD_AT_MS + HOUR_MS, 'tag-1 comes before tag-2: its handling should have started 3 hours sooner. The moment to start has passed for both: begin now.'],
    ['has passed for the first', { startByMs: FLOOD_AT_MS - 3 * HOUR_MS }, FLOOD_AT_MS - HOUR_MS, 'tag-1 comes before tag-2: its handling should have started 3 hours sooner. The moment to start it has passed: begin now.'],
    ['has passed, and something else decides', { significance: 'irreplaceable' }, FLOOD_AT_MS, 'tag-1 comes before tag-2: to its family it is irreplaceable, the other is valued. The moment to start has passed for both: begin now.'],
    ['lies ahead of both', { startByMs: FLOOD_AT_MS - 3 * HOUR_MS }, FLOOD_AT_MS - 4 * HOUR_MS, 'tag-1 comes before tag-2: its handling must start 3 hours sooner.'],
  ] as const)('the moment to start %s: the sentence says it', (_what, changes, nowMs, sentence) => {
    const decision = orderDecision(item('tag-1', changes), item('tag-2'));
    expect(decision && render(explainOrder(decision, nowMs), 'en')).toBe(sentence);
  });

  test('is decided, for any pair, by the first of the criteria that sets them apart, and told the same from either side', () => {
    const values = (one: OrderedItem) => [Math.floor(one.startByMs / HOUR_MS), one.binding === null ? 0 : IRREVERSIBILITY[one.binding], SIGNIFICANCES.indexOf(one.significance), one.onlyCopy !== false, one.arrivedAtMs];
    fc.assert(
      fc.property(anyItem, anyItem, (a, b) => {
        const decision = orderDecision(a, b);
        expect(decision === null).toBe(compareUrgency(a, b) === 0);
        if (decision === null) return;
        const [first, second] = [values(decision.first), values(decision.second)];
        const apart = first.findIndex((value, index) => value !== second[index]);
        expect(decision.by).toBe(apart === -1 ? 'tag' : ORDER_CRITERIA[apart]);
        expect(decision.soonerMs > 0).toBe(decision.by === 'slack');
        expect(orderDecision(b, a)).toEqual(decision);
        expect(told(b, a)).toBe(told(a, b));
      }),
      { numRuns: 1000 },
    );
  });

  test('differences within the same hour do not outweigh what a thing means', () => {
    const later = item('later', { startByMs: FLOOD_AT_MS + 59 * 60_000, significance: 'irreplaceable' });
    expect(compareUrgency(later, item('sooner'))).toBeLessThan(0);
    expect(compareUrgency(later, item('sooner'), 5)).toBeGreaterThan(0);
  });

  test('takes its facts from a triage result', () => {
    const bled = knownAssessment({ alreadyBled: true });
    const [first, second] = [orderedItem('quilt', bled, triage(bled, contextAt(3)), 5), orderedItem('scarf', knownAssessment(), triage(knownAssessment(), contextAt(3)), 1)];
    expect(compareUrgency(first, second)).toBeLessThan(0);
  });

  test('knows the next deadline a plan can still meet when the first is past', () => {
    const { clocks, startByMs } = triage(knownAssessment({ alreadyBled: true }), contextAt(10));
    expect(startByMs).toBe(FLOOD_AT_MS + 2 * HOUR_MS);
    expect(nextDeadlineAtMs(clocks, contextAt(10).nowMs)).toBe(FLOOD_AT_MS + 48 * HOUR_MS);
    expect(nextDeadlineAtMs(clocks, contextAt(49).nowMs)).toBeNull();
  });
});

describe('planning weight', () => {
  test('is a positive whole number for any assessment, even a senseless count', () => {
    fc.assert(
      fc.property(anyAssessment, (assessment) => {
        const weight = planningWeight(assessment);
        expect(Number.isInteger(weight)).toBe(true);
        expect(weight).toBeGreaterThan(0);
      }),
    );
  });

  test('grows with significance, with an only copy and with the lot', () => {
    const weights = SIGNIFICANCES.map((significance) => planningWeight({ significance, onlyCopy: false, count: 1 }));
    expect(weights).toEqual([1, 4, 12, 30]);
    expect(planningWeight({ significance: 'valued', onlyCopy: true, count: 1 })).toBe(8);
    expect(planningWeight({ significance: 'valued', onlyCopy: null, count: 240 })).toBe(32);
  });
});

describe('after a step', () => {
  const at = { step: 'rinse', disposition: 'treat' } as const;
  test('dye that moved makes it bleeding: referred, at once, no more water', () => {
    const after = afterStepResult(knownAssessment(), { outcome: 'dye-moved' }, at);
    const result = triage(after, contextAt(1));
    expect(after.alreadyBled).toBe(true);
    expect([result.urgency, result.options[0]?.disposition, result.bathGroup]).toEqual(['immediate', 'refer', null]);
  });

  test('mould that was found sends it to quarantine', () => {
    const after = afterStepResult(knownAssessment(), { outcome: 'mould-found' }, at);
    expect(triage(after, contextAt(1)).options[0]?.steps[0]?.zone).toBe('quarantine');
  });

  test('an owner who must decide closes the way until the answer comes', () => {
    const after = afterStepResult(knownAssessment(), { outcome: 'owner-must-decide' }, { step: 'wrap', disposition: 'hold-frozen' });
    expect(after.consents).toEqual({ ...knownAssessment().consents, freeze: null });
    expect(triage(after, contextAt(1)).options.find((option) => option.disposition === 'hold-frozen')?.needs).not.toEqual([]);
  });

  test('a step that is done moves the wet state on; one that failed changes nothing', () => {
    expect(afterStepResult(knownAssessment(), { outcome: 'done' }, at).wetState).toBe('dripping');
    expect(afterStepResult(knownAssessment(), { outcome: 'done' }, { ...at, step: 'blot' }).wetState).toBe('damp');
    expect(afterStepResult(knownAssessment(), { outcome: 'done' }, { ...at, step: 'check' }).wetState).toBe('dry');
    expect(afterStepResult(knownAssessment(), { outcome: 'failed' }, at)).toEqual(knownAssessment());
  });

  test('mould brushed off after drying counts as inactive', () => {
    expect(afterStepResult(knownAssessment({ mould: 'active' }), { outcome: 'done' }, { ...at, step: 'surface-clean' }).mould).toBe('dry');
    expect(afterStepResult(knownAssessment(), { outcome: 'done' }, { ...at, step: 'surface-clean' }).mould).toBe('none');
  });

  test('a rinsed, dried and checked thing has only its way home left', () => {
    const after = afterStepResult(knownAssessment({ water: 'black' }), { outcome: 'done' }, { ...at, step: 'check' });
    const result = triage(after, contextAt(60, { doneSteps: ['rinse', 'blot', 'dry', 'check'] }));
    expect(result.urgency).toBe('can-wait');
    expect(result.options.find((option) => option.disposition === 'treat')?.steps.map(({ step }) => step)).toEqual(['check', 'wrap', 'hand-back']);
  });

  test('freezing stops the clocks, even of mould nobody looked for; drying does not stop active mould', () => {
    const frozen = triage(knownAssessment({ mould: 'unknown' }), contextAt(100, { doneSteps: ['wrap', 'freeze'] }));
    expect([frozen.urgency, frozen.clocks, frozen.options[0]?.steps[0]?.zone]).toEqual(['can-wait', [], 'dirty']);
    expect(triage(knownAssessment({ mould: 'unknown' }), contextAt(100)).urgency).toBe('immediate');
    expect(triage(knownAssessment({ mould: 'active' }), contextAt(100, { doneSteps: ['dry'] })).urgency).toBe('immediate');
  });

  test('never changes the assessment it was given', () => {
    fc.assert(
      fc.property(anyAssessment, fc.constantFrom('done' as const, 'dye-moved' as const, 'mould-found' as const, 'owner-must-decide' as const), (assessment, outcome) => {
        const before = structuredClone(assessment);
        afterStepResult(assessment, { outcome }, at);
        expect(assessment).toEqual(before);
      }),
    );
  });
});

describe('bath groups', () => {
  const tested = (colour: string) => ({ colourTests: [{ colour, solution: 'water' as const, method: 'swab' as const, reading: '5' as const }] });
  const group = (changes: Parameters<typeof knownAssessment>[0]) => triage(knownAssessment(changes), contextAt(1)).bathGroup;
  test('keep whites from colours, wool from cotton, photographs from textiles, black water from clean', () => {
    const groups = [group(tested('white')), group(tested('blue')), group({ ...tested('blue'), materialClass: 'textile-wool', fibre: 'wool' }), group({ ...tested('blue'), water: 'black' }), group({ materialClass: 'photo-silver-gelatin' })];
    expect(groups).not.toContain(null);
    expect(new Set(groups).size).toBe(groups.length);
  });

  test('let like share with like', () => expect(group(tested('blue'))).toBe(group({ ...tested('green'), materialClass: 'textile-flat-large' })));
  test('count a piece as white only when all its colours are', () => {
    const red = tested('red').colourTests;
    expect(group({ colourTests: [...tested('white').colourTests, ...red] })).toBe(group(tested('red')));
  });

  test('take a white with red stitching for coloured', () => expect(group(tested('white with red stitching'))).toBe(group(tested('red'))));
});
