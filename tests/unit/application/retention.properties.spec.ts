import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { added, calibrateRetention, HOUSEHOLD_KINDS, householdVerdict, INCIDENT_KINDS, incidentVerdict, NO_TOTALS, type HouseholdFacts, type RetentionValues } from '#application';

// The periods are our own calibration; what is held here is that nothing goes that must stay, and that nothing is forgotten.
const DAY_MS = 24 * 3_600_000;
const days = fc.integer({ min: 0, max: 2_000 });
const policy: fc.Arbitrary<RetentionValues> = fc
  .record({ countFromClosing: fc.constantFrom(0, 1), contactsDays: days, photographsDays: days, voicesDays: days, wordsDays: days, messagesDays: days, signaturesDays: days, importRowsDays: days, staffNotesDays: days })
  .chain((parts) => fc.integer({ min: Math.max(...Object.values(parts)), max: 3_000 }).map((recordsDays) => calibrateRetention({ ...parts, recordsDays })));
const count = fc.integer({ min: 0, max: 5 });
const moment = fc.integer({ min: 0, max: 3_000 }).map((day) => day * DAY_MS);
const rarely = fc.integer({ min: 0, max: 4 }).map((n) => (n === 0 ? 1 : 0));
const facts: fc.Arbitrary<HouseholdFacts> = fc.record({
  householdId: fc.constant('h'), items: count, held: rarely, lastEventAtMs: fc.option(moment), onHold: rarely.map((n) => n > 0), openQuestions: rarely, openMatters: rarely, openClaims: rarely,
  there: fc.record(Object.fromEntries(HOUSEHOLD_KINDS.map((kind) => [kind, kind === 'records' ? fc.constantFrom(0, 1) : count])) as { [K in (typeof HOUSEHOLD_KINDS)[number]]: fc.Arbitrary<number> }),
});
const incident = fc.record({
  closedAtMs: fc.option(moment), importsUnderWay: rarely, onHold: rarely, held: rarely,
  there: fc.record(Object.fromEntries(INCIDENT_KINDS.map((kind) => [kind, count])) as { [K in (typeof INCIDENT_KINDS)[number]]: fc.Arbitrary<number> }),
});

test('what goes and what stays are together what is there, each once, and what stays has a reason', () => {
  fc.assert(fc.property(facts, incident, policy, moment, (one, of, days_, nowMs) => {
    for (const [verdict, there] of [[householdVerdict(one, of, days_, nowMs), one.there], [incidentVerdict(of, days_, nowMs), of.there]] as const) {
      const seen = [...verdict.goes, ...verdict.stays].map(({ kind, count: n }) => [kind, n] as const).sort();
      expect(seen).toEqual(Object.entries(there).filter(([, n]) => n > 0).sort());
      expect(verdict.stays.every(({ reasons }) => reasons.length > 0)).toBe(true);
    }
  }));
});

test('nothing goes under a legal hold, while something is held, open or being read in, and before its days are over', () => {
  fc.assert(fc.property(facts, incident, policy, moment, (one, of, days_, nowMs) => {
    const { goes, countsFromMs } = householdVerdict(one, of, days_, nowMs);
    const blocked = one.onHold || one.held > 0 || one.openQuestions > 0 || one.openMatters > 0 || one.openClaims > 0 || of.importsUnderWay > 0 || (days_.countFromClosing === 1 && of.closedAtMs === null);
    if (blocked) expect(goes).toEqual([]);
    if (goes.length > 0) {
      expect(countsFromMs).not.toBeNull();
      if (one.lastEventAtMs !== null) expect(countsFromMs).toBeGreaterThanOrEqual(one.lastEventAtMs);
    }
    if (of.onHold > 0 || of.held > 0 || of.closedAtMs === null) expect(incidentVerdict(of, days_, nowMs).goes).toEqual([]);
  }));
});

test('what has gone by a moment has gone by every later one, and with the records of a household goes all of it', () => {
  fc.assert(fc.property(facts, incident, policy, moment, moment, (one, of, days_, nowMs, afterMs) => {
    const before = householdVerdict(one, of, days_, nowMs).goes.map(({ kind }) => kind);
    const after = householdVerdict(one, of, days_, nowMs + afterMs);
    expect(after.goes.map(({ kind }) => kind)).toEqual(expect.arrayContaining(before));
    if (after.goes.some(({ kind }) => kind === 'records')) expect(after.stays).toEqual([]);
  }));
});

test('totals are the sums of what goes and stays, in whatever order households come', () => {
  fc.assert(fc.property(fc.array(facts, { maxLength: 6 }), incident, policy, moment, (all, of, days_, nowMs) => {
    const total = (list: readonly HouseholdFacts[]) => list.reduce((sum, one) => added(sum, householdVerdict(one, of, days_, nowMs), true), NO_TOTALS);
    expect(total(all)).toEqual(total([...all].reverse()));
    expect(total(all).households).toBe(all.length);
  }));
});

test('no part may be kept longer than the whole', () => {
  expect(() => calibrateRetention({ contactsDays: 800 })).toThrow(RangeError);
  expect(calibrateRetention({ contactsDays: 800, recordsDays: 900 }).contactsDays).toBe(800);
});
