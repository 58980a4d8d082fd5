import type { z } from 'zod';
import type { WeatherFilter, WeatherOutcome, WeatherRecord } from '#application';
import type { Language } from '#care';
import type { WeatherListQuery, WeatherRecordBody, WeatherReportBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';
import { presentRemark } from './reading.presenter.js';

export function presentWeather({ validAtMs, issuedAtMs, recordedAtMs, ...record }: WeatherRecord): z.output<typeof WeatherRecordBody> {
  return { ...record, validAt: iso(validAtMs), issuedAt: isoOrNull(issuedAtMs), recordedAt: iso(recordedAtMs) };
}

export function presentWeatherReport(outcomes: readonly WeatherOutcome[], language: Language): z.output<typeof WeatherReportBody> {
  const count = (outcome: WeatherOutcome['outcome']) => outcomes.filter((one) => one.outcome === outcome).length;
  return {
    accepted: count('accepted'), duplicate: count('duplicate'), conflicting: count('conflicting'), refused: count('refused'),
    rows: outcomes.map(({ remarks, ...row }) => ({ ...row, remarks: remarks.map((remark) => presentRemark(remark, language)) })),
  };
}

export function toWeatherFilter({ kind, from, to }: Omit<z.output<typeof WeatherListQuery>, 'limit' | 'cursor'>): WeatherFilter {
  return { ...(kind && { kind }), ...(from !== undefined && { fromMs: Date.parse(from) }), ...(to !== undefined && { toMs: Date.parse(to) }) };
}
