/** A drying room made of plain rows, as the database would give them. */
import type { ClockReading } from '#climate';
import { type CourseMachine, type HangingStay, type HistoryInput, type HungItem } from '#application';

export const START_MS = Date.parse('2026-05-09T07:00:00Z');
export const HOUR_MS = 3_600_000;
export const at = (hours: number): number => START_MS + Math.round(hours * HOUR_MS);

export function itemOf(id: string, change: Partial<HungItem> = {}): HungItem {
  return {
    id, tagCode: `TAG${id}`, householdId: 'household', count: 1, sizeClass: 'garment', dryMassG: 500, materialClass: 'textile-everyday', fibre: 'cotton', water: 'black', soil: 'light',
    wettedAtMs: at(-11), weighings: [], doubtedMs: [], lotSplitMs: null, wetSteps: [{ step: 'rinse', atMs: at(-1) }, { step: 'blot', atMs: at(-0.5) }], looks: [], earlier: [{ fromMs: at(-10), keeperKind: 'holding', placeId: 'zone' }], left: [], ...change,
  };
}

export function stayOf(itemId: string, fromH: number, toH: number | null = null, change: Partial<HangingStay> = {}): HangingStay {
  return { itemId, seq: 3, placeId: 'R1', arrangement: 'rack', fromMs: at(fromH), toMs: toH === null ? null : at(toH), splitFromId: null, ...change };
}

export function machine(change: Partial<CourseMachine> = {}): CourseMachine {
  return { id: 'machine', code: 'D1', name: 'Dehumidifier 1', ratedLPerDay: 70, ratedTempC: 26.7, ratedRelativeHumidityPct: 60, state: 'running', changes: [], ...change };
}

export function reading(hours: number, relativeHumidityPct: number, airTempC = 20): ClockReading {
  return { atMs: at(hours), airTempC, relativeHumidityPct };
}

export function inputOf(change: Partial<HistoryInput> = {}): HistoryInput {
  return {
    room: { id: 'room', incidentId: 'incident', siteId: 'site', code: 'ROOM', name: 'Drying room', volumeM3: 600, airChangesPerH: 0.5, humidityCapPct: 75 },
    incidentOpen: true, speeds: [], machines: [machine()], stays: [], items: [], readings: [], observed: [{ atMs: at(-12), airTempC: 12, relativeHumidityPct: 80 }],
    elsewhere: [{ placeId: 'zone', atMs: at(-6), airTempC: 18, relativeHumidityPct: 85 }, { placeId: 'zone', atMs: at(-4), airTempC: 19, relativeHumidityPct: 80 }], ...change,
  };
}
