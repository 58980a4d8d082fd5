/** What is said about measurements that are refused, conflict, or are in doubt. */
import { say, type Message } from '#care';
import type { ReadingDoubt, ReadingFault, WeighingDoubt, WeighingFault } from '#climate';

/** One thing that is said about a measurement; `member` is the member of the body or the column of the table. */
export interface Remark {
  code: string;
  member: string;
  text: Message;
}

export function remark(code: string, member: string, text: Message): Remark {
  return { code, member, text };
}

/** Why a reading cannot be. */
export function faultRemark(fault: ReadingFault): Remark {
  return remark(fault.code, fault.member, faultWords(fault));
}

function faultWords(fault: ReadingFault): Message {
  const { value } = fault;
  switch (fault.code) {
    case 'temperature_fahrenheit':
      return say('{value} °C is too hot for any air here. If it is °F, it is {inC} °C: set the unit of the logger to °C, or convert the value, and send it again.', { value, inC: fault.inC });
    case 'temperature_kelvin':
      return say('{value} °C cannot be. If it is kelvin, it is {inC} °C: take 273.15 off and send it again.', { value, inC: fault.inC });
    case 'temperature_impossible':
      return say('{value} °C is no air that anybody measures here: it goes from -40 to 60 °C. Look at the unit and the decimal point.', { value });
    case 'humidity_impossible':
      return say('{value} % of relative humidity cannot be: it goes from 0 to 100 %.', { value });
    case 'humidity_fraction':
      return say('{value} % is drier than any air here. If it is a fraction, send it in percent (0.62 is 62 %); if it is always 0, the sensor has failed.', { value });
    case 'in_future':
      return say('This moment lies in the future. Look at the date, the offset from UTC, and the clock of the logger.');
    case 'before_flood':
      return say('This moment lies long before the flood. Look at the date, and at the clock of the logger: many begin in an old year after their battery was out.');
  }
}

const READING_DOUBT_WORDS: Readonly<Record<ReadingDoubt, Message>> = {
  unit: say('It is improbable that it is so warm indoors. Look whether the logger sends °F.'),
  jump: say('It moved faster than air does. If the next reading is like it, that one is believed. Was the sensor moved, or has it failed?'),
  saturated: say('Saturated air for hours beside a running dehumidifier. Either the sensor got wet, or the machine takes nothing out: go and look, and mind water near electricity.'),
  stuck: say('Exactly the same values for hours. Has the sensor failed, or does the logger repeat its last value?'),
};

/** Why a reading is kept but not believed yet. */
export function readingDoubtWords(doubt: ReadingDoubt): Message {
  return READING_DOUBT_WORDS[doubt];
}

/** The same moment with other values; both are named, and the one that was there stays. */
export function readingConflict(kept: Air, sent: Air): Remark {
  return remark('conflicting', 'airTempC', say('This sensor has other values for the same moment. Kept are {kept}; sent were {sent}. The kept ones stay.', { kept: airWords(kept), sent: airWords(sent) }));
}

interface Air {
  airTempC: number;
  relativeHumidityPct: number | null;
}

function airWords({ airTempC, relativeHumidityPct }: Air): Message {
  return relativeHumidityPct === null ? say('{tempC} °C', { tempC: airTempC }) : say('{tempC} °C and {humidityPct} %', { tempC: airTempC, humidityPct: relativeHumidityPct });
}

/** Weather of one source for one hour with other values. */
export function weatherConflict(kept: Air, sent: Air): Remark {
  return remark('conflicting', 'airTempC', say('This source has said something else about the same hour. Kept are {kept}; sent were {sent}. The kept ones stay; a corrected forecast is a new issue.', { kept: airWords(kept), sent: airWords(sent) }));
}

/** Why a weight cannot be; `massKg` is that of the thing alone. */
export function weighingFaultRemark(fault: WeighingFault, massKg: number): Remark {
  const kg = toGram(massKg);
  switch (fault.code) {
    case 'nothing_left':
      return remark(fault.code, 'tareKg', say('Nothing is left for the thing: the tare is as heavy as everything on the scale. Look at both numbers.'));
    case 'grams':
      return remark(fault.code, 'scaleKg', say('{kg} kg is more than such a thing can weigh. If the scale shows grams, it is {inKg} kg: send kilograms.', { kg, inKg: toGram(fault.inKg) }));
    case 'too_heavy':
      return remark(fault.code, 'scaleKg', say('{kg} kg is more than such a thing can weigh when it is soaked ({limitKg} kg by its size class and material). Look at the decimal point, the tare, the tag and the size class.', { kg, limitKg: toGram(fault.limitKg) }));
    case 'too_light':
      return remark(fault.code, 'scaleKg', say('{kg} kg is less than such a thing can weigh dry ({limitKg} kg by its size class). Was all of it on the scale? Look at the tare, the tag and the size class.', { kg, limitKg: toGram(fault.limitKg) }));
    case 'in_future':
      return remark(fault.code, 'weighedAt', say('This moment lies in the future. Look at the date and the offset from UTC.'));
    case 'before_taken_in':
      return remark(fault.code, 'weighedAt', say('This moment lies before the thing was taken in. Look at the date, and whether it is the right tag.'));
  }
}

const toGram = (kg: number) => Math.round(kg * 1_000) / 1_000;

const WEIGHING_DOUBT_WORDS: Readonly<Record<WeighingDoubt, Message>> = {
  'heavier-than-before': say('It weighs more than at the weighing before. Was it wetted again, or was it another scale, another tare, or another thing?'),
  'heavier-than-such-things': say('It weighs more than such things do when they are soaked. Look at the tare, the tag and the size class.'),
  'lighter-than-such-things': say('It weighs less than such things do when they are dry. Was all of it on the scale? Look at the tare and the size class.'),
};

export function weighingDoubtWords(doubt: WeighingDoubt): Message {
  return WEIGHING_DOUBT_WORDS[doubt];
}
