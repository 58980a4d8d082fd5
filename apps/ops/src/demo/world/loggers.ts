import { MEASURING, momentMs } from '../calibration.js';
import { Dice } from '../dice.js';
import type { TrueAir } from './true-room.js';
import type { SiteCode } from './types.js';
import { rounded } from './weather.js';

/** One row as a logger sends it. */
export interface LoggerRow {
  sensor: string;
  measuredAt: string;
  airTempC: number;
  relativeHumidityPct: number | null;
}

/** A logger of a drying room and the mishaps of its own. */
export interface LoggerKind {
  code: string;
  name: string;
  site: SiteCode;
  /** How its system sends: a list, or a table as a spreadsheet saves it where decimals have a comma. */
  form: 'json' | 'table';
  /** Its battery was empty; these hours nobody will ever know. */
  silent: { fromMs: number; toMs: number } | null;
  /** A row that cannot be: the memory of the logger hiccups. */
  absurdAtMs: number | null;
  /** One reading that was true and means nothing: somebody held a lamp to it. */
  warmedAtMs: number | null;
}

export const LOGGERS: readonly LoggerKind[] = [
  { code: 'AIR-1', name: 'Logger between the racks', site: 'DYEWORKS', form: 'json', silent: null, absurdAtMs: null, warmedAtMs: momentMs(1, 11, 20) },
  { code: 'AIR-2', name: 'Logger under the wall bars', site: 'SCHOOL', form: 'json', silent: { fromMs: momentMs(1, 10), toMs: momentMs(1, 12) }, absurdAtMs: null, warmedAtMs: null },
  { code: 'AIR-3', name: 'Logger at the auction desk', site: 'FISHHALL', form: 'table', silent: null, absurdAtMs: momentMs(1, 15, 30), warmedAtMs: null },
];

/** Hotter than a hall gets within ten minutes, cooler than Fahrenheit would look. */
const LAMP_C = 19;
/** Later by so many sendings. */
const HELD_BACK = 2;

/** A logger that measures true air with its own small errors, and sends batches as such things do: some late and out of order, some rows twice. */
export class Logger {
  /** Every row that it measured and that can be, by moment: what must be kept in the end. */
  readonly measured = new Set<string>();
  private readonly held: { rows: LoggerRow[]; sendings: number }[] = [];
  private readonly biasPct: number;
  private last: LoggerRow[] = [];
  private sending = 0;

  constructor(
    private readonly seed: number,
    readonly kind: LoggerKind,
  ) {
    this.biasPct = (Dice.of(seed, 'bias', kind.code).int(-100, 100) / 100) * MEASURING.humidityBiasPct;
  }

  /** The rows that go out now, in the order of going out; perhaps none. `last`: nothing is held back any more. */
  batch(air: readonly TrueAir[], last = false): LoggerRow[] {
    this.sending += 1;
    const dice = Dice.of(this.seed, 'batch', this.kind.code, this.sending);
    const rows = air.filter(({ atMs }) => !this.isSilent(atMs)).map((one) => this.row(one));
    rows.forEach((row) => this.measured.add(row.measuredAt));
    const late = !last && rows.length > 0 && dice.chance(MEASURING.latePct / 100);
    if (late) this.held.push({ rows, sendings: HELD_BACK });
    const due = this.held.filter((one) => (one.sendings -= 1) < 0 || last);
    for (const one of due) this.held.splice(this.held.indexOf(one), 1);
    // What was held back goes out behind what is newer, and in no order.
    const out = [...(late ? [] : rows), ...dice.shuffled(due.flatMap((one) => one.rows))];
    const twice = [...this.last, ...out].filter(() => dice.chance(MEASURING.twicePct / 100));
    this.last = out;
    return [...out, ...(out.length > 0 ? twice : []), ...(out.length > 0 ? this.absurd(air) : [])];
  }

  private row({ atMs, airTempC, relativeHumidityPct }: TrueAir): LoggerRow {
    const dice = Dice.of(this.seed, 'noise', this.kind.code, atMs);
    const noise = (amount: number) => (dice.int(-100, 100) / 100) * amount;
    const lamp = this.kind.warmedAtMs === atMs ? LAMP_C : 0;
    return {
      sensor: this.kind.code, measuredAt: new Date(atMs).toISOString(), airTempC: rounded(airTempC + lamp + noise(MEASURING.tempNoiseC), 1),
      relativeHumidityPct: rounded(Math.min(100, Math.max(2, relativeHumidityPct + this.biasPct + noise(MEASURING.humidityNoisePct))), 1),
    };
  }

  private absurd(air: readonly TrueAir[]): LoggerRow[] {
    const due = air.some(({ atMs }) => atMs === this.kind.absurdAtMs);
    // Five minutes after a true row, so that it stands for no moment that was measured.
    return due ? [{ sensor: this.kind.code, measuredAt: new Date(this.kind.absurdAtMs! - 5 * 60_000).toISOString(), airTempC: -127, relativeHumidityPct: 655.3 }] : [];
  }

  private isSilent(atMs: number): boolean {
    return this.kind.silent !== null && atMs > this.kind.silent.fromMs && atMs <= this.kind.silent.toMs;
  }
}

/** The rows as a spreadsheet saves them where a comma stands before decimals. */
export function asTable(rows: readonly LoggerRow[]): Buffer {
  const cell = (value: number | null) => (value === null ? '' : String(value).replace('.', ','));
  const lines = rows.map((row) => [row.sensor, row.measuredAt, cell(row.airTempC), cell(row.relativeHumidityPct)].join(';'));
  return Buffer.from(`\uFEFF${['sensor;measuredAt;airTempC;relativeHumidityPct', ...lines].join('\r\n')}\r\n`, 'utf8');
}
