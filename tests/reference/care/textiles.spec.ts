/** Care guidance, section 1a (textiles) and 5b (colour tests), row by row; the source stands beside each row. */
import { describe, expect, test } from '@jest/globals';
import type { Assessment, ColourTestReading, Disposition, MaterialClass, StepKind, Urgency } from '#care';
import { dyeState, triage } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from '../../unit/care/assessment.support.js';

interface Row {
  source: string;
  what: string;
  changes: Partial<Assessment> & { materialClass: MaterialClass };
  /** Hours from wetting to the start-by moment, and the urgency when it is freshly wet. */
  startByHours: number;
  urgency: Urgency;
  first: Disposition;
  freeze: boolean;
  never: RegExp[];
  treat: StepKind[] | null;
}

const RINSE_ROUTE: StepKind[] = ['rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'];
const two = { startByHours: 48, urgency: 'within-two-days', first: 'treat', freeze: true, treat: RINSE_ROUTE } as const;

const ROWS: Row[] = [
  {
    source: 'Salvage at a Glance V (S2); Minnesota Historical Society (S4); AIC wiki (S5)', what: 'dyes that bleed: at once (the 2 hours are ours)',
    changes: { materialClass: 'textile-flat-large', alreadyBled: true }, startByHours: 2, urgency: 'immediate', first: 'refer', freeze: true,
    never: [/rinse it together/, /fold it on itself/, /dry slowly while folded/], treat: ['stabilise', 'blot', 'dry', 'check', 'wrap', 'hand-back'],
  },
  {
    source: 'Minnesota Historical Society (S4); K. Francis, Iowa Flood Booklet (S6)', what: 'very degraded: at once, supported, referred',
    changes: { materialClass: 'textile-very-degraded', fragility: 'very-degraded' }, startByHours: 2, urgency: 'immediate', first: 'refer', freeze: true,
    never: [/lift it without a support/, /rinse it without a conservator/], treat: null,
  },
  { source: 'Salvage at a Glance V, Conserve O Gram 21/8 (S2)', what: 'small flat, dye-fast', changes: { materialClass: 'textile-flat-small' }, ...two, never: [/wring or twist/] },
  {
    source: 'NPS Saving Wet Textiles (S1); S2; S4', what: 'large flat, dye-fast', changes: { materialClass: 'textile-flat-large' }, ...two,
    never: [/lift it by an edge/, /stack it wet/, /unfold it before a prepared space/],
  },
  { source: 'CCI Notes 13/14 (S18); S2', what: 'stuffed quilt, soaked, dyes pass', changes: { materialClass: 'textile-quilt-padded' }, ...two, never: [/stack it wet/] },
  { source: 'S4; AIC wiki (S5)', what: 'garment', changes: { materialClass: 'textile-garment-3d' }, ...two, never: [/hang a wet costume/] },
  {
    source: 'AIC wiki (S5); S. Ellis, JAIC 39(1) (S55); CERF+ (S29) on freezing', what: 'composite costume: priority class, no long bath (the 24 hours are ours)',
    changes: { materialClass: 'textile-composite' }, startByHours: 24, urgency: 'within-a-day', first: 'treat', freeze: false,
    never: [/long bath/, /freeze it without a conservator/], treat: ['blot', 'dry', 'check', 'wrap', 'hand-back'],
  },
  { source: 'NPS (S1); AIC Textile Specialty Group (S81)', what: 'silk, sound', changes: { materialClass: 'textile-silk', fibre: 'silk' }, ...two, never: [/painted or weighted silk/] },
  { source: 'NPS (S1); S81', what: 'silk, fragile', changes: { materialClass: 'textile-silk', fibre: 'silk', fragility: 'weak' }, ...two, first: 'refer', never: [/painted or weighted silk/] },
  { source: 'NPS (S1); prohibitions from memory', what: 'wool', changes: { materialClass: 'textile-wool', fibre: 'wool' }, ...two, never: [/hot water on wool/, /agitate or rub wool/] },
  { source: 'CCI Notes 13/15 (S17)', what: 'cotton, linen', changes: { materialClass: 'textile-flat-small', fibre: 'linen' }, ...two, never: [/wring cotton or linen/] },
  { source: 'CCI Notes 13/15 (S17)', what: 'polyester', changes: { materialClass: 'textile-garment-3d', fibre: 'polyester' }, ...two, never: [/synthetics with heat/] },
  {
    source: 'K. Francis (S6); CCI 13/14 (S18); freezing: CERF+ (S29), UK guide (S82)', what: 'painted or glazed: referred', changes: { materialClass: 'textile-painted-or-glazed' },
    startByHours: 48, urgency: 'within-two-days', first: 'refer', freeze: false, never: [/blot the painted/, /immerse/], treat: ['dry', 'check', 'wrap', 'hand-back'],
  },
  {
    source: 'NPS (S1); CDC cleanup of flood water (S34)', what: 'pillow without meaning, black water: discard route, owner agrees', changes: { materialClass: 'textile-stuffed', significance: 'everyday', water: 'black' },
    startByHours: 48, urgency: 'within-two-days', first: 'release', freeze: false, never: [/take drying space/], treat: ['pack', 'hand-back'],
  },
  {
    source: 'CDC (S34); NPS (S1)', what: 'everyday washable clothing: household laundry', changes: { materialClass: 'textile-everyday', significance: 'everyday' },
    startByHours: 48, urgency: 'within-two-days', first: 'treat', freeze: false, never: [/mix it with heirlooms/], treat: ['pack', 'hand-back'],
  },
];

