import type { CalibrationInForce, CalibrationRecord } from '#application';
import type { Transaction } from './client.js';

/** What the network has set of our own calibration, for use cases of the configuration. */
export class PrismaCalibration implements CalibrationInForce {
  private loaded: Promise<CalibrationRecord[]> | undefined;

  constructor(
    private readonly transaction: Transaction,
    private readonly networkId: string,
  ) {}

  inForce(): Promise<CalibrationRecord[]> {
    this.loaded ??= this.load();
    return this.loaded;
  }

  private async load(): Promise<CalibrationRecord[]> {
    const rows = await this.transaction.calibrationValue.findMany({ where: { networkId: this.networkId }, distinct: ['networkId', 'library', 'key'], orderBy: [{ networkId: 'asc' }, { library: 'asc' }, { key: 'asc' }, { number: 'desc' }] });
    return rows.map(({ networkId: _of, decidedAt, library, ...row }) => ({ ...row, library: library as CalibrationRecord['library'], decidedAtMs: decidedAt.getTime() }));
  }
}
