import type { z } from 'zod';
import type { HouseholdItemView, HouseholdReport, Reconciliation, SituationReport } from '#application';
import { formatTagCode } from '#custody';
import type { HouseholdReportBody, ReconciliationBody, SituationReportBody } from '#contracts';
import { iso } from '../../presenters/time.js';

const ADVICE = 'Figures of this moment. Times by which handling should start are rules of practice; a trained lead decides, and nobody is promised an outcome.';
const TO_FAMILY = 'We do what we can and tell you honestly how it stands. First aid stabilises; it does not restore, and we cannot promise an outcome.';

export function presentSituation(report: SituationReport): z.output<typeof SituationReportBody> {
  const { untilMs, ...atRisk } = report.atRiskUntil;
  return {
    incidentId: report.incidentId,
    at: iso(report.atMs),
    stages: report.stages,
    urgencies: report.urgencies,
    stabilised: report.stabilised,
    overdue: report.overdue,
    atRisk: { ...atRisk, until: iso(untilMs) },
    waitingForOwner: report.waitingForOwner,
    places: report.fills,
    rooms: report.rooms.map(({ measuredAtMs, ...room }) => ({ ...room, aboveCap: room.relativeHumidityPct > room.humidityCapPct, measuredAt: iso(measuredAtMs) })),
    plan: report.plan && {
      number: report.plan.number, at: iso(report.plan.createdAtMs), plannedItems: report.plan.plannedItems, unplannedItems: report.plan.unplannedItems, weightNotInTime: report.plan.weightNotInTime, summary: report.plan.summary,
    },
    standing: ADVICE,
  };
}

export function presentReconciliation(found: Reconciliation): z.output<typeof ReconciliationBody> {
  return { ...found, chainFaults: found.chainFaults.map(({ itemId, seq, fault }) => ({ itemId, seq, fault })) };
}

const IN_WORDS: Record<HouseholdItemView['stage'], string> = {
  waiting: 'It is with us and waits for its next step.',
  'in-work': 'Someone is working on it now.',
  drying: 'It is drying.',
  'held-wet': 'It is kept wet on purpose until the right people can treat it.',
  'held-frozen': 'It is frozen, which stops further damage until it can be treated.',
  'referred-out': 'It is with a specialist.',
  released: 'It was released as you agreed.',
  'handed-back': 'It was handed back.',
};

export function presentHouseholdReport(report: HouseholdReport): z.output<typeof HouseholdReportBody> {
  return {
    householdId: report.householdId,
    code: report.code,
    at: iso(report.atMs),
    items: report.items.map((item) => ({
      id: item.id, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, stage: item.stage, disposition: item.disposition, asksYou: item.waitingForOwner,
      inWords: item.waitingForOwner && item.stage === 'waiting' ? 'It waits for your decision; please speak with us.' : IN_WORDS[item.stage],
      changedAt: iso(item.updatedAtMs),
    })),
    standing: TO_FAMILY,
  };
}
