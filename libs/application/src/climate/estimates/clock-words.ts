/** What the clocks say, and what they rest on. */
import { say, type Message } from '#care';
import { DAMAGE_CLOCKS, LUND_CRITICAL_DAYS, type Advice, type CalibrationValues, type ClockNoteCode, type DamageClockName, type DamageHolding, type DamageNoteCode, type MouldClass, type MouldClock } from '#climate';
import { fixed, own, OWN_TABLE, type Basis } from './basis.js';

/** The clock in a sentence. */
export function mouldClockWords({ state, paused, hoursLeft, hoursLeftBand }: MouldClock): Message {
  if (state === 'red') return say('The time that the rule of practice allows is used up: look for mould before handling, wear protection, and ask the lead.');
  if (paused || hoursLeft === null) return say('The clock stands still at this temperature and dryness; it goes on from here when warmed or wetted.');
  const values = { hours: whole(hoursLeft), shortest: whole(hoursLeftBand?.shortest ?? hoursLeft), longest: whole(hoursLeftBand?.longest ?? hoursLeft) };
  if (state === 'amber') return say('Begin now: about {hours} h are left by the rule of practice if nothing changes; the sources span {shortest} to {longest} h.', values);
  return say('About {hours} h are left by the rule of practice if nothing changes; the sources span {shortest} to {longest} h.', values);
}

/** Whole hours, rounded down; a sum of many stretches may fall short of a whole hour by its rounding. */
const whole = (hours: number): number => Math.floor(hours + 1e-6);

export const CLOCK_STANDING = say('A clock of the rule of practice, not a forecast of when mould starts. A lead who sees the thing decides, and a conservator where there is one.');

/** A remark about the history. */
export function clockNoteWords({ code, values }: Advice<ClockNoteCode>): Message {
  return CLOCK_NOTES[code](values);
}

const CLOCK_NOTES: { [K in ClockNoteCode]: (values: Advice['values']) => Message } = {
  readings_same_moment: (values) => say('{count, plural, one {# reading has} other {# readings have}} the moment of another one of the same place; the warmer and damper counts.', values),
  readings_elsewhere: (values) => say('{count, plural, one {# reading is} other {# readings are}} of places where the thing never was and {count, plural, one {does} other {do}} not count.', values),
  dose_assumed: (values) => say('{percent} % of the dose rests on assumptions: nobody measured the air for {hours} h. Such time counts on the cautious side.', values),
  freezer_not_read: (values) => say('Nobody read the freezer for {hours} h. A clock stands still only while things stay frozen: look at the thermometer and write it down.', values),
  wetness_unknown: () => say('How wet the thing was is not known for all of the time; it counts as wet then. Weighing it tells.'),
};

/** A remark about a clock of other damage. */
export function damageNoteWords({ code, values }: Advice<DamageNoteCode>): Message {
  return DAMAGE_NOTES[code](values);
}

const HOLDING_WORDS: Readonly<Record<DamageHolding, Message>> = {
  'left-wet': say('left wet'), 'kept-wet': say('kept in water'), 'kept-in-distilled': say('kept in distilled water'), frozen: say('frozen'), 'in-work': say('worked on'), dry: say('left to dry on its own'),
};

const DAMAGE_NOTES: { [K in DamageNoteCode]: (values: Advice['values']) => Message } = {
  holding_harms: ({ holding }) => say('This thing is harmed by being {holding}: end it, and ask a conservator before the next step.', { holding: HOLDING_WORDS[holding as DamageHolding] }),
  mould_goes_on: () => say('Keeping it wet is a bridge of hours: the clock of mould goes on.'),
  kept_wet_too_long: (values) => say('It has been kept wet for more than {hours} h, the longest that a source gives: the clock goes on.', values),
  no_temperature_dependence: () => say('No source says how temperature changes these hours: warm or cool, an hour counts as an hour.'),
};

const HUKKA = say('A. Hukka and H. A. Viitanen, A mathematical model of mould growth on wooden material, Wood Science and Technology 33 (1999), as read in copies of its formulas; found on wood, carried over to textile, paper, leather and photographs by us.');
const OJANEN = say('T. Ojanen, H. Viitanen, R. Peuhkuri and others (2010), classes of building materials, as read in a copy.');
const DECLINE = say('From memory, not verified: how far the index falls back while nothing can grow.');
const LUND = say('T. Isaksson, S. Thelandersson and others, Building and Environment 65 (2013), as read in a copy of its terms; found on wood.');
const LUND_DOSE = say('From memory, not verified: the dose at which growth begins in the second model.');
const RULE_OF_PRACTICE = say('Our own calibration to the rule of practice “dry or freeze within 24 to 48 hours” (US EPA, mould course and 402-K-01-001, chapter 3; NPS/AIC sheet via the University of Iowa); the longer end is the US National Park Service on wet books.');
const HOURS_OF_RULE_BOOK = say('The hours of the rule book, with their marks: GET /v1/rulebook/rules.');

