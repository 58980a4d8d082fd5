import type { z } from 'zod';
import type { PlanBody, SituationReportBody } from '#contracts';
import type { Book } from '../driver/book.js';
import { NETWORKS } from '../world/region.js';

type Situation = z.output<typeof SituationReportBody>;
type Plan = z.output<typeof PlanBody>;

const NEEDS_SHOWN = 4;

/** What the coordinator tells the meeting, in words, from the program's own reports: what is saved, what will be lost, what she needs. */
export async function coordinatorReport(book: Book, untilMs: number): Promise<string[]> {
  const situation = await book.api.get<Situation>(`/v1/incidents/${book.incidentId}/situation-report?until=${encodeURIComponent(new Date(untilMs).toISOString())}`);
  const plan = situation.plan === null ? null : await book.api.get<Plan>(`/v1/incidents/${book.incidentId}/plan`);
  return [
    `${NETWORKS[book.network].name}, ${situation.at.slice(0, 10)} ${situation.at.slice(11, 16)}`,
    `  Saved so far:     ${saved(situation)}`,
    `  At risk:          ${atRisk(situation)}`,
    ...(plan === null ? [] : planLines(book, plan)),
    ...rooms(situation),
    `  ${situation.standing}`,
  ];
}

function saved({ stages, stabilised }: Situation): string {
  const of = (stage: Situation['stages'][number]['stage']) => stages.find((tally) => tally.stage === stage)?.items ?? 0;
  const all = stages.reduce((sum, tally) => sum + tally.items, 0);
  const pieces = stages.reduce((sum, tally) => sum + tally.pieces, 0);
  return `of ${all} things (${pieces} pieces) ${stabilised.items} are safe for now: ${of('drying')} drying, ${of('held-frozen')} frozen, ${of('held-wet')} held wet, ${of('referred-out')} with conservators, ${of('handed-back')} home; ${of('released')} let go with their owners' agreement.`;
}

function atRisk({ overdue, atRisk: risk, waitingForOwner }: Situation): string {
  return `${overdue.items} are past the moment when handling had to start, ${risk.items} will be by ${risk.until.slice(11, 16)} if nothing happens; ${waitingForOwner} wait for their family's word.`;
}

function planLines(book: Book, plan: Plan): string[] {
  const sites = new Map(book.layout.sites.map((site) => [site.id, site.name]));
  const needs = plan.blocked.filter(({ kind }) => kind !== 'owner' && kind !== 'appointment').slice(0, NEEDS_SHOWN);
  return [
    `  By plan ${plan.number}:        ${plan.inTime.items} more will be safe in time (weight ${plan.inTime.weight}); ${plan.notInTime.items} will not (weight ${plan.notInTime.weight}), ${plan.late.items} of them are worked on although every deadline has passed.`,
    ...needs.map((need, index) => `  ${index === 0 ? 'She needs most:   ' : '                  '}${site(sites, need.siteId)}: ${need.text} (${need.items} things, weight ${need.weight})`),
    ...(plan.tight.length === 0 ? [] : [`  Used to the full: ${plan.tight.slice(0, NEEDS_SHOWN).map((tight) => `${tight.siteName} ${tight.kind}${tight.what === '' ? '' : ` ${tight.what}`} ${Math.round(tight.usedPct)} %`).join('; ')}`]),
  ];
}

function site(names: ReadonlyMap<string, string>, id: string | null): string {
  return id === null ? 'everywhere' : (names.get(id) ?? 'a site');
}

function rooms({ rooms: all }: Situation): string[] {
  return all.filter((room) => room.aboveCap).map((room) => `  Room too damp:    ${room.name}, ${room.relativeHumidityPct} % (cap ${room.humidityCapPct} %), ${room.dehumidifiersStopped} dehumidifier(s) standing still.`);
}
