import type { Significance } from '#care';
import { DAY, MIX, SIZE } from '../calibration.js';
import { Dice } from '../dice.js';
import { KINDS_OF_THINGS, type KindOfThing } from './kinds-of-things.js';
import { NETWORK_OF_SITE } from './region.js';
import type { DemoHousehold, DemoThing, DemoWorld, FamilyConsents, SiteCode, Way } from './types.js';
import { coloursOf, familyWords, inventContact } from './words.js';

const MINUTE_MS = 60_000;

/** Households by site: the main site takes half. */
const HOUSEHOLD_SHARES: Readonly<Record<SiteCode, number>> = { DYEWORKS: 50, SCHOOL: 28, FISHHALL: 22 };

/** The invented flood: the same seed and scale give the same world, down to the words. `scale` 1 is the whole scenario. */
export function generateWorld(seed: number, scale = 1): DemoWorld {
  const households = generateHouseholds(seed, Math.max(6, Math.round(SIZE.households * scale)));
  const things = generateThings(seed, households, Math.max(60, Math.round(SIZE.things * scale)));
  const grandmother = households.find((household) => household.site === 'DYEWORKS' && household.way === 'door') ?? households[0]!;
  grandmother.consents = { treat: true, freeze: true, refer: true, release: false };
  const weddingQuilt = asWeddingQuilt(things.find((thing) => thing.household === grandmother.code) ?? things[0]!);
  const atSchool = households.filter((household) => household.site === 'SCHOOL');
  return { seed, scale, households, things: things.map((thing) => (thing.key === weddingQuilt.key ? weddingQuilt : thing)), lateLot: lateLot(seed, atSchool[0] ?? grandmother), weddingQuilt };
}

function generateHouseholds(seed: number, count: number): DemoHousehold[] {
  const households = Array.from({ length: count }, (_, index): DemoHousehold => {
    const dice = Dice.of(seed, 'household', index);
    // The first three make sure that a small demo has all sites.
    const site = index < 3 ? (['DYEWORKS', 'SCHOOL', 'FISHHALL'] as const)[index]! : dice.weighted(HOUSEHOLD_SHARES);
    const minutes = (DAY.queueEndsAtMs - DAY.opensAtMs) / MINUTE_MS;
    const arrivedAtMs = DAY.opensAtMs + dice.int(0, minutes - 1) * MINUTE_MS;
    return {
      code: `HH-${String(index + 1).padStart(4, '0')}`,
      network: NETWORK_OF_SITE[site],
      site,
      language: dice.chance(0.15) ? 'es' : 'en',
      contact: inventContact(dice, index + 1),
      consents: inventConsents(dice),
      arrivedAtMs,
      way: wayOf(site, arrivedAtMs, index),
    };
  });
  return households.sort((a, b) => a.arrivedAtMs - b.arrivedAtMs || (a.code < b.code ? -1 : 1));
}

/** The school writes tables, the main site types at the door until the power fails, the fish hall does half of each. */
function wayOf(site: SiteCode, arrivedAtMs: number, index: number): Way {
  if (site === 'SCHOOL') return 'file';
  if (site === 'FISHHALL') return index % 2 === 0 ? 'file' : 'door';
  return arrivedAtMs >= DAY.powerFailsAtMs && arrivedAtMs < DAY.powerBackAtMs ? 'slip' : 'door';
}

function inventConsents(dice: Dice): FamilyConsents {
  const answer = (yes: number, no: number) => {
    const said = dice.int(1, 100);
    return said <= yes ? true : said <= yes + no ? false : null;
  };
  return { treat: answer(92, 3), freeze: answer(80, 11), refer: answer(65, 10), release: answer(14, 30) };
}

function generateThings(seed: number, households: readonly DemoHousehold[], count: number): DemoThing[] {
  const things: DemoThing[] = [];
  const perHousehold = sharesOf(seed, households, count);
  for (const [at, household] of households.entries()) {
    for (let index = 0; index < (perHousehold[at] ?? 0); index += 1) things.push(generateThing(seed, household, things.length));
  }
  return things;
}

