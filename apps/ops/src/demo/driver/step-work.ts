import type { z } from 'zod';
import type { CustodyEventBody, StepReportBody, TriageBody } from '#contracts';
import type { StepKind } from '#care';
import { ApiRefusal } from '../api-client.js';
import { observedBy } from '../world/observed.js';
import type { LastWetting } from '../world/true-goods.js';
import type { Book, KnownItem } from './book.js';
import type { Outcomes } from './outcomes.js';
import type { Job } from './site-work.js';
import type { Tally } from './tally.js';

type CustodyEvent = z.output<typeof CustodyEventBody>;
type Triage = z.output<typeof TriageBody>;

/** A step that only looks: it is done where the thing lies, so the thing changes no hands. */
const LOOKS_ONLY: ReadonlySet<StepKind> = new Set(['assess', 'photograph', 'tag']);

/** What a step leaves of the water in a thing. */
const WETTING: Partial<Record<StepKind, LastWetting>> = { rinse: 'rinsed', blot: 'blotted', thaw: 'thawed' };

/** How a step of one item is carried out and reported, one command after another. */
export class StepWork {
  private readonly tries = new Map<string, number>();

  constructor(
    private readonly book: Book,
    private readonly outcomes: Outcomes,
    private readonly tally: Tally,
  ) {}

  /** Takes the thing in hand. False when it was refused; then nothing has changed. */
  async begin(job: Job): Promise<boolean> {
    if (LOOKS_ONLY.has(job.order.step)) return true;
    return this.pass(job.known, { kind: 'work-started', to: { kind: 'station', id: job.stationId }, personId: job.personIds[0] ?? null, occurredAt: iso(job.startsAtMs) });
  }

  /** Reports how it ended. */
  async end(job: Job): Promise<void> {
    try {
      if (job.order.step === 'assess') return await this.assess(job);
      if (job.order.step === 'colour-test') await this.testColours(job);
      await this.report(job);
    } catch (error) {
      this.tally.refusal(error);
      await this.book.reread(job.known.item.id);
      if (job.known.item.stage === 'in-work') await this.putBack(job);
    }
  }

  /** Records that a thing changed hands. False when it was refused; the refusal is added to those given. */
  async pass(known: KnownItem, passing: { kind: string; to: { kind: string; id: string }; personId: string | null; occurredAt: string }, refusals: ApiRefusal[] = []): Promise<boolean> {
    try {
      const { body } = await this.book.api.post<CustodyEvent>(`/v1/items/${known.item.id}/custody-events`, { ...passing, from: known.item.keeper });
      known.item = { ...known.item, keeper: body.to, stage: body.stage, custodySeq: body.seq };
      return true;
    } catch (error) {
      refusals.push(this.tally.refusal(error));
      await this.book.reread(known.item.id);
      return false;
    }
  }

  /** As `pass`, to another place of the kind when the answer names one in better company; the place where it went, or null. */
  async passWhereItMay(known: KnownItem, passing: { kind: string; to: { kind: string; id: string }; personId: string | null; occurredAt: string }): Promise<string | null> {
    const refusals: ApiRefusal[] = [];
    if (await this.pass(known, passing, refusals)) return passing.to.id;
    const turnedAwayTo = refusals[0] ? betterPlace(refusals[0], passing.to.kind) : null;
    if (turnedAwayTo === null) return null;
    this.tally.count('put elsewhere for its company');
    return (await this.pass(known, { ...passing, to: { kind: passing.to.kind, id: turnedAwayTo } })) ? turnedAwayTo : null;
  }

  private async assess(job: Job): Promise<void> {
    const { thing } = job.known;
    const { materialClass, fibre, wetState, water, mould, fragility, significance, onlyCopy, highMarketValue } = observedBy(thing, { treat: null, freeze: null, refer: null, release: null });
    const { body } = await this.book.api.post<Triage>(`/v1/items/${job.known.item.id}/assessments`, {
      personId: job.personIds[0], assessedAt: iso(job.endsAtMs), materialClass, fibre, wetState, wettedAt: iso(thing.wettedAtMs), water, mould, fragility, significance, onlyCopy, highMarketValue,
    });
    this.learn(job.known, body);
    this.tally.count('assessed');
  }

