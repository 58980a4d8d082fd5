/** Tables of our own numbers that no pure library holds, and how a network's own values go over them. */

/** A number of a library: its default, unit and limits, and why it is what it is. */
export interface CalibrationEntry {
  readonly value: number;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
  readonly mark: 'own-calibration';
  readonly why: string;
}

/** A number that is unknown, out of its limits, or contradicts another one. */
export class OwnNumberError extends RangeError {
  override readonly name = 'OwnNumberError';
}

/** An entry of a table. */
export function own(value: number, unit: string, [min, max]: readonly [number, number], why: string, whole = false): CalibrationEntry {
  return Object.freeze({ value, unit, min, max, whole, mark: 'own-calibration', why });
}

/**
 * The defaults of a table with a network's own values put over them. `orders` names pairs of which the first may not exceed
 * the second.
 * @throws OwnNumberError for an unknown name, a value out of its limits, or a set that contradicts itself
 */
export function valuesOver<K extends string>(table: Readonly<Record<K, CalibrationEntry>>, overrides: Readonly<Record<string, number>>, orders: readonly (readonly [NoInfer<K>, NoInfer<K>])[] = []): Readonly<Record<K, number>> {
  for (const [key, value] of Object.entries(overrides)) requireWithin(table, key, value);
  const values = Object.fromEntries(Object.entries<CalibrationEntry>(table).map(([key, entry]) => [key, overrides[key] ?? entry.value])) as Record<K, number>;
  for (const [lower, upper] of orders) {
    if (values[lower] > values[upper]) throw new OwnNumberError(`${lower} (${values[lower]}) may not exceed ${upper} (${values[upper]}).`);
  }
  return Object.freeze(values);
}

function requireWithin(table: Readonly<Record<string, CalibrationEntry>>, key: string, value: number): void {
  const entry = Object.hasOwn(table, key) ? table[key] : undefined;
  if (entry === undefined) throw new OwnNumberError(`${key} is no number of this table; there are ${Object.keys(table).join(', ')}.`);
  const { min, max, unit, whole } = entry;
  if (value >= min && value <= max && (whole !== true || Number.isInteger(value))) return;
  throw new OwnNumberError(`${key} is ${value}; it must be ${whole ? 'a whole number ' : ''}from ${min} to ${max} (${unit}).`);
}