/** How many things each household brings: uneven, at least two, and `count` in all. */
function sharesOf(seed: number, households: readonly DemoHousehold[], count: number): number[] {
  const dice = Dice.of(seed, 'shares');
  const weights = households.map(() => dice.int(4, 20));
  const sum = weights.reduce((a, b) => a + b, 0);
  const numbers = weights.map((weight) => Math.max(2, Math.floor((weight * count) / sum)));
  let missing = count - numbers.reduce((a, b) => a + b, 0);
  for (let at = 0; missing !== 0; at = (at + 1) % numbers.length) {
    const change = missing > 0 ? 1 : (numbers[at] ?? 0) > 2 ? -1 : 0;
    numbers[at] = (numbers[at] ?? 0) + change;
    missing -= change;
  }
  return numbers;
}

function generateThing(seed: number, household: DemoHousehold, index: number): DemoThing {
  const dice = Dice.of(seed, 'thing', index);
  const family = dice.weighted(MIX);
  const kind = pickKind(dice, KINDS_OF_THINGS[family]);
  const significance = dice.weighted(kind.significance as Record<Significance, number>);
  const dear = significance === 'treasured' || significance === 'irreplaceable';
  const isTextile = kind.materialClass.startsWith('textile');
  // A family's things cross the table one after another, about one a minute.
  const arrivedAtMs = household.arrivedAtMs + (index % 15) * MINUTE_MS;
  const wettedMinutes = (DAY.wettedToMs - DAY.wettedFromMs) / MINUTE_MS;
  return {
    key: `T-${String(index + 1).padStart(5, '0')}`,
    household: household.code, network: household.network, site: household.site,
    way: household.way === 'door' ? wayOf(household.site, arrivedAtMs, 1) : household.way,
    arrivedAtMs,
    wettedAtMs: DAY.wettedFromMs + dice.int(0, wettedMinutes) * MINUTE_MS,
    object: `${dice.pick(kind.objects)}, no. ${index + 1}`,
    materialWord: kind.word,
    familyWords: familyWords(dice, dear),
    photographRef: `camera-${dice.int(1, 4)}/${String(index + 1).padStart(5, '0')}.jpg`,
    count: kind.pieces ? dice.int(kind.pieces[0], kind.pieces[1]) : 1,
    materialClass: kind.materialClass,
    sizeClass: typeof kind.size === 'string' ? kind.size : dice.pick(kind.size),
    significance, family,
    wetState: dice.weighted({ dripping: 35, wet: 50, damp: 15 }),
    fragility: dice.weighted({ sound: 78, weak: 18, 'very-degraded': 4 }),
    onlyCopy: dear ? dice.chance(0.8) : dice.chance(0.3),
    highMarketValue: dice.chance(0.01),
    mouldy: dice.chance(0.01),
    colours: isTextile ? coloursOf(dice) : [],
  };
}

function pickKind(dice: Dice, kinds: readonly KindOfThing[]): KindOfThing {
  const chosen = dice.weighted(Object.fromEntries(kinds.map((kind, at) => [String(at), kind.share])));
  return kinds[Number(chosen)]!;
}

function asWeddingQuilt(thing: DemoThing): DemoThing {
  return {
    ...thing, object: 'Wedding quilt, red and white', materialWord: 'quilt', familyWords: 'Grandmother sewed it the winter before her wedding. Is it alive?', count: 1, materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt',
    significance: 'irreplaceable', family: 'textile', wetState: 'wet', fragility: 'sound', onlyCopy: true, highMarketValue: false, mouldy: false, colours: ['red', 'white ground', 'repair thread'],
  };
}

/** 240 loose colour prints, found in an attic that the water reached late. */
function lateLot(seed: number, household: DemoHousehold): DemoThing {
  const dice = Dice.of(seed, 'late-lot');
  return {
    key: 'T-LATE', household: household.code, network: household.network, site: household.site, way: 'door',
    arrivedAtMs: DAY.lateLotAtMs, wettedAtMs: DAY.wettedToMs, object: 'Suitcase of 240 loose colour prints', materialWord: 'colour photo',
    familyWords: 'Forty years of our valley, before the dam.', photographRef: 'camera-1/late-lot.jpg', count: 240,
    materialClass: 'photo-colour-print', sizeClass: 'print-10x15', significance: 'irreplaceable', family: 'photograph', wetState: 'wet', fragility: dice.pick(['sound', 'weak']),
    onlyCopy: true, highMarketValue: false, mouldy: false, colours: [],
  };
}
