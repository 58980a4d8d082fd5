import type { z } from 'zod';
import { type WeighingRecord, weighingDoubtWords } from '#application';
import { type Language, render } from '#care';
import type { WeighingBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentWeighing({ weighedAtMs, recordedAtMs, doubt, ...weighing }: WeighingRecord, language: Language): z.output<typeof WeighingBody> {
  return { ...weighing, weighedAt: iso(weighedAtMs), doubt: doubt === null ? null : { code: doubt, text: render(weighingDoubtWords(doubt), language) }, recordedAt: iso(recordedAtMs) };
}
