/** How fast triage is, and what it costs when the rule book grows. One core, no server. */
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { bookOf, DEFAULT_BOOK, DEFAULT_CALIBRATION, FIBRES, FRAGILITIES, MATERIAL_CLASSES, MOULD_STATES, SIGNIFICANCES, triage, triageOutcome, WATER_KINDS, WET_STATES, type Assessment, type Book, type Rule, type TriageContext } from '#care';

const HOUR_MS = 3_600_000;
const FLOOD_AT_MS = Date.UTC(2031, 8, 12, 18);
const ROUNDS = 5;

/** Every material class under chance observations; the same for the same seed. */
export function benchAssessments(count: number, seed: number): Assessment[] {
  const random = xoroshiro128plus(seed);
  const pick = <T>(values: readonly T[]): T => values[uniformInt(random, 0, values.length - 1)] as T;
  return Array.from({ length: count }, (_, index) => ({
    materialClass: MATERIAL_CLASSES[index % MATERIAL_CLASSES.length] ?? 'unknown', fibre: pick(FIBRES), count: pick([1, 1, 1, 40, 240]),
    wetState: pick(WET_STATES), wettedAtMs: FLOOD_AT_MS + uniformInt(random, 0, 12) * HOUR_MS, water: pick(WATER_KINDS), mould: pick(MOULD_STATES),
    fragility: pick(FRAGILITIES), colourTests: pick([[], [{ colour: 'red', solution: 'water' as const, method: 'swab' as const, reading: pick(['5', '3'] as const) }]]),
    allColoursTested: pick([true, false]), alreadyBled: pick([true, false, null]), hazards: pick([[], [], ['sewage' as const], ['sharps' as const]]),
    significance: pick(SIGNIFICANCES), onlyCopy: pick([true, false, null]), highMarketValue: pick([true, false, null]),
    consents: { treat: pick([true, null]), freeze: pick([true, null]), refer: pick([true, null]), release: null },
  }));
}

/** The rule book with synthetic rules: each for one class and one pair of observations, as rules of a growing book are. */
export function grownBook(times: number): Book {
  const wanted = DEFAULT_BOOK.rules.length * (times - 1);
  const added = Array.from({ length: wanted }, (_, index): Rule => {
    const [water, mould] = [WATER_KINDS[index % WATER_KINDS.length], MOULD_STATES[Math.floor(index / 7) % MOULD_STATES.length]];
    return {
      id: `synthetic.${index}`, text: 'A rule of the bench.', because: ['water', 'mould'], classes: [MATERIAL_CLASSES[index % MATERIAL_CLASSES.length] ?? 'unknown'],
      applies: (assessment) => assessment.water === water && assessment.mould === mould,
      concludes: [{ kind: 'caution', text: `Caution ${index} of the bench.` }], source: { mark: 'own-calibration', cite: 'Made up for the bench.' },
    };
  });
  return bookOf([...DEFAULT_BOOK.rules, ...added], `bench x${times}`);
}

/** Microseconds of processor for one assessment: the best of some rounds, because other work on the machine only adds. */
function bestMicroseconds(assessments: readonly Assessment[], judge: (assessment: Assessment, context: TriageContext) => unknown): number {
  const context: TriageContext = { nowMs: FLOOD_AT_MS + 20 * HOUR_MS, floodAtMs: FLOOD_AT_MS, airTempC: 22 };
  const rounds = Array.from({ length: ROUNDS }, () => {
    const before = process.cpuUsage();
    for (const assessment of assessments) judge(assessment, context);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / assessments.length;
  });
  return Math.min(...rounds);
}

/** Lines of the report. */
export function benchCare(): string[] {
  const assessments = benchAssessments(2_000, 20_310_912);
  const outcome = (book: Book) => bestMicroseconds(assessments, (assessment, context) => triageOutcome(assessment, context, DEFAULT_CALIBRATION, book));
  const [today, tenfold] = [DEFAULT_BOOK, grownBook(10)];
  const [small, large] = [outcome(today), outcome(tenfold)];
  const asked = bestMicroseconds(assessments.slice(0, 200), (assessment, context) => triage(assessment, context));
  const growth = large / small;
  return [
    `triage: ${(1e6 / small).toFixed(0)} assessments/s on one core with ${today.rules.length} rules; ${(1e6 / asked).toFixed(0)}/s with the questions worth asking next`,
    `triage with ${tenfold.rules.length} rules (synthetic ones added): ${growth.toFixed(2)} times the cost of an assessment for 10 times the rules, so ${(growth / 10).toFixed(2)} of the cost per rule`,
  ];
}