  private async testColours(job: Job): Promise<void> {
    const { thing } = job.known;
    const colours = thing.colours.length > 0 ? thing.colours : ['whole surface'];
    const bleeds = this.outcomes.nextColourTestBleeds(thing);
    const tests = colours.map((colour, index) => ({ colour, solution: 'water', method: 'swab', reading: bleeds && index === 0 ? 'any-transfer' : 'no-transfer' }));
    const { body } = await this.book.api.post<Triage>(`/v1/items/${job.known.item.id}/colour-tests`, { personId: job.personIds[0], testedAt: iso(job.endsAtMs), tests, allColoursTested: true });
    this.learn(job.known, body);
    this.tally.count('colour tests');
    if (bleeds) this.tally.count('colour tests that bled');
  }

  private async report(job: Job): Promise<void> {
    const { known, order } = job;
    const tryKey = `${known.item.id}/${order.step}`;
    const nth = (this.tries.get(tryKey) ?? 0) + 1;
    this.tries.set(tryKey, nth);
    const outcome = this.outcomes.stepEnds(known.thing, order.step, nth);
    const isLook = order.step === 'colour-test';
    const freezer = order.goesTo?.kind === 'freezer' ? { kind: 'freezer', id: order.goesTo.id } : null;
    const told = {
      step: order.step, outcome, disposition: isLook ? null : order.disposition, personId: job.personIds[0], withPersonIds: job.personIds.slice(1), stationId: job.stationId, startedAt: iso(job.startsAtMs), finishedAt: iso(job.endsAtMs), restMinutes: order.people?.restMinutes ?? 0, liftingAid: order.people?.liftingAid ?? false,
    };
    const body = order.step === 'freeze' && outcome === 'done' ? await this.freeze(known, told, freezer) : await this.tell(known, told);
    known.item = body.item;
    if (outcome === 'done') known.wetting = WETTING[order.step] ?? known.wetting;
    this.tally.count(outcome === 'done' ? `step ${order.step}` : `ended ${outcome}`);
  }

  private async tell(known: KnownItem, told: object): Promise<z.output<typeof StepReportBody>> {
    return (await this.book.api.post<z.output<typeof StepReportBody>>(`/v1/items/${known.item.id}/step-results`, told)).body;
  }

  /** Into another freezer when the answer names one in better company. */
  private async freeze(known: KnownItem, told: object, freezer: { kind: string; id: string } | null): Promise<z.output<typeof StepReportBody>> {
    try {
      return await this.tell(known, { ...told, to: freezer });
    } catch (error) {
      const id = error instanceof ApiRefusal ? betterPlace(error, 'freezer') : null;
      if (id === null) throw error;
      this.tally.refusal(error);
      this.tally.count('put elsewhere for its company');
      return this.tell(known, { ...told, to: { kind: 'freezer', id } });
    }
  }

  /** What was refused at the table goes back to the shelf, so that nobody looks for it at a station. */
  private async putBack(job: Job): Promise<void> {
    const site = this.book.layout.sites.find((candidate) => candidate.id === job.known.item.siteId);
    const shelf = site?.holdingAreas.find((area) => area.zone === job.order.care?.zone) ?? site?.holdingAreas[0];
    if (shelf) await this.pass(job.known, { kind: 'work-ended', to: { kind: 'holding', id: shelf.id }, personId: job.personIds[0] ?? null, occurredAt: iso(job.endsAtMs) });
  }

  private learn(known: KnownItem, triage: Triage): void {
    known.item = { ...known.item, nextStep: triage.nextStep, disposition: triage.disposition, waitingForOwner: triage.waitingForOwner, startBy: triage.startBy, urgency: triage.urgency };
  }
}

/** The first place of a kind that a refusal for bad company names. */
function betterPlace({ code, members }: ApiRefusal, kind: string): string | null {
  if (code !== 'company_refused') return null;
  const named = members['alternatives'] as { keeper: { kind: string; id: string } }[] | undefined;
  return named?.find(({ keeper }) => keeper.kind === kind)?.keeper.id ?? null;
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}
