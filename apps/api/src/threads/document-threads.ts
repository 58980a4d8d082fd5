import { fileURLToPath } from 'node:url';
import type { CalibrationPage } from '../documents/calibration-page.js';
import type { HandBackPaper, ItemDossier, PaperKitToPrint, ReferralPackage, ReferralPictures } from '#application';
import type { LabelSheet } from '../documents/label-sheet.js';
import type { PaperStyle } from '../documents/receipt-paper.js';
import { ThreadPool, type ThreadPoolOptions } from './thread-pool.js';

/** What the thread draws. */
export type DocumentTask =
  | { document: 'label-sheet'; sheet: LabelSheet }
  | { document: 'calibration-page'; page: CalibrationPage }
  | { document: 'receipt' | 'care-sheet'; given: HandBackPaper; style: PaperStyle }
  | { document: 'condition-note'; dossier: ItemDossier; style: PaperStyle }
  | { document: 'referral'; given: ReferralPackage; pictures: ReferralPictures; style: PaperStyle }
  | { document: 'paper-kit'; kit: PaperKitToPrint; style: PaperStyle };

/** The file, or what went wrong. */
export type DocumentAnswer = { pdf: Uint8Array } | { error: string };

/** Documents for printing, drawn in threads of the API process, because hundreds of labels take longer than others may wait. */
export interface DocumentThreads {
  readonly load: ThreadPool<DocumentTask, DocumentAnswer>['load'];
  /** @throws Problem unavailable when there is no place or no time for it. */
  draw(networkId: string, task: DocumentTask): Promise<Buffer>;
  close(): Promise<void>;
}

/** None is started before the first document is asked for. */
export function documentThreads(options: Partial<ThreadPoolOptions> = {}): DocumentThreads {
  const pool = new ThreadPool<DocumentTask, DocumentAnswer>({ file: fileURLToPath(new URL('./document.worker.js', import.meta.url)), threads: 1, ...options });
  return {
    get load() {
      return pool.load;
    },
    async draw(networkId, task) {
      const answer = await pool.ask(networkId, task);
      if ('error' in answer) throw new Error(`the document thread failed: ${answer.error}`);
      return Buffer.from(answer.pdf.buffer, answer.pdf.byteOffset, answer.pdf.byteLength);
    },
    close: () => pool.close(),
  };
}
