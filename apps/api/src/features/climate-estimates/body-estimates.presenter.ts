import { CLOCK_STANDING, clockNoteWords, damageBasis, damageNoteWords, heatBasis, HEAT_STANDING, heatNoteWords, lighterWords, liftBasis, liftNoteWords, liftScopeWords, mouldBasis, mouldClockWords, type Basis, type ClockEstimate, type ClockQuestion, type HeatEstimate, type LiftEstimate } from '#application';
import { render, translate, type Language, type Message } from '#care';
import type { Advice, ClockHistorySegment, LiftMultipliers } from '#climate';
import { iso } from '../../presenters/time.js';

const rounded = (value: number, places = 3): number => Math.round(value * 10 ** places) / 10 ** places;
const roundedOrNull = (value: number | null, places = 3): number | null => (value === null ? null : rounded(value, places));
/** Numbers of a flat object, rounded. */
const roundedAll = <T extends object>(numbers: T, places = 3): T => Object.fromEntries(Object.entries(numbers).map(([name, value]) => [name, typeof value === 'number' ? rounded(value, places) : value])) as T;

function presentNotes<A extends Advice>(notes: readonly A[], wordsOf: (note: A) => Message, language: Language) {
  return notes.map((note) => ({ code: note.code, values: note.values, text: render(wordsOf(note), language) }));
}

const presentBasis = (basis: readonly Basis[], language: Language) => basis.map(({ source, unit, ...entry }) => ({ ...entry, unit: translate(unit, language), source: render(source, language) }));

export function presentClock({ history, untilMs, damage, values, nowMs, ...models }: ClockEstimate, { thing, vttClass, vttDecline }: ClockQuestion, language: Language) {
  const { state, clock, doseBand, assumedShare, segments, notes } = history;
  return {
    until: iso(untilMs),
    mould: {
      dose: rounded(state.dose, 4),
      doseBand: roundedAll(doseBand, 4),
      state: clock.state,
      paused: clock.paused,
      hoursLeft: roundedOrNull(clock.hoursLeft, 1),
      hoursLeftBand: clock.hoursLeftBand === null ? null : roundedAll(clock.hoursLeftBand, 1),
      doseBy: roundedAll(state.doseBy, 4),
      hoursBy: roundedAll(state.hoursBy, 2),
      pausedHours: rounded(state.pausedHours, 2),
      assumedShare: rounded(assumedShare),
      inWords: render(mouldClockWords(clock), language),
    },
    vtt: { index: rounded(models.vttIndex), vttClass, vttDecline },
    secondModel: { doseDays: rounded(models.secondModelDays), criticalDays: models.secondModelCriticalDays },
    segments: segments.map(presentSegment),
    damage: damage.map(({ name, hours, clock: other }) => ({
      clock: name, state: other.state, usedHours: rounded(other.usedHours, 2), stoppedHours: rounded(other.stoppedHours, 2), stopped: other.stopped, hoursLeft: roundedOrNull(other.hoursLeft, 2),
      warnHours: hours.warn, deadlineHours: hours.deadline, notes: presentNotes(other.notes, damageNoteWords, language), basis: presentBasis(damageBasis(name), language),
    })),
    notes: presentNotes(notes, clockNoteWords, language),
    basis: presentBasis(mouldBasis(thing.mouldClass, values), language),
    standing: render(CLOCK_STANDING, language),
    estimatedAt: iso(nowMs),
  };
}

function presentSegment({ fromMs, untilMs, hours, placeId, surfaceTempC, waterActivity, doseGained, ...told }: ClockHistorySegment) {
  return { ...told, from: iso(fromMs), until: iso(untilMs), hours: rounded(hours, 2), place: placeId, surfaceTempC: roundedAll(surfaceTempC, 2), waterActivity: roundedAll(waterActivity), doseGained: rounded(doseGained, 4) };
}

export function presentLift({ answer, loadKg, moistureX, stage, duration, recoveryNeededMin, liftsPerMin, lighter, liftAssumed, values, nowMs }: LiftEstimate, language: Language) {
  const { outside, limitKg, multipliers, teamKg, liftingIndex, reading, people, aid, notes } = answer;
  const refused = outside.length > 0;
  const screen = notes.find(({ code }) => code === 'upper_screen') ?? { code: 'upper_screen' as const, values: {}, text: '' };
  const factors = (each: LiftMultipliers | null) => (each === null ? null : roundedAll(each));
  return {
    holds: !refused,
    outside: presentNotes(outside, liftScopeWords, language),
    loadKg: rounded(loadKg, 2),
    moistureX: roundedOrNull(moistureX),
    limitKg: limitKg === null ? null : roundedAll(limitKg, 2),
    multipliers: multipliers === null ? null : { origin: factors(multipliers.origin), destination: factors(multipliers.destination) },
    liftingIndex: roundedOrNull(liftingIndex, 2),
    reading,
    people,
    teamKg: teamKg === null ? null : teamKg.map((kg) => rounded(kg, 2)),
    aid,
    duration,
    recoveryNeededMin: rounded(recoveryNeededMin, 1),
    liftsPerMin: rounded(liftsPerMin, 2),
    lighter: lighter.map((each) => ({ stage: each.stage, massKg: rounded(each.massKg, 2), people: each.people, inWords: render(lighterWords(each.stage, each.massKg, each.people), language) })),
    notes: presentNotes(notes, (note) => liftNoteWords(note, refused), language),
    basis: presentBasis(liftBasis(stage, liftAssumed, values), language),
    standing: render(liftNoteWords(screen, refused), language),
    estimatedAt: iso(nowMs),
  };
}

export function presentHeat({ answer, question, values, nowMs }: HeatEstimate, language: Language) {
  const { wbgt, notes, heatIndex, ...judged } = answer;
  return {
    wbgtC: rounded(wbgt.wbgtC, 2),
    marginC: wbgt.marginC,
    wbgtMark: wbgt.mark,
    clothing: question.wear.clothing,
    effort: question.effort,
    ...roundedAll(judged, 2),
    heatIndex: heatIndex === null ? null : { ...heatIndex, indexC: rounded(heatIndex.indexC, 1) },
    notes: presentNotes(notes, heatNoteWords, language),
    basis: presentBasis(heatBasis(question, values), language),
    standing: render(HEAT_STANDING, language),
    estimatedAt: iso(nowMs),
  };
}
