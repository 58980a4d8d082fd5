import type { z } from 'zod';
import type { UnsuitedStepView } from '#application';
import { render, sourceInLanguage, type Language } from '#care';
import type { UnsuitedStepBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentUnsuitedStep({ id, itemId, stepResultId, step, outcome, people, override, recordedAtMs }: UnsuitedStepView, language: Language): z.output<typeof UnsuitedStepBody> {
  const told = people.map(({ reasons, ...person }) => ({ ...person, reasons: reasons.map(({ code, text, source }) => ({ code, text: render(text, language), source: sourceInLanguage(source, language) })) }));
  return { id, itemId, stepResultId, step, outcome, people: told, override, recordedAt: iso(recordedAtMs) };
}
