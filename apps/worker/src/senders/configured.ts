import type { MessageParts, MessageSenders } from '#application';
import { type FamiliesConfig, makeStatusLink } from '#platform';
import { smsGateway } from './sms-gateway.js';
import { smtpSender } from './smtp-sender.js';

const DAY_MS = 24 * 3_600_000;
/** After this long without success a message is left to a person; our own calibration. */
const GIVE_UP_MS = 3 * DAY_MS;
const LOOPBACK = new Set(['127.0.0.1', 'localhost', '[::1]']);

/** Senders, rules and links for messages to families, as configured. */
export function messageParts(config: FamiliesConfig): MessageParts {
  return {
    senders: configuredSenders(config),
    rules: { quietFromHour: config.quietHours.from, quietToHour: config.quietHours.to, perDay: config.messagesPerDay, giveUpMs: GIVE_UP_MS },
    links: { publicUrl: config.publicUrl, standsMs: config.linkDays * DAY_MS, make: makeStatusLink },
    chance: Math.random,
  };
}

function configuredSenders(config: FamiliesConfig): MessageSenders {
  const { smtpUrl, mailFrom, smsUrl, publicUrl } = config;
  return {
    email: smtpUrl === null || mailFrom === null ? null : mailSender(new URL(smtpUrl), mailFrom, publicUrl),
    sms: smsUrl === null ? null : smsGateway({ url: new URL(smsUrl), token: config.smsToken, from: config.smsFrom, anyAddress: config.smsAnyAddress }),
  };
}

function mailSender(url: URL, from: string, publicUrl: string | null) {
  const secure = url.protocol === 'smtps:';
  return smtpSender({
    host: url.hostname, port: url.port === '' ? (secure ? 465 : 587) : Number(url.port), secure, requireTls: !secure && !LOOPBACK.has(url.hostname),
    user: url.username === '' ? null : decodeURIComponent(url.username), password: url.password === '' ? null : decodeURIComponent(url.password),
    from, idHost: publicUrl === null ? (from.split('@')[1] ?? 'wrackline.invalid') : new URL(publicUrl).hostname,
  });
}
