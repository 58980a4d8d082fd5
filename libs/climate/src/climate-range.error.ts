/**
 * Thrown when a number is missing, not finite or outside what the model can answer for.
 * Nothing is clamped silently: a wrong unit (Kelvin, Fahrenheit, a fraction for a percentage) should surface here.
 */
export class ClimateRangeError extends RangeError {
  override readonly name = 'ClimateRangeError';

  constructor(
    message: string,
    /** The name of the argument that was refused, as the caller wrote it. */
    readonly parameter: string,
  ) {
    super(message);
  }
}

/** Limits and wording for one number; `hint` tells the caller what to do about a refusal. */
export interface NumberRule {
  min: number;
  max: number;
  unit: string;
  hint?: string;
  /** The lower limit itself is refused (masses, areas, pressures that are divided by). */
  exclusiveMin?: boolean;
}

/**
 * Returns `value` when it is a finite number within the rule.
 * @throws ClimateRangeError with a sentence naming the argument, the limits and the unit.
 */
export function requireNumber(parameter: string, value: number, rule: NumberRule): number {
  const hint = rule.hint === undefined ? '' : ` ${rule.hint}`;
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new ClimateRangeError(`${parameter} must be a finite number in ${rule.unit}, not ${describe(value)}.${hint}`, parameter);
  }
  const low = rule.exclusiveMin === true ? value > rule.min : value >= rule.min;
  if (!low || value > rule.max) {
    const lower = rule.exclusiveMin === true ? `above ${rule.min}` : `from ${rule.min}`;
    throw new ClimateRangeError(`${parameter} is ${value}; it must be ${lower} to ${rule.max} ${rule.unit}.${hint}`, parameter);
  }
  return value;
}

/**
 * Returns the row of a table of named choices.
 * @throws ClimateRangeError listing the names that are allowed.
 */
export function requireChoice<K extends string, V>(parameter: string, choice: K, table: Readonly<Record<K, V>>): V {
  if (typeof choice !== 'string' || !Object.hasOwn(table, choice)) {
    throw new ClimateRangeError(`${parameter} is ${describe(choice)}; choose one of: ${Object.keys(table).join(', ')}.`, parameter);
  }
  return table[choice];
}

function describe(value: unknown): string {
  if (typeof value === 'string') return `the text "${value.slice(0, 40)}"`;
  return value === null ? 'null' : typeof value === 'object' ? 'an object' : String(value);
}
