/** Households and when what they bring arrives. */
import { slotsOf, type Settings } from './settings.js';
import { byShare, type Streams } from './streams.js';

const MOST_ITEMS_OF_HOUSEHOLD = 40;
const HOUSEHOLD_EXPONENT = 1.3;
const ARRIVAL_HOURS = 192;
/** What one household brings arrives within so many hours. */
const HOUSEHOLD_HOURS = 2;

export interface Arrivals { releaseSlots: number[]; households: number[] }

/** Release and household of each item, in order of households. */
export function arrivalsOf(streams: Streams, settings: Settings, items: number): Arrivals {
  const households = householdsOf(streams, items);
  const count = (households.at(-1) ?? -1) + 1;
  const trucks = trucksOf(streams, settings);
  const [which, when, within] = [streams('arrivals/truck'), streams('arrivals/household'), streams('arrivals/item')];
  const { hour } = slotsOf(settings);
  const lastUnit = 1 - Math.exp(-ARRIVAL_HOURS / settings.arrivalMeanHours);
  const begins = Array.from({ length: count }, () => {
    const truck = trucks[byShare([...trucks.map(({ share }) => share), 1], which.unit())];
    const unit = when.unit();
    if (truck !== undefined) return { atHour: truck.atHour, spreadHours: truck.hours };
    return { atHour: -settings.arrivalMeanHours * Math.log(1 - unit * lastUnit), spreadHours: HOUSEHOLD_HOURS };
  });
  const releaseSlots = households.map((household) => {
    const { atHour, spreadHours } = begins[household]!;
    return Math.floor((atHour + within.unit() * spreadHours) * hour);
  });
  return { releaseSlots, households };
}

/** Household of each item; sizes 1 to 40 by Zipf's law, the last one cut short. */
function householdsOf(streams: Streams, items: number): number[] {
  const dice = streams('households');
  const shares = Array.from({ length: MOST_ITEMS_OF_HOUSEHOLD }, (_, i) => (i + 1) ** -HOUSEHOLD_EXPONENT);
  const sum = shares.reduce((a, b) => a + b, 0);
  const households: number[] = [];
  for (let household = 0; households.length < items; household += 1) {
    const size = 1 + byShare(shares.map((share) => share / sum), dice.unit());
    for (let i = 0; i < size && households.length < items; i += 1) households.push(household);
  }
  return households;
}

interface Truck { share: number; atHour: number; hours: number }

/** Trucks of the first four days (ours; the study says only how many). */
function trucksOf(streams: Streams, { bursts }: Settings): Truck[] {
  const dice = streams('trucks');
  const drawn = dice.between(2, 4);
  const trucks = Array.from({ length: 4 }, () => ({ share: 0.05 + 0.1 * dice.unit(), atHour: 6 + 90 * dice.unit(), hours: 1 }));
  if (bursts === null) return trucks.slice(0, drawn);
  return Array.from({ length: bursts.count }, (_, i) => ({ ...trucks[i % trucks.length]!, share: bursts.share, hours: bursts.hours }));
}
