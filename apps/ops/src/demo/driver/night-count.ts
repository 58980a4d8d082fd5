import { randomUUID } from 'node:crypto';
import type { z } from 'zod';
import type { StockTakeBody, StockTakeDifferenceBody } from '#contracts';
import { formatTagCode, makeTagCode } from '#custody';
import { eachOf } from '../api-client.js';
import { PLAY } from '../calibration.js';
import type { Dice } from '../dice.js';
import { MAIN_SITE } from '../world/region.js';
import type { Book, Item, KnownItem, Site } from './book.js';
import { peopleOf } from './site-work.js';

type StockTake = z.output<typeof StockTakeBody>;
type Difference = z.output<typeof StockTakeDifferenceBody>;
type Place = Item['keeper'];

/** Tags in one sending of a tablet. */
const BATCH = 100;
/** Things that truly lie elsewhere than the record says, at full scale; invented. */
const WRONG = { misplaced: 5, hidden: 2 } as const;

/** Came in with a neighbour: well-formed, and nobody here ever reserved it. */
const STRANGE_TAG = formatTagCode(makeTagCode(63_000_000, 'item'));

interface Sight {
  known: KnownItem;
  place: Place;
}

/** The night watch counts what waits in the main site's waiting areas and freezers, and works off what differs. */
export class NightCount {
  constructor(
    private readonly book: Book,
    private readonly dice: Dice,
    private readonly say: (line: string) => void,
  ) {}

  async count(atMs: number): Promise<void> {
    const site = this.book.site(MAIN_SITE);
    const places: Place[] = [...site.holdingAreas.map(({ id }): Place => ({ kind: 'holding', id })), ...site.freezers.map(({ id }): Place => ({ kind: 'freezer', id }))];
    const personId = this.watch(site, atMs);
    const { body: begun } = await this.book.api.post<StockTake>(`/v1/incidents/${this.book.incidentId}/stock-takes`, { places, personId });
    const { seen, hidden } = this.looks(places);
    await this.send(begun.id, [...seen, { known: null, place: places[0]!, tag: STRANGE_TAG }], personId, atMs);
    const before = await this.book.api.get<StockTake>(`/v1/stock-takes/${begun.id}`);
    this.say(`${iso(atMs).slice(11, 16)}  The night watch counts the waiting areas and freezers of the old dye works: ${before.expected} things on record, ${before.inPlace} in place, ${before.misplaced} lie elsewhere, ${before.missing} not seen, ${before.foreign} of nobody here.`);
    await this.workOff(begun.id, hidden, personId);
    const { body: closed } = await this.book.api.post<StockTake>(`/v1/stock-takes/${begun.id}/closure`, { personId });
    this.say(`       Worked off one by one, each with a reason; closed with ${closed.inPlace + closed.movedMeanwhile} of ${closed.expected} where the record has them.`);
  }

  private watch(site: Site, atMs: number): string {
    const there = peopleOf(this.book, site).filter(({ shifts }) => shifts.some(({ startsAt, endsAt }) => Date.parse(startsAt) <= atMs && Date.parse(endsAt) > atMs));
    const person = there.find(({ skills }) => skills.includes('lead')) ?? there[0] ?? peopleOf(this.book, site)[0];
    if (!person) throw new Error('nobody works at the main site');
    return person.id;
  }

  /** What the watch sees. A few things truly lie one waiting area further; a few have slipped behind a table. */
  private looks(places: readonly Place[]): { seen: Sight[]; hidden: Set<string> } {
    const counted = new Map(places.map((place) => [place.id, place]));
    const there = [...this.book.items.values()].filter(({ item, inHand }) => !inHand && counted.has(item.keeper.id));
    const waiting = there.filter(({ item }) => item.keeper.kind === 'holding' && item.stage === 'waiting');
    const chosen = this.dice.shuffled(waiting).slice(0, WRONG.misplaced + WRONG.hidden).map(({ item }) => item.id);
    const [elsewhere, hidden] = [new Set(chosen.slice(0, WRONG.misplaced)), new Set(chosen.slice(WRONG.misplaced))];
    const areas = places.filter(({ kind }) => kind === 'holding');
    const placeOf = ({ item }: KnownItem): Place => (elsewhere.has(item.id) ? areas.find(({ id }) => id !== item.keeper.id)! : counted.get(item.keeper.id)!);
    return { hidden, seen: there.filter(({ item }) => !hidden.has(item.id)).map((known) => ({ known, place: placeOf(known) })) };
  }

  private async send(id: string, sights: readonly { known: KnownItem | null; place: Place; tag?: string }[], personId: string, atMs: number): Promise<void> {
    const scans = sights.map(({ known, place, tag }) => ({ scanId: randomUUID(), itemTag: known?.item.tag ?? tag, place, seenAt: iso(atMs), personId }));
    const batches = Array.from({ length: Math.ceil(scans.length / BATCH) }, (_, index) => scans.slice(index * BATCH, (index + 1) * BATCH));
    await eachOf(batches, PLAY.parallel, async (batch) => void (await this.book.api.post(`/v1/stock-takes/${id}/scans`, { scans: batch })));
  }

  /** Every other misplaced thing stays and its record follows it; the others go back; what was hidden is found; what is of nobody here goes to the coordinator. */
  private async workOff(id: string, hidden: ReadonlySet<string>, personId: string): Promise<void> {
    const differences = await this.book.api.list<Difference>(`/v1/stock-takes/${id}/differences`);
    for (const [index, { id: differenceId, kind, itemId, state }] of differences.entries()) {
      if (state !== 'open') continue;
      const slipped = itemId !== null && hidden.has(itemId);
      const [resolution, reason] = kind === 'foreign' ? ['foreign-to-coordinator', 'Lay in the waiting area; nobody here knows it.'] : slipped ? ['put-back', 'Had slipped behind a table.'] : kind === 'misplaced' && index % 2 === 0 ? ['move-on-record', 'Stays where it lies.'] : ['put-back', 'Carried back.'];
      await this.book.api.post(`/v1/stock-takes/${id}/differences/${differenceId}/resolutions`, { resolution, personId, reason });
      if (itemId !== null) await this.book.reread(itemId);
    }
  }
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}
