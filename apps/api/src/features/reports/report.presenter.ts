import type { z } from 'zod';
import type { HouseholdItemView, HouseholdReport, PlanSummary, Reconciliation, SituationReport } from '#application';
import { render, say, type Language, type Message } from '#care';
import { formatTagCode } from '#custody';
import type { HouseholdReportBody, ReconciliationBody, SituationReportBody } from '#contracts';
import { presentSummary } from '../../presenters/plan-summary.presenter.js';
import { iso } from '../../presenters/time.js';

const ADVICE = say('Figures of this moment. Times by which handling should start are rules of practice; a trained lead decides, and nobody is promised an outcome.');
const TO_FAMILY = say('We do what we can and tell you honestly how it stands. First aid stabilises; it does not restore, and we cannot promise an outcome.');

export function presentSituation(report: SituationReport, language: Language): z.output<typeof SituationReportBody> {
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
    openMatters: report.matters,
    places: report.fills,
    rooms: report.rooms.map(({ measuredAtMs, ...room }) => ({ ...room, aboveCap: room.relativeHumidityPct > room.humidityCapPct, measuredAt: iso(measuredAtMs) })),
    plan: report.plan && {
      number: report.plan.number, at: iso(report.plan.createdAtMs), plannedItems: report.plan.plannedItems, unplannedItems: report.plan.unplannedItems, weightNotInTime: report.plan.weightNotInTime, summary: presentSummary(report.plan.summary as PlanSummary, language),
    },
    standing: render(ADVICE, language),
  };
}

export function presentReconciliation(found: Reconciliation): z.output<typeof ReconciliationBody> {
  return { ...found, chainFaults: found.chainFaults.map(({ itemId, seq, fault }) => ({ itemId, seq, fault })) };
}

const IN_WORDS: Record<HouseholdItemView['stage'], Message> = {
  waiting: say('It is with us and waits for its next step.'),
  'in-work': say('Someone is working on it now.'),
  drying: say('It is drying.'),
  'held-wet': say('It is kept wet on purpose until the right people can treat it.'),
  'held-frozen': say('It is frozen, which stops further damage until it can be treated.'),
  'referred-out': say('It is with a specialist.'),
  released: say('It was released as you agreed.'),
  'handed-back': say('It was handed back.'),
  merged: say('It was on our list twice by mistake; it goes on under the other tag.'),
};
const ASKS_YOU = say('It waits for your decision; please speak with us.');

export function presentHouseholdReport(report: HouseholdReport, language: Language): z.output<typeof HouseholdReportBody> {
  return {
    householdId: report.householdId,
    code: report.code,
    at: iso(report.atMs),
    items: report.items.map((item) => ({
      id: item.id, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, stage: item.stage, disposition: item.disposition, asksYou: item.waitingForOwner,
      inWords: item.waitingForOwner && item.stage === 'waiting' ? render(ASKS_YOU, language) : render(IN_WORDS[item.stage], language),
      changedAt: iso(item.updatedAtMs),
    })),
    standing: render(TO_FAMILY, language),
  };
}
