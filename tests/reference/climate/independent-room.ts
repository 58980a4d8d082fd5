/**
 * The room balance a second time, for comparison only: written from the physics guidance (sections 1-3 and 4.5) without the
 * climate library, on saturation pressures of npm psychrolib, integrated by npm odex (Gragg-Bulirsch-Stoer extrapolation after
 * Hairer and Wanner, adaptive, explicit): another program, another method, no fixed steps.
 */
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const psychro = require('psychrolib') as { SI: number; SetUnitSystem(system: number): void; GetSatVapPres(tempC: number): number };
psychro.SetUnitSystem(psychro.SI);
const { Solver } = require('odex') as { Solver: new (n: number) => { absoluteTolerance: number; relativeTolerance: number; maxSteps: number; solve(f: (x: number, y: number[]) => number[], x0: number, y0: number[], x1: number): { y: number[]; outcome: number } } };

/** One kind of cotton thing. */
export interface IndependentGoods {
  count: number;
  dryKg: number;
  areaM2: number;
  kE: number;
  x0: number;
}

export interface IndependentRoom {
  volumeM3: number;
  airTempC: number;
  startPct: number;
  ach: number;
  outdoorTempC: number;
  outdoorPct: number;
  /** Litres a day at 26.7 C and 60 %, all machines together. */
  litresPerDay: number;
  speedMPerS: number;
  goods: readonly IndependentGoods[];
}

const P = 101325;
const [X65, XS, XC, XF] = [0.075, 0.24, 0.24, 0.085];

const ratio = (pa: number): number => (0.621945 * pa) / (P - pa);
const hfg = (t: number): number => 2.501e6 - 2361 * t;
const nrel = (x: number, y: number): number => -1.162525707 + 0.02271469 * x - 0.000113208 * x * x + 0.021110538 * y - 0.0000693034 * y * y + 0.000378843 * x * y;

/** By Newton's method on the definition over water. */
function wetBulb(t: number, w: number): number {
  const miss = (tw: number): number => ((2501 - 2.326 * tw) * ratio(psychro.GetSatVapPres(tw)) - 1.006 * (t - tw)) / (2501 + 1.86 * t - 4.186 * tw) - w;
  let tw = t - 4;
  for (let turn = 0; turn < 30; turn += 1) {
    const step = miss(tw) / ((miss(tw + 1e-4) - miss(tw - 1e-4)) / 2e-4);
    tw -= step;
    if (Math.abs(step) < 1e-11) break;
  }
  return Math.min(t, tw);
}

function rest(rh: number): number {
  return rh <= 0.65 ? (X65 * rh) / 0.65 : X65 + (XS - X65) * ((rh - 0.65) / 0.35) ** 2;
}

function activity(x: number): number {
  if (x >= XS) return 1;
  return x <= X65 ? (0.65 * x) / X65 : 0.65 + 0.35 * Math.sqrt((x - X65) / (XS - X65));
}

function doseRate(t: number, aw: number): number {
  const critical = Math.max(80, t > 20 ? 80 : -0.00267 * t ** 3 + 0.16 * t * t - 3.13 * t + 100);
  return t <= 0 || 100 * aw < critical ? 0 : ((Math.min(t, 35) / 22) ** 0.68 * Math.min(aw, 1) ** 13.9) / 48;
}

/** Rates of change: humidity ratio, then X and dose of each kind. */
function rates(room: IndependentRoom, airKg: number, outdoorW: number): (x: number, y: number[]) => number[] {
  const full = psychro.GetSatVapPres(room.airTempC);
  return (_h, y) => {
    const w = y[0]!;
    const pa = (P * w) / (0.621945 + w);
    const rh = pa / full;
    const tw = wetBulb(room.airTempC, w);
    const flux = (3600 * Math.max(0, (0.089 + 0.0782 * room.speedMPerS) * (psychro.GetSatVapPres(tw) - pa))) / hfg(tw);
    const xe = rest(rh);
    let evaporation = 0;
    const goods = room.goods.flatMap(({ count, dryKg, areaM2, kE }, i) => {
      const x = y[1 + 2 * i]!;
      const k = (areaM2 * kE * flux) / dryKg;
      const dx = x > XC ? -k : (-k * (x - xe)) / (XC - xe);
      evaporation -= count * dryKg * dx;
      return [dx, doseRate(x > XC ? tw : room.airTempC, Math.max(activity(x), rh))];
    });
    const share = Math.max(0, nrel(Math.min(32.2, Math.max(15, room.airTempC)), Math.min(80, Math.max(30, 100 * rh)))) / nrel(26.7, 60);
    const outdoorAir = (room.volumeM3 / ((287.042 * (room.airTempC + 273.15) * (1 + 1.607858 * w)) / P)) * room.ach * (w - outdoorW);
    return [(evaporation - outdoorAir - (room.litresPerDay / 24) * share) / airKg, ...goods];
  };
}

/** The state at whole fractions of an hour, and when each kind reached 0.085 (by bisection between them). */
export function integrate(room: IndependentRoom, hours: number, everyH = 0.25): { atH: number; rhPct: number; x: number[]; dose: number[] }[] & { dryAtH?: number[] } {
  const start = ratio((room.startPct / 100) * psychro.GetSatVapPres(room.airTempC));
  const airKg = room.volumeM3 / ((287.042 * (room.airTempC + 273.15) * (1 + 1.607858 * start)) / P);
  const f = rates(room, airKg, ratio((room.outdoorPct / 100) * psychro.GetSatVapPres(room.outdoorTempC)));
  const on = (y: number[], from: number, to: number): number[] => {
    const solver = new Solver(1 + 2 * room.goods.length);
    solver.absoluteTolerance = 1e-9;
    solver.relativeTolerance = 1e-8;
    solver.maxSteps = 100_000;
    return solver.solve(f, from, y, to).y;
  };
  const n = Math.round(hours / everyH);
  let y = [start, ...room.goods.flatMap(({ x0 }) => [x0, 0])];
  const dryAtH: number[] = room.goods.map(() => Infinity);
  const out: { atH: number; rhPct: number; x: number[]; dose: number[] }[] & { dryAtH?: number[] } = [];
  for (let i = 1; i <= n; i += 1) {
    const from = (i - 1) * everyH;
    const next = on(y, from, i * everyH);
    room.goods.forEach((_, g) => {
      if (dryAtH[g] === Infinity && next[1 + 2 * g]! <= XF) {
        let [low, high] = [0, everyH];
        for (let turn = 0; turn < 20; turn += 1) {
          const middle = (low + high) / 2;
          if (on(y, from, from + middle)[1 + 2 * g]! > XF) low = middle;
          else high = middle;
        }
        dryAtH[g] = from + high;
      }
    });
    y = next;
    out.push({ atH: i * everyH, rhPct: (100 * ((P * y[0]!) / (0.621945 + y[0]!))) / psychro.GetSatVapPres(room.airTempC), x: room.goods.map((_, g) => y[1 + 2 * g]!), dose: room.goods.map((_, g) => y[2 + 2 * g]!) });
  }
  out.dryAtH = dryAtH;
  return out;
}
