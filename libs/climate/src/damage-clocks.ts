/**
 * The other clocks: damage that does not wait for mould. What starts each, what stops it and what makes it worse; how many hours it
 * allows is the rule book's to say and comes as an argument, so that there is one place for those numbers.
 *
 * Published or from memory as each row says. None of these clocks has a published dependence on temperature: an hour counts as an
 * hour, warm or cool. Ours throughout: that a stopped clock goes on where it stopped, and that nothing sets it back.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import type { Advice } from './advice.js';
import type { NumberMark } from './marks.js';

/** How a thing is held. `kept-wet`: in clean cold fresh water, changed when dirty; `kept-in-distilled`: very cold distilled water; `in-work`: the drying or treatment that its way prescribes has begun. */
export const DAMAGE_HOLDINGS = ['left-wet', 'kept-wet', 'kept-in-distilled', 'frozen', 'in-work', 'dry'] as const;
export type DamageHolding = (typeof DAMAGE_HOLDINGS)[number];

/** One clock: how it runs. All count from the wetting. */
export interface DamageClockRow {
  /** Holdings in which it stands still; `in-work` and `dry` end it, except where they harm. */
  readonly stoppedBy: readonly DamageHolding[];
  /** Holdings that do harm of their own; the clock goes on. */
  readonly harmedBy: readonly DamageHolding[];
  /** Hours after which keeping it wet no longer stops the clock; `null` where no source gives any. */
  readonly keptWetHoursMax: number | null;
  readonly mark: NumberMark;
  readonly cite: string;
}

const CHART = 'Salvage at a Glance chart, University of Iowa Flood Booklet';
const CERF = 'Emergency salvage for artwork, CERF+';
const NEDCC = 'NEDCC leaflet 3.7 on wet photographs';
const NLM_TAPE = 'US National Library of Medicine, videotape page (2014)';

function row(stoppedBy: readonly DamageHolding[], harmedBy: readonly DamageHolding[], mark: NumberMark, cite: string, keptWetHoursMax: number | null = null): DamageClockRow {
  return Object.freeze({ stoppedBy: Object.freeze(stoppedBy), harmedBy: Object.freeze(harmedBy), keptWetHoursMax, mark, cite });
}

