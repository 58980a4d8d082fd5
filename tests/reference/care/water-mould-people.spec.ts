/** Care guidance, sections 2 (water), 3a (protection), 4 (mould), 8 (hands), 9 (harm) and 11 (disagreements). */
import { describe, expect, test } from '@jest/globals';
import type { Assessment, CareStep, WaterKind } from '#care';
import { DEFAULT_CALIBRATION, RULE_BOOK, triage, waterAfterHours } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from '../../unit/care/assessment.support.js';

const run = (changes: Partial<Assessment>, hours = 0, airTempC: number | null = 21) => triage(knownAssessment(changes), contextAt(hours, { airTempC }));
const texts = (entries: { text: string }[]): string[] => entries.map(({ text }) => text);
const stepsOf = (changes: Partial<Assessment>, disposition = 'treat'): CareStep[] => run(changes).options.find((option) => option.disposition === disposition)?.steps ?? [];

describe('water, section 2 [trade explainers of the categories (S62)]', () => {
  const rows: [WaterKind, number, string][] = [
    ['clean', 0, 'clean'], ['clean', 23.9, 'clean'], ['clean', 24, 'grey'], ['clean', 47.9, 'grey'], ['clean', 48, 'black'],
    ['grey', 0, 'grey'], ['grey', 47.9, 'grey'], ['grey', 48, 'black'], ['black', 0, 'black'], ['salt', 0, 'black'], ['unknown', 0, 'black'],
  ];
  test.each(rows)('%s water after %d h counts as %s', (kind, hours, category) => {
    expect(waterAfterHours(kind, hours, DEFAULT_CALIBRATION)).toBe(category);
  });

  test('black water on porous heirlooms asks a named owner, and is never silent [CDC (S34) against NPS (S1); section 11 row 2]', () => {
    const result = run({ water: 'black', consents: { treat: null, freeze: null, refer: null, release: null } });
    for (const disposition of ['treat', 'hold-frozen']) {
      expect(result.options.find((option) => option.disposition === disposition)?.needs).toContainEqual(expect.stringMatching(/named owner/));
    }
    expect(texts(result.consentNeeded)).toContainEqual(expect.stringMatching(/named owner/));
    expect(texts(result.cautions)).toContainEqual(expect.stringMatching(/Isolate it/));
  });

  test('with that consent given the way is open, and the isolation caution stays', () => {
    const result = run({ water: 'black' });
    expect(result.options[0]?.needs).toEqual([]);
    expect(texts(result.cautions)).toContainEqual(expect.stringMatching(/Isolate it/));
  });

  test('everyday paper from black water may be let go, behind saving it, only with the owner’s agreement [CDC (S34)]', () => {
    const release = run({ materialClass: 'paper-uncoated', significance: 'everyday', water: 'black' }).options.find((option) => option.disposition === 'release');
    expect(release?.needs).toEqual(['owner’s recorded agreement to let it go']);
    expect(run({ materialClass: 'paper-uncoated', significance: 'valued', water: 'black' }).options.map((option) => option.disposition)).not.toContain('release');
  });

  test('mixed costume in salt water stays wet; in fresh water it is dried [Salvage at a Glance III (S3); section 11 row 13]', () => {
    expect(run({ materialClass: 'textile-composite', water: 'salt' }).options[0]?.disposition).toBe('hold-wet');
    expect(run({ materialClass: 'textile-composite', water: 'black' }).options[0]?.disposition).toBe('treat');
  });
});

describe('protection, section 3a', () => {
  test('wet table: waterproof gloves, eye protection, apron [Texas (S30), CDC (S34)]', () => {
    expect(stepsOf({})[0]?.ppe).toEqual(expect.arrayContaining(['nitrile or other waterproof gloves', 'eye protection', 'apron or gown']));
  });

  test('black water: boots, rubber gloves, goggles at the rinse; no one under age, no one without wet work [CDC (S34), OSHA (S39)]', () => {
    const rinse = stepsOf({ water: 'black' })[0];
    expect(rinse?.ppe).toEqual(expect.arrayContaining(['rubber boots', 'waterproof rubber gloves', 'goggles']));
    expect(rinse?.barredRestrictions).toEqual(expect.arrayContaining(['under-age', 'no-wet-work']));
  });

  test('any mould: N95, gloves, eyes; restrictions respected [EPA (S37); CCI 13/15 (S17); FEMA 2023 (S32)]', () => {
    const quarantined = stepsOf({ mould: 'active' }).filter((step) => step.zone === 'quarantine');
    expect(quarantined.length).toBeGreaterThan(0);
    for (const step of quarantined) {
      expect(step.ppe).toEqual(expect.arrayContaining(['N95 respirator', 'gloves', 'eye protection']));
      expect(step.barredRestrictions).toEqual(expect.arrayContaining(['no-mould', 'under-age']));
    }
  });

  test('fuel: organic-vapour cartridge, with the warning that an N95 does nothing [flood FAQ copy, weak (S91)]', () => {
    const result = run({ hazards: ['fuel-or-solvent'] });
    expect(result.ppe).toContainEqual(expect.stringMatching(/organic-vapour/));
    expect(texts(result.cautions)).toContainEqual(expect.stringMatching(/N95 does nothing/));
  });

  test('heavy wet quilts: two people, and no one who declared no lifting [section 9 no. 7]', () => {
    const [rinse, blot, dry] = stepsOf({ materialClass: 'textile-quilt-padded' });
    for (const step of [rinse, blot, dry]) {
      expect(step?.crew).toBe(2);
      expect(step?.barredRestrictions).toContain('no-lifting');
    }
  });
});

