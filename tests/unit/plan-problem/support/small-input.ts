/** One hall with one of everything, and items made to measure. */
import type { InputItem, InputOption, InputRoom, InputStep, PlanInput } from '#application';
import type { StepKind } from '#care';

/** 07:00 exactly, so that slot 0 begins now. */
export const SEVEN = Date.parse('2026-05-09T07:00:00Z');
export const HOUR = 3_600_000;

export function careStep(step: StepKind, change: Partial<InputStep> = {}): InputStep {
  return { step, zone: 'dirty', minutesPerPiece: 10, crew: 1, skill: null, barredRestrictions: [], ppe: [], stabilises: false, ...change };
}

/** The usual route of a wet textile, and the freezer as the way out. */
export const TREAT: InputOption = {
  disposition: 'treat', needs: 0,
  steps: [careStep('assess'), careStep('rinse', { crew: 2, minutesPerPiece: 20 }), careStep('blot', { zone: 'clean' }), careStep('dry', { zone: 'clean', minutesPerPiece: 10, crew: 2, stabilises: true }), careStep('check', { zone: 'clean' }), careStep('hand-back', { zone: 'clean' })],
};
export const FREEZE: InputOption = { disposition: 'hold-frozen', needs: 0, steps: [careStep('wrap'), careStep('freeze', { zone: 'cold', stabilises: true })] };
export const REFER: InputOption = { disposition: 'refer', needs: 0, steps: [careStep('pack'), careStep('refer', { stabilises: true })] };
export const RELEASE: InputOption = { disposition: 'release', needs: 0, steps: [careStep('photograph'), careStep('release', { stabilises: true })] };

export function item(change: Partial<InputItem> = {}): InputItem {
  return {
    id: 'thing', siteId: 'hall', count: 1, sizeClass: 'garment', areaDm2: 120, volumeL: 8, dryMassG: 500, planningWeight: 12, keeper: { kind: 'holding', id: 'door' }, stage: 'waiting',
    stabilisedAtMs: null, disposition: 'treat', nextStep: 'assess', keeperSinceMs: SEVEN - HOUR, keeperPersonId: null, startByMs: SEVEN + 20 * HOUR, deadlinesMs: [SEVEN + 20 * HOUR], options: [TREAT, FREEZE],
    mould: 'none', wetState: 'wet', override: null, doneSteps: [], ...change,
  };
}

export const MACHINE = { ratedLPerDay: 70, ratedTempC: 26.7, ratedRelativeHumidityPct: 60 };

export function room(change: Partial<InputRoom> = {}): InputRoom {
  return { id: 'room', siteId: 'hall', name: 'Upper hall', volumeM3: 600, airChangesPerH: 0.5, humidityCapPct: 75, airTempC: 20, relativeHumidityPct: 60, running: [MACHINE], ...change };
}

export function input(change: Partial<PlanInput> = {}): PlanInput {
  return {
    incidentId: 'incident', timeZone: 'UTC', outdoorAirTempC: 24, outdoorRelativeHumidityPct: 90, siteNames: { hall: 'Hall' },
    stations: [{ id: 'bath', siteId: 'hall', zone: 'dirty', steps: ['assess', 'rinse', 'wrap', 'pack'], capacity: 2, openings: [] }],
    people: [{ id: 'ann', siteId: 'hall', skills: ['lead'], restrictions: [], respiratorFitUntil: null, shifts: [{ fromMs: SEVEN, toMs: SEVEN + 12 * HOUR }] }],
    rooms: [room()], places: [{ id: 'rack', roomId: 'room', areaDm2: 3000 }], freezers: [{ id: 'chest', siteId: 'hall', name: 'Chest', volumeL: 300, availableFromMs: SEVEN + 2 * HOUR }],
    items: [item()], ...change,
  };
}
