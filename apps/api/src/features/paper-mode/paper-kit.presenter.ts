import type { z } from 'zod';
import type { LineVerdict, PaperKitRecord, PaperKitView, SlipVerdict } from '#application';
import { renderWithin, type Language } from '#care';
import { PROBLEMS, type LineVerdictsBody, type NewPaperKitBody, type PaperKitBody, type SlipVerdictsBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';

function presentKit({ id, incidentId, siteId, tagBlockId, slips, createdAtMs }: PaperKitRecord) {
  return { id, incidentId, siteId, tagBlockId, slips, createdAt: iso(createdAtMs) };
}

export function presentNewKit({ kit, codes }: { kit: PaperKitRecord; codes: readonly string[] }): z.output<typeof NewPaperKitBody> {
  return { ...presentKit(kit), tags: codes.map(formatTagCode) };
}

export function presentPaperKit({ kit, counts, slips, sheets }: PaperKitView): z.output<typeof PaperKitBody> {
  return {
    ...presentKit(kit), counts: { keyed: counts.keyed, void: counts.void, missing: counts.printed },
    list: slips.map((slip) => ({
      slipNo: slip.slipNo, tag: formatTagCode(slip.tagCode), state: slip.state === 'printed' ? 'missing' : slip.state, itemId: slip.itemId, voidReason: slip.voidReason,
      writtenAt: isoOrNull(slip.writtenAtMs), keyedAt: isoOrNull(slip.keyedAtMs), keyedBy: slip.keyedBy,
    })),
    sheets,
  };
}

export function presentVerdicts(verdicts: readonly SlipVerdict[], language: Language): z.output<typeof SlipVerdictsBody> {
  return { results: verdicts.map((verdict) => ({ ...verdict, problem: verdict.problem === null ? null : presentProblem(verdict.problem, language) })) };
}

export function presentLineVerdicts(verdicts: readonly LineVerdict[], language: Language): z.output<typeof LineVerdictsBody> {
  return { results: verdicts.map((verdict) => ({ ...verdict, problem: verdict.problem === null ? null : presentProblem(verdict.problem, language) })) };
}

function presentProblem({ code, detail, errors, members }: NonNullable<SlipVerdict['problem']>, language: Language) {
  const { title, status } = PROBLEMS[code];
  return { code, title, status, detail, ...(renderWithin(members ?? {}, language) as Record<string, unknown>), ...(errors === undefined ? {} : { errors }) };
}
