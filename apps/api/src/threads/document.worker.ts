/** A thread that draws documents: one task in, one file out, as often as it is asked. */
import { parentPort } from 'node:worker_threads';
import { calibrationPdf } from '../documents/calibration-page.js';
import { careSheetPdf } from '../documents/care-sheet.js';
import { conditionNotePdf } from '../documents/condition-note.js';
import { labelSheetPdf } from '../documents/label-sheet.js';
import { paperKitPdf } from '../documents/paper-kit.js';
import { receiptPdf } from '../documents/receipt-paper.js';
import { referralPaperPdf } from '../documents/referral-paper.js';
import type { DocumentAnswer, DocumentTask } from './document-threads.js';

function pdfOf(task: DocumentTask): Promise<Buffer> {
  switch (task.document) {
    case 'label-sheet': return labelSheetPdf(task.sheet);
    case 'calibration-page': return calibrationPdf(task.page);
    case 'receipt': return receiptPdf(task.given, task.style);
    case 'care-sheet': return careSheetPdf(task.given, task.style);
    case 'condition-note': return conditionNotePdf(task.dossier, task.style);
    case 'referral': return referralPaperPdf(task.given, task.style, task.pictures);
    case 'paper-kit': return paperKitPdf(task.kit, task.style);
    default: return task satisfies never;
  }
}

async function draw(task: DocumentTask): Promise<DocumentAnswer> {
  try {
    return { pdf: Uint8Array.from(await pdfOf(task)) };
  } catch (error) {
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

// The file is handed over, not copied.
parentPort?.on('message', (task: DocumentTask) => void draw(task).then((answer) => parentPort?.postMessage(answer, 'pdf' in answer ? [answer.pdf.buffer as ArrayBuffer] : [])));
