/** What the command line asks of the planning bench. */
import { parseArgs } from 'node:util';
import { PRESET_NAMES, type PresetName } from '#testing/salvage';

export interface PlanningBenchOptions {
  items: number;
  seeds: number[];
  /** Presets whose gap to the bound is measured. */
  gaps: PresetName[];
  /** Seconds of processor after which the gap is read. */
  seconds: number[];
}

const USAGE = `npm run bench -- planning [--items 10000] [--seeds 101 | --seeds 101-110] [--gaps base,overload-1.5,overload-3 | --gaps none] [--seconds 1,10,60]`;

/** Seeds 101 to 110 are for reports. @throws Error with a sentence on what to change */
export function readPlanningOptions(args: string[]): PlanningBenchOptions {
  const text = { type: 'string' } as const;
  const { values } = parseArgs({ args, options: { items: text, seeds: text, gaps: text, seconds: text } });
  const [first = 0, last = first] = (values.seeds ?? '101').split('-').map((one) => positive('seeds', one));
  const gaps = (values.gaps ?? 'base,overload-1.5,overload-3').split(',').filter((name) => name !== 'none').map(presetNamed);
  return {
    items: positive('items', values.items ?? '10000'), gaps,
    seeds: Array.from({ length: last - first + 1 }, (_, i) => first + i),
    seconds: (values.seconds ?? '1,10').split(',').map((one) => positive('seconds', one)),
  };
}

function presetNamed(name: string): PresetName {
  const preset = PRESET_NAMES.find((one) => one === name);
  if (preset === undefined) throw new Error(`--gaps names presets, not "${name}": ${PRESET_NAMES.join(', ')}.\n${USAGE}`);
  return preset;
}

function positive(name: string, text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1) throw new Error(`--${name} is whole numbers above 0, not "${text}".\n${USAGE}`);
  return value;
}
