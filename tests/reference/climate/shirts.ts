/**
 * Two shirts weighed while drying on an outdoor line: an informal published measurement (How laundry dries, tedpiotrowski.svbtle.com),
 * read in the physics guidance as checks P4 and P5. Temperature, humidity and wind are not stated there, so the constant rate
 * and Xc are fitted and Xe is read off the plateau: the shape of the curve is what is tested.
 */
import { moistureAfter, type DryingLaw } from '#climate';

export interface Shirt {
  name: string;
  /** After tumble drying, g. */
  dryG: number;
  /** By quarter hours from the start, g. */
  measuredG: readonly number[];
  law: DryingLaw;
}

export const SHIRTS: readonly Shirt[] = [
  { name: 'Cotton', dryG: 158, measuredG: [280, 251, 220, 193, 172, 167, 164], law: { ratePerH: 116 / 158, criticalX: 0.2, equilibriumX: 0.041 } },
  { name: 'Merino', dryG: 130, measuredG: [220, 185, 156, 145, 141], law: { ratePerH: 140 / 130, criticalX: 0.3, equilibriumX: 0.0846 } },
];

/** What the model says a shirt weighs, g. */
export function modelledG({ law, dryG, measuredG }: Shirt, minutes: number): number {
  return dryG * (1 + moistureAfter(law, measuredG[0]! / dryG - 1, minutes / 60));
}
