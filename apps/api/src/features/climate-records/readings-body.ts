import type { RecordReadingsInput } from '#application';
import { Problem, RecordReadings } from '#contracts';
import type { Call } from '../../http/call.js';
import { requireContract } from '../../http/validation.pipe.js';

/** JSON checked against its contract, or the bytes of a table; the rows themselves are judged one by one later. */
export function readingsOf(call: Call, body: unknown): RecordReadingsInput['readings'] {
  const sent = call.request.headers['content-type']?.split(';')[0]?.trim().toLowerCase();
  if (sent === 'application/json') return requireContract(RecordReadings, body, 'body').readings;
  if (sent !== 'text/csv') throw new Problem('media_type_unsupported', 'Send readings as application/json, or a table as text/csv.');
  if (!Buffer.isBuffer(body)) throw new Problem('body_malformed', 'The body is empty. Send the bytes of the table.');
  return new Uint8Array(body.buffer, body.byteOffset, body.byteLength);
}
