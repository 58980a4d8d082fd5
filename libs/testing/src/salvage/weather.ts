/** Water that the room's air takes away, by the weather outside. */
import type { PlanDryingRoom } from '#planning';
import { slotsOf, type Settings } from './settings.js';
import { normal, type Streams } from './streams.js';

const BLOCK_HOURS = 3;
const BLOCKS = (28 * 24) / BLOCK_HOURS;
/** Outdoor humidity as a first-order autoregression per three hours; the study names the form, these figures are ours. */
const HUMIDITY = { mean: 0.7, keeps: 0.9, sd: 0.12, least: 0.3, most: 1 } as const;
const SPELL = { leastHour: 30, mostHour: 60, hours: 48, factor: 0.3 } as const;

type Removal = PlanDryingRoom['removalGPerSlot'];

/**
 * Limits per slot so that the first six days, without the spell, remove what is wanted: M0 * clamp(1.2 - 1.1 (RH - 0.5), 0.25, 1.1).
 * @param leastG what the air takes at any time: one thing alone can always dry
 */
export function airOf(streams: Streams, settings: Settings, horizonSlots: number, until: number, wantedG: number, leastG: number): Removal {
  const blockSlots = BLOCK_HOURS * slotsOf(settings).hour;
  const factors = factorsOf(streams);
  const sum = factors.reduce((total, factor, i) => total + factor * Math.max(0, Math.min(blockSlots, until - i * blockSlots)), 0);
  const fullG = wantedG / sum;
  const spellFrom = Math.round((SPELL.leastHour + streams('spell').unit() * (SPELL.mostHour - SPELL.leastHour)) / BLOCK_HOURS);
  const inSpell = (i: number): boolean => settings.humidSpell && i >= spellFrom && i < spellFrom + SPELL.hours / BLOCK_HOURS;
  return factors
    .map((factor, i) => ({ from: i * blockSlots, to: (i + 1) * blockSlots, limit: Math.max(leastG, Math.round(fullG * factor * (inSpell(i) ? SPELL.factor : 1))) }))
    .filter(({ from }) => from < horizonSlots);
}

function factorsOf(streams: Streams): number[] {
  const dice = streams('weather');
  const shock = HUMIDITY.sd * Math.sqrt(1 - HUMIDITY.keeps ** 2);
  let humidity: number = HUMIDITY.mean;
  return Array.from({ length: BLOCKS }, () => {
    humidity = HUMIDITY.mean + HUMIDITY.keeps * (humidity - HUMIDITY.mean) + shock * normal(dice);
    const seen = Math.min(HUMIDITY.most, Math.max(HUMIDITY.least, humidity));
    return Math.min(1.1, Math.max(0.25, 1.2 - 1.1 * (seen - 0.5)));
  });
}
