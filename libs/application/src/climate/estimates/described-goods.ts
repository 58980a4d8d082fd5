/** Goods and rooms as somebody describes them, as the climate library takes them; what was not told is assumed on the cautious side, and named. */
import {
  AltitudeM, arrangementFactor, dryTargetX, exposedAreaM2, moistureAtStageX, standardItem, standardPressurePa,
  type AcceptedGroup, type Build, type CalibrationValues, type Dehumidifier, type Material, type Placement, type SimulatedRoom, type WaterStage,
} from '#climate';
import type { EstimatedGoods, EstimatedMachine, EstimatedRoom } from '#contracts';

export const ASSUMPTIONS = ['stage-assumed', 'arrangement-assumed', 'build-assumed', 'placement-assumed', 'size-from-kind'] as const;
export type Assumption = (typeof ASSUMPTIONS)[number];

/** One kind of goods, with what is known and what was taken for it. */
export interface DescribedGoods {
  name: string;
  group: AcceptedGroup & { material: Material; build: Build; targetX: number };
  factor: number;
  /** Rack to reserve for one, m2, where its kind says; null otherwise. */
  rackM2: number | null;
  /** Nobody weighed it: the stage its water was taken from. */
  stage: WaterStage | null;
  assumed: readonly Assumption[];
}

/** What a description comes to. The contract has seen to it that material, mass and size are known or follow from the kind. */
export function describedGoods(goods: EstimatedGoods & { count?: number }, index: number, values: CalibrationValues): DescribedGoods {
  const usual = goods.kind === null ? null : standardItem(goods.kind);
  const material = goods.material ?? usual?.material ?? 'unknown';
  const build = goods.build ?? usual?.build ?? 'thick';
  const placement: Placement = goods.placement ?? usual?.placement ?? 'flat-on-board';
  const stage = goods.moistureX === null ? (goods.stage ?? 'drained') : null;
  const reach = goods.arrangementFactor === null ? { airReach: goods.airReach ?? ('packed-rack' as const) } : { arrangementFactor: goods.arrangementFactor };
  return {
    name: goods.name ?? String(index + 1),
    group: {
      count: goods.count ?? 1, material, build,
      dryMassKg: goods.dryMassKg ?? usual?.dryMassKg ?? 1,
      exposedAreaM2: exposedAreaM2(goods.faceAreaM2 ?? usual?.faceAreaM2 ?? 1, placement, values),
      startX: goods.moistureX ?? moistureAtStageX({ stage: stage ?? 'drained', material, padded: usual?.padded ?? build === 'thick' }, values),
      targetX: dryTargetX(material, values),
      mouldClass: goods.mouldClass, startDose: goods.mouldDose, ...reach,
    },
    factor: arrangementFactor(reach, values),
    rackM2: usual === null ? null : usual.areaDm2 / 100,
    stage,
    assumed: assumptions(goods),
  };
}

function assumptions(goods: EstimatedGoods): Assumption[] {
  const found: Record<Assumption, boolean> = {
    'stage-assumed': goods.moistureX === null && goods.stage === null,
    'arrangement-assumed': goods.airReach === null && goods.arrangementFactor === null,
    'build-assumed': goods.build === null && goods.kind === null,
    'placement-assumed': goods.placement === null && goods.kind === null,
    'size-from-kind': goods.kind !== null && (goods.dryMassKg === null || goods.faceAreaM2 === null),
  };
  return ASSUMPTIONS.filter((assumption) => found[assumption]);
}

/** Machines one by one. */
export function describedMachines(machines: readonly EstimatedMachine[]): Dehumidifier[] {
  return machines.flatMap(({ count, litresPerKwhAtRating, electricPowerW, ...label }) => {
    const machine: Dehumidifier = { ...label, ...(litresPerKwhAtRating === null ? {} : { litresPerKwhAtRating }), ...(electricPowerW === null ? {} : { electricPowerW }) };
    return Array.from({ length: count }, () => machine);
  });
}

export function describedRoom(room: EstimatedRoom): SimulatedRoom {
  return {
    volumeM3: room.volumeM3, airTempC: room.airTempC, startRelativeHumidityPct: room.relativeHumidityPct, airChangesPerH: room.airChangesPerH,
    outdoorTempC: room.outdoorTempC, outdoorRelativeHumidityPct: room.outdoorRelativeHumidityPct, dehumidifiers: describedMachines(room.dehumidifiers),
    pressurePa: standardPressurePa(AltitudeM(room.altitudeM)), ...(room.airSpeedMPerS === null ? {} : { airSpeedMPerS: room.airSpeedMPerS }),
  };
}
