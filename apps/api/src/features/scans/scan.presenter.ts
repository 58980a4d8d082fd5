import type { z } from 'zod';
import type { ScanResult, SightingRecord } from '#application';
import { renderWithin, type Language } from '#care';
import { PROBLEMS, type ScanResultsBody, type SightingBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentScans(results: readonly ScanResult[], language: Language): z.output<typeof ScanResultsBody> {
  return { results: results.map((result) => ({ ...result, problem: result.problem === null ? null : presentProblem(result.problem, language) })) };
}

function presentProblem({ code, detail, errors, members }: NonNullable<ScanResult['problem']>, language: Language) {
  const { title, status } = PROBLEMS[code];
  return { code, title, status, detail, ...(renderWithin(members ?? {}, language) as Record<string, unknown>), ...(errors === undefined ? {} : { errors }) };
}

export function presentSighting({ id, place, seenAtMs, recordedAtMs, personId, actorId, verdict, atSeq, note }: SightingRecord): z.output<typeof SightingBody> {
  return { id, place, seenAt: iso(seenAtMs), recordedAt: iso(recordedAtMs), personId, actorId, verdict, atSeq, note };
}
