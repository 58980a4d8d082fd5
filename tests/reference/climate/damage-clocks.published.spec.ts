/** The other clocks with the hours of the rule book: one place for the hours (care), one for how each clock runs (climate). */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { DEFAULT_CALIBRATION } from '#care';
import { ClimateRangeError, DAMAGE_CLOCKS, DAMAGE_HOLDINGS, damageClock, type DamageClockName, type DamageHolding, type DamageStretch } from '#climate';

const { clockHours } = DEFAULT_CALIBRATION;
const at = (name: DamageClockName, hours: keyof typeof clockHours, ...history: [DamageHolding, number][]) => damageClock(name, clockHours[hours], history.map(([holding, h]) => ({ holding, hours: h })));
const codes = (clock: ReturnType<typeof damageClock>) => clock.notes.map(({ code }) => code).filter((code) => code !== 'no_temperature_dependence');

describe('coated paper: frozen within about 6 h (usual trade figure); kept wet until then (Iowa chart, Minnesota Historical Society)', () => {
  test('amber after 3 h, red after 6 h as it lies', () => {
    expect([2.9, 3, 5.9, 6].map((hours) => at('coated-paper', 'coated-paper', ['left-wet', hours]).state)).toEqual(['in-time', 'amber', 'amber', 'red']);
  });

  test('stands still kept wet and frozen, and says that the mould clock does not', () => {
    const held = at('coated-paper', 'coated-paper', ['left-wet', 2], ['kept-wet', 10], ['frozen', 1000]);
    expect(held).toMatchObject({ usedHours: 2, stoppedHours: 1010, state: 'in-time', stopped: true, hoursLeft: null });
    expect(codes(held)).toEqual(['mould_goes_on']);
    expect(at('coated-paper', 'coated-paper', ['left-wet', 2], ['kept-wet', 10], ['left-wet', 1])).toMatchObject({ hoursLeft: 3, stopped: false });
  });
});

describe('photographs by process', () => {
  test('stuck prints may soak for 48 h (FEMA 2017), not longer', () => {
    expect(at('stuck-prints', 'stuck-prints', ['left-wet', 1], ['kept-wet', 48])).toMatchObject({ usedHours: 1, stopped: false, hoursLeft: 5 });
    const long = at('stuck-prints', 'stuck-prints', ['left-wet', 1], ['kept-wet', 30], ['kept-wet', 24]);
    expect(long).toMatchObject({ usedHours: 7, state: 'red' });
    expect(codes(long)).toContain('kept_wet_too_long');
  });

  test.each(['silver-gelatin-print', 'colour-print', 'albumen-print'] as const)('a %s may be frozen within 48 h', (name) => {
    expect(at(name, 'mould', ['left-wet', 20], ['frozen', 500])).toMatchObject({ state: 'in-time', stopped: true, usedHours: 20 });
    expect(at(name, 'mould', ['left-wet', 48]).state).toBe('red');
  });

  test.each(['collodion-plate', 'daguerreotype'] as const)('a %s is never frozen: its clock goes on and it says so', (name) => {
    const frozen = at(name, 'at-once', ['left-wet', 1], ['frozen', 2]);
    expect(frozen).toMatchObject({ usedHours: 3, state: 'red' });
    expect(codes(frozen)).toEqual(['holding_harms']);
  });
});

describe('magnetic tape (US National Library of Medicine): a specialist within 48 h', () => {
  test('ferric tape may wait in very cold distilled water, metal tape nowhere; none is frozen', () => {
    expect(at('ferric-tape', 'tape', ['left-wet', 10], ['kept-in-distilled', 400])).toMatchObject({ usedHours: 10, stopped: true });
    expect(at('metal-tape', 'metal-tape', ['left-wet', 2], ['kept-in-distilled', 10])).toMatchObject({ usedHours: 12, state: 'red' });
    for (const name of ['ferric-tape', 'metal-tape'] as const) expect(codes(at(name, 'tape', ['frozen', 1]))).toEqual(['holding_harms']);
  });
});

