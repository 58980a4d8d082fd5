import type { Call } from './call.js';

/** Media type of pictures. */
export const SVG = 'image/svg+xml';

/** Opened by itself an SVG is a document that could run things. Ours has none; should one ever get in, the browser is told to run nothing and to load nothing. */
export function asPicture(call: Call, picture: unknown): unknown {
  call.reply.header('content-type', `${SVG}; charset=utf-8`).header('content-security-policy', "default-src 'none'; frame-ancestors 'none'; sandbox").header('x-content-type-options', 'nosniff');
  return picture;
}
