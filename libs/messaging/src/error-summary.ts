/** What the log may say of an error. */
export interface ErrorSummary {
  name: string;
  code: string | null;
  at: string[];
}

const FRAMES = 4;

/**
 * Name, code and place of an error without its message: messages of drivers and parsers quote values, and a value
 * may be a name or an address.
 */
export function summarise(error: unknown): ErrorSummary {
  if (!(error instanceof Error)) return { name: typeof error, code: null, at: [] };
  const code = 'code' in error && (typeof error.code === 'string' || typeof error.code === 'number') ? String(error.code) : null;
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return { name: error.name, code, at: frames.slice(0, FRAMES).map((line) => line.trim()) };
}
