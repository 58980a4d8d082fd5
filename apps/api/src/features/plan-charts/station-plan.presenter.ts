import type { z } from 'zod';
import type { ChartedItem, StationBar, StationPlan, StationWorkState } from '#application';
import { render, say, STEP_WORDS, type Language, type Message } from '#care';
import type { Bar, LaneChart } from '#climate';
import type { StationPlanBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';
import { wallClock, type WallClock } from '../../presenters/wall-clock.js';

const STANDING = say('Advice to a trained lead, who may decide otherwise with a recorded reason. Times are rules of practice, never promises; what nobody has reported stands here as not done.');
const STATES: Readonly<Record<StationWorkState, Message>> = { planned: say('still to come'), 'in-work': say('in work'), done: say('done'), late: say('late: should have begun'), dropped: say('dropped: goes another way, or has left') };

export function presentStationPlan(plan: StationPlan, language: Language): z.output<typeof StationPlanBody> {
  const { station: { id, code, name, siteId }, revision, bars, closed } = plan;
  return {
    station: { id, code, name, siteId }, at: iso(plan.nowMs), revision: revision && { id: revision.id, number: revision.number, madeAt: iso(revision.createdAtMs) }, detailKept: plan.detailKept,
    from: iso(plan.fromMs), to: iso(plan.toMs), capacity: plan.capacity, lanes: plan.lanes, bars: bars.map((bar) => presentBar(bar, language)), leftOut: plan.leftOut,
    closed: closed.map((span) => ({ from: iso(span.fromMs), to: iso(span.toMs) })), inWords: tellingOf(plan).map((message) => render(message, language)), standing: render(STANDING, language),
  };
}

function presentBar({ lane, step, state, fromMs, toMs, batchId, from, items }: StationBar, language: Language): z.output<typeof StationPlanBody>['bars'][number] {
  return {
    lane, step, stepInWords: render(STEP_WORDS[step], language), state, startsAt: iso(fromMs), endsAt: iso(toMs), batchId, origin: from,
    items: items.map((item) => ({ itemId: item.itemId, tag: formatTagCode(item.tagCode), disposition: item.disposition, state: item.state, startedAt: isoOrNull(item.startedAtMs), finishedAt: isoOrNull(item.finishedAtMs) })),
  };
}

/** The same as a picture. */
export function drawStationPlan(plan: StationPlan, language: Language): LaneChart {
  const inWords = (message: Message): string => render(message, language);
  const clock = wallClock(plan.timeZone, language);
  const told = tellingOf(plan).map(inWords);
  const { station: { code, name }, capacity, lanes } = plan;
  return {
    title: inWords(say('{name} ({code}), work by the plan', { name, code })), description: told.join(' '), language, fromMs: plan.fromMs, toMs: plan.toMs, clock,
    timeLabel: inWords(say('Time on the clock in {zone}', { zone: clock.zone })), now: { atMs: plan.nowMs, label: inWords(say('now, {moment}', { moment: clock.moment(plan.nowMs) })) },
    label: inWords(capacity === null ? say('What is in work at the station') : say('Places of the station: {capacity}; more rows where more is in work', { capacity })),
    lanes: Array.from({ length: lanes }, (_, lane) => (capacity !== null && lane >= capacity ? `+${lane - capacity + 1}` : String(lane + 1))),
    bars: plan.bars.map((bar) => drawBar(bar, inWords, clock)), shaded: plan.closed,
    legend: { planned: inWords(STATES.planned), 'in-work': inWords(STATES['in-work']), done: inWords(STATES.done), late: inWords(STATES.late), dropped: inWords(STATES.dropped), shaded: inWords(say('closed')) },
    emptyLabel: inWords(say('Nothing to show for this time')), unnamed: (count) => inWords(say('{count, plural, one {# bar has} other {# bars have}} no room for a name: ask for fewer hours.', { count })),
    notes: [...told, inWords(STANDING)],
  };
}

/** One thing by its tag; several by the first of them and how many more. */
function drawBar({ lane, step, state, fromMs, toMs, items }: StationBar, inWords: (message: Message) => string, clock: WallClock): Bar {
  const [first] = items;
  const word = inWords(STEP_WORDS[step]);
  const [tag, more] = [formatTagCode(first?.tagCode ?? ''), items.length - 1];
  const who = more === 0 ? tag : inWords(say('{tag} and {more} more', { tag, more }));
  const told = inWords(say('{who}, “{step}”, {from} to {to}: {state}', { who, step: word, from: clock.moment(fromMs), to: timeOf(clock, toMs), state: STATES[state] }));
  return { lane, fromMs, toMs, look: state, lines: [more === 0 ? tag : `${tag} +${more}`, word], told: `${told}${actualOf(items, inWords, clock)}` };
}

function timeOf(clock: WallClock, atMs: number): string {
  return clock.moment(atMs).slice(-5);
}

/** When it was really begun and ended, where that is known of a thing that stands alone. */
function actualOf([item, ...others]: readonly ChartedItem[], inWords: (message: Message) => string, clock: WallClock): string {
  if (item === undefined || others.length > 0 || item.startedAtMs === null) return '';
  const from = timeOf(clock, item.startedAtMs);
  return ` (${inWords(item.finishedAtMs === null ? say('begun {from}', { from }) : say('begun {from}, ended {to}', { from, to: timeOf(clock, item.finishedAtMs) }))})`;
}

/** The main numbers in words. */
function tellingOf({ revision, detailKept, bars, leftOut }: StationPlan): Message[] {
  const count = (state: StationWorkState): number => bars.filter((bar) => bar.state === state).length;
  const [dropped, beside] = [count('dropped'), bars.filter(({ from }) => from === 'beside').length];
  const values = { bars: bars.length, done: count('done'), inWork: count('in-work'), late: count('late'), planned: count('planned') };
  return [
    ...(revision === null ? [say('No plan is in force yet.')] : detailKept ? [say('By plan {number}.', { number: revision.number })] : [say('Of plan {number} it is not kept what it was made from; only what is in work now is shown.', { number: revision.number })]),
    say('{bars, plural, one {# piece of work is} other {# pieces of work are}} shown: {done} done, {inWork} in work, {late} late, {planned} still to come.', values),
    ...(dropped === 0 ? [] : [say('{dropped} more {dropped, plural, one {is} other {are}} dropped: the thing goes another way, or has left.', { dropped })]),
    ...(beside === 0 ? [] : [say('{beside, plural, one {# is} other {# are}} in work although the plan has it elsewhere or not at all; when it ends is not foreseen.', { beside })]),
    ...(leftOut === 0 ? [] : [say('{leftOut} more do not fit into one answer. Ask for fewer hours.', { leftOut })]),
  ];
}
