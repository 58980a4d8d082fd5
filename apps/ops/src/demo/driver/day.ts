import { eachOf } from '../api-client.js';
import { DAY, momentMs, PLAY } from '../calibration.js';
import { Dice } from '../dice.js';
import { writeIntakeFiles, type IntakeFile } from '../files/intake-files.js';
import type { Bar, Progress } from '../progress.js';
import { coordinatorReport } from '../report/coordinator.js';
import { MAIN_SITE, NETWORK_OF_SITE } from '../world/region.js';
import type { DemoWorld, SiteCode } from '../world/types.js';
import type { Book } from './book.js';
import { ClimateDay, COMPARED_AT, type ClimateReport } from './climate-day.js';
import { Crew } from './crew.js';
import { Desk, type DeskReport } from './desks.js';
import { Doorway } from './doorway.js';
import { Drying } from './drying.js';
import { Families } from './families.js';
import { Leaving } from './leaving.js';
import { mishapsOf, type Mishap } from './mishaps.js';
import { NightCount } from './night-count.js';
import { Outcomes } from './outcomes.js';
import { planAnew, planIfOld } from './planning.js';
import { Scales } from './scales.js';
import type { SimClock } from './sim-clock.js';
import { peopleOf, SiteWork } from './site-work.js';
import { StepWork } from './step-work.js';
import { Tally } from './tally.js';

const MINUTE_MS = 60_000;
/** When couriers come, leads let go, families call and fetch, on the played days. */
const HOURS = {
  courier: [momentMs(1, 13), momentMs(1, 17), momentMs(2, 10), momentMs(2, 14)],
  letGo: [momentMs(1, 16), momentMs(1, 18), momentMs(2, 11)],
  calls: [momentMs(1, 11), momentMs(1, 15), momentMs(2, 9)],
  nightCount: [momentMs(1, 22)],
  handBacks: [momentMs(1, 18), momentMs(2, 11), momentMs(2, 15, 15)],
} as const;

/** What the day left behind, beside what is in the program. */
export interface DayReport {
  atEight: string[];
  desks: DeskReport[];
  tally: Tally;
  climate: ReadonlyMap<Book, ClimateReport>;
}

interface SitePlay {
  siteId: string;
  work: SiteWork;
  drying: Drying;
  scales: Scales;
}

/** Plays the scenario on running processes: everything that people would do, by the public API. */
export class Day {
  private readonly tally = new Tally();
  private readonly desks: DeskReport[] = [];
  private readonly doorways: Map<string, Doorway>;
  private readonly sites: SitePlay[];
  private readonly leaving: Leaving[];
  private readonly families: Families[];
  private readonly mishaps: Mishap[];
  private readonly nightCount: NightCount;
  private readonly climate: ClimateDay;
  private readonly files: IntakeFile[];
  private atEight: string[] = [];
  private lastPlanAtMs = 0;

  constructor(
    private readonly world: DemoWorld,
    private readonly books: readonly Book[],
    private readonly clock: SimClock,
    private readonly progress: Progress,
    /** Called once for each step of the day, before it is played: the drill kills processes here. */
    private readonly betweenSteps: (step: number, steps: number) => void,
    /** Called whenever new plans were waited for. */
    private readonly afterPlans: (nowMs: number) => Promise<void>,
  ) {
    const { seed } = world;
    const outcomes = new Outcomes(seed, world.scale);
    this.doorways = new Map(books.map((book) => [book.network, new Doorway(book, world.things.filter((thing) => thing.network === book.network))]));
    const crews = new Map(books.flatMap((book) => book.layout.sites.map((site) => [site.id, new Crew(peopleOf(book, site))])));
    this.climate = new ClimateDay(world, books, crews, (line) => progress.say(line));
    this.sites = books.flatMap((book) => {
      const step = new StepWork(book, outcomes, this.tally);
      return book.layout.sites.map((site): SitePlay => {
        const [crew, truth] = [crews.get(site.id)!, this.climate.truths.get(site.code as SiteCode)!];
        const scales = new Scales(book, truth, seed, world.scale, this.tally);
        return { siteId: site.id, work: new SiteWork(book, site, crew, step), drying: new Drying({ book, site, step, outcomes, tally: this.tally, seed, crew, truth, scales }), scales };
      });
    });
    this.leaving = books.map((book) => new Leaving(book, this.tally));
    this.families = books.map((book) => new Families(book, seed, this.tally));
    const valley = books.find((book) => book.network === NETWORK_OF_SITE[MAIN_SITE])!;
    this.mishaps = mishapsOf(world, valley, this.doorways.get(valley.network)!);
    this.nightCount = new NightCount(valley, Dice.of(seed, 'night-count'), (line) => progress.say(line));
    this.files = writeIntakeFiles(world, new Map(books.flatMap((book) => [...book.tags])));
  }

