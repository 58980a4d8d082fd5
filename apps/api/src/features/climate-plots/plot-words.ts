import { say, type Message } from '#care';
import type { CalibrationValues } from '#climate';

/** As people say it: `1.4`. */
export const tenths = (value: number): string => value.toFixed(1);
/** Of one thing: a garment holds a few hundred grams. */
export const hundredths = (value: number): string => value.toFixed(2);

/** What every plot says of itself below the axes. */
export function notesOf(values: CalibrationValues, { everyMs, cutShort }: { everyMs: number | null; cutShort: boolean }): Message[] {
  return [
    say('Measured: marks are readings of sensors and of people. The line is open where nobody measured for more than {hours} h.', { hours: values.readingGapInterpolatedMaxH }),
    say('Reckoned: the water, from readings, weighings and what is known of each thing. Forecast: as if nothing were hung, taken down or switched from now on, at the temperature of now and in the weather that is foreseen.'),
    say('The speed of drying is our own calibration and may be off by {percent} % until weighings have fitted it. Thick and closed things may take up to {times} times as long as thin ones: weigh them.', { percent: Math.round(values.thinErrorFraction * 100), times: values.thickSlowdownMax }),
    ...(everyMs === null ? [] : [say('There is so much in this room that its past is drawn from one reading in {minutes} minutes. The numbers of now rest on all of them.', { minutes: Math.round(everyMs / 60_000) })]),
    ...(cutShort ? [say('There are more readings than one picture can hold; the oldest are left out. Ask for fewer hours.')] : []),
  ];
}

export const STANDING = say('Estimates for a trained lead, and no promise. Local codes and licensed people come first. Weigh, touch and look before you rely on them.');

/** Sentences one after the other. */
export function sentences(messages: readonly Message[], inWords: (message: Message) => string): string {
  return messages.map(inWords).join(' ');
}