/** What the mould clock and the two published models used. */
export function mouldBasis(mouldClass: MouldClass, values: CalibrationValues): Basis[] {
  return [
    fixed('temperatureExponent', 0.68, '-', 'published', HUKKA),
    fixed('humidityExponent', 13.9, '-', 'published', HUKKA),
    fixed('criticalHumidity', null, '%', 'published', HUKKA),
    fixed('stopsAtOrBelowC', 0, 'C', 'published', HUKKA),
    ...own(values, ['mouldHoursAtReference', 'mouldHoursShortest', 'mouldHoursLongest', 'amberDose', 'redDose'], RULE_OF_PRACTICE),
    ...own(values, ['mouldPlateauTempC', 'readingGapMeasuredMaxH', 'readingGapInterpolatedMaxH', 'assumedTempC', 'freezerAssumedTempC', ...(mouldClass === 'clean-synthetic' ? (['cleanSyntheticFactor'] as const) : [])], OWN_TABLE),
    fixed('vttClasses', null, '-', 'published', OJANEN),
    fixed('vttDecline', null, '-', 'from-memory', DECLINE),
    fixed('secondModelTerms', null, '-', 'published', LUND),
    fixed('secondModelCriticalDays', LUND_CRITICAL_DAYS.value, 'd', LUND_CRITICAL_DAYS.mark, LUND_DOSE),
  ];
}

/** What a clock of other damage used. */
export function damageBasis(name: DamageClockName): Basis[] {
  const { mark } = DAMAGE_CLOCKS[name];
  return [fixed('hoursAfterWetting', null, 'h', 'common-practice', HOURS_OF_RULE_BOOK), fixed('whatStopsAndHarms', null, '-', mark, DAMAGE_CITES[name])];
}

const DAMAGE_CITES: Readonly<Record<DamageClockName, Message>> = {
  'coated-paper': say('Kept wet and covered until frozen: Salvage at a Glance chart, University of Iowa Flood Booklet; Minnesota Historical Society, books (2017).'),
  'soluble-media': say('Freezing stops inks from spreading: Salvage at a Glance chart, University of Iowa Flood Booklet; UNESCO RAMP study R8707.'),
  parchment: say('Freezing can hold it, no prolonged soak: American Institute for Conservation wiki, skin and leather.'),
  'bleeding-textile': say('Frozen singly and interleaved where it cannot be treated: Salvage at a Glance V (Conserve O Gram 21/8, 2003); American Institute for Conservation wiki, textiles.'),
  'stuck-prints': say('Soaked for up to 48 h: FEMA, How to save treasures (2017). That they may be frozen is from memory.'),
  'silver-gelatin-print': say('May be frozen: Northeast Document Conservation Center, leaflet 3.7; Louisiana GOHSEP.'),
  'colour-print': say('May be frozen: Northeast Document Conservation Center, leaflet 3.7.'),
  'albumen-print': say('May be frozen: Louisiana GOHSEP, Salvaging Some Common Materials.'),
  'carbon-print': say('May be frozen, its face swells: Louisiana GOHSEP, Salvaging Some Common Materials.'),
  'digital-print': say('From memory, not verified: no soaking of digital prints of unknown kind.'),
  'collodion-plate': say('Never frozen, as a precaution, and kept from soaking: Northeast Document Conservation Center, leaflet 3.7; Hendriks and Lesser 1983, as reported later.'),
  daguerreotype: say('From memory, not verified: not frozen, air dried at once.'),
  'gelatin-plate': say('Sources differ on freezing gelatin on glass, so nothing stops its clock: Northeast Document Conservation Center, leaflet 3.7; University of Texas, Emergency Salvage of Family Treasures.'),
  'sheet-film': say('May be frozen: CERF+, Emergency salvage for artwork.'),
  'film-roll': say('From memory, not verified: kept wet until the laboratory re-washes it, never frozen outside one.'),
  'ferric-tape': say('Held in very cold distilled water, never frozen: US National Library of Medicine, videotape page (2014).'),
  'metal-tape': say('Oxidises while it is wet, never frozen: US National Library of Medicine, videotape page (2014).'),
  painting: say('Never frozen, damage within minutes to hours: Salvage at a Glance chart, University of Iowa Flood Booklet; Canadian Conservation Institute.'),
  'small-wood': say('Small wooden things may be frozen: CERF+, Emergency salvage for artwork.'),
  furniture: say('Drying begins early and goes slowly: Minnesota Historical Society, wood (1993).'),
  'glued-wood': say('Hide and fish glue soften in water: American Institute for Conservation wiki, furniture and wood.'),
  leather: say('Leather may be frozen: CERF+, Emergency salvage for artwork.'),
  'bone-or-ivory': say('Never frozen, cracks when it dries fast: Salvage at a Glance III, NPS/NCPTT; CERF+.'),
  iron: say('Rinsed, blotted and dried at once: Salvage at a Glance III, NPS/NCPTT; Minnesota Historical Society, inorganics (1993).'),
  'salt-soaked': say('Kept in fresh water until a conservator decides: Salvage at a Glance III, NPS/NCPTT.'),
};
