import type { z } from 'zod';
import type { HandBackBody, ReferralBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { PLAY } from '../calibration.js';
import type { Book, Item, KnownItem } from './book.js';
import type { Tally } from './tally.js';

const AT_A_COUNTER: ReadonlySet<Item['stage']> = new Set(['waiting', 'drying', 'held-wet', 'held-frozen']);
/** How many things a lead lets go in one round with the family's agreement; our guess at an hour's talks. */
const RELEASES_A_ROUND = 6;

/** How things leave the halls: with a courier to a specialist, let go with the owner's agreement, and home. */
export class Leaving {
  private receipts = 0;

  constructor(
    private readonly book: Book,
    private readonly tally: Tally,
  ) {}

  /** The courier takes what is packed for a specialist and may go. */
  async courier(atMs: number): Promise<void> {
    const ready = this.known(({ item }) => item.nextStep === 'refer' && !item.waitingForOwner && AT_A_COUNTER.has(item.stage));
    await eachOf(ready, PLAY.parallel, async (known) => {
      const studio = known.thing.materialClass.startsWith('textile') ? 'TEXTILE' : 'PAPER';
      const specialist = this.book.layout.specialists.find((candidate) => candidate.code === studio);
      await this.leave(known, 'referred out', async () => {
        const { body } = await this.book.api.post<z.output<typeof ReferralBody>>(`/v1/items/${known.item.id}/referrals`, { specialistId: specialist?.id, reason: `Triage prefers a conservator for this ${known.thing.materialClass}.`, sentAt: iso(atMs) });
        return body.item;
      });
    });
  }

  /** A lead goes through everyday things that nobody will reach in time, thing by thing, with families that have said that they would let such things go. */
  async letGo(atMs: number): Promise<void> {
    const lead = this.book.layout.people.find((person) => person.skills.includes('lead'));
    const candidates = this.known(({ thing, item }) => item.stage === 'waiting' && thing.significance === 'everyday' && item.stabilisedAt === null && this.book.families.get(thing.household)?.consents.release === true);
    await eachOf(candidates.slice(0, RELEASES_A_ROUND), PLAY.parallel, (known) =>
      this.leave(known, 'released', async () => {
        const { householdId, id } = known.item;
        await this.book.api.post(`/v1/households/${householdId}/consents`, { scope: 'release', given: true, manner: 'spoken', itemId: id, note: 'Agreed on the phone, this thing alone.' });
        return (await this.book.api.post<Item>(`/v1/items/${id}/releases`, { to: 'disposed', personId: lead?.id, releasedAt: iso(atMs) })).body;
      }),
    );
  }

  /** Families fetch what is ready, each with one receipt. */
  async handBacks(atMs: number): Promise<void> {
    const ready = byHousehold(this.known(({ item }) => item.nextStep === 'hand-back' && !item.waitingForOwner && AT_A_COUNTER.has(item.stage)));
    await eachOf([...ready], PLAY.parallel, async ([householdId, things]) => {
      this.receipts += 1;
      try {
        await this.book.api.post<z.output<typeof HandBackBody>>(`/v1/households/${householdId}/hand-backs`, {
          items: things.map(({ item, thing }) => ({ itemId: item.id, conditionNote: thing.materialClass === 'textile-everyday' ? 'Drained and bagged for the household’s own wash.' : 'Dry, as far as touch and weight tell.' })),
          receiver: 'contact', identityCheck: 'document-seen', signatureRef: `receipts/${iso(atMs).slice(0, 10)}/${this.book.network}-${this.receipts}`, handedAt: iso(atMs),
        });
        this.tally.count('receipts');
        this.tally.count('handed back', things.length);
      } catch (error) {
        this.tally.refusal(error);
      }
      for (const { item } of things) await this.book.reread(item.id);
    });
  }

  private async leave(known: KnownItem, what: string, command: () => Promise<Item>): Promise<void> {
    try {
      known.item = await command();
      this.tally.count(what);
    } catch (error) {
      this.tally.refusal(error);
      await this.book.reread(known.item.id);
    }
  }

  private known(test: (known: KnownItem) => boolean): KnownItem[] {
    return [...this.book.items.values()].filter((known) => !known.inHand && test(known));
  }
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}

function byHousehold(things: readonly KnownItem[]): Map<string, KnownItem[]> {
  const groups = new Map<string, KnownItem[]>();
  for (const known of things) groups.set(known.item.householdId, [...(groups.get(known.item.householdId) ?? []), known]);
  return groups;
}
