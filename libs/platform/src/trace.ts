import { randomBytes } from 'node:crypto';

/** One hop of a trace (W3C Trace Context, section 3.2). */
export interface TraceContext {
  traceId: string;
  spanId: string;
  flags: string;
}

const PATTERN = /^00-([0-9a-f]{32})-([0-9a-f]{16})-([0-9a-f]{2})$/;

/** Continues the caller's trace with a span of ours; an absent or invalid header starts a new trace. */
export function continueTrace(header: string | undefined): TraceContext {
  const match = header === undefined ? null : PATTERN.exec(header);
  const spanId = randomBytes(8).toString('hex');
  if (!match || /^0+$/.test(match[1] ?? '') || /^0+$/.test(match[2] ?? '')) {
    return { traceId: randomBytes(16).toString('hex'), spanId, flags: '00' };
  }
  return { traceId: match[1] ?? '', spanId, flags: match[3] ?? '00' };
}

/** The `traceparent` to hand on, in requests, outbox rows and jobs. */
export function traceparent(trace: TraceContext): string {
  return `00-${trace.traceId}-${trace.spanId}-${trace.flags}`;
}
