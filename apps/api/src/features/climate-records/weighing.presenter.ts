import type { z } from 'zod';
import { type WeighingOutcome, type WeighingRecord, weighingDoubtWords } from '#application';
import { type Language, render } from '#care';
import type { WeighingBody, WeighingsReportBody } from '#contracts';
import { iso } from '../../presenters/time.js';
import { presentRemark } from './reading.presenter.js';

export function presentWeighing({ weighedAtMs, recordedAtMs, doubt, ...weighing }: WeighingRecord, language: Language): z.output<typeof WeighingBody> {
  return { ...weighing, weighedAt: iso(weighedAtMs), doubt: doubt === null ? null : { code: doubt, text: render(weighingDoubtWords(doubt), language) }, recordedAt: iso(recordedAtMs) };
}

export function presentWeighingsReport(outcomes: readonly WeighingOutcome[], language: Language): z.output<typeof WeighingsReportBody> {
  const count = (outcome: WeighingOutcome['outcome']) => outcomes.filter((one) => one.outcome === outcome).length;
  return {
    accepted: count('accepted'), doubtful: count('doubtful'), duplicate: count('duplicate'), conflicting: count('conflicting'), refused: count('refused'),
    rows: outcomes.map(({ remarks, ...row }) => ({ ...row, remarks: remarks.map((remark) => presentRemark(remark, language)) })),
  };
}
