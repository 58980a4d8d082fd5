import { createHmac, timingSafeEqual } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { Problem } from '#contracts';
import { canonicalJson } from './canonical-json.js';
import type { Call } from './call.js';
import { SETTINGS, type ApiSettings } from './tokens.js';

/** The place in a list after which the next page begins. */
export interface Position {
  /** Value of the sort key and id of the last row, as strings. */
  after: string[];
}

/** Opaque page cursors: position plus a MAC over position, operation, network and filter, so that none can be made up or moved to another list. */
@Injectable()
export class Pages {
  constructor(@Inject(SETTINGS) private readonly settings: ApiSettings) {}

  /** Reads `?cursor=`; null on the first page. `filter` is everything else that shapes the list. */
  read(call: Call, cursor: string | undefined, filter: unknown): string[] | null {
    if (cursor === undefined) return null;
    const [body, mac] = cursor.split('.');
    const wrong = () => new Problem('cursor_invalid', 'Take the cursor from the nextCursor of the page before, with the same filters, or start without one.', { errors: [{ detail: 'is not a cursor of this list', code: 'cursor_invalid', parameter: 'cursor' }] });
    if (!body || !mac) throw wrong();
    const expected = this.mac(call, body, filter);
    const given = Buffer.from(mac, 'base64url');
    if (given.length !== expected.length || !timingSafeEqual(given, expected)) throw wrong();
    return JSON.parse(Buffer.from(body, 'base64url').toString('utf8')) as string[];
  }

  /** Cuts a page out of `limit + 1` rows, sets the Link header and answers the body. */
  answer<T, B>(call: Call, rows: T[], limit: number, filter: unknown, key: (row: T) => string[], present: (row: T) => B): { items: B[]; nextCursor: string | null } {
    const page = rows.slice(0, limit);
    const last = page.at(-1);
    let nextCursor: string | null = null;
    if (rows.length > limit && last !== undefined) {
      const body = Buffer.from(JSON.stringify(key(last))).toString('base64url');
      nextCursor = `${body}.${this.mac(call, body, filter).toString('base64url')}`;
      const url = new URL(call.request.url, 'http://localhost');
      url.searchParams.set('cursor', nextCursor);
      call.reply.header('link', `<${url.pathname}${url.search}>; rel="next"`);
    }
    return { items: page.map(present), nextCursor };
  }

  private mac(call: Call, body: string, filter: unknown): Buffer {
    return createHmac('sha256', this.settings.cursorSecret)
      .update(`${call.operation}\n${call.context.networkId}\n${canonicalJson(filter)}\n${body}`)
      .digest()
      .subarray(0, 16);
  }
}
