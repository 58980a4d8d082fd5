/** A paper kit with its sheets, and lines that are keyed from them after a power cut. */
import type { Workbench } from './workbench.js';

export interface LineResult {
  sheetNo: number;
  part: number;
  lineNo: number;
  verdict: 'keyed' | 'void' | 'keyed-before' | 'refused';
  became: string | null;
  itemId: string | null;
  containerId: string | null;
  event: { kind: string; seq: number } | null;
  stepResultId: string | null;
  problem: ({ code: string; status: number; detail: string; errors?: { pointer: string; code: string }[] } & Record<string, unknown>) | null;
}

interface Sheet {
  sheetNo: number;
  place: { kind: string; id: string };
  keyed: number;
  void: number;
  gaps: { part: number; lineNo: number }[];
}

/** The power fails at eight; at eight in the evening somebody keys in what was written. Everything is taken in at seven. */
export const KEYED_AT = '2026-05-09T20:00:00.000Z';
export const at = (time: string): string => `2026-05-09T${time}:00.000Z`;

export class PaperKit {
  private constructor(
    private readonly bench: Workbench,
    readonly id: string,
    readonly tags: string[],
    private readonly list: Sheet[],
  ) {}

  static async make(bench: Workbench, slips = 1): Promise<PaperKit> {
    const { id, tags } = (await bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips }).expect(201)).body as { id: string; tags: string[] };
    const { sheets } = (await bench.network.get(`/v1/paper-kits/${id}`).expect(200)).body as { sheets: Sheet[] };
    return new PaperKit(bench, id, tags, sheets);
  }

  /** The number of the sheet of a place. */
  sheetOf(placeId: string): number {
    const sheet = this.list.find(({ place }) => place.id === placeId);
    if (!sheet) throw new Error('the kit has no sheet for this place');
    return sheet.sheetNo;
  }

  log = (station: string): number => this.sheetOf(this.bench.incident.station(station));

  async sheets(): Promise<Sheet[]> {
    return ((await this.bench.network.get(`/v1/paper-kits/${this.id}`).expect(200)).body as { sheets: Sheet[] }).sheets;
  }

  post(lines: object[], change: object = {}, headers: Record<string, string> = {}) {
    return this.bench.network.post(`/v1/paper-kits/${this.id}/log-lines`, { personId: this.bench.incident.person('P2'), lines, ...change }, headers);
  }

  async key(...lines: object[]): Promise<LineResult[]> {
    return ((await this.post(lines).expect(200)).body as { results: LineResult[] }).results;
  }
}

/** Where each thing is on record, and what was ever recorded of it. */
export async function traceOf(bench: Workbench, itemId: string): Promise<{ kind: string; occurredAt: string; recordedAt: string; refs: Record<string, string> }[]> {
  return (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items;
}
