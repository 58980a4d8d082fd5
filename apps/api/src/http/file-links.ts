import { createHmac, timingSafeEqual } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { LINK_PURPOSES, PHOTOGRAPH_SIZES, type ShowFile } from '#application';
import { type ApiSettings, SETTINGS } from './tokens.js';

export interface FileLink extends ShowFile {
  networkId: string;
  download: boolean;
  expiresAtMs: number;
}

const MINUTE_MS = 60_000;
const DEFAULT_MINUTES = 10;
const VERSION = 1;
/** Version, network, file, purpose, size, flags, and the second at which it ends. */
const BODY_BYTES = 1 + 16 + 16 + 1 + 1 + 1 + 4;
const MAC_BYTES = 32;

/**
 * Links that lead to one file of one network for one purpose for some minutes, for whoever has them: signed (HMAC-SHA-256). They go
 * by real time, as everything does that keeps others out.
 */
@Injectable()
export class FileLinks {
  constructor(@Inject(SETTINGS) private readonly settings: ApiSettings) {}

  /** The address from the root of the API, and when it ends. */
  make(link: Omit<FileLink, 'expiresAtMs'>, nowMs = Date.now()): { path: string; expiresAtMs: number } {
    const expiresAtS = Math.floor((nowMs + (this.settings.linkMinutes ?? DEFAULT_MINUTES) * MINUTE_MS) / 1_000);
    const body = Buffer.alloc(BODY_BYTES);
    body.writeUInt8(VERSION, 0);
    idBytes(link.networkId).copy(body, 1);
    idBytes(link.fileId).copy(body, 17);
    body.writeUInt8(LINK_PURPOSES.indexOf(link.purpose), 33);
    body.writeUInt8(PHOTOGRAPH_SIZES.indexOf(link.size), 34);
    body.writeUInt8((link.download ? 1 : 0) | (link.sensitiveToo ? 2 : 0), 35);
    body.writeUInt32BE(expiresAtS, 36);
    return { path: `/files/${Buffer.concat([body, this.mac(body)]).toString('base64url')}`, expiresAtMs: expiresAtS * 1_000 };
  }

  /** Null for anything that we did not make, and for what has ended. */
  read(token: string, nowMs = Date.now()): FileLink | null {
    const bytes = Buffer.from(token, 'base64url');
    if (bytes.length !== BODY_BYTES + MAC_BYTES || bytes.toString('base64url') !== token) return null;
    const body = bytes.subarray(0, BODY_BYTES);
    if (!timingSafeEqual(bytes.subarray(BODY_BYTES), this.mac(body)) || body.readUInt8(0) !== VERSION) return null;
    const [purpose, size, flags] = [LINK_PURPOSES[body.readUInt8(33)], PHOTOGRAPH_SIZES[body.readUInt8(34)], body.readUInt8(35)];
    const expiresAtMs = body.readUInt32BE(36) * 1_000;
    if (purpose === undefined || size === undefined || expiresAtMs <= nowMs) return null;
    return { networkId: idText(body, 1), fileId: idText(body, 17), purpose, size, download: (flags & 1) !== 0, sensitiveToo: (flags & 2) !== 0, expiresAtMs };
  }

  /** Of a key made for this alone, so that no cursor is ever a link. */
  private mac(body: Buffer): Buffer {
    const key = createHmac('sha256', this.settings.cursorSecret).update('wrackline file links, version 1').digest();
    return createHmac('sha256', key).update(body).digest();
  }
}

const idBytes = (id: string): Buffer => Buffer.from(id.replaceAll('-', ''), 'hex');

function idText(body: Buffer, at: number): string {
  const hex = body.toString('hex', at, at + 16);
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