/** Things with a clock of their own. */
export const DAMAGE_CLOCKS = Object.freeze({
  'coated-paper': row(['frozen', 'kept-wet'], [], 'published', `Sticks into a block as it dries: kept wet and covered until frozen (${CHART}; Minnesota Historical Society, books, 2017). No source says for how long.`),
  'soluble-media': row(['frozen'], ['kept-wet', 'kept-in-distilled'], 'published', `Freezing stops inks and colours from spreading (${CHART}; UNESCO RAMP study R8707).`),
  parchment: row(['frozen'], ['kept-wet', 'kept-in-distilled'], 'published', 'Freezing can hold it; no prolonged soak (AIC wiki, skin and leather).'),
  'bleeding-textile': row(['frozen'], ['kept-wet', 'kept-in-distilled'], 'published', 'Frozen singly and interleaved where it cannot be treated (Salvage at a Glance V, NPS Conserve O Gram 21/8, 2003; Stabilizing Wet Textiles and Clothing, AIC wiki).'),
  'stuck-prints': row(['frozen', 'kept-wet'], [], 'published', 'Soaked for up to 48 h (FEMA, How to save treasures, 2017). That they may be frozen is from memory.', 48),
  'silver-gelatin-print': row(['frozen'], [], 'published', `May be frozen (${NEDCC}; Louisiana GOHSEP, Salvaging Some Common Materials).`),
  'colour-print': row(['frozen'], [], 'published', `May be frozen (${NEDCC}).`),
  'albumen-print': row(['frozen'], [], 'published', 'May be frozen (Louisiana GOHSEP, Salvaging Some Common Materials).'),
  'carbon-print': row(['frozen'], [], 'published', 'May be frozen; its face swells (Louisiana GOHSEP, Salvaging Some Common Materials).'),
  'digital-print': row([], ['kept-wet', 'kept-in-distilled'], 'from-memory', 'No soaking of digital prints of unknown kind; no source on freezing them was read.'),
  'collodion-plate': row([], ['frozen', 'kept-wet', 'kept-in-distilled'], 'published', `Never frozen, as a precaution, and kept from ever soaking (${NEDCC}; Hendriks and Lesser 1983 as reported later).`),
  daguerreotype: row([], ['frozen'], 'from-memory', 'Not frozen; air dried at once.'),
  'gelatin-plate': row([], [], 'published', `Sources differ on freezing gelatin on glass, so nothing stops its clock here (${NEDCC}; Emergency Salvage of Family Treasures, University of Texas).`),
  'sheet-film': row(['frozen'], [], 'published', `May be frozen (${CERF}).`),
  'film-roll': row([], ['frozen', 'dry'], 'from-memory', 'Kept wet all the time until the laboratory re-washes it, which the hours allow for; never dried in its coil, never frozen outside a laboratory.'),
  'ferric-tape': row(['kept-in-distilled'], ['frozen', 'kept-wet'], 'published', `Held for longer in very cold distilled water, never tap water, never frozen (${NLM_TAPE}).`),
  'metal-tape': row([], ['frozen', 'kept-wet', 'kept-in-distilled'], 'published', `Oxidises while it is wet; never frozen (${NLM_TAPE}).`),
  painting: row([], ['frozen', 'kept-wet', 'kept-in-distilled'], 'published', `Never frozen; damage develops in minutes to hours (${CHART}; Canadian Conservation Institute).`),
  'small-wood': row(['frozen'], ['kept-wet', 'kept-in-distilled'], 'published', `Small wooden things may be frozen (${CERF}).`),
  furniture: row([], ['kept-wet', 'kept-in-distilled'], 'published', 'Drying begins early and goes slowly (Minnesota Historical Society, wood, 1993).'),
  'glued-wood': row([], ['kept-wet', 'kept-in-distilled'], 'published', 'Hide and fish glue soften in water (AIC wiki, furniture and wood).'),
  leather: row(['frozen'], ['kept-wet', 'kept-in-distilled'], 'published', `May be frozen (${CERF}).`),
  'bone-or-ivory': row([], ['frozen'], 'published', `Never frozen; cracks when it dries fast (Salvage at a Glance III, NPS/NCPTT; ${CERF}).`),
  iron: row([], ['kept-wet', 'kept-in-distilled'], 'published', 'Rinsed, blotted and dried at once; nothing read says that cold stops rust (Salvage at a Glance III, NPS/NCPTT; Minnesota Historical Society, inorganics, 1993).'),
  'salt-soaked': row(['kept-wet'], ['dry'], 'published', 'Kept wet in fresh water until a conservator decides: salts break the surface as it dries (Salvage at a Glance III, NPS/NCPTT).'),
});
export type DamageClockName = keyof typeof DAMAGE_CLOCKS;

/** Hours after wetting: early end (a warning) and end, from the rule book. */
export interface DamageHours {
  warn: number;
  deadline: number;
}

/** A stretch of time in one holding. */
export interface DamageStretch {
  hours: number;
  holding: DamageHolding;
}

export type DamageNoteCode = 'holding_harms' | 'mould_goes_on' | 'kept_wet_too_long' | 'no_temperature_dependence';

export interface DamageClock {
  /** Hours counted so far. */
  usedHours: number;
  /** Hours in which it stood still. */
  stoppedHours: number;
  /** `begun`: the work began before the end of the hours; `red`: the hours ran out first. */
  state: 'in-time' | 'amber' | 'red' | 'begun';
  stopped: boolean;
  /** Hours to the end if it stays as it is; `null` while stopped or begun, 0 once red. */
  hoursLeft: number | null;
  notes: Advice<DamageNoteCode>[];
}

const HOURS_RULE: NumberRule = { min: 0, max: 1e6, unit: 'h' };
const HOLDING_KNOWN = Object.fromEntries(DAMAGE_HOLDINGS.map((holding) => [holding, holding])) as Record<DamageHolding, DamageHolding>;

