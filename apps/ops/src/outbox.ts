import { type DeadRow, type OutboxRelay, type Revived, reviveRow, type UnitOfWork } from '#application';
import { workerContext } from '#messaging';

/** Rows read at once. */
const PAGE = 200;
/** Dead rows shown one by one; the count says how many there are. */
const SHOWN = 20;

/** How the outbox of all networks stands, in lines for the operator: ids only. */
export async function outboxLines(relay: OutboxRelay): Promise<string[]> {
  const { open, oldestOpenAgeS, dead } = await relay.standing();
  const waits = oldestOpenAgeS === null ? '' : `, the oldest for ${Math.round(oldestOpenAgeS)} s`;
  const shown = await relay.dead(SHOWN, null);
  return [`open: ${open}${waits}`, `dead: ${dead}`, ...shown.map(deadLine), ...(dead > shown.length ? [`  ... and ${dead - shown.length} more`] : [])];
}

function deadLine({ networkId, message, tries, deadAtMs, reason }: DeadRow): string {
  return `  ${message.kind} ${message.subjectId} (network ${networkId}, outbox ${message.id}) since ${new Date(deadAtMs).toISOString()} after ${tries} runs: ${reason}`;
}

/** Makes every dead row due again, each in a transaction of its own network; answers what came of how many. */
export async function reviveDead(relay: OutboxRelay, unitOfWork: UnitOfWork): Promise<Record<Revived, number>> {
  const came: Record<Revived, number> = { 'to-be-done': 0, 'subject-over': 0, 'comes-anyway': 0, 'not-dead': 0 };
  let after: { networkId: string; outboxId: string } | null = null;
  for (;;) {
    const page: DeadRow[] = await relay.dead(PAGE, after);
    for (const { networkId, message } of page) {
      came[await unitOfWork.write(workerContext(networkId, `revive-${message.id}`, message.traceparent), (stores) => reviveRow(stores, message))] += 1;
      after = { networkId, outboxId: message.id };
    }
    if (page.length < PAGE) return came;
  }
}

export function revivedLines(came: Record<Revived, number>): string[] {
  const due = came['to-be-done'] + came['subject-over'];
  const lines = [`made due again: ${due}`];
  if (came['subject-over'] > 0) lines.push(`  of these ${came['subject-over']} have nothing left to do and are only closed: a newer plan is there, or an intake file was given up, which its network has to send again`);
  if (came['comes-anyway'] > 0) lines.push(`closed: ${came['comes-anyway']}, because the next one of each lies ahead and does the same`);
  return lines;
}
