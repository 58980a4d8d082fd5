import type { Dehumidifier, SimulatedRoom, WetGroup } from '#climate';

/** The worked room of the physics guidance, section 3.6: a 60 m3 room held at 20 C with forty wet cotton things. */
export const machine: Dehumidifier = { kind: 'refrigerant', ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 };

export const baseRoom: SimulatedRoom = {
  volumeM3: 60,
  airTempC: 20,
  startRelativeHumidityPct: 60,
  airChangesPerH: 0.5,
  outdoorTempC: 12,
  outdoorRelativeHumidityPct: 80,
  dehumidifiers: [machine, machine],
  airSpeedMPerS: 0.1,
};

export const noMachines: SimulatedRoom = { ...baseRoom, dehumidifiers: [] };

/** 1.5 m2 with two faces, on an open rack. */
export const cottonThing: Omit<WetGroup, 'count'> = { dryMassKg: 0.5, exposedAreaM2: 3, material: 'cotton', startX: 1, targetX: 0.085, airReach: 'open-rack' };

export const forty: WetGroup = { ...cottonThing, count: 40 };
