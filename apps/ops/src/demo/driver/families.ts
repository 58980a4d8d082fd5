import { eachOf } from '../api-client.js';
import { PLAY } from '../calibration.js';
import { Dice } from '../dice.js';
import type { Book, Item } from './book.js';
import type { Tally } from './tally.js';

/** Share of the families that are reached in one round of calls, and of those that say yes; our guesses. */
const REACHED = 0.6;
const SAY_YES = 0.85;

type Scope = 'treat' | 'freeze' | 'refer';

/** Calls to families: what nobody asked at the door, and what a table put back to the owner. */
export class Families {
  private round = 0;

  constructor(
    private readonly book: Book,
    private readonly seed: number,
    private readonly tally: Tally,
  ) {}

  /** One round of calls. Things whose family answered are read anew, because triage has changed with the answer. */
  async call(): Promise<void> {
    this.round += 1;
    await this.openQuestions();
    await this.questionsOfTheTables();
  }

  private async openQuestions(): Promise<void> {
    const unasked = [...this.book.households].flatMap(([code, id]) => (['treat', 'freeze', 'refer'] as Scope[]).flatMap((scope) => (this.book.families.get(code)?.consents[scope] === null ? [{ code, id, scope }] : [])));
    const answered = new Set<string>();
    await eachOf(unasked, PLAY.parallel, async ({ code, id, scope }) => {
      const dice = Dice.of(this.seed, 'call', code, scope, this.round);
      if (!dice.chance(REACHED)) return;
      const given = dice.chance(SAY_YES);
      await this.book.api.post(`/v1/households/${id}/consents`, { scope, given, manner: 'spoken', note: 'Answered on the phone.' });
      const family = this.book.families.get(code);
      if (family) family.consents[scope] = given;
      answered.add(id);
      this.tally.count('answers of families');
    });
    await eachOf([...answered], PLAY.parallel, async (id) => {
      for (const item of await this.book.api.list<Item>(`/v1/incidents/${this.book.incidentId}/items?householdId=${id}`)) this.book.update(item);
    });
  }

  private async questionsOfTheTables(): Promise<void> {
    const asked = [...this.book.items.values()].filter(({ item, thing }) => item.waitingForOwner && this.book.families.get(thing.household)?.consents.treat === true && item.stage !== 'released' && item.stage !== 'handed-back');
    await eachOf(asked, PLAY.parallel, async (known) => {
      if (!Dice.of(this.seed, 'asked', known.thing.key, this.round).chance(REACHED)) return;
      await this.book.api.post(`/v1/households/${known.item.householdId}/consents`, { scope: 'treat', given: true, manner: 'spoken', itemId: known.item.id, note: 'Asked by the table.' });
      await this.book.reread(known.item.id);
      this.tally.count('answers of families');
    });
  }
}