describe('mould, section 4', () => {
  test('48 h deadline, 24 h warning from wetting [section 11 row 1: FEMA, EPA against AMNH, UK]', () => {
    const mould = run({}, 10).clocks.find((clock) => clock.damage === 'mould');
    expect((mould?.deadlineAtMs ?? 0) - FLOOD_AT_MS).toBe(48 * HOUR_MS);
    expect((mould?.warnAtMs ?? 0) - FLOOD_AT_MS).toBe(24 * HOUR_MS);
  });

  test.each([[0, 'within-two-days'], [23, 'within-two-days'], [24, 'within-a-day'], [42, 'immediate'], [60, 'immediate']] as const)('a dye-fast textile wet for %d h is %s [thresholds own]', (hours, urgency) => {
    expect(run({}, hours).urgency).toBe(urgency);
  });

  test('warm air takes the short end, cool air gives nothing back [own, within the FEMA band]', () => {
    const startHours = (airTempC: number | null): number => (run({}, 0, airTempC).startByMs - FLOOD_AT_MS) / HOUR_MS;
    expect([startHours(5), startHours(21), startHours(null), startHours(30)]).toEqual([48, 48, 48, 24]);
  });

  test('active mould: isolated at once, freezer first, never rinsed [UNESCO R8707 (S27), AMNH (S28); smears: S68]', () => {
    const result = run({ mould: 'active' });
    expect(result.urgency).toBe('immediate');
    expect(result.options[0]?.disposition).toBe('hold-frozen');
    expect(stepsOf({ mould: 'active' }).map(({ step }) => step)).toEqual(['dry', 'surface-clean', 'check', 'wrap', 'hand-back']);
    expect(result.bathGroup).toBeNull();
  });

  test('mould nobody looked for counts as active once the clock has run out [own]', () => {
    expect(run({ mould: 'unknown' }, 47).options[0]?.disposition).toBe('treat');
    expect(run({ mould: 'unknown' }, 48).options[0]?.steps[0]?.zone).toBe('quarantine');
  });

  test('freezing is named for what it is: it neither kills nor dries [S27, S28]', () => {
    const freeze = stepsOf({}, 'hold-frozen').find(({ step }) => step === 'freeze');
    expect(freeze?.zone).toBe('cold');
    expect(texts(freeze?.cautions ?? [])).toContainEqual(expect.stringMatching(/does not dry it and does not kill mould/));
  });
});

describe('hands, section 8 [working assumptions, own]', () => {
  const minutes = (steps: CareStep[], ...kinds: string[]): number => steps.filter(({ step }) => kinds.includes(step)).reduce((sum, step) => sum + step.minutesPerPiece, 0);
  test('one large quilt: rinse and blot take two people 30 minutes', () => expect(minutes(stepsOf({ materialClass: 'textile-quilt-padded' }), 'rinse', 'blot')).toBe(30));
  test('small textiles: rinse and blot at 10 an hour', () => expect(minutes(stepsOf({}), 'rinse', 'blot')).toBe(6));
  test('intake with tag and photograph: 8 an hour', () => {
    const { tag, photograph } = DEFAULT_CALIBRATION.handlingDefault;
    expect(tag.minutes + photograph.minutes).toBe(60 / 8);
  });
  test('colour test: 10 an hour', () => expect(minutes(stepsOf({ allColoursTested: false }), 'colour-test')).toBe(6));
  test('flat photographs: 60 an hour', () => expect(minutes(stepsOf({ materialClass: 'photo-silver-gelatin' }), 'rinse', 'dry')).toBe(1));
  test('freezer wrapping: 12 an hour', () => expect(minutes(stepsOf({}, 'hold-frozen'), 'wrap')).toBe(5));
  test('air-drying books: 25 volumes a person-hour [Cornell (S54)]', () => expect(minutes(stepsOf({ materialClass: 'book-bound', wetState: 'damp' }), 'dry')).toBeCloseTo(60 / 25));
  test('a lot shares what is done once: the hand-back of 240 prints is not 240 hand-backs', () => {
    expect(minutes(stepsOf({ materialClass: 'photo-colour-print', count: 240 }), 'hand-back') * 240).toBeCloseTo(5);
  });
});

describe('disagreements, section 11', () => {
  test.each([
    [1, 'mould.clock'], [2, 'consent.black-water-heirloom'], [3, 'textile.quilt-padded.route'], [4, 'paper.coated.six-hours'], [5, 'book.leather.route'], [7, 'photo.glass-plate.no-freezing'],
    [8, 'freezing.set-point'], [9, 'textile.dry.air'], [10, 'mould.sunlight'], [11, 'drying.no-heat'], [12, 'photo.stuck.route'], [13, 'water.salt.hold-wet-metal'], [14, 'cleaning.no-bleach'],
    [16, 'water.worsens'], [18, 'photo.collodion.no-freezing'], [19, 'photo.freezer-wet-salvage'], [20, 'textile.rinse.plain-water'],
  ])('row %d is told with our choice and the others’ view (%s)', (_row, id) => {
    const rule = RULE_BOOK.find((candidate) => candidate.id === id);
    expect(rule?.choice?.length).toBeGreaterThan(0);
    expect(rule?.alternative?.length).toBeGreaterThan(0);
  });
});
