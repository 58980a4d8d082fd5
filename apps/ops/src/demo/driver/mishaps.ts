import type { z } from 'zod';
import type { HouseholdReportBody, ItemBody, LotSplitBody, PlanAssignmentBody, TagBlockBody, UnplannedItemBody } from '#contracts';
import { DAY } from '../calibration.js';
import { answerOnThePhone } from '../report/household.js';
import { CODES, MAIN_SITE } from '../world/region.js';
import type { DemoThing, DemoWorld } from '../world/types.js';
import type { Book } from './book.js';
import type { Doorway } from './doorway.js';

/** One thing that happens at its hour. `replan`: the coordinator asks for a new plan at once. */
export interface Mishap {
  atMs: number;
  replan: boolean;
  happen(say: (line: string) => void): Promise<void>;
}

/** Everything that the scenario lets happen, in order. */
export function mishapsOf(world: DemoWorld, valley: Book, doorway: Doorway): Mishap[] {
  const mishap = (atMs: number, replan: boolean, happen: Mishap['happen']): Mishap => ({ atMs, replan, happen });
  return [
    mishap(DAY.powerFailsAtMs, false, async (say) => say('09:20  The power fails at the old dye works. Paper slips until ten; they are keyed in by noon, with the times on them.')),
    mishap(DAY.testersLeaveAtMs, true, (say) => testersLeave(valley, say)),
    mishap(DAY.dehumidifierTripsAtMs, false, async (say) => say('14:00  A breaker trips in the upper hall of the old dye works, and its great dehumidifier stands still. Nobody has noticed yet.')),
    mishap(DAY.trailerFromMs, true, (say) => trailer(valley, say)),
    mishap(DAY.grandmotherAsksAtMs, false, (say) => grandmotherAsks(world, valley, say)),
    mishap(DAY.dehumidifierMendedAtMs, true, (say) => dehumidifierReturns(valley, say)),
    mishap(DAY.lateLotAtMs, true, (say) => lateLot(world, valley, doorway, say)),
    mishap(DAY.lateLotAtMs + 3_600_000, false, (say) => whatThePlanSays(world, valley, say)),
  ].sort((a, b) => a.atMs - b.atMs);
}

async function testersLeave(book: Book, say: (line: string) => void): Promise<void> {
  const leaving = book.layout.people.filter((person) => person.code === CODES.testers[3] || person.code === CODES.testers[4]);
  for (const person of leaving) {
    const shift = person.shifts.find(({ startsAt, endsAt }) => Date.parse(startsAt) < DAY.testersLeaveAtMs && Date.parse(endsAt) > DAY.testersLeaveAtMs);
    if (shift) await book.api.patch(`/v1/incidents/${book.incidentId}/shifts/${shift.id}`, shift.version, { endsAt: iso(DAY.testersLeaveAtMs) });
  }
  await book.readLayout();
  say(`12:00  ${leaving.length} of the five colour testers go home.`);
}

/** The electrician has reset the breaker; somebody records it. The room's air only comes back by and by. */
async function dehumidifierReturns(book: Book, say: (line: string) => void): Promise<void> {
  const room = book.site(MAIN_SITE).dryingRooms.find((candidate) => candidate.code === CODES.hall);
  const machine = room?.dehumidifiers.find((candidate) => candidate.code === CODES.trippingDehumidifier);
  if (!room || !machine) throw new Error('the main site has no such dehumidifier');
  await book.api.patch(`/v1/incidents/${book.incidentId}/dehumidifiers/${machine.id}`, machine.version, { state: 'running' });
  await book.readLayout();
  say(`18:00  An electrician has reset the breaker: ${machine.name.toLowerCase()} in the ${room.name.toLowerCase()} runs again.`);
}

async function trailer(book: Book, say: (line: string) => void): Promise<void> {
  await book.api.post(`/v1/incidents/${book.incidentId}/freezers`, { siteId: book.site(MAIN_SITE).id, code: CODES.trailer, name: 'Freezer trailer of a partner', volumeL: 6_000, setPointC: -20, availableFrom: iso(DAY.trailerFromMs) });
  await book.readLayout();
  say("16:00  A partner's freezer trailer, 6,000 L, stands in the yard of the old dye works.");
}

async function grandmotherAsks(world: DemoWorld, book: Book, say: (line: string) => void): Promise<void> {
  const householdId = book.households.get(world.weddingQuilt.household);
  const report = await book.api.get<z.output<typeof HouseholdReportBody>>(`/v1/households/${householdId}/situation-report`);
  for (const line of answerOnThePhone(report, world.weddingQuilt.object)) say(line);
}

async function lateLot(world: DemoWorld, book: Book, doorway: Doorway, say: (line: string) => void): Promise<void> {
  const item: z.output<typeof ItemBody> = await doorway.takeIn(world.lateLot);
  say(`00:00  Hour 30: a suitcase of ${item.count} colour prints comes to the school, ${item.dryingAreaM2.toFixed(1)} m2 to lay out; its tables take ${TABLE_TAKES} prints each.`);
  const lots = await splitForTables(book, world.lateLot, item);
  say(`       Counted into ${lots} lots with tags of their own, so that each finds a table.`);
}

/** Prints that one table of the school takes. */
const TABLE_TAKES = 80;

/** Takes table after table out of a lot; answers the number of lots. */
async function splitForTables(book: Book, thing: DemoThing, lot: z.output<typeof ItemBody>): Promise<number> {
  const parts = Math.max(0, Math.ceil(lot.count / TABLE_TAKES) - 1);
  const { body: block } = await book.api.post<z.output<typeof TagBlockBody>>(`/v1/incidents/${book.incidentId}/tag-blocks`, { kind: 'item', count: Math.max(1, parts), reservedFor: 'Lots that are split' });
  let rest = lot;
  for (let part = 1; part <= parts; part += 1) {
    const { body } = await book.api.post<z.output<typeof LotSplitBody>>(`/v1/incidents/${book.incidentId}/items/${lot.id}/splits`, { count: TABLE_TAKES, tag: block.tags[part - 1] }, rest.version);
    book.remember({ ...thing, key: `${thing.key}/${part}`, count: body.part.count }, body.part);
    book.update(body.lot);
    rest = body.lot;
  }
  return parts + 1;
}

/** The plan in force says what becomes of each lot, or what stands in its way. */
async function whatThePlanSays(world: DemoWorld, book: Book, say: (line: string) => void): Promise<void> {
  const { key } = world.lateLot;
  const lots = [...book.items.values()].filter(({ thing }) => thing.key === key || thing.key.startsWith(`${key}/`));
  if (lots.length === 0) throw new Error('the late lot was not taken in');
  const unplanned = await book.api.list<z.output<typeof UnplannedItemBody>>(`/v1/incidents/${book.incidentId}/plan/unplanned`);
  for (const { item } of lots) {
    const assigned = await book.api.list<z.output<typeof PlanAssignmentBody>>(`/v1/incidents/${book.incidentId}/plan/assignments?itemId=${item.id}`);
    const blocked = unplanned.find((entry) => entry.itemId === item.id)?.blockedBy.text;
    if (assigned.length > 0) say(`       The plan for ${item.count} of the prints: ${assigned[0]?.disposition} by ${assigned.map((step) => `${step.step} ${step.startsAt.slice(11, 16)}`).join(', ')}.`);
    else say(`       The plan has no place for ${item.count} of the prints: ${blocked ?? 'they are not in the plan yet'}.`);
  }
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}
