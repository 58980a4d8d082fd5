/**
 * Fingerprints of a release of the rule book: of every rule as it stands, and of what it says of things of every kind. The things
 * stand written out here and in no support file, so that nothing but the rule book can move a fingerprint.
 */
import { createHash } from 'node:crypto';
import { DEFAULT_CALIBRATION, triageOutcome, type Assessment, type Book, type MaterialClass, type Rule, type TriageContext } from '#care';

const HOUR_MS = 3_600_000;
const FLOOD_AT_MS = Date.UTC(2031, 8, 12, 18);

const SOUND: Assessment = {
  materialClass: 'textile-flat-small', fibre: 'cotton', count: 1, wetState: 'wet', wettedAtMs: FLOOD_AT_MS, water: 'clean', mould: 'none', fragility: 'sound',
  colourTests: [{ colour: 'blue ground', solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true, alreadyBled: false, hazards: [], significance: 'treasured',
  onlyCopy: true, highMarketValue: false, consents: { treat: true, freeze: true, refer: true, release: null }, soil: 'none', detachedParts: false, oldRepairs: false,
};

/** As an assessment looked before parts, soil and repairs were asked for. */
const NOTHING_KNOWN: Partial<Assessment> = {
  fibre: 'unknown', wetState: 'unknown', wettedAtMs: null, water: 'unknown', mould: 'unknown', fragility: 'unknown', colourTests: [], allColoursTested: false, alreadyBled: null, significance: 'valued', onlyCopy: null,
  highMarketValue: null, consents: { treat: null, freeze: null, refer: null, release: null }, soil: 'unknown', detachedParts: null, oldRepairs: null,
};

interface Golden {
  observed: Partial<Assessment>;
  hours: number;
  airTempC?: number;
  doneSteps?: TriageContext['doneSteps'];
}

/** Each is asked of every material. */
const THINGS: readonly Golden[] = [
  { observed: {}, hours: 1 },
  { observed: NOTHING_KNOWN, hours: 5 },
  { observed: NOTHING_KNOWN, hours: 60, airTempC: 31 },
  { observed: { wetState: 'dry', mould: 'dry', water: 'grey', soil: 'light' }, hours: 90 },
  { observed: { wetState: 'dry', mould: 'active', significance: 'everyday' }, hours: 90 },
  { observed: { wetState: 'damp', fibre: 'silk', fragility: 'weak', water: 'grey', count: 40 }, hours: 26 },
  { observed: { wetState: 'dripping', water: 'black', soil: 'heavy-mud', fibre: 'wool', consents: { treat: false, freeze: null, refer: true, release: true } }, hours: 10, airTempC: 33 },
  { observed: { water: 'salt', fibre: 'viscose', oldRepairs: true, detachedParts: true }, hours: 3 },
  { observed: { alreadyBled: true, water: 'black', significance: 'irreplaceable', fibre: 'acetate' }, hours: 14 },
  { observed: { colourTests: [{ colour: 'red', solution: 'water', method: 'swab', reading: '4-5' }], fibre: 'linen', highMarketValue: true }, hours: 20 },
  { observed: { mould: 'active', fragility: 'very-degraded', fibre: 'mixed', water: 'black' }, hours: 40 },
  { observed: { mould: 'suspected', significance: 'everyday', water: 'black', consents: { treat: null, freeze: false, refer: false, release: false } }, hours: 30 },
  { observed: { hazards: ['sewage', 'sharps'], significance: 'everyday', water: 'black', count: 250 }, hours: 6 },
  { observed: { hazards: ['fuel-or-solvent', 'asbestos', 'lithium-cell'], fibre: 'polyester' }, hours: 6 },
  { observed: { hazards: ['arsenic-era-object', 'nitrate-film', 'ammunition'], water: 'unknown' }, hours: 2 },
  { observed: { parts: ['metal-iron', 'leather-tanned'], water: 'grey' }, hours: 4 },
  { observed: { parts: ['photo-colour-print', 'paper-coated'], water: 'black', onlyCopy: false }, hours: 30 },
  { observed: { wetState: 'damp', water: 'grey' }, hours: 50, doneSteps: ['rinse', 'dry'] },
  { observed: { wetState: 'wet', mould: 'unknown', water: 'black' }, hours: 70, doneSteps: ['wrap', 'freeze'] },
];

/** Asked of every material by every side of every choice: many pieces with a trace of dye that mean nothing special, and a treasured one from the sea. */
const FOR_CHOICES: readonly Golden[] = [
  { observed: { significance: 'everyday', count: 40, colourTests: [{ colour: 'red', solution: 'water', method: 'swab', reading: '4-5' }] }, hours: 5 },
  { observed: { water: 'salt', fibre: 'wool' }, hours: 3 },
];

/** Members in one order, so that only what is said counts and not how the program writes it. */
function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).filter(([, member]) => member !== undefined).map(([key, member]): [string, unknown] => [key, canonical(member)]).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Sixteen hexadecimal digits: enough to see that two are not the same. */
const fingerprint = (value: unknown): string => createHash('sha256').update(JSON.stringify(canonical(value))).digest('hex').slice(0, 16);

const stated = ({ id, text, because, classes, families, concludes, source, floor, choiceId, choice, alternative }: Rule) => ({ id, text, because, classes, families, concludes, source, floor, choiceId, choice, alternative });

function said(book: Book, materialClass: MaterialClass, things: readonly Golden[]): unknown[] {
  return things.map(({ observed, hours, airTempC = 21, doneSteps = [] }) =>
    triageOutcome({ ...SOUND, ...observed, materialClass }, { nowMs: FLOOD_AT_MS + hours * HOUR_MS, floodAtMs: FLOOD_AT_MS, airTempC, doneSteps }, DEFAULT_CALIBRATION, book));
}

/** Fingerprints of a release; whatever differs between two programs is named. */
export interface Fingerprints {
  release: string;
  /** Every rule, in the order of the book. */
  rules: Record<string, string>;
  /** What it says of the golden things, by material. */
  outcomes: Record<string, string>;
  /** The sides of every choice: its words, and what it says of the things of all materials. */
  choices: Record<string, string>;
}

/** A side of a choice and the book that follows it; none for a safety floor, which nobody switches. */
export interface Side {
  name: string;
  told: unknown;
  book: Book | null;
}

/** Takes the fingerprints of a book at its defaults and of the sides of its choices. */
export function fingerprintsOf(release: string, book: Book, materials: readonly MaterialClass[], sides: readonly Side[]): Fingerprints {
  return {
    release,
    rules: Object.fromEntries(book.rules.map((rule) => [rule.id, fingerprint(stated(rule))])),
    outcomes: Object.fromEntries(materials.map((materialClass) => [materialClass, fingerprint(said(book, materialClass, THINGS))])),
    choices: Object.fromEntries(sides.map(({ name, told, book: other }) => [name, fingerprint([told, other === null ? [] : materials.map((materialClass) => said(other, materialClass, FOR_CHOICES))])])),
  };
}