/** Where a clock stands after a history that begins with the wetting. @throws ClimateRangeError */
export function damageClock(name: DamageClockName, hours: DamageHours, history: readonly DamageStretch[]): DamageClock {
  const clock = requireChoice('clock', name, DAMAGE_CLOCKS as Readonly<Record<DamageClockName, DamageClockRow>>);
  const deadline = requireNumber('deadline', hours.deadline, HOURS_RULE);
  const warn = requireNumber('warn', hours.warn, { ...HOURS_RULE, max: deadline, hint: 'The warning comes before the end.' });
  const run = runThrough(clock, history);
  const red = run.usedHours >= deadline;
  const state = red ? 'red' : run.begun ? 'begun' : run.usedHours >= warn ? 'amber' : 'in-time';
  const { usedHours, stoppedHours, stopped } = run;
  return { usedHours, stoppedHours, state, stopped, hoursLeft: red ? 0 : stopped || run.begun ? null : deadline - usedHours, notes: notesOf(clock, history, run) };
}

interface Run {
  usedHours: number;
  stoppedHours: number;
  stopped: boolean;
  begun: boolean;
  keptWetHours: number;
}

function runThrough(clock: DamageClockRow, history: readonly DamageStretch[]): Run {
  const run: Run = { usedHours: 0, stoppedHours: 0, stopped: false, begun: false, keptWetHours: 0 };
  for (const { hours: told, holding } of history) {
    const hours = requireNumber('hours', told, HOURS_RULE);
    requireChoice('holding', holding, HOLDING_KNOWN);
    const harmed = clock.harmedBy.includes(holding);
    run.begun = !harmed && (holding === 'in-work' || holding === 'dry');
    const stops = run.begun || (!harmed && clock.stoppedBy.includes(holding));
    const limited = holding === 'kept-wet' && clock.keptWetHoursMax !== null;
    const stoppedFor = !stops ? 0 : limited ? Math.max(0, Math.min(hours, clock.keptWetHoursMax! - run.keptWetHours)) : hours;
    if (holding === 'kept-wet') run.keptWetHours += hours;
    run.stoppedHours += stoppedFor;
    run.usedHours += hours - stoppedFor;
    run.stopped = stops && !run.begun && (!limited || run.keptWetHours < clock.keptWetHoursMax!);
  }
  return run;
}

function notesOf(clock: DamageClockRow, history: readonly DamageStretch[], run: Run): Advice<DamageNoteCode>[] {
  const notes: Advice<DamageNoteCode>[] = [];
  const held = new Set(history.filter(({ hours }) => hours > 0).map(({ holding }) => holding));
  for (const holding of clock.harmedBy) {
    if (held.has(holding)) notes.push({ code: 'holding_harms', values: { holding }, text: `This thing is harmed by being ${HOLDING_WORDS[holding]}: end it, and ask a conservator before the next step.` });
  }
  if (held.has('kept-wet') && clock.stoppedBy.includes('kept-wet')) {
    notes.push({ code: 'mould_goes_on', values: {}, text: 'Keeping it wet is a bridge of hours: the mould clock goes on.' });
  }
  if (clock.keptWetHoursMax !== null && run.keptWetHours > clock.keptWetHoursMax) {
    notes.push({ code: 'kept_wet_too_long', values: { hours: clock.keptWetHoursMax }, text: `It has been kept wet for more than ${clock.keptWetHoursMax} h, the longest that a source gives: the clock goes on.` });
  }
  notes.push({ code: 'no_temperature_dependence', values: {}, text: 'No source says how temperature changes these hours: warm or cool, an hour counts as an hour.' });
  return notes;
}

const HOLDING_WORDS: Readonly<Record<DamageHolding, string>> = { 'left-wet': 'left wet', 'kept-wet': 'kept in water', 'kept-in-distilled': 'kept in distilled water', frozen: 'frozen', 'in-work': 'worked on', dry: 'left to dry on its own' };
