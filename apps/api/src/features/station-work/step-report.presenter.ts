import type { z } from 'zod';
import type { StepReport } from '#application';
import type { StepReportBody } from '#contracts';
import { presentItem } from '../../presenters/item.presenter.js';

export function presentStepReport(report: StepReport): z.output<typeof StepReportBody> {
  return { stepResultId: report.result.id, item: presentItem(report.item), next: report.next, changes: report.changes, planRunId: report.planRunId };
}
