/** Draws the things of an incident. Every stream is asked equally often for each item, so that no answer shifts another. */
import { CLASSES, IRREPLACEABLE, WEIGHT_SHARES, WEIGHTS, type ItemClass } from './classes.js';
import { BATHS, type Draft, type HandsOn } from './routes.js';
import { slotsOf, type Settings } from './settings.js';
import { byShare, logNormal, type Streams } from './streams.js';

/** What is drawn of one item, apart from its arrival. */
export interface DrawnItem extends Draft {
  /** Slots from its release to the end of its clock; below 0 when it comes too late. */
  clockSlots: number;
  weight: number;
}

const ATTENDED: Record<HandsOn, readonly [least: number, most: number]> = { assess: [1, 1], photograph: [1, 1], 'colour-test': [1, 3], rinse: [1, 3], stabilise: [1, 3], 'surface-clean': [1, 3], blot: [1, 2], check: [1, 2], pack: [1, 1], freeze: [1, 1] };
const MOST_STEPS = 10;
const JITTER = 0.2;
const CLOCK_SD = 0.35;
const MOST_HOURS_WET = 24;
const LITRES = { median: 4, sd: 0.9, least: 0.2, most: 120 } as const;
const AREA_DM2 = [4, 30] as const;
/** Moisture load in units of 10 g/h. */
const LOAD_UNITS = [3, 14] as const;
const LONG_TAIL_FACTOR = 10;
const SECOND_ROUTE_SAVES = [0.15, 0.4] as const;
/** Skews the weights of the treasured half of all items so that the rank correlation is 0.3: see `skewed`. */
const SKEW = 0.3 * Math.sqrt(3);

/** The drawn items; equal streams and settings give equal items. */
export function drawItems(streams: Streams, settings: Settings, count: number): DrawnItem[] {
  const dice = {
    class: streams('classes'), route: streams('routes'), duration: streams('durations'), clock: streams('clocks'), wet: streams('wetting'), freezable: streams('freezable'),
    size: streams('sizes'), area: streams('areas'), load: streams('moisture'), weight: streams('weights'), second: streams('second-routes'), tail: streams('long-tail'),
  };
  const { hour, quarter } = slotsOf(settings);
  return Array.from({ length: count }, () => {
    const kind = CLASSES[byShare(CLASSES.map(({ share }) => share), dice.class.unit())]!;
    const stretch = dice.tail.unit() < settings.longTailShare ? LONG_TAIL_FACTOR : 1;
    const units = Array.from({ length: 2 * (MOST_STEPS + 1) }, () => dice.duration.unit());
    const treat = stepsOf(kind, dice.route.unit(), dice.route.unit()).map((step, k) => ({
      kind: step,
      slots: step === 'dry'
        ? stretch * jittered(quarter * between(kind.dryQuarters, units[0]!), units[1]!)
        : jittered(quarter * between(ATTENDED[step], units[2 * k + 2]!), units[2 * k + 3]!),
    }));
    const clockHours = settings.clockFactor * (logNormal(dice.clock, kind.clockHours, CLOCK_SD) - MOST_HOURS_WET * dice.wet.unit());
    const litres = Math.min(LITRES.most, Math.max(LITRES.least, logNormal(dice.size, LITRES.median, LITRES.sd)));
    const [isSecond, saves] = [dice.second.unit() < settings.secondRouteShare, dice.second.unit()];
    return {
      name: kind.name, treat, clockSlots: Math.round(clockHours * hour), weight: weightOf(settings, kind, dice.weight.unit(), dice.weight.unit()),
      areaDm2: stretch * kind.areaFactor * between(AREA_DM2, dice.area.unit()),
      loadGPerSlot: Math.max(1, Math.round((10 * between(LOAD_UNITS, dice.load.unit())) / hour)),
      volumeCl: Math.round(litres * 100), freezable: dice.freezable.unit() < kind.freezableShare,
      secondRoute: isSecond ? 1 - SECOND_ROUTE_SAVES[0] - saves * (SECOND_ROUTE_SAVES[1] - SECOND_ROUTE_SAVES[0]) : null,
    };
  });
}

function stepsOf(kind: ItemClass, rinseUnit: number, pressUnit: number): (HandsOn | 'dry')[] {
  const baths = BATHS.slice(0, between(kind.rinses, rinseUnit));
  return [
    'assess', 'photograph', ...(kind.colourTest ? ['colour-test' as const] : []), ...baths, ...(kind.blot ? ['blot' as const] : []),
    'dry', ...(pressUnit < kind.pressShare ? ['check' as const] : []), 'pack',
  ];
}

function weightOf({ weights }: Settings, { treasured }: ItemClass, unit: number, irreplaceable: number): number {
  if (weights !== 'drawn') return 1;
  return irreplaceable < IRREPLACEABLE.share ? IRREPLACEABLE.weight : WEIGHTS[byShare(WEIGHT_SHARES, skewed(unit, treasured))]!;
}

/**
 * A uniform number that tends to be higher for treasured things. Given treasured its density is 1 + s (2u - 1), otherwise 1 - s (2u - 1);
 * as half of all things are treasured, it is uniform over all, and its correlation with being treasured is s / sqrt(3).
 */
function skewed(unit: number, treasured: boolean): number {
  const s = treasured ? SKEW : -SKEW;
  return (s - 1 + Math.sqrt((1 - s) ** 2 + 4 * s * unit)) / (2 * s);
}

/** A whole number from least to most, both included. */
function between([least, most]: readonly [number, number], unit: number): number {
  return least + Math.floor(unit * (most - least + 1));
}

function jittered(slots: number, unit: number): number {
  return Math.max(1, Math.round(slots * (1 - JITTER + 2 * JITTER * unit)));
}
