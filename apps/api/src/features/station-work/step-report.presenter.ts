import type { z } from 'zod';
import type { StepReport } from '#application';
import { render, stepInLanguage, stepPlainly, type Language } from '#care';
import type { StepReportBody } from '#contracts';
import { presentItem } from '../../presenters/item.presenter.js';
import { presentChange } from '../../presenters/triage-change.presenter.js';

export function presentStepReport(report: StepReport, language: Language): z.output<typeof StepReportBody> {
  return { stepResultId: report.result.id, item: presentItem(report.item), next: report.next && stepInLanguage(stepPlainly(report.next), language), changes: report.changes.map((message) => render(message, language)), change: presentChange(report.change, language, report.result.finishedAtMs), planRunId: report.planRunId };
}
