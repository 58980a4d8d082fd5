/** What the heat check says, and what it rests on. */
import { say, type Message } from '#care';
import { CLOTHING_ADDITION_C, HOOD_ADDITION_C, METABOLIC_RATE_W, REST_PULSE_MAX, REST_RATE_W, SHORT_SLEEVES_ADDITION_C, type Advice, type CalibrationValues, type HeatNoteCode, type HeatQuestion } from '#climate';
import { fixed, own, OWN_TABLE, type Basis } from './basis.js';

/** A remark about a step in the heat. */
export function heatNoteWords({ code, values }: Advice<HeatNoteCode>): Message {
  return NOTES[code](values);
}

const NOTES: { [K in HeatNoteCode]: (values: Advice['values']) => Message } = {
  heat_stop: (values) => say('Too hot for this step (wet-bulb globe temperature {wbgt} °C, with what the clothing adds): nobody does it now. Cool the place, wait for a cooler hour, or find a way that needs less protection. Stopping beats finishing the batch.', values),
  heat_rest: (values) => say('At most {work} minutes of work in each hour and {rest} minutes of rest (wet-bulb globe temperature {wbgt} °C, with what the clothing adds).', values),
  suit_outside_tables: () => say('No table holds for a suit that closes the body off: nobody works in one here without people trained to watch over it.'),
  rest_elsewhere: () => say('Even resting is too hot here in these clothes: take them off and rest in a cooler place.'),
  strenuous_in_warmth: () => say('People have died at moderate and harder work from 21 °C of wet-bulb globe temperature on: watch one another.'),
  ramp: (values) => say('Not used to this heat yet: at most {percent} % of a shift in it today.', values),
  look_at_person: (values) => say('Somebody looks at the person at least every {minutes} minutes.', values),
  pulse_high: (values) => say('A pulse of {pulse} at the start of the rest is high: the next spell of work is a third shorter.', values),
  pulse_rule: (values) => say('Take the pulse at the start of each rest; above {pulse} a minute the next spell of work is a third shorter.', values),
  drink: () => say('Water within reach, small amounts often, before thirst; shade for the rest.'),
  buddy: () => say('Nobody works alone in heat.'),
  signs: () => say('Headache, dizziness, nausea or cramps: stop, cool, drink, and stay with them. Confusion, collapse or hot dry skin is an emergency: call for help and cool at once.'),
  estimate_meter_better: () => say('Estimated from air alone: a meter for the wet-bulb globe temperature at the place is better.'),
  estimate_no_radiant_heat: () => say('The estimate holds for a hall without sun, stoves or hot machines; near them it is too low.'),
  estimate_moderate_sun: () => say('The estimate assumes moderate sun and light wind; in strong sun without wind it is too low.'),
};

export const HEAT_STANDING = say('Advice for planning: local law, a safety officer on the spot and how people feel come first. Anybody may stop.');

const LIMITS = say('NIOSH 2016-106: recommended alert and exposure limits, and classes of effort, as read in copies.');
const CLOTHES = say('US OSHA, heat hazard recognition: clothing additions, as read in a copy; hood and short sleeves from a national table after ISO 7243, as read in a copy.');
const WEIGHTS = say('ISO 7243: weights of the thermometers, as read in a copy.');
const HALL = say('Our own estimate for a hall without sun: wet bulb and air, with a margin for still air.');
const OUTDOORS = say('Common practice: screening estimate from air alone, after the Australian Bureau of Meteorology, from memory; the margin is our own.');
const RAMP = say('NIOSH: share of a shift for new and returning people, as read in a copy.');
const MONITORING = say('NIOSH/OSHA/USCG/EPA, Occupational Safety and Health Guidance Manual for Hazardous Waste Site Activities (1985), as read in copies; using its table as the longest spell without somebody looking is our own.');
const DEATHS = say('US OSHA Technical Manual III:4 (2017), as read in a copy.');
const INDEX = say('US National Weather Service, heat index equation; for shade, light wind and ordinary clothes only.');
const ROUNDING = say('Our own: minutes are rounded down to quarters of an hour.');

/** What a heat check used. */
export function heatBasis({ heat, wear, effort }: HeatQuestion, values: CalibrationValues): Basis[] {
  const wbgt = {
    meter: [], thermometers: [fixed('wbgtWeights', null, '-', 'published', WEIGHTS)],
    'hall-air': [fixed('hallEstimate', null, '-', 'own-calibration', HALL), ...own(values, ['wbgtStillAirMarginC'], OWN_TABLE)],
    'outdoor-air': [fixed('outdoorEstimate', null, '-', 'common-practice', OUTDOORS), ...own(values, ['wbgtOutdoorMarginC'], OWN_TABLE)],
  } satisfies Record<typeof heat.from, Basis[]>;
  return [
    ...wbgt[heat.from],
    fixed('limits', null, 'C', 'published', LIMITS),
    fixed('metabolicRateW', METABOLIC_RATE_W[effort], 'W', 'published', LIMITS),
    fixed('restRateW', REST_RATE_W, 'W', 'published', LIMITS),
    fixed('clothingAdditionC', CLOTHING_ADDITION_C[wear.clothing], 'C', 'published', CLOTHES),
    ...(wear.hood === true ? [fixed('hoodAdditionC', HOOD_ADDITION_C, 'C', 'published', CLOTHES)] : []),
    ...(wear.shortSleeves === true ? [fixed('shortSleevesAdditionC', SHORT_SLEEVES_ADDITION_C, 'C', 'published', CLOTHES)] : []),
    fixed('quartersOfAnHour', 15, 'min', 'own-calibration', ROUNDING),
    fixed('rampPct', null, '%', 'published', RAMP),
    fixed('monitoringMin', null, 'min', 'published', MONITORING),
    fixed('restPulseMax', REST_PULSE_MAX, '1/min', 'published', MONITORING),
    fixed('strenuousFromC', 21, 'C', 'published', DEATHS),
    fixed('heatIndex', null, 'C', 'published', INDEX),
  ];
}