  async play(): Promise<DayReport> {
    const spans = stepsOfTheDay();
    const bars = { intake: this.progress.bar('intake', this.world.things.length + 1), mending: this.progress.bar('mending', 1), day: this.progress.bar('the day', spans.length) };
    const mend = mendingBar(bars.mending, this.files);
    await this.climate.begin();
    for (const [index, { fromMs, toMs }] of spans.entries()) {
      this.betweenSteps(index, spans.length);
      await this.clock.set(toMs);
      await this.climate.measure(fromMs, toMs);
      await this.intake(fromMs, toMs, bars.intake, mend);
      const mishap = await this.strike(fromMs, toMs);
      const struck = (await this.climate.alarmRound(toMs)) || mishap;
      if (struck || this.planIsOld(toMs)) await this.plan(toMs, struck);
      await eachOf(this.sites, this.sites.length, async ({ work, drying }) => {
        await work.play(fromMs, toMs);
        await drying.play(toMs, !COMPARED_AT.includes(toMs));
      });
      await this.appointments(fromMs, toMs);
      const settlesAtMs = Date.now();
      await this.climate.settle(toMs, this.sites);
      this.tally.waitedForRoomsMs += Date.now() - settlesAtMs;
      if (toMs === DAY.reportAtMs) await this.meeting(toMs);
      bars.day.advance(1, new Date(toMs).toISOString().slice(5, 16).replace('T', ' '));
    }
    bars.intake.done();
    bars.day.done();
    return { atEight: this.atEight, desks: this.desks, tally: this.tally, climate: this.climate.reports() };
  }

  /** The doors take in who stands there, and the desks send the tables that are due. */
  private async intake(fromMs: number, toMs: number, bar: Bar, mend: (mended: number) => void): Promise<void> {
    for (const book of this.books) await this.doorways.get(book.network)?.takeInUntil(toMs, () => bar.advance());
    const due = this.files.filter((file) => file.sentAtMs > fromMs && file.sentAtMs <= toMs);
    for (const file of due) {
      const book = this.books.find((candidate) => candidate.network === NETWORK_OF_SITE[file.site])!;
      this.desks.push(await new Desk(book, file).send(({ things, mended }) => {
        bar.advance(things);
        mend(mended);
      }));
    }
  }

  private async strike(fromMs: number, toMs: number): Promise<boolean> {
    const due = this.mishaps.filter(({ atMs }) => atMs > fromMs && atMs <= toMs);
    for (const mishap of due) await mishap.happen((line) => this.progress.say(line));
    return due.some(({ replan }) => replan);
  }

  private planIsOld(nowMs: number): boolean {
    const someoneIsThere = nowMs <= DAY.reportAtMs || nowMs > momentMs(2, 7);
    return someoneIsThere && nowMs - this.lastPlanAtMs >= PLAY.planEveryMinutes * MINUTE_MS;
  }

  private async plan(nowMs: number, struck: boolean): Promise<void> {
    this.lastPlanAtMs = nowMs;
    if (struck) await planAnew(this.books, 'Something has changed.', this.tally);
    else await planIfOld(this.books, nowMs, this.tally);
    await this.afterPlans(nowMs);
    for (const { work } of this.sites) work.renew();
  }

  private async appointments(fromMs: number, toMs: number): Promise<void> {
    const isDue = (hours: readonly number[]) => hours.some((atMs) => atMs > fromMs && atMs <= toMs);
    for (const leaving of this.leaving) {
      if (isDue(HOURS.courier)) await leaving.courier(toMs);
      if (isDue(HOURS.letGo)) await leaving.letGo(toMs);
      if (isDue(HOURS.handBacks)) await leaving.handBacks(toMs);
    }
    if (isDue(HOURS.nightCount)) await this.nightCount.count(toMs);
    if (isDue(HOURS.calls)) for (const families of this.families) await families.call();
  }

  /** 20:00: what the coordinator of each network tells the region. */
  private async meeting(nowMs: number): Promise<void> {
    await this.plan(nowMs, true);
    for (const book of this.books) this.atEight.push(...(await coordinatorReport(book, momentMs(2, 8))), '');
  }
}

interface Span {
  fromMs: number;
  toMs: number;
}

/** From the opening to the end: quarter hours while people work, hours at night. */
function stepsOfTheDay(): Span[] {
  const spans: Span[] = [];
  for (let fromMs: number = DAY.opensAtMs; fromMs < DAY.endsAtMs; ) {
    const isNight = fromMs >= DAY.reportAtMs && fromMs < momentMs(2, 7);
    const toMs = Math.min(DAY.endsAtMs, fromMs + (isNight ? PLAY.nightStepMinutes : PLAY.stepMinutes) * MINUTE_MS);
    spans.push({ fromMs, toMs });
    fromMs = toMs;
  }
  return spans;
}

/** The rows that must be mended are known to the generator; the bar grows with every file. */
function mendingBar(bar: Bar, files: readonly IntakeFile[]): (mended: number) => void {
  const wrong = files.reduce((sum, file) => sum + [...file.rows.values()].filter(({ mess }) => mess !== 'none' && mess !== 'harmless' && mess !== 'duplicate').length, 0);
  bar.total(wrong);
  return (mended) => {
    if (mended > 0) bar.advance(mended);
  };
}