describe('textiles, section 1a', () => {
  test.each(ROWS)('$what [$source]', (row) => {
    const result = triage(knownAssessment(row.changes), contextAt(0));
    expect((result.startByMs - FLOOD_AT_MS) / HOUR_MS).toBe(row.startByHours);
    expect(result.urgency).toBe(row.urgency);
    expect(result.options[0]?.disposition).toBe(row.first);
    expect(result.options.some((option) => option.disposition === 'hold-frozen')).toBe(row.freeze);
    for (const text of row.never) expect(result.never.map((statement) => statement.text)).toContainEqual(expect.stringMatching(text));
    const treat = result.options.find((option) => option.disposition === 'treat');
    expect(treat?.steps.map(({ step }) => step) ?? null).toEqual(row.treat);
  });

  test('a bleeding textile is frozen singly, interleaved, if it cannot be treated [S2, S67]', () => {
    const result = triage(knownAssessment({ alreadyBled: true }), contextAt(0));
    const frozen = result.options.find((option) => option.disposition === 'hold-frozen');
    expect(frozen?.steps.map(({ step }) => step)).toEqual(['stabilise', 'wrap', 'freeze']);
    expect(frozen?.steps.flatMap(({ cautions }) => cautions.map(({ text }) => text))).toContainEqual(expect.stringMatching(/singly/));
  });

  test('a treasured everyday garment takes the garment route: the owner weighs what a thing means [own]', () => {
    const steps = triage(knownAssessment({ materialClass: 'textile-everyday', significance: 'treasured' }), contextAt(0)).options[0]?.steps.map(({ step }) => step);
    expect(steps).toEqual(RINSE_ROUTE);
  });
});

describe('colour tests, section 5b', () => {
  const graded: [ColourTestReading, ReturnType<typeof dyeState>][] = [
    ['5', 'fast'], ['no-transfer', 'fast'], ['4-5', 'slight'], ['4', 'bleeding'], ['3-4', 'bleeding'], ['3', 'bleeding'], ['2-3', 'bleeding'], ['2', 'bleeding'], ['1-2', 'bleeding'], ['1', 'bleeding'], ['any-transfer', 'bleeding'],
  ];
  test.each(graded)('reading %s counts as %s [mapping: own; any transfer stops: NPS (S1); nine steps: ISO 105-A03 (S50)]', (reading, state) => {
    expect(dyeState({ alreadyBled: false, allColoursTested: true, colourTests: [{ colour: 'red', solution: 'water', method: 'swab', reading }] })).toBe(state);
  });

  test('one bleeding colour decides for the whole textile [CCI Notes 13/14 (S18)]', () => {
    const tests = (['5', '5', '3'] as const).map((reading) => ({ colour: 'c', solution: 'water' as const, method: 'swab' as const, reading }));
    expect(dyeState({ alreadyBled: false, allColoursTested: true, colourTests: tests })).toBe('bleeding');
  });

  test('what has bled needs no test and counts as bleeding [CCI Notes 13/14 (S18)]', () => {
    expect(dyeState({ ...knownAssessment(), alreadyBled: true })).toBe('bleeding');
    const result = triage(knownAssessment({ alreadyBled: true, colourTests: [], allColoursTested: false }), contextAt(0));
    expect(result.options.flatMap((option) => option.steps.map(({ step }) => step))).not.toContain('colour-test');
  });

  test('until every colour and repair thread is tested the route starts with the test [S1, S18, S81]', () => {
    const result = triage(knownAssessment({ allColoursTested: false }), contextAt(0));
    expect(result.options[0]?.steps[0]?.step).toBe('colour-test');
    expect(result.bathGroup).toBeNull();
    expect(result.urgency).toBe('within-a-day');
  });

  test('grade 4-5 is rinsed, alone [own mapping]', () => {
    const result = triage(knownAssessment({ colourTests: [{ colour: 'red', solution: 'water', method: 'blotter', reading: '4-5' }] }), contextAt(0));
    expect(result.options[0]?.steps.map(({ step }) => step)).toEqual(RINSE_ROUTE);
    expect(result.bathGroup).toBeNull();
  });
});

describe('already dry or already soaked: two rule sets', () => {
  const quilt = { materialClass: 'textile-quilt-padded' } as const;
  test('a dry quilt is not washed [CCI Notes 13/14 (S18), 13/7 (S19)]', () => {
    const result = triage(knownAssessment({ ...quilt, wetState: 'dry' }), contextAt(72));
    expect(result.urgency).toBe('can-wait');
    expect(result.clocks).toEqual([]);
    expect(result.options[0]?.steps.map(({ step }) => step)).toEqual(['surface-clean', 'check', 'wrap', 'hand-back']);
    expect(result.never.map(({ text }) => text)).toContainEqual(expect.stringMatching(/wash or wet it again/));
  });

  test('a soaked one is rinsed, and its conservator is told [S. Ellis, JAIC 39(1) (S55)]', () => {
    const result = triage(knownAssessment(quilt), contextAt(6));
    expect(result.options[0]?.steps[0]?.step).toBe('rinse');
    expect(result.cautions.map(({ text }) => text)).toContainEqual(expect.stringMatching(/conservator/));
  });
});