describe('other things', () => {
  test('bone and ivory within 24 h, never frozen (Salvage at a Glance III)', () => {
    expect(at('bone-or-ivory', 'bone', ['left-wet', 24]).state).toBe('red');
    expect(codes(at('bone-or-ivory', 'bone', ['frozen', 5]))).toEqual(['holding_harms']);
  });

  test('wood is begun within 24 h (early end of 24-48 h); a small piece may be frozen, furniture may not', () => {
    expect(at('furniture', 'wood', ['left-wet', 24]).state).toBe('red');
    expect(at('small-wood', 'wood', ['left-wet', 5], ['frozen', 99])).toMatchObject({ stopped: true });
    expect(at('furniture', 'wood', ['left-wet', 5], ['frozen', 99])).toMatchObject({ stopped: false, state: 'red' });
  });

  test('what is soaked in salt water waits in fresh water and is harmed by drying; iron is harmed by water', () => {
    expect(at('salt-soaked', 'salt', ['left-wet', 3], ['kept-wet', 200])).toMatchObject({ usedHours: 3, stopped: true });
    expect(at('salt-soaked', 'salt', ['left-wet', 3], ['dry', 30])).toMatchObject({ state: 'red', notes: expect.arrayContaining([expect.objectContaining({ code: 'holding_harms', values: { holding: 'dry' } })]) });
    expect(at('iron', 'iron', ['kept-wet', 7])).toMatchObject({ state: 'red' });
  });

  test('work that begins in time ends the clock; begun too late it is late', () => {
    expect(at('leather', 'mould', ['left-wet', 30], ['in-work', 12])).toMatchObject({ state: 'begun', usedHours: 30, hoursLeft: null });
    expect(at('leather', 'mould', ['left-wet', 50], ['in-work', 12])).toMatchObject({ state: 'red', hoursLeft: 0 });
  });

  test('the hours are those of the sources that the rule book names', () => {
    const deadline = (name: keyof typeof clockHours) => clockHours[name].deadline;
    expect([deadline('coated-paper'), deadline('tape'), deadline('bone'), deadline('wood'), deadline('mould'), deadline('roll-film')]).toEqual([6, 48, 24, 24, 48, 48]);
  });
});

describe('any clock', () => {
  const stretch: fc.Arbitrary<DamageStretch> = fc.record({ hours: fc.double({ min: 0, max: 200, noNaN: true }), holding: fc.constantFrom(...DAMAGE_HOLDINGS) });
  const name = fc.constantFrom(...(Object.keys(DAMAGE_CLOCKS) as DamageClockName[]));

  test('never runs backwards, and every hour is used or stopped', () => {
    fc.assert(fc.property(name, fc.array(stretch), stretch, (clock, history, more) => {
      const [before, after] = [damageClock(clock, { warn: 12, deadline: 24 }, history), damageClock(clock, { warn: 12, deadline: 24 }, [...history, more])];
      expect(after.usedHours).toBeGreaterThanOrEqual(before.usedHours);
      expect(after.usedHours + after.stoppedHours).toBeCloseTo([...history, more].reduce((sum, { hours }) => sum + hours, 0), 6);
      if (before.state === 'red') expect(after.state).toBe('red');
    }));
  });

  test('is additive: a stretch cut in two counts the same', () => {
    fc.assert(fc.property(name, stretch, fc.double({ min: 0, max: 1, noNaN: true }), (clock, each, share) => {
      const cut = [{ ...each, hours: each.hours * share }, { ...each, hours: each.hours * (1 - share) }];
      expect(damageClock(clock, { warn: 12, deadline: 24 }, cut).usedHours).toBeCloseTo(damageClock(clock, { warn: 12, deadline: 24 }, [each]).usedHours, 9);
    }));
  });

  test('a holding never both stops and harms, and each row names what it rests on', () => {
    for (const { stoppedBy, harmedBy, cite, mark } of Object.values(DAMAGE_CLOCKS)) {
      expect(stoppedBy.filter((holding) => harmedBy.includes(holding))).toEqual([]);
      expect(cite.length).toBeGreaterThan(20);
      expect(['published', 'from-memory']).toContain(mark);
    }
  });

  test('a warning after the end and a clock that there is not are refused', () => {
    expect(() => damageClock('iron', { warn: 9, deadline: 6 }, [])).toThrow(ClimateRangeError);
    expect(() => damageClock(JSON.parse('"cheese"'), { warn: 1, deadline: 6 }, [])).toThrow(ClimateRangeError);
  });
});
