import type { z } from 'zod';
import { type ClimatePlace, type ClimateReadingRecord, type ReadingFilter, readingDoubtWords, type ReadingOutcome, type Remark } from '#application';
import { type Language, render } from '#care';
import type { ClimateReadingBody, MeasurementRemarkBody, ReadingListQuery, ReadingsReportBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentReading(reading: ClimateReadingRecord, language: Language): z.output<typeof ClimateReadingBody> {
  const { id, incidentId, place, sensorId, sequence, measuredAtMs, airTempC, relativeHumidityPct, recordedAtMs, source, state, doubt } = reading;
  return {
    id, incidentId, placeKind: place.kind, placeId: place.id, sensorId, sequence, measuredAt: iso(measuredAtMs), airTempC, relativeHumidityPct, recordedAt: iso(recordedAtMs), source, state,
    doubt: doubt === null ? null : { code: doubt, text: render(readingDoubtWords(doubt), language) },
  };
}

export function presentRemark({ code, member, text }: Remark, language: Language): z.output<typeof MeasurementRemarkBody> {
  return { code, member, text: render(text, language) };
}

export function presentReadingsReport(outcomes: readonly ReadingOutcome[], language: Language): z.output<typeof ReadingsReportBody> {
  const count = (outcome: ReadingOutcome['outcome']) => outcomes.filter((one) => one.outcome === outcome).length;
  return {
    accepted: count('accepted'), doubtful: count('doubtful'), duplicate: count('duplicate'), conflicting: count('conflicting'), refused: count('refused'),
    rows: outcomes.map(({ remarks, ...row }) => ({ ...row, remarks: remarks.map((remark) => presentRemark(remark, language)) })),
  };
}

/** The place that a query names, if any. */
export function placeOf({ placeKind, placeId }: { placeKind?: ClimatePlace['kind'] | undefined; placeId?: string | undefined }): { place?: ClimatePlace } {
  return placeKind === undefined || placeId === undefined ? {} : { place: { kind: placeKind, id: placeId } };
}

export function toReadingFilter({ placeKind, placeId, sensorId, from, to, state }: Omit<z.output<typeof ReadingListQuery>, 'limit' | 'cursor'>): ReadingFilter {
  return {
    ...placeOf({ placeKind, placeId }), ...(sensorId && { sensorId }), ...(state && { state }),
    ...(from !== undefined && { fromMs: Date.parse(from) }), ...(to !== undefined && { toMs: Date.parse(to) }),
  };
}
