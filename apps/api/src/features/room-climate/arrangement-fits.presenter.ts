import type { z } from 'zod';
import type { RoomFit, RoomFitsView, UnusedReason } from '#application';
import { render, say, type Language, type Message } from '#care';
import type { ArrangementFitsBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso } from '../../presenters/time.js';

type Body = z.output<typeof ArrangementFitsBody>;
type Fit = RoomFit['fit'];

const STANDING = say('Advice to a trained lead. A fit tells how fast things have dried in the air that was read, with the areas of standard things and by our own calibration; it does not tell that they are dry. Weigh and touch them.');

const REASONS: Readonly<Record<UnusedReason, Message>> = {
  'dry-mass-not-known': say('Nobody knows what it weighs dry.'),
  'below-critical': say('It was nearly dry, and then things slow down by themselves.'),
  'weight-went-up': say('It was heavier than before: wetted again, or mixed up. What was weighed from here on counts by itself.'),
  'same-time': say('It was weighed twice at one moment.'),
  'air-not-known': say('Nobody measured the air of the room all the way since the weighing before.'),
  'air-outside-model': say('On the way the air was outside what the drying model answers for (1 to 45 °C).'),
  'air-dries-nothing': say('The air was so damp that nothing dries in it.'),
  'no-partner': say('There is no other weighing to compare it with: weigh it again after some hours.'),
  'in-doubt': say('The weighing is in doubt.'),
  'lot-split': say('Pieces were taken out of the lot since, so it was more then than it is now.'),
};

/** As fine as the data can tell. */
const round = (value: number, digits = 3): number => Number(value.toFixed(digits));
const interval = ({ low, high }: Fit['interval80']): { low: number; high: number } => ({ low: round(low), high: round(high) });
const factorOf = ({ factor, interval80, interval95 }: Pick<Fit, 'factor' | 'interval80' | 'interval95'>) => ({ factor: round(factor), interval80: interval(interval80), interval95: interval(interval95) });

export function presentArrangementFits({ room, asOfMs, weighings, olderWeighings, fits, tagOf }: RoomFitsView, language: Language): Body {
  const tag = (itemId: string): string => formatTagCode(tagOf.get(itemId) ?? '');
  return {
    room: { id: room.id, code: room.code, name: room.name }, asOf: iso(asOfMs), weighings, olderWeighings,
    fits: fits.map((one) => fitOf(one, tag, language)), standing: render(STANDING, language),
  };
}

function fitOf(one: RoomFit, tag: (itemId: string) => string, language: Language): Body['fits'][number] {
  const { material, build, arrangement, stays, fit, unused, speed } = one;
  const itemOf = new Map(stays.map(({ id, itemId }) => [id, itemId]));
  return {
    material, build, arrangement, dryingPlaceIds: [...new Set(stays.flatMap(({ placeIds }) => placeIds))].sort(),
    ...factorOf(fit), prior: factorOf(fit.prior), scatter: round(fit.scatter), informative: fit.informative, appliedFactor: speed && round(speed.factor),
    inWords: wordsOf(one).map((message) => render(message, language)),
    used: fit.used.map(({ seriesId, fromMs, toMs, weighings, lossKg, expectedKg, factor, factorError }) => {
      const itemId = itemOf.get(seriesId) ?? '';
      return { itemId, tag: tag(itemId), from: iso(fromMs), to: iso(toMs), weighings, lossKg: round(lossKg), lossAtFactor1Kg: round(expectedKg), factor: round(factor), factorError: round(factorError) };
    }),
    unused: unused.map(({ itemId, atMs, reason }) => ({ itemId, tag: tag(itemId), weighedAt: iso(atMs), reason, statement: render(REASONS[reason], language) })),
  };
}

function wordsOf({ fit, speed, build }: RoomFit): Message[] {
  const percent = (factor: number): number => Math.round((100 * factor) / fit.prior.factor);
  const weighings = fit.used.reduce((sum, run) => sum + run.weighings, 0);
  if (weighings === 0) return [say('No weighing could be used, so the room is reckoned with the general factor. Weigh a thing twice while it is clearly wet, some hours apart.')];
  if (!fit.informative) return [say('What was weighed says little against its own error, so the room is reckoned with the general factor. Wait longer between weighings, or use a finer scale.')];
  const numbers = { weighings, percent: percent(fit.factor), low: percent(fit.interval80.low), high: percent(fit.interval80.high) };
  if (speed === null) return [say('By {weighings} weighings such things dry at {percent} % of the speed that is otherwise assumed, which is faster than can be. Look at the weights and at the scale; the room is reckoned with the general factor.', numbers)];
  const told = say('By {weighings} weighings such things dry at {percent} % of the speed that is otherwise assumed, most likely {low} to {high} %. The room is reckoned with it.', numbers);
  return build === 'thin' ? [told] : [told, say('They dry from inside: this tells how they begin, and only weighing tells when they are dry.')];
}
