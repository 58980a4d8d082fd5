import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import type { MessageSender, OutgoingMessage, SendOutcome } from '#application';
import { addressToUse, isPublicAddress, type Resolve } from './public-address.js';

export interface SmsGateway {
  /** `https:` unless `anyAddress`. */
  url: URL;
  token: string | null;
  from: string;
  /** For a gateway on this machine or in our own network: plain HTTP and any address. Set by the operator alone. */
  anyAddress: boolean;
}

/** What an answer from outside may take and hold; the bounds of our reliability guidance for everything outbound (our own calibration). */
const TIMEOUT_MS = 15_000;
const ANSWER_BYTES = 65_536;

/** Sends short messages through an HTTP gateway: one POST with JSON, the same Idempotency-Key at every attempt, no redirects. */
export function smsGateway(gateway: SmsGateway, resolve?: Resolve): MessageSender {
  return {
    async send(message) {
      if (gateway.url.protocol !== 'https:' && !gateway.anyAddress) return { outcome: 'not-sent', why: 'unreachable' };
      const address = await addressToUse(gateway.url.hostname, gateway.anyAddress, resolve).catch(() => null);
      return address === null ? { outcome: 'not-sent', why: 'unreachable' } : post(gateway, address, message);
    },
  };
}

function post(gateway: SmsGateway, address: string, message: OutgoingMessage): Promise<SendOutcome> {
  const { url } = gateway;
  const body = JSON.stringify({ to: message.to, from: gateway.from, text: message.text, idempotencyKey: message.id });
  return new Promise((resolve) => {
    let begun = false;
    let over = false;
    const finish = (outcome: SendOutcome): void => {
      if (over) return;
      over = true;
      clearTimeout(timer);
      request.destroy();
      resolve(outcome);
    };
    const broke = (): void => finish(begun ? { outcome: 'unclear' } : { outcome: 'not-sent', why: 'unreachable' });
    const request = (url.protocol === 'https:' ? httpsRequest : httpRequest)({
      host: address, port: url.port === '' ? undefined : Number(url.port), path: url.pathname + url.search, method: 'POST', agent: false,
      ...(url.protocol === 'https:' ? { servername: url.hostname } : {}),
      headers: { host: url.host, 'content-type': 'application/json', 'content-length': Buffer.byteLength(body), 'idempotency-key': `"${message.id}"`, ...(gateway.token === null ? {} : { authorization: `Bearer ${gateway.token}` }) },
    }, (answer) => {
      let bytes = 0;
      answer.on('data', (chunk: Buffer) => {
        bytes += chunk.length;
        if (bytes > ANSWER_BYTES) finish(outcomeOf(answer.statusCode ?? 0));
      });
      answer.on('error', () => finish(outcomeOf(answer.statusCode ?? 0)));
      answer.on('end', () => finish(outcomeOf(answer.statusCode ?? 0)));
    });
    const timer = setTimeout(broke, TIMEOUT_MS);
    request.on('error', broke);
    // The message is held back until the connection stands where it was meant to.
    request.on('socket', (socket) => {
      socket.once(url.protocol === 'https:' ? 'secureConnect' : 'connect', () => {
        if (!gateway.anyAddress && !isPublicAddress(socket.remoteAddress ?? '')) return broke();
        begun = true;
        request.end(body);
      });
    });
  });
}

/** 2xx took it; 429 and 503 say that it was not taken; of any other failure of the gateway nobody knows. A redirect is a refusal. */
function outcomeOf(status: number): SendOutcome {
  if (status >= 200 && status < 300) return { outcome: 'sent' };
  if (status === 429 || status === 503) return { outcome: 'not-sent', why: 'refused-for-now' };
  if (status >= 300 && status < 500 && status !== 408 && status !== 409) return { outcome: 'refused' };
  return { outcome: 'unclear' };
}
