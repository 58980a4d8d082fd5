import type { ClimateReport } from '../driver/climate-day.js';
import type { Compared } from '../driver/reckoning.js';

/** Nearer to its target than this a thing is neither wet nor dry: what a rack hand cannot tell, kg water per kg dry. */
const HARDLY_X = 0.01;
/** Masses are answered to the gram. */
const ROUNDING_KG = 0.001;

/** How well the program's reckoning agrees with the played world, moment by moment, and what that does and does not show. */
export function agreementLines(compared: ClimateReport['compared'], taken: readonly Compared[]): string[] {
  const moments = [...new Set(compared.map(({ atMs }) => atMs))].sort((a, b) => a - b);
  return [
    'the program against the truth of the played world (water to leave; off by, on average, in percent of the water at hanging):',
    ...moments.flatMap((atMs) => momentLines(atMs, compared.filter((one) => one.atMs === atMs))),
    `  weighed things when they were taken down as dry: thin ones off by ${meanOff(taken.filter(isThin))}; ${bandWords(taken.filter((one) => !isThin(one)))}; ${taken.filter(({ saidDry }) => saidDry).length} of ${taken.length} were dry by the program, too`,
    '  What is truly dry is taken down as soon as somebody is there, so what hangs and is called dry is mostly what the program is early with.',
    '  The truth moves by the same relations as the reckoning; masses, water, speeds, air changes and machines are its own. So this shows what guessing costs, and no more.',
  ];
}

const isThin = ({ build }: Compared) => build === 'thin';

function momentLines(atMs: number, rooms: ClimateReport['compared']): string[] {
  const at = new Date(atMs).toISOString().slice(5, 16).replace('T', ' ');
  const missing = rooms.filter(({ things }) => things === null).map(({ room }) => room.roomName.toLowerCase());
  const things = rooms.flatMap((one) => one.things ?? []);
  const thin = (weighed: boolean) => meanOff(things.filter((one) => isThin(one) && one.weighed === weighed));
  const wrong = things.filter(({ saidDry, trulyAboveX }) => saidDry && trulyAboveX > 0);
  const wet = wrong.filter(({ trulyAboveX }) => trulyAboveX > HARDLY_X);
  const sum = (of: (one: Compared) => number) => things.reduce((total, one) => total + of(one), 0).toFixed(1);
  return [
    `  ${at}: ${things.length} things on the racks, ${sum(({ leftKg }) => leftKg)} kg (program) and ${sum(({ trueKg }) => trueKg)} kg (truth)${missing.length === 0 ? '' : `; not reckoned in time: ${missing.join(', ')}`}`,
    `    weighed thin things off by ${thin(true)}, never weighed ones by ${thin(false)}; ${bandWords(things.filter((one) => !isThin(one)))}`,
    `    called dry: ${things.filter(({ saidDry }) => saidDry).length}, of them truly not: ${wrong.length} (${wet.length} by more than ${HARDLY_X * 100} % of their mass${wet.length === 0 ? '' : `, the wettest by ${(100 * Math.max(...wet.map(({ trulyAboveX }) => trulyAboveX))).toFixed(0)} %`})`,
  ];
}

/** Thick and closed things have a band instead of a number. */
function bandWords(things: readonly Compared[]): string {
  const outside = things.filter((one) => outsideKg(one) > ROUNDING_KG);
  return `thick and closed ones within their band: ${things.length - outside.length} of ${things.length}${outside.length === 0 ? '' : `, the others outside it by ${mean(outside.map((one) => outsideKg(one) / one.hungKg))}`}`;
}

function outsideKg({ trueKg, leftKg, leftAtMostKg }: Compared): number {
  return Math.max(0, leftKg - trueKg, trueKg - leftAtMostKg);
}

/** Mean absolute difference in percent of the water that truly had to leave when the thing was hung. */
function meanOff(things: readonly Compared[]): string {
  return mean(things.filter(({ hungKg }) => hungKg > 0).map(({ leftKg, trueKg, hungKg }) => Math.abs(leftKg - trueKg) / hungKg));
}

/** The mean, and the median beside it: a damp thing that was taken for a wet one is off by more than all its water. */
function mean(shares: readonly number[]): string {
  if (shares.length === 0) return 'nothing (0)';
  const median = [...shares].sort((a, b) => a - b)[Math.floor(shares.length / 2)] ?? 0;
  return `${((100 * shares.reduce((sum, one) => sum + one, 0)) / shares.length).toFixed(1)} % (${shares.length}; the middle one by ${(100 * median).toFixed(1)} %)`;
}
